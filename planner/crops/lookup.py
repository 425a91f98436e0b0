"""Finding crops by what a person types: a name, a part of one, a plural."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterable

from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop

#: Endings of English plurals, longest first, with what the singular has in their place.
_PLURALS = (("ies", "y"), ("ves", "f"), ("oes", "o"), ("hes", "h"), ("es", ""), ("es", "e"), ("s", ""))


def lookup(catalogue: Catalogue, words: str) -> tuple[Crop, ...]:
    """Crops that some words may mean, in the catalogue's order.

    A whole name (key, common, Latin, EPPO code) is taken before a plural of one, and that before
    parts of names: every word typed must then begin a word of one of the crop's names or of its
    family, or else stand anywhere in one.

    Returns
    -------
    tuple of Crop
        Empty where nothing fits, or no word was given.
    """
    wish = plain(words)
    if not wish:
        return ()
    names = {crop.key: [plain(name) for name in _names(crop)] for crop in catalogue.crops.values()}
    wished = singulars(wish)
    parts = wish.split()

    def whole(of: Iterable[str]) -> bool:
        return wish in of

    def plural(of: Iterable[str]) -> bool:
        return any(wished & singulars(name) for name in of)

    def begun(of: Iterable[str]) -> bool:
        starts = [word for name in of for word in name.split()]
        return all(any(start.startswith(tuple(singulars(part))) for start in starts) for part in parts)

    def inside(of: Iterable[str]) -> bool:
        texts = list(of)
        return all(any(single in text for text in texts for single in singulars(part)) for part in parts)

    for fits in (whole, plural, begun, inside):
        found = tuple(crop for key, crop in catalogue.crops.items() if fits(names[key]))
        if found:
            return found
    return ()


def near(catalogue: Catalogue, words: str, most: int = 3) -> list[Crop]:
    """Crops with a name most like some words, the likeliest first; empty where none is like them."""
    known: dict[str, Crop] = {}
    for crop in catalogue.crops.values():
        for name in (crop.key, crop.name, *crop.also, crop.latin):
            known.setdefault(plain(name), crop)
    close = difflib.get_close_matches(plain(words), known, n=2 * most, cutoff=0.65)
    return list({known[name].key: known[name] for name in close}.values())[:most]


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


def _names(crop: Crop) -> tuple[str, ...]:
    code = crop.eppo.value if crop.eppo is not None and crop.eppo.value else ""
    return (crop.key, crop.name, *crop.also, crop.latin, crop.family, code)
