"""What a planting yields: from its own figures, else from those of its crop, by plants or by metres of row.

Publications print what a plant or a row yields in rows with paths between them.  In a bed rows and plants stand closer:
they yield as much as those down to :data:`CLOSER` times their number on the same ground, and beyond that the ground is
what yields.  The range of a yield begins where the ground decides from the start, and ends where it never does.
"""

from __future__ import annotations

from typing import NamedTuple

from planner.crops.figures import Figure
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.ground.layout import Layout
from planner.ground.place import Placed
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import say

#: How many times as many rows or plants as in rows with paths yield in full on the same ground (estimate).
CLOSER = 2.0
#: Units in which one plant is one: a lettuce is a head.
_ONE_A_PLANT = ("head",)
#: Products of which one plant gives one piece: a celeriac is a root.
_ONE_PIECE = ("roots", "bulbs", "stalks", "heads")
#: Purposes of which nothing is eaten.
NOT_EATEN = ("seed", "cutting", "green manure")


class Yield(NamedTuple):
    """What a planting yields in all; of what stays for years in one year.

    Attributes
    ----------
    grams : int or None
        None where it is not known. [g]
    low, high : int or None
        Its range. [g]
    pieces : int or None
        The same in heads or pieces; None where it is not counted, or the weight of one is not known.
    unit : str
        ``kilogram``, ``head`` or ``piece``.
    source, provenance : str
        Key of the source of the figure, and how that came about.
    missing : str
        Why it is not known, a sentence without a full stop; else empty.
    own : bool
        Whether it is by a figure of an own variety.
    """

    grams: int | None
    low: int | None = None
    high: int | None = None
    pieces: int | None = None
    unit: str = "kilogram"
    source: str = ""
    provenance: str = ""
    missing: str = ""
    own: bool = False


class YieldInputs(NamedTuple):
    """What the yield of a planting depends on."""

    planting: Planting
    figures: PlantingFigures
    placed: Placed


def planting_yield(plan: Plan, planting: Planting) -> Yield:
    """What a planting yields.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden.
    """
    inputs = YieldInputs(planting, plan.figures_of(planting), plan.placed(planting))
    return plan.cached(yield_of_planting, planting.id, inputs)


@fact("yield")
def yield_of_planting(inputs: YieldInputs) -> Yield:
    """What a planting yields: own figures first, a yield by plants before one by metres."""
    figures, placed = inputs.figures, inputs.placed
    found = yield_figure(figures)
    if found is None:
        name = figures.crop.name if figures.crop is not None else inputs.planting.crop
        return Yield(None, missing=say("no yield of {crop} is known", crop=name))
    field, figure = found
    per_unit = (figure.value or 0.0) * 1000
    whole, full, ground = _counts(field, figures, placed)
    grams = round(per_unit * whole)
    low = round((figure.low if figure.low is not None else per_unit / 1000) * 1000 * min(ground, whole))
    high = round((figure.high if figure.high is not None else per_unit / 1000) * 1000 * full)
    unit, pieces = _pieces(figures, placed.plants)
    source, provenance = figure.source or "", figure.provenance
    own = figures.variety is not None and any(one.field == field for one in figures.variety.figures)
    return Yield(grams, min(low, grams), max(high, grams), pieces, unit, source, provenance, own=own)


def yield_figure(figures: PlantingFigures) -> tuple[str, Figure] | None:
    """The yield by plant or by metre that counts: the variety's own before its crop's; None where there is none."""
    fields = ("yield_per_plant", "yield_per_metre")
    if figures.variety is not None:
        for field in fields:
            own = next((one for one in figures.variety.figures if one.field == field), None)
            if own is not None:
                return field, own.as_figure()
    for field in fields:
        figure = getattr(figures.crop, field) if figures.crop is not None else None
        if figure is not None and figure.value is not None:
            return field, figure
    return None


def _counts(field: str, figures: PlantingFigures, placed: Placed) -> tuple[float, float, float]:
    """Plants or metres that count, all there are, and those that the ground has in rows with paths."""
    layout = placed.layout
    closer = _times_as_close(figures, placed)
    if field == "yield_per_plant":
        full: float = placed.plants
    elif layout.row_length > 0:
        full = layout.row_length
    else:
        full = placed.plants * (figures.number("in_row_spacing") or layout.in_row_spacing or 0.0)
    return full * min(1.0, CLOSER / closer), full, full / closer


def _times_as_close(figures: PlantingFigures, placed: Placed) -> float:
    """How many times as many rows, or plants without rows, stand on the ground as in rows with paths; at least 1.

    A single row has the ground beside its plot.
    """
    layout = placed.layout
    printed = figures.number("row_spacing")
    if printed is None or not placed.plants:
        return 1.0
    if layout.row_count > 1:
        between = _between(layout, placed)
        return max(1.0, printed / between) if between > 0 else 1.0
    apart = figures.number("in_row_spacing")
    if layout.row_count == 1 or apart is None or placed.plants < 2 or placed.area <= 0:
        return 1.0
    return max(1.0, printed * apart / (placed.area / placed.plants))


def _between(layout: Layout, placed: Placed) -> float:
    """Distance of the rows as they stand. [m]"""
    if layout.row_spacing is not None:
        return layout.row_spacing
    return placed.area / layout.row_length if layout.row_length > 0 else 0.0


def _pieces(figures: PlantingFigures, plants: int) -> tuple[str, int | None]:
    """Unit in which it is counted, and how many there are."""
    crop = figures.crop
    unit = crop.harvest_unit.value if crop is not None and crop.harvest_unit is not None else None
    product = crop.product.value if crop is not None and crop.product is not None else None
    if unit in _ONE_A_PLANT or (unit == "piece" and product in _ONE_PIECE):
        return unit or "", plants
    return "kilogram", None


def named_yield(figures: PlantingFigures) -> str:
    """The source of a yield, for the reader: its key; empty where none is known."""
    found = yield_figure(figures)
    return "" if found is None else found[1].source or ""
