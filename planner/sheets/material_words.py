"""What covers, supports, raising and spreading take, in words with the measures that a tape shows."""

from __future__ import annotations

from collections.abc import Iterable

import shapely

from planner.amounts.covers import Covered, LaidCover
from planner.amounts.raising import Raised
from planner.amounts.spread import Spread
from planner.amounts.supports import PutUp
from planner.garden import Planting, Structure
from planner.garden.volumes import show_load, show_volume
from planner.ground.place import SPECK
from planner.listings.materials import material_words, piece_words
from planner.plan import Plan
from planner.season.container_words import filled_words
from planner.season.raising import Fill
from planner.sheets.sheet_year import SheetYear
from planner.sheets.tape_measure import TapeMeasure
from planner.words import day_words, join_list, key_words, later, number_words, say, say_count, say_in_context

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
    """A cover of a planting; one that lies over others too is told once, at the first of them that is covered.

    Parameters
    ----------
    cover : LaidCover
    planting : Planting
    year : SheetYear
        For the letters of the plots.
    measure : TapeMeasure
    """
    part = next(one for one in cover.parts if one.planting.id == planting.id)
    first = cover.begins
    if first is part:
        others = [one for one in cover.parts if one is not part]
        words = _with_holes_of_others(cover_words(cover, measure), cover, part, year)
        if not others:
            return words
        plots = join_list(_plot(one, part, year) for one in others)
        return say("{cover}; one sheet together with {plots}", cover=words, plots=plots)
    name, plot = material_words(cover.kind, cover.sort, measure.units), _plot(first, part, year)
    if first.first == part.first:
        return say("{cover}: under the same sheet as {plot}", cover=name, plot=plot)
    day = day_words(first.first, year.plan.span.first.year)
    if not already_lies(cover, planting, year.plan):
        return say(
            "{cover}: the sheet lies over {plot} since {day}; draw it over this too",
            cover=name,
            plot=plot,
            day=day,
        )
    return say_count(
        "{cover}: it already lies there since {day}, one sheet with {plot}; cut {count} hole",
        "{cover}: it already lies there since {day}, one sheet with {plot}; cut {count} holes",
        part.plants,
        cover=name,
        plot=plot,
        day=day,
    )


def folded_back_words(cover: LaidCover, planting: Planting, year: SheetYear) -> str:
    """That a sheet which is taken off a planting stays over others; empty where it does not.

    Parameters
    ----------
    cover : LaidCover
    planting : Planting
        Under it.
    year : SheetYear
        For the letters of the plots.
    """
    part = next(one for one in cover.parts if one.planting.id == planting.id)
    others = [one for one in cover.parts if one.last > part.last]
    if not others:
        return ""
    plots = join_list(_plot(one, part, year) for one in others)
    day = day_words(max(one.last for one in others), year.plan.span.first.year)
    return say("fold the sheet back: it stays over {plots} until {day}", plots=plots, day=day)


def already_lies(cover: LaidCover, planting: Planting, plan: Plan) -> bool:
    """Whether a film that is laid for another planting lies on a planting's ground before its own day for it.

    It does not yet where something else stands there; other sheets are drawn over what they cover on its day.

    Parameters
    ----------
    cover : LaidCover
    planting : Planting
        Under it.
    plan : Plan
    """
    part = next(one for one in cover.parts if one.planting.id == planting.id)
    if cover.kind != "film" or cover.begins.first >= part.first:
        return False
    ground, under = plan.placed(planting).plot, {one.planting.id for one in cover.parts}
    laid = cover.begins.first
    return not any(
        plan.span_of(other).first < laid < plan.span_of(other).last
        and shapely.intersection(ground, plan.placed(other).plot).area > SPECK
        for other in plan.in_bed(part.bed)
        if other.id not in under
    )


def _plot(one: Covered, beside: Covered, year: SheetYear) -> str:
    """The letter of a plot, with its bed where that is another."""
    letter = year.letter(one.planting.id)
    if one.bed.id == beside.bed.id:
        return letter
    return say("{plot} of {bed}", plot=letter, bed=one.bed.name)


def _with_holes_of_others(words: str, cover: LaidCover, part: Covered, year: SheetYear) -> str:
    """A cover in words, with the holes in it that are for posts, and for plantings which have no film of their own."""
    holes = [say("{count} for {plot}", count=number, plot=year.letter(key)) for key, number in cover.through]
    if cover.posts:
        holes.append(say_count("{count} for a post", "{count} for posts", cover.posts))
    return say("{cover} ({holes})", cover=words, holes=join_list(holes)) if holes else words


def support_words(put_up: PutUp, measure: TapeMeasure) -> str:
    """A support with its pieces.

    Parameters
    ----------
    put_up : PutUp
    measure : TapeMeasure
    """
    built, support = put_up.built, put_up.planting.support
    words = [
        say("{support}, {height} high", support=key_words(built.kind), height=measure.at_least(built.height))
    ]
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
        return say_in_context(
            "of a layer",
            "{what}, {depth} deep, {volume}",
            what=key_words(one.kind),
            depth=measure.depth(one.depth),
            volume=show_volume(one.litres, units),
        )
    rate = one.rate or 0.0
    load = show_load(one.grams or 0.0, units)
    if units == "metric" and rate >= 1000:
        kilograms = number_words(rate / 1000, 1)
        return say(
            "{what}, {kilograms} kg/m², {load} in all",
            what=key_words(one.kind),
            kilograms=kilograms,
            load=load,
        )
    if units == "metric":
        return say(
            "{what}, {grams} g/m², {load} in all",
            what=key_words(one.kind),
            grams=number_words(rate, 0),
            load=load,
        )
    return say(
        "{what}, {ounces} oz a sq yd, {load} in all",
        what=key_words(one.kind),
        ounces=number_words(rate / _OUNCE_A_YARD, 1),
        load=load,
    )


def spread_lines(found: Iterable[Spread], measure: TapeMeasure, plan: Plan, planting: str) -> list[str]:
    """What is spread on a planting's plot, each with its day.

    Parameters
    ----------
    found : iterable of Spread
    measure : TapeMeasure
    plan : Plan
    planting : str
        Id.
    """
    lines = [one for one in found if one.planting is not None and one.planting.id == planting]
    return [
        say(
            "{day}: {spread}",
            day=day_words(one.day, plan.span.first.year),
            spread=spread_words(one, measure),
        )
        for one in lines
    ]
