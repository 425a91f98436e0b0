"""Crops by their German names, as tables from German-speaking gardens have them."""

from __future__ import annotations

from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop
from planner.crops.search import plain

#: Other German names, Austrian and Swiss ones among them, by that of the catalogue (practice).
OTHER_NAMES = {
    "Möhre": ("Karotte", "Mohrrübe", "Gelbe Rübe", "Rüebli"),
    "Rote Bete": ("Rande", "Rote Rübe", "Rote Beete", "Rahne"),
    "Lauch": ("Porree",),
    "Tomate": ("Paradeiser", "Stabtomate"),
    "Kartoffel": ("Erdapfel", "Erdäpfel"),
    "Feldsalat": ("Nüsslisalat", "Vogerlsalat", "Rapunzel"),
    "Buschbohne": ("Fisole",),
    "Dicke Bohne": ("Puffbohne", "Saubohne"),
    "Stangensellerie": ("Staudensellerie", "Bleichsellerie"),
    "Knollensellerie": ("Sellerie",),
    "Knollenfenchel": ("Fenchel",),
    "Zwiebel": ("Speisezwiebel", "Küchenzwiebel"),
    "Rucola": ("Rauke",),
    "Grünkohl": ("Federkohl", "Krauskohl"),
    "Weißkohl": ("Weißkraut", "Kabis"),
    "Rotkohl": ("Rotkraut", "Blaukraut"),
    "Blumenkohl": ("Karfiol",),
    "Rosenkohl": ("Kohlsprosse",),
    "Wirsing": ("Wirz",),
    "Mangold": ("Krautstiel",),
    "Aubergine": ("Melanzani",),
    "Zuckermais": ("Mais",),
    "Erbse": ("Gartenerbse",),
    "Pflücksalat": ("Schnittsalat",),
    "Zucchini": ("Zucchetti",),
}
#: Endings of plurals.
_PLURALS = ("", "n", "en", "e", "s")


def crop_in_german(catalogue: Catalogue, words: str) -> Crop | None:
    """The crop of a German name, or of its plural; None where there is none, or more than one.

    Accents, capitals and signs do not matter, and ä may be written ae.

    Parameters
    ----------
    catalogue : Catalogue
    words : str
    """
    wish = _letters(words)
    found: dict[str, Crop] = {}
    for crop in catalogue.crops.values():
        name = str(crop.german.value) if crop.german is not None else ""
        if name and any(wish in _plurals(one) for one in (name, *OTHER_NAMES.get(name, ()))):
            found[crop.key] = crop
    return next(iter(found.values())) if len(found) == 1 else None


def _letters(text: str) -> str:
    bare = plain(text)
    for two, one in (("ae", "a"), ("oe", "o"), ("ue", "u")):
        bare = bare.replace(two, one)
    return bare


def _plurals(name: str) -> frozenset[str]:
    letters = _letters(name)
    return frozenset(letters + ending for ending in _PLURALS)
