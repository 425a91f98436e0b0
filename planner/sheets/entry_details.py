"""The details of a planting on its bed's sheet: labels, each with a text."""

from __future__ import annotations

from planner.amounts.raising import raised
from planner.amounts.supports import put_up
from planner.listings.odds_line import odds_line
from planner.listings.phrases import PURPOSE_WORDS
from planner.listings.yields import yield_words
from planner.sheets.material_words import (
    arch_words,
    raise_words,
    shared_cover_words,
    spread_lines,
    support_words,
)
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.sowing_words import how_words, seed_words, warnings_of
from planner.words import full_day_words, join_list, key_words, say, say_in_context


def details(printed: PrintedPlanting) -> list[tuple[str, str]]:
    """Return the labels of a planting's details with their texts; what is not known is left out."""
    planting, part, measure = printed.planting, printed.amount, printed.measure
    year = printed.plan.span.first.year
    raising = raised(printed.plan, planting)
    depth = printed.plan.figures_of(planting).number("sowing_depth")
    deep = measure.depth(depth) if depth is not None else ""
    spread = printed.year.spreads.get(planting.bed, ())
    begin = [
        (say("How"), how_words(printed.plan, part, measure)),
        (say("Seed"), seed_words(part, measure)),
        (say("Raise"), raise_words(raising, measure, year, deep) if raising is not None else ""),
    ]
    if printed.begun_before:
        first = full_day_words(printed.plan.span_of(planting).first)
        begin = [(say("How"), say("Already growing, since {day}", day=first))]
    pairs = [
        *begin,
        *((say("Cover"), text) for text in _covers(printed)),
        (say("Support"), _support(printed)),
        *(
            (say_in_context("what is spread on a plot", "Spread"), text)
            for text in spread_lines(spread, measure, printed.plan, planting.id)
        ),
        (say("Harvest"), yield_words(printed.plan, planting)),
        (say("Odds"), odds_line(printed.plan, planting)),
        (say("Use"), _use(printed)),
        (say("Tended by"), planting.tended_by),
        *((say("Warning"), text) for text in warnings_of(part, printed.dates.missing, printed.dates.doubts)),
    ]
    return [(label, text) for label, text in pairs if text]


def _use(printed: PrintedPlanting) -> str:
    planting = printed.planting
    words = [] if planting.purpose == "kitchen" else [say(PURPOSE_WORDS[planting.purpose])]
    return ", ".join([*words, planting.product] if planting.product else words)


def _covers(printed: PrintedPlanting) -> list[str]:
    """Covers with their measures; what lies over others too names them."""
    found = [
        shared_cover_words(cover, printed.planting, printed.year, printed.measure)
        for cover in printed.year.covers.get(printed.planting.id, ())
    ]
    crop = printed.plan.figures_of(printed.planting).crop
    pests = crop.cover_keeps_off.value if crop and crop.cover_keeps_off else ()
    if found and pests:
        found[-1] = say(
            "{cover}; keeps off {pests}", cover=found[-1], pests=join_list(key_words(pest) for pest in pests)
        )
    return found


def _support(printed: PrintedPlanting) -> str:
    planting, arch = printed.planting, printed.plan.arch_of(printed.planting)
    if arch is not None:
        return arch_words(arch, printed.measure)
    if planting.support is None:
        crop = printed.plan.figures_of(planting).crop
        usual = crop.support.value if crop and crop.support and crop.support.value else "none"
        if usual == "none":
            return ""
        return say("none planned; it usually has one ({support})", support=key_words(usual))
    found = put_up(printed.plan, planting)
    if found is None:
        height = printed.measure.at_least(planting.support.height)
        return say("{support}, {height} high", support=key_words(planting.support.kind), height=height)
    return support_words(found, printed.measure)
