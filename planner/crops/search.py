"""Forgiving search for crops by name, the best match first.

Part words, plurals, British and American names, Latin names, missing accents and one typing error are accepted.
"""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop
from planner.crops.families import GERMAN

#: Least length of a word in which a typing error is forgiven. [letters]
FORGIVEN_FROM = 4
#: Endings of English plurals and of their singulars, longest first.
_PLURALS = (("ies", "y"), ("ves", "f"), ("oes", "o"), ("hes", "h"), ("es", ""), ("es", "e"), ("s", ""))

#: Scores of a match, best first.
_WHOLE, _PLURAL, _BEGINS_THE_NAME, _BEGINS_A_WORD, _INSIDE, _NEARLY, _NEARLY_ANOTHER_NAME = range(7)

_Names = tuple[tuple[str, ...], tuple[str, ...]]


def rank(catalogue: Catalogue, words: str) -> list[str]:
    """Keys of the crops that match some words, the best match first.

    Parameters
    ----------
    catalogue : Catalogue
    words : str

    Returns
    -------
    list of str
        Empty for no words, or if nothing matches even with one typing error.
    """
    return [key for _, _, key in _ranked(catalogue, words)]


def find(catalogue: Catalogue, words: str) -> tuple[Crop, ...]:
    """Crops that match some words as well as the best match of :func:`rank`.

    A whole name is better than its plural, that than the beginnings of its words, those than parts of them, and
    all are better than a typing error.

    Parameters
    ----------
    catalogue : Catalogue
    words : str

    Returns
    -------
    tuple of Crop
        Empty if nothing matches.
    """
    ranked = _ranked(catalogue, words)
    return tuple(catalogue.crops[key] for score, _, key in ranked if _merged(score) == _merged(ranked[0][0]))


def _merged(score: int) -> int:
    """The score, with the beginning of the name as good as the beginning of any word."""
    return _BEGINS_A_WORD if score == _BEGINS_THE_NAME else score


def near(catalogue: Catalogue, words: str, most: int = 3) -> list[Crop]:
    """Crops with a name similar to some words, for "did you mean".

    Parameters
    ----------
    catalogue : Catalogue
    words : str
    most : int
        Greatest number of crops.

    Returns
    -------
    list of Crop
        The most similar first; empty if none is similar.
    """
    by_name: dict[str, Crop] = {}
    for crop in catalogue.crops.values():
        for name in (crop.key, crop.name, *crop.also, crop.latin):
            by_name.setdefault(plain(name), crop)
    close = difflib.get_close_matches(plain(words), by_name, n=2 * most, cutoff=0.65)
    return list({by_name[name].key: by_name[name] for name in close}.values())[:most]


def _ranked(catalogue: Catalogue, words: str) -> list[tuple[int, int, str]]:
    """Score, place in the catalogue and key of each matching crop, in order."""
    wish = plain(words)
    if not any(sign.isalpha() for sign in wish):
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


#: Names of the catalogue searched last, by its id; a catalogue holds dictionaries and cannot be hashed.
_names_cache: dict[int, tuple[Catalogue, list[tuple[str, _Names]]]] = {}


def _names(catalogue: Catalogue) -> list[tuple[str, _Names]]:
    """Whole names and single words of every crop, in plain letters; cached for one catalogue."""
    cached = _names_cache.get(id(catalogue))
    if cached is not None and cached[0] is catalogue:
        return cached[1]
    found = []
    for crop in catalogue.crops.values():
        code = (crop.eppo.value,) if crop.eppo is not None and crop.eppo.value else ()
        whole = tuple(dict.fromkeys(plain(n) for n in (crop.name, crop.key, *crop.also, crop.latin, *code)))
        family = (plain(crop.family), plain(GERMAN.get(crop.family, "")))
        single = tuple(dict.fromkeys(word for name in (*whole, *family) for word in name.split()))
        found.append((crop.key, (whole, single)))
    _names_cache.clear()
    _names_cache[id(catalogue)] = (catalogue, found)
    return found


def _score(wish: str, names: _Names) -> int | None:
    """Score of a crop's names for a wish; None if they do not match."""
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
    """Whether a word begins with a form; a number means itself only."""
    return any(
        word == form or (word.startswith(form) and not form.isdigit()) for form in forms for word in words
    )


@lru_cache(maxsize=4096)
def nearly(wish: str, name: str) -> bool:
    """Whether a wish is a name, or the beginning of one, with one typing error.

    A typing error is one letter wrong, missing or too many, or two neighbours swapped.

    Parameters
    ----------
    wish, name : str
        In plain letters; see :func:`plain`.
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
    """The text in lower case without accents and punctuation, words separated by single spaces."""
    split = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(sign for sign in split if not unicodedata.combining(sign))
    return " ".join("".join(sign if sign.isalnum() else " " for sign in bare).split())


def singulars(text: str) -> frozenset[str]:
    """Possible singulars of a word (or of the last of several words), itself included."""
    found = {text}
    for ending, instead in _PLURALS:
        if text.endswith(ending) and len(text) - len(ending) >= 2 and not text.endswith("ss"):
            found.add(text[: -len(ending)] + instead)
    return frozenset(found)
