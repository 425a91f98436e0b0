"""Forgiving search: crops by what is typed of a name, the likeliest first.

Part words, plurals, British and American names, Latin names, missing accents and one typing error
all find their crop.
"""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop

#: A typing error is forgiven in words of at least so many letters.
FORGIVEN_FROM = 4
#: Endings of English plurals, longest first, with what the singular has in their place.
_PLURALS = (("ies", "y"), ("ves", "f"), ("oes", "o"), ("hes", "h"), ("es", ""), ("es", "e"), ("s", ""))

#: How well a crop's names fit what was typed, best first.
_WHOLE, _PLURAL, _BEGINS_THE_NAME, _BEGINS_A_WORD, _INSIDE, _NEARLY, _NEARLY_ANOTHER_NAME = range(7)

_Names = tuple[tuple[str, ...], tuple[str, ...]]


def rank(catalogue: Catalogue, words: str) -> list[str]:
    """Keys of the crops that some words may mean, the likeliest first.

    Returns
    -------
    list of str
        Empty for no words, or where nothing fits even with one error.
    """
    return [key for _, _, key in _ranked(catalogue, words)]


def find(catalogue: Catalogue, words: str) -> tuple[Crop, ...]:
    """Crops that some words mean: of :func:`rank` only those that fit as well as the best.

    A whole name is taken before a plural of one, that before beginnings of its words, and those
    before parts of them; all these before a typing error.
    """
    ranked = _ranked(catalogue, words)
    return tuple(catalogue.crops[key] for score, _, key in ranked if _fit(score) == _fit(ranked[0][0]))


def _fit(score: int) -> int:
    return _BEGINS_A_WORD if score == _BEGINS_THE_NAME else score


def near(catalogue: Catalogue, words: str, most: int = 3) -> list[Crop]:
    """Crops with a name most like some words, the likeliest first; empty where none is like them."""
    known: dict[str, Crop] = {}
    for crop in catalogue.crops.values():
        for name in (crop.key, crop.name, *crop.also, crop.latin):
            known.setdefault(plain(name), crop)
    close = difflib.get_close_matches(plain(words), known, n=2 * most, cutoff=0.65)
    return list({known[name].key: known[name] for name in close}.values())[:most]


def _ranked(catalogue: Catalogue, words: str) -> list[tuple[int, int, str]]:
    """Score, place in the catalogue and key of each crop that fits, in order."""
    wish = plain(words)
    if not wish:
        return []
    scored = []
    for place, (key, names) in enumerate(_names(catalogue)):
        score = _score(wish, names)
        if score is not None:
            scored.append((score, place, key))
    if not scored:
        scored = [
            (_NEARLY if nearly(wish, whole[0]) else _NEARLY_ANOTHER_NAME, place, key)
            for place, (key, (whole, single)) in enumerate(_names(catalogue))
            if any(nearly(wish, name) for name in (*whole, *single))
        ]
    return sorted(scored)


_kept: dict[int, tuple[Catalogue, list[tuple[str, _Names]]]] = {}


def _names(catalogue: Catalogue) -> list[tuple[str, _Names]]:
    """Whole names and single words of every crop, plain; worked out once a catalogue."""
    kept = _kept.get(id(catalogue))
    if kept is not None and kept[0] is catalogue:
        return kept[1]
    found = []
    for crop in catalogue.crops.values():
        code = (crop.eppo.value,) if crop.eppo is not None and crop.eppo.value else ()
        whole = tuple(dict.fromkeys(plain(n) for n in (crop.name, crop.key, *crop.also, crop.latin, *code)))
        single = tuple(dict.fromkeys(word for name in (*whole, plain(crop.family)) for word in name.split()))
        found.append((crop.key, (whole, single)))
    _kept.clear()
    _kept[id(catalogue)] = (catalogue, found)
    return found


def _score(wish: str, names: _Names) -> int | None:
    """How well a crop's names fit; None not at all."""
    whole, single = names
    if wish in whole:
        return _WHOLE
    wished = singulars(wish)
    if any(wished & singulars(name) for name in whole):
        return _PLURAL
    if any(name.startswith(wish) for name in whole[:1]):
        return _BEGINS_THE_NAME
    parts = [singulars(part) for part in wish.split()]
    if all(_any_begins(part, single) for part in parts):
        return _BEGINS_A_WORD
    if all(any(form in name for name in whole for form in part if len(form) > 2) for part in parts):
        return _INSIDE
    return None


def _any_begins(forms: Iterable[str], words: tuple[str, ...]) -> bool:
    return any(word.startswith(form) for form in forms for word in words)


@lru_cache(maxsize=4096)
def nearly(wish: str, name: str) -> bool:
    """Whether a wish is a name, or the beginning of one, but for one typing error.

    One letter wrong, missing, too many, or two neighbours swapped.
    """
    if len(wish) < FORGIVEN_FROM:
        return False
    lengths = {len(name), *(n for n in (len(wish) - 1, len(wish), len(wish) + 1) if n <= len(name))}
    forms = singulars(wish)
    return any(_one_off(form, name[:length]) for form in forms for length in lengths if length >= 3)


def _one_off(a: str, b: str) -> bool:
    if abs(len(a) - len(b)) > 1:
        return False
    start = 0
    while start < min(len(a), len(b)) and a[start] == b[start]:
        start += 1
    rest_a, rest_b = a[start:], b[start:]
    if len(a) == len(b):
        swapped = (
            len(rest_a) >= 2
            and rest_a[0] == rest_b[1]
            and rest_a[1] == rest_b[0]
            and rest_a[2:] == rest_b[2:]
        )
        return swapped or rest_a[1:] == rest_b[1:]
    return rest_a[1:] == rest_b if len(a) > len(b) else rest_a == rest_b[1:]


def plain(text: str) -> str:
    """Small letters without accents, words parted by single spaces."""
    split = unicodedata.normalize("NFKD", text.casefold())
    kept = "".join(sign for sign in split if not unicodedata.combining(sign))
    return " ".join("".join(sign if sign.isalnum() else " " for sign in kept).split())


def singulars(text: str) -> frozenset[str]:
    """What a word (or the last of some words) may be the plural of, itself included."""
    found = {text}
    for ending, instead in _PLURALS:
        if text.endswith(ending) and len(text) - len(ending) >= 2 and not text.endswith("ss"):
            found.add(text[: -len(ending)] + instead)
    return frozenset(found)
