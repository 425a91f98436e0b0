"""What a planting yields: from its own figures, else from those of its crop, by plants or by metres of row.

Publications print what a plant or a row yields in rows with paths between them, and with that what the ground yields.
In a bed rows and plants stand closer: there the ground yields what it yields in those rows, and no more.  The least is that
of the publication that prints least, of rows as far apart as they are printed; the most that of the one that prints most, of
rows as close.
"""

from __future__ import annotations

from typing import NamedTuple

from planner.crops.figures import Figure, Reading
from planner.garden import Planting
from planner.garden.learned import LearnedFigure
from planner.garden.planting_figures import PlantingFigures
from planner.ground.layout import Layout
from planner.ground.place import Placed
from planner.plan.cache import fact
from planner.words import say

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
    learned : bool
        Whether it is by this garden's own years.
    left : float
        Share of the whole planting that it is of: less than 1 after a loss.
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
    learned: bool = False
    left: float = 1.0


class YieldInputs(NamedTuple):
    """What the yield of a planting depends on; ``left`` is the share of it that is there to be picked."""

    planting: Planting
    figures: PlantingFigures
    placed: Placed
    left: float = 1.0


@fact("yield")
def yield_of_planting(inputs: YieldInputs) -> Yield:
    """What a planting yields: own figures first, a yield by plants before one by metres; of what is left of it."""
    whole = _whole_yield(inputs)
    if inputs.left >= 1.0 or whole.grams is None:
        return whole
    grams, low, high, pieces = (
        None if one is None else round(one * inputs.left)
        for one in (whole.grams, whole.low, whole.high, whole.pieces)
    )
    return whole._replace(grams=grams, low=low, high=high, pieces=pieces, left=inputs.left)


def _whole_yield(inputs: YieldInputs) -> Yield:
    figures, placed = inputs.figures, inputs.placed
    found = yield_figure(figures)
    if found is None and (alone := _learned_alone(inputs)) is not None:
        return alone
    if found is None:
        name = figures.crop.name if figures.crop is not None else inputs.planting.crop
        return Yield(None, missing=say("no yield of {crop} is known", crop=name))
    field, figure = found
    per_unit = (figure.value or 0.0) * 1000
    least, most = _range(figure)
    full = counted(field, figures, placed)
    ground = _ground(figures, figure.source or "")
    unit, pieces = _pieces(figures, placed.plants)
    learned = figures.learned_figure("yield")
    if learned is not None and learned.field == field:
        # its factor is over what the published figure gives on this ground, so the same ground counts
        each = full * _share(ground.usual, field, placed)
        return _learned_yield(learned, each, unit, pieces)
    grams = round(per_unit * full * _share(ground.usual, field, placed))
    low = round(least * 1000 * full * _share(ground.wide, field, placed))
    high = round(most * 1000 * full * _share(ground.close, field, placed))
    source, provenance = figure.source or "", figure.provenance
    own = figures.variety is not None and any(one.field == field for one in figures.variety.figures)
    return Yield(grams, min(low, grams), max(high, grams), pieces, unit, source, provenance, own=own)


def yield_field(figures: PlantingFigures) -> str:
    """The field of a crop that its yield is counted by: as it is published, else by plants."""
    found = yield_figure(figures)
    return found[0] if found is not None else "yield_per_plant"


def _learned_alone(inputs: YieldInputs) -> Yield | None:
    """The yield of this garden's own years where none is published; None where there are none."""
    learned = inputs.figures.learned_figure("yield")
    if learned is None or learned.value is None:
        return None
    unit, pieces = _pieces(inputs.figures, inputs.placed.plants)
    return _learned_yield(learned, counted(learned.field, inputs.figures, inputs.placed), unit, pieces)


def _learned_yield(learned: LearnedFigure, times: float, unit: str, pieces: int | None) -> Yield:
    """So many times a learned yield of a plant or a metre."""
    grams, low, high = (
        round((one or 0.0) * times * 1000) for one in (learned.value, learned.low, learned.high)
    )
    return Yield(grams, low, high, pieces, unit, learned.source, "derived", learned=True)


def yield_figure(figures: PlantingFigures) -> tuple[str, Figure] | None:
    """The published yield by plant or by metre that counts: the variety's own before its crop's; None where there is none."""
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


def _range(figure: Figure) -> tuple[float, float]:
    """Least and most that all publications print which the catalogue has of a yield. [kg]"""
    printed: list[Figure | Reading] = [figure, *figure.other]
    known = [
        number
        for one in printed
        for number in (one.value, one.low, one.high)
        if number is not None and number > 0
    ]
    return min(known), max(known)


def counted(field: str, figures: PlantingFigures, placed: Placed) -> float:
    """Plants, or metres of row, that there are."""
    if field == "yield_per_plant":
        return placed.plants
    layout = placed.layout
    if layout.row_length > 0:
        return layout.row_length
    return placed.plants * (figures.number("in_row_spacing") or layout.in_row_spacing or 0.0)


class _Spacing(NamedTuple):
    """Distance of the rows, and of the plants in them; None where it is not known. [m]"""

    between: float | None
    in_row: float | None


class _Ground(NamedTuple):
    """Rows in which a yield was counted: as usual, as close and as wide as they are printed."""

    usual: _Spacing
    close: _Spacing
    wide: _Spacing


def _ground(figures: PlantingFigures, source: str) -> _Ground:
    """Rows in which a yield was counted: the middle of those of its source, else the crop's own."""
    crop = figures.crop
    between = _printed(crop.row_spacing if crop is not None else None, source, figures.number("row_spacing"))
    in_row = _printed(
        crop.in_row_spacing if crop is not None else None, source, figures.number("in_row_spacing")
    )
    usual, close, wide = (_Spacing(*pair) for pair in zip(between, in_row, strict=True))
    return _Ground(usual, close, wide)


def _printed(
    figure: Figure | None, source: str, own: float | None
) -> tuple[float | None, float | None, float | None]:
    """The usual, the least and the largest distance with which a yield of a source goes. [m]"""
    if figure is None or own is None or not figure.applies:
        return own, own, own
    every: list[Figure | Reading] = [figure, *figure.other]
    spread = [number for one in every for number in (one.value, one.low, one.high) if number is not None]
    same = next((one for one in every if one.source == source), None)
    usual = own
    if same is not None:
        ends = [number for number in (same.low, same.high) if number is not None]
        usual = sum(ends) / 2 if len(ends) == 2 else same.value if same.value is not None else own
    return usual, min(usual, *spread), max(usual, *spread)


def _share(spacing: _Spacing, field: str, placed: Placed) -> float:
    """Share of its yield that each plant or metre gives on ground closer planted than that of a spacing.

    A single row has the ground beside its plot.
    """
    layout = placed.layout
    if spacing.between is None or not placed.plants or layout.row_count == 1:
        return 1.0
    if field == "yield_per_metre" and layout.row_count > 1:
        return min(1.0, _between(layout, placed) / spacing.between)
    if spacing.in_row is None or placed.plants < 2 or placed.area <= 0:
        return 1.0
    return min(1.0, placed.area / placed.plants / (spacing.between * spacing.in_row))


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
