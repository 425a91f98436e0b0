"""What a structure is made of and how much sun it lets through, in words."""

from __future__ import annotations

from planner.crops import Catalogue
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.crops.structure_light import Material, StructureLight, structure_light
from planner.garden import Structure
from planner.words import number_words, say, table_words
from planner.words.dates import MONTHS

#: Choice of what a structure is made of: an opacity of its own, which no material gives.
OWN = "own value"
#: Source of shares that follow from the form of a thing.
GEOMETRY = "geometry"
#: Hundredths of a whole below which no decimal is written.
LEAST_DECIMAL = 0.05


def light_of_kind(catalogue: Catalogue, structure: Structure) -> StructureLight:
    """The materials of a structure's kind."""
    return structure_light(catalogue)[structure.kind]


def material_choices(light: StructureLight) -> list[tuple[str, str]]:
    """What a kind of structure may be made of, as keys and words: the usual material first, an own value last."""
    others = [(key, table_words(material.name)) for key, material in light.materials.items()]
    return [
        ("", say("usual: {material}", material=table_words(light.name))),
        *others,
        (OWN, say("own value")),
    ]


def material_choice(light: StructureLight, structure: Structure) -> str:
    """Which of the choices a structure has."""
    if structure.opacity:
        return OWN
    return structure.material if structure.material in light.materials else ""


def shares_held_back(light: StructureLight, structure: Structure, southern: bool) -> tuple[float, ...]:
    """Share of the direct sun that a structure holds back: one, or twelve from January on.

    Parameters
    ----------
    light : StructureLight
        Of its kind.
    structure : Structure
    southern : bool
        Whether the garden lies south of the equator.
    """
    return structure.opacity or light.held_back(structure.material, southern)


def shares_words(held_back: tuple[float, ...]) -> str:
    """Share of the direct sun that is let through, in hundredths; from least to most where months differ.

    Examples
    --------
    >>> shares_words((0.12,)), shares_words((0.5,) * 6 + (0.8,) * 6)
    ('88 %', '20 to 50 %')
    """
    least, most = 1 - max(held_back), 1 - min(held_back)
    if _hundredths(least) == _hundredths(most):
        return say("{number} %", number=_hundredths(most))
    return say("{least} to {most} %", least=_hundredths(least), most=_hundredths(most))


def _hundredths(share: float) -> str:
    """A share in hundredths, with a decimal where it has one."""
    return number_words(100 * share, 0 if abs(100 * share - round(100 * share)) < LEAST_DECIMAL else 1)


def light_let_through(catalogue: Catalogue, structure: Structure, southern: bool) -> str:
    """What a structure is made of and how much sun it lets through, in a few words; empty where none gets through.

    Parameters
    ----------
    catalogue : Catalogue
    structure : Structure
    southern : bool
        Whether the garden lies south of the equator.
    """
    light = light_of_kind(catalogue, structure)
    held_back = shares_held_back(light, structure, southern)
    if min(held_back) >= 1 or structure.kind in ("board", "path", "lawn"):
        return ""
    share = say("{share} of the sun", share=shares_words(held_back))
    if structure.opacity:
        return share
    return say("{material}, {share}", material=light.material(structure.material).name, share=share)


def light_lines(catalogue: Catalogue, structure: Structure, southern: bool) -> list[str]:
    """How much sun a structure lets through, what it is made of, and who says so; a line each.

    Parameters
    ----------
    catalogue : Catalogue
    structure : Structure
    southern : bool
        Whether the garden lies south of the equator.
    """
    light = light_of_kind(catalogue, structure)
    held_back = shares_held_back(light, structure, southern)
    lines = [_share_line(held_back)]
    if structure.opacity:
        return [*lines, say("This is an own value of this structure.")]
    parts = (light.material(structure.material), light.frame_of(structure.material))
    return [*lines, *(_material_line(catalogue, part) for part in parts if part is not None)]


def _share_line(held_back: tuple[float, ...]) -> str:
    least, most = max(held_back), min(held_back)
    if most == 1:
        return say("Lets none of the direct sun through.")
    if _hundredths(least) == _hundredths(most):
        return say("Lets {number} % of the direct sun through.", number=_hundredths(1 - most))
    return say(
        "Lets {most} % of the direct sun through in {bright}, {least} % in {dark}.",
        most=_hundredths(1 - most),
        bright=say(MONTHS[held_back.index(most)]),
        least=_hundredths(1 - least),
        dark=say(MONTHS[held_back.index(least)]),
    )


def _material_line(catalogue: Catalogue, material: Material) -> str:
    """The name of a material, its own light, and the source of that."""
    through, source = shares_words(material.opacity.value), material.opacity.source
    if source == GEOMETRY:
        return say("{material}: {share}, by its form.", material=table_words(material.name), share=through)
    if source is None or source == ESTIMATE:
        return say("{material}: {share}, an estimate.", material=table_words(material.name), share=through)
    if source == PRACTICE or source not in catalogue.sources:
        return say(
            "{material}: {share}, common practice.", material=table_words(material.name), share=through
        )
    return say(
        "{material}: {share}. Source: {citation}.",
        material=table_words(material.name),
        share=through,
        citation=catalogue.sources[source].citation.rstrip("."),
    )
