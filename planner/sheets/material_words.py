"""What covers, supports, raising and spreading take, in words with the measures that a tape shows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.amounts.covers import Covered, LaidCover
from planner.amounts.raising import Raised
from planner.amounts.spread import Spread
from planner.amounts.supports import PutUp
from planner.garden import Planting, Structure
from planner.garden.volumes import show_load, show_volume
from planner.listings.materials import material_words, piece_words
from planner.plan import Plan
from planner.season.container_words import filled_words
from planner.season.raising import Fill
from planner.sheets.sheet_year import SheetYear
from planner.sheets.tape_measure import TapeMeasure
from planner.words import day_words, join_list, later, number_words, say, say_count

#: How a cover is held that is not on hoops.
_HELD = {
    "flat": later("{cover}, laid flat"),
    "ground": later("{cover} on the soil, its edges dug in"),
    "stands": later("{cover}"),
}
#: A day and its work.
_FILLED = {
    "sow": later("{day}: sow {count} seeds in {trays}, {mix} of mix"),
    "prick out": later("{day}: prick out {count} into {trays}, {mix} of mix"),
    "pot on": later("{day}: pot on {count} into {trays}, {mix} of mix"),
}
#: Grams a square metre that make an ounce a square yard.
_OUNCE_A_YARD = 28.349523125 / 0.83612736


def cover_words(cover: LaidCover, measure: TapeMeasure) -> str:
    """A cover with its sheet, hoops and pegs.

    Parameters
    ----------
    cover : LaidCover
    measure : TapeMeasure
    """
    if cover.cloches:
        return say_count("{count} cloche", "{count} cloches", cover.cloches)
    if cover.guards:
        return piece_words(cover.kind, cover.guards, "")
    size = cover.size
    name = material_words(cover.kind, cover.sort, measure.units)
    if cover.held == "hoops":
        words = [say("{cover} on hoops {height} high", cover=name, height=measure.at_least(cover.height))]
    else:
        words = [say(_HELD[cover.held], cover=name)]
    words.append(say("sheet of {size}", size=measure.size(size.length, size.width)))
    if cover.holes:
        words.append(say_count("{count} hole", "{count} holes", cover.holes))
    if size.hoops:
        length = measure.at_least(size.hoop_length)
        hoops = say_count("{count} hoop of {length}", "{count} hoops of {length}", size.hoops, length=length)
        if size.hoops > 1:
            apart = measure.length(cover.length / (size.hoops - 1))
            hoops = say("{hoops} (one every {apart})", hoops=hoops, apart=apart)
        words.append(hoops)
    if size.weights:
        words.append(say_count("{count} peg", "{count} pegs", size.weights))
    return join_list(words)


def shared_cover_words(cover: LaidCover, planting: Planting, year: SheetYear, measure: TapeMeasure) -> str:
    """A cover of a planting; one that lies over others too is told once, and names their plots.

    Parameters
    ----------
    cover : LaidCover
    planting : Planting
    year : SheetYear
        For the letters of the plots.
    measure : TapeMeasure
    """

    def plot(part: Covered) -> str:
        letter = year.letter(part.planting.id)
        if part.bed.id == planting.bed:
            return letter
        return say("{plot} of {bed}", plot=letter, bed=part.bed.name)

    first, *others = cover.parts
    if first.planting.id != planting.id:
        name = material_words(cover.kind, cover.sort, measure.units)
        return say("{cover}: under the same sheet as {plot}", cover=name, plot=plot(first))
    words = cover_words(cover, measure)
    if not others:
        return words
    plots = join_list(map(plot, others))
    return say("{cover}; one sheet together with {plots}", cover=words, plots=plots)


def support_words(put_up: PutUp, measure: TapeMeasure) -> str:
    """A support with its pieces.

    Parameters
    ----------
    put_up : PutUp
    measure : TapeMeasure
    """
    built, support = put_up.built, put_up.planting.support
    words = [say("{support}, {height} high", support=built.kind, height=measure.at_least(built.height))]
    if support is not None and support.lines is not None and support.lines > 1:
        lines = say_count("{count} line", "{count} lines", support.lines)
        if support.line_spacing:
            apart = measure.spacing(support.line_spacing)
            lines = say("{lines} {length} apart", lines=lines, length=apart)
        words.append(lines)
    if support is not None and support.spacing:
        words.append(say("posts {length} apart", length=measure.spacing(support.spacing)))
    for piece in put_up.pieces:
        if piece.width:
            size = measure.size(piece.length, piece.width)
        else:
            size = measure.at_least(piece.length) if piece.length else ""
        words.append(piece_words(piece.kind, piece.number, size))
    if put_up.string:
        words.append(say("{length} of string", length=measure.at_least(put_up.string)))
    return join_list(words)


def arch_words(arch: Structure, measure: TapeMeasure) -> str:
    """An arch, drawn as a structure, that is climbed."""
    height = measure.at_least(arch.height)
    if arch.name:
        return say("the arch “{name}” beside it, {height} high", name=arch.name, height=height)
    return say("the arch beside it, {height} high", height=height)


def fill_words(fill: Fill, measure: TapeMeasure, year: int, depth: str) -> str:
    """What is filled on a day, and with what.

    Parameters
    ----------
    fill : Fill
    measure : TapeMeasure
    year : int
        The calendar year that goes without saying.
    depth : str
        How deep its seed is sown; empty where that is not known.
    """
    day = day_words(fill.day, year) if fill.day is not None else say("day not known")
    trays = filled_words(fill.container, fill.number, measure.units)
    mix = show_volume(fill.litres, measure.units)
    if fill.work == "sow" and depth:
        return say(
            "{day}: sow {count} seeds {depth} deep in {trays}, {mix} of mix",
            day=day,
            count=fill.number,
            depth=depth,
            trays=trays,
            mix=mix,
        )
    return say(_FILLED[fill.work], day=day, count=fill.number, trays=trays, mix=mix)


def raise_words(raised: Raised, measure: TapeMeasure, year: int, depth: str) -> str:
    """All that is filled to raise a planting; in a nursery bed the ground for it."""
    if raised.nursery_area:
        return say("in a nursery bed of {area}", area=measure.area(raised.nursery_area))
    return "; ".join(fill_words(fill, measure, year, depth) for fill in raised.fills)


def spread_words(one: Spread, measure: TapeMeasure) -> str:
    """What is spread, how deep or how much of it, and how much in all.

    Parameters
    ----------
    one : Spread
    measure : TapeMeasure
    """
    units = measure.units
    if one.depth is not None and one.litres is not None:
        return say(
            "{what}, {depth} deep, {volume}",
            what=one.kind,
            depth=measure.depth(one.depth),
            volume=show_volume(one.litres, units),
        )
    rate = one.rate or 0.0
    load = show_load(one.grams or 0.0, units)
    if units == "metric" and rate >= 1000:
        kilograms = number_words(rate / 1000, 1)
        return say("{what}, {kilograms} kg/m², {load} in all", what=one.kind, kilograms=kilograms, load=load)
    if units == "metric":
        return say(
            "{what}, {grams} g/m², {load} in all", what=one.kind, grams=number_words(rate, 0), load=load
        )
    return say(
        "{what}, {ounces} oz a sq yd, {load} in all",
        what=one.kind,
        ounces=number_words(rate / _OUNCE_A_YARD, 1),
        load=load,
    )


def spread_lines(
    found: Iterable[Spread], measure: TapeMeasure, plan: Plan, planting: str | None
) -> list[str]:
    """What is spread on a planting's plot, or on a whole bed where there is none, each with its day.

    Parameters
    ----------
    found : iterable of Spread
    measure : TapeMeasure
    plan : Plan
    planting : str or None
        Id.
    """
    lines: Sequence[Spread] = [
        one for one in found if (one.planting.id if one.planting is not None else None) == planting
    ]
    return [
        say(
            "{day}: {spread}",
            day=day_words(one.day, plan.span.first.year),
            spread=spread_words(one, measure),
        )
        for one in lines
    ]
