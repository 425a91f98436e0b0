"""In which direction the signs of a line are read: the Unicode bidirectional algorithm (Unicode Annex 9)."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

#: What stands for signs that the bidirectional algorithm here does not know, by their class: isolates, ends of paragraphs,
#: codes that are no sign.
_FOR_LEVELS = {"LRI": "\u200b", "RLI": "\u200b", "FSI": "\u200b", "PDI": "\u200b", "B": " ", "": "a"}
#: Letters that stand for brackets with a direction.
_LETTER = {"L": "a", "R": "\u05d0"}


def levels_of(text: str) -> list[int]:
    """The level of each sign of a line: even from left to right, odd from right to left (Unicode Annex 9)."""
    if not any(unicodedata.bidirectional(char) in ("R", "AL", "AN") for char in text):
        return [0] * len(text)
    from bidi import algorithm

    text = "".join(_FOR_LEVELS.get(unicodedata.bidirectional(char), char) for char in text)
    base = algorithm.get_base_level(text)
    text = _with_directed_brackets(text, "LR"[base])
    storage = algorithm.get_empty_storage()
    storage["base_level"] = base
    storage["base_dir"] = ("L", "R")[base]
    algorithm.get_embedding_levels(text, storage)
    algorithm.explicit_embed_and_overrides(storage)
    algorithm.resolve_weak_types(storage)
    algorithm.resolve_neutral_types(storage, False)
    algorithm.resolve_implicit_levels(storage, False)
    known = iter(storage["chars"])
    found: list[int] = []
    for char in text:
        removed = unicodedata.bidirectional(char) in algorithm.X9_REMOVED
        found.append((found[-1] if found else base) if removed else int(next(known)["level"]))
    return found


def _with_directed_brackets(text: str, base: str) -> str:
    """A line with letters in place of those pairs of brackets that have a direction (rule N0, which ``bidi`` lacks).

    Parameters
    ----------
    text : str
    base : {"L", "R"}
        Direction of the line.
    """
    strong = list(_strong(text))
    other = "R" if base == "L" else "L"
    for begin, end in _bracket_pairs(text):
        within = strong[begin + 1 : end]
        if base in within:
            direction = base
        elif other in within:
            before = next((one for one in reversed(strong[:begin]) if one), base)
            direction = other if before == other else base
        else:
            continue
        strong[begin] = strong[end] = direction
        text = "".join(
            (text[:begin], _LETTER[direction], text[begin + 1 : end], _LETTER[direction], text[end + 1 :])
        )
    return text


def _strong(text: str) -> Iterator[str]:
    """The direction of each sign that has one: numbers have that of the letters before them, or from right to left."""
    last = ""
    for char in text:
        kind = unicodedata.bidirectional(char)
        if kind in ("L", "R", "AL"):
            last = "L" if kind == "L" else "R"
            yield last
        else:
            yield ("L" if last == "L" and kind == "EN" else "R") if kind in ("EN", "AN") else ""


def _bracket_pairs(text: str) -> list[tuple[int, int]]:
    """Where pairs of brackets open and close, in the order in which they open."""
    from bidi.mirror import MIRRORED

    waiting: list[tuple[str, int]] = []
    found = []
    for at, char in enumerate(text):
        kind = unicodedata.category(char)
        if kind == "Ps" and char in MIRRORED:
            waiting.append((MIRRORED[char], at))
        elif kind == "Pe":
            for k in range(len(waiting) - 1, -1, -1):
                if waiting[k][0] == char:
                    found.append((waiting[k][1], at))
                    del waiting[k:]
                    break
    return sorted(found)
