"""The ink and the hatch of each class by which plantings can be coloured in the place of their families.

All inks are of the box of base inks; the classes of one scale never share a hatch, and an ink only where there are more than inks.
"""

from __future__ import annotations

from planner.sheets.hatches import HatchName

#: Scales with their classes: base ink and hatch of each, in the order of the legend.
SCALES: dict[str, dict[str, tuple[str, HatchName]]] = {
    "stage": {
        "before": ("straw", "dots"),
        "growing": ("sage", "rise"),
        "picking": ("cobalt", "cross"),
        "over": ("wine", "level"),
    },
    "sun": {
        "0": ("indigo", "net"),
        "2": ("cobalt", "cross"),
        "4": ("sky", "fall"),
        "6": ("sage", "rise"),
        "8": ("straw", "dots"),
        "unknown": ("plum", "upright"),
    },
    "rotation": {
        "rested": ("sage", "dots"),
        "short": ("straw", "rise"),
        "soon": ("brick", "cross"),
        "new": ("sky", "level"),
        "unasked": ("lilac", "upright"),
    },
    "tended": {
        "nobody": ("straw", "dots"),
        "1": ("cobalt", "rise"),
        "2": ("brick", "fall"),
        "3": ("sage", "cross"),
        "4": ("plum", "level"),
        "5": ("indigo", "net"),
        "6": ("sky", "upright"),
        "7": ("wine", "broken rise"),
        "8": ("moss", "broken fall"),
        "9": ("lilac", "broken level"),
        "10": ("cobalt", "broken upright"),
        "11": ("brick", "broken cross"),
        "12": ("sage", "broken net"),
    },
    "water": {
        "less": ("straw", "dots"),
        "same": ("sage", "rise"),
        "more": ("cobalt", "cross"),
        "unknown": ("plum", "upright"),
    },
}
#: People with a hatch of their own; more share theirs, and stand together in the legend.
MOST_PEOPLE = 12

#: Base ink and hatch of each class by its key, ``stage/growing``.
CLASS_INKS: dict[str, tuple[str, HatchName]] = {
    f"{scale}/{name}": ink for scale, classes in SCALES.items() for name, ink in classes.items()
}
