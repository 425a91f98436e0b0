"""Covers of a growing year as lines."""

from __future__ import annotations

from planner.amounts.covers import Covers, LaidCover, covers, longest_hoop, sheet_size
from planner.amounts.sold_sizes import cut_length
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.materials import (
    cut_lines,
    day_cell,
    material_table,
    material_words,
    piece_words,
    size_words,
)
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import join_list, later, say, say_count

#: How a cover is held.
_HELD = {
    "hoops": later("{cover} on hoops"),
    "flat": later("{cover}, laid flat"),
    "ground": later("{cover} on the soil"),
    "stands": later("{cover}"),
}


def cover_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (
        say("cover"),
        say("over"),
        say("from"),
        say("until"),
        say("ground"),
        say("sheet"),
        say("hoops"),
        say("pegs"),
    )


def cover_names(plan: Plan, found: Covers) -> dict[str, str]:
    """What each cover lies over, by its key: ``carrot and leek in West 3``."""
    return {one.key: over_words(plan, one) for one in found.laid}


def over_words(plan: Plan, one: LaidCover) -> str:
    """What a cover lies over: ``carrot and leek in West 3``."""
    crops = [_sort(plan, part.planting.crop, part.planting.variety) for part in one.parts]
    beds = [part.bed.name for part in one.parts]
    return say("{crop} in {bed}", crop=join_list(crops), bed=join_list(beds))


def _sort(plan: Plan, crop: str, variety: str) -> str:
    name = plan.catalogue.crops[crop].name if crop in plan.catalogue.crops else crop
    return f"{name} {variety}".strip()


def laid_words(plan: Plan, one: LaidCover) -> str:
    """A cover and what it takes, in a line: its sheet, hoops and pegs, and what else lies under it."""
    units, size = plan.garden.site.units, one.size
    parts = [_sheet_words(plan, one)]
    if size.hoops:
        length = show_length(cut_length(size.hoop_length, units), units)
        parts.append(say_count("{count} hoop of {size}", "{count} hoops of {size}", size.hoops, size=length))
    if size.weights:
        parts.append(say_count("{count} peg", "{count} pegs", size.weights))
    cover, takes = material_words(one.kind, one.sort, units), join_list(parts)
    if len(one.parts) == 1:
        return say("{cover}: {takes}", cover=cover, takes=takes)
    return say(
        "{cover}: {takes}, one sheet over {plantings}",
        cover=cover,
        takes=takes,
        plantings=over_words(plan, one),
    )


def covers_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print covers as lines: a table of them, one of what they take, and the cut list.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    found = covers(plan)
    lines = [say("{garden}, covers of {year}", garden=plan.garden.site.name, year=plan.year), ""]
    if not found.laid:
        return [*lines, say("No planting is covered in {year}.", year=plan.year)]
    units = plan.garden.site.units
    rows = []
    for one in found.laid:
        size = one.size
        hoops = _hoops_words(one, units) if one.held == "hoops" else "-"
        rows.append(
            (
                say(_HELD[one.held], cover=material_words(one.kind, one.sort, units)),
                over_words(plan, one),
                day_cell(one.first, plan),
                day_cell(one.last, plan),
                size_words((one.length, one.width), units),
                _sheet_words(plan, one),
                hoops,
                str(size.weights or "-"),
            )
        )
    lines += aligned(cover_heads(), rows, right=(7,), room=room)
    lines += [
        "",
        say("What it takes"),
        *material_table(plan, found.materials, cover_names(plan, found), room),
    ]
    remarks = list(dict.fromkeys(line for one in found.laid for line in height_remarks(plan, one)))
    if remarks:
        lines += ["", say("Remarks"), *(f"  {line}." for line in remarks)]
    cuts = cut_lines(plan, found.materials, cover_names(plan, found))
    return [*lines, "", say("Cut list"), *cuts] if cuts else lines


def _hoops_words(one: LaidCover, units: UnitSystem) -> str:
    if one.too_wide:
        return say("too wide for hoops")
    return say(
        "{count} of {length}",
        count=one.size.hoops,
        length=show_length(cut_length(one.size.hoop_length, units), units),
    )


def height_remarks(plan: Plan, one: LaidCover) -> list[str]:
    """What is to be said of a cover's hoops: too wide a ground, too high a crop, a height that is not known."""
    units, over = plan.garden.site.units, over_words(plan, one)
    found = []
    if one.too_wide:
        found.append(
            say(
                "{over}: {width} is too wide for hoops, the longest are {hoop}; the sheet lies flat, or needs posts and wires",
                over=over,
                width=show_length(one.width, units),
                hoop=show_length(longest_hoop(plan), units),
            )
        )
    elif one.too_low:
        found.append(
            say(
                "{over}: what grows there is {plants} high while it is covered, the hoops {height}",
                over=over,
                plants=show_length(one.plants, units),
                height=show_length(one.height, units),
            )
        )
    if one.held == "hoops" and not one.height_known and not one.parts[0].cover.height:
        found.append(
            say(
                "{over}: how high it grows is not known; the hoops are the lowest, {height}, unless you enter their height",
                over=over,
                height=show_length(one.height, units),
            )
        )
    return found


def _sheet_words(plan: Plan, one: LaidCover) -> str:
    if one.cloches:
        return say_count("{count} cloche", "{count} cloches", one.cloches)
    if one.guards:
        return piece_words(one.kind, one.guards, "")
    sheet = size_words(sheet_size(one.size, plan.garden.site.units), plan.garden.site.units)
    if not one.holes:
        return sheet
    return say_count("{sheet}, {count} hole", "{sheet}, {count} holes", one.holes, sheet=sheet)
