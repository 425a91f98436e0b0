"""The ink and the hatch of each botanical family, on paper and on the screen.

The hatch distinguishes families for eyes that do not distinguish their inks.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass

from planner.sheets.class_inks import CLASS_INKS
from planner.sheets.hatches import HATCHES, HatchName

Rgb = tuple[float, float, float]

#: Light and dark ground of drawings. Shares of red, green and blue. [0 to 1]
PAPER: Rgb = (0.984, 0.973, 0.937)
NIGHT: Rgb = (0.125, 0.141, 0.165)

#: Share of the line's ink in a tint, on light and on dark ground. [0 to 1]
TINT_LIGHT = 0.26
TINT_DARK = 0.34


@dataclass(frozen=True)
class Ink:
    """How a family is drawn.

    Attributes
    ----------
    tint_rgb, line_rgb : tuple of float
        Of grounds and of lines. Shares of red, green and blue. [0 to 1]
    hatch : str
        Key into :data:`planner.sheets.hatches.HATCHES`.
    base : str
        Name of the base ink.
    """

    tint_rgb: Rgb
    line_rgb: Rgb
    hatch: HatchName
    base: str


def _rgb(code: str) -> Rgb:
    red, green, blue = (int(code[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return red, green, blue


#: Base inks: on light ground, on dark ground.  Found by a search for the set whose nearest pair
#: lies farthest apart in CIELAB, seen with full, red-blind, green-blind and blue-blind eyes.
BASE_INKS: dict[str, tuple[Rgb, Rgb]] = {
    "wine": (_rgb("5e3a41"), _rgb("d8697f")),
    "brick": (_rgb("6d2d1a"), _rgb("dc9474")),
    "straw": (_rgb("a3884f"), _rgb("999634")),
    "moss": (_rgb("5d6900"), _rgb("c4ed8e")),
    "sage": (_rgb("668d70"), _rgb("7eebac")),
    "sky": (_rgb("5989ea"), _rgb("718fb3")),
    "cobalt": (_rgb("2b53ad"), _rgb("9ec1fe")),
    "indigo": (_rgb("413873"), _rgb("eed9fb")),
    "lilac": (_rgb("9680bf"), _rgb("967fd8")),
    "plum": (_rgb("974f7c"), _rgb("daa8bb")),
}

#: Base ink and hatch of the families of the catalogue.
_FAMILIES: dict[str, tuple[str, HatchName]] = {
    "Amaranthaceae": ("wine", "upright"),
    "Rosaceae": ("wine", "dots"),
    "Vitaceae": ("wine", "level"),
    "Liliaceae": ("wine", "cross"),
    "Solanaceae": ("brick", "rise"),
    "Grossulariaceae": ("brick", "level"),
    "Papaveraceae": ("brick", "dots"),
    "Viburnaceae": ("brick", "net"),
    "Actinidiaceae": ("sage", "cross"),
    "Lauraceae": ("moss", "fall"),
    "Elaeagnaceae": ("brick", "fall"),
    "Cucurbitaceae": ("straw", "fall"),
    "Poaceae": ("straw", "upright"),
    "Tropaeolaceae": ("straw", "net"),
    "Asteraceae": ("moss", "level"),
    "Ranunculaceae": ("moss", "cross"),
    "Malvaceae": ("moss", "rise"),
    "Oxalidaceae": ("moss", "dots"),
    "Fabaceae": ("sage", "net"),
    "Caprifoliaceae": ("sage", "rise"),
    "Aizoaceae": ("sage", "dots"),
    "Boraginaceae": ("sky", "dots"),
    "Plumbaginaceae": ("sky", "fall"),
    "Montiaceae": ("sky", "level"),
    "Brassicaceae": ("cobalt", "cross"),
    "Plantaginaceae": ("cobalt", "rise"),
    "Convolvulaceae": ("cobalt", "dots"),
    "Iridaceae": ("cobalt", "level"),
    "Amaryllidaceae": ("indigo", "rise"),
    "Ericaceae": ("indigo", "net"),
    "Moraceae": ("indigo", "level"),
    "Gentianaceae": ("indigo", "fall"),
    "Lamiaceae": ("lilac", "dots"),
    "Asparagaceae": ("lilac", "upright"),
    "Caryophyllaceae": ("lilac", "cross"),
    "Verbenaceae": ("lilac", "fall"),
    "Paeoniaceae": ("lilac", "level"),
    "Apiaceae": ("plum", "fall"),
    "Polygonaceae": ("plum", "net"),
    "Portulacaceae": ("plum", "upright"),
}
#: Base inks and hatches that no family of the catalogue has.
_FREE: tuple[tuple[str, HatchName], ...] = tuple(
    (base, name)
    for base in BASE_INKS
    for name, hatch in HATCHES.items()
    if not hatch.broken and (base, name) not in _FAMILIES.values()
)

#: Families with an ink of their own; any other family gets one of the free pairs, always the same.
KNOWN_FAMILIES: tuple[str, ...] = tuple(_FAMILIES)


def mixed(line: Rgb, ground: Rgb, share: float) -> Rgb:
    """Mix an ink with the ground it is laid on.

    Parameters
    ----------
    line, ground : tuple of float
        Shares of red, green and blue. [0 to 1]
    share : float
        Share of the ink. [0 to 1]
    """
    red, green, blue = (share * a + (1 - share) * b for a, b in zip(line, ground, strict=True))
    return red, green, blue


def family_ink(family: str, *, dark: bool = False) -> Ink:
    """Return the ink of a botanical family.

    Parameters
    ----------
    family : str
        Botanical name, as Apiaceae, or the key of a class (:data:`planner.sheets.class_inks.CLASS_INKS`).  Unknown ones,
        and the empty name, have an ink too.
    dark : bool
        For a dark ground.
    """
    place = _FAMILIES.get(family) or CLASS_INKS.get(family)
    if place is None:
        place = _FREE[zlib.crc32(family.encode()) % len(_FREE)]
    base, hatch = place
    line = BASE_INKS[base][dark]
    tint = mixed(line, NIGHT, TINT_DARK) if dark else mixed(line, PAPER, TINT_LIGHT)
    return Ink(tint, line, hatch, base)
