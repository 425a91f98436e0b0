"""Supports of a growing year as lines."""

from __future__ import annotations

from planner.amounts.supports import PutUp, Supports, supports
from planner.garden.units import show_length
from planner.listings.materials import (
    crop_words,
    cut_lines,
    day_cell,
    material_table,
    piece_words,
    size_words,
)
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import join_list, key_words, say


def support_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (say("support"), say("of"), say("from"), say("until"), say("pieces"), say("string"))


def supports_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print supports as lines: a table of them, one of what they take, and the cut list.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    found = supports(plan)
    lines = [say("{garden}, supports of {year}", garden=plan.garden.site.name, year=plan.year), ""]
    if not found.put_up:
        return [*lines, say("No planting has a support in {year}.", year=plan.year)]
    units = plan.garden.site.units
    names = {one.key: _of(plan, one) for one in found.put_up}
    rows = [
        (
            say(
                "{support}, {height} high",
                support=key_words(one.built.kind),
                height=show_length(one.built.height, units),
            ),
            names[one.key],
            day_cell(one.first, plan),
            day_cell(one.last, plan),
            _pieces_words(plan, one),
            show_length(one.string, units) if one.string else "-",
        )
        for one in found.put_up
    ]
    lines += aligned(support_heads(), rows, right=(5,), room=room)
    lines += ["", say("What it takes"), *material_table(plan, found.materials, names, room)]
    if found.string:
        lines.append(f"  {_string_words(plan, found)}")
    cuts = cut_lines(plan, found.materials, names)
    return [*lines, "", say("Cut list"), *cuts] if cuts else lines


def _of(plan: Plan, one: PutUp) -> str:
    return crop_words(plan, one.planting.crop, one.planting.variety, [one.bed.name])


def _pieces_words(plan: Plan, one: PutUp) -> str:
    units = plan.garden.site.units
    words = []
    for piece in one.pieces:
        size = size_words([side for side in (piece.length, piece.width) if side], units)
        words.append(piece_words(piece.kind, piece.number, size))
    return join_list(words)


def _string_words(plan: Plan, found: Supports) -> str:
    units = plan.garden.site.units
    wanted = show_length(found.string, units)
    if not found.string_in_shed:
        return say("{length} of string to get", length=wanted)
    there = show_length(min(found.string, found.string_in_shed), units)
    if not found.string_to_buy:
        return say("{length} of string, all of it on hand or ordered", length=wanted)
    return say(
        "{length} of string: {there} on hand or ordered, {rest} to get",
        length=wanted,
        there=there,
        rest=show_length(found.string_to_buy, units),
    )
