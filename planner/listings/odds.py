"""The odds of plantings over the recorded years, as lines."""

from __future__ import annotations

from collections.abc import Sequence

from planner.garden import Planting
from planner.listings.learned import crop_name
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.plan.lived import kept_years, weather_in
from planner.season.lived.odds import Odds, half_words
from planner.season.lived.recorded_years import MOST_BRIDGED
from planner.words import day_words, join_list, say, say_count, whole_words


def odds_lines(plan: Plan, found: Sequence[tuple[Planting, Odds]], room: int | None = None) -> list[str]:
    """Print the odds of plantings as a table, with what is left out of them.

    Parameters
    ----------
    plan : Plan
        Of a garden that keeps years of weather.
    found : sequence of (Planting, Odds)
        In their order.
    room : int, optional
        Width of the table; any by default. [columns]
    """
    lines = [_head(plan)]
    if not found:
        return [*lines, "", say("Nothing is known of what stands there.")]
    heads = (
        say("planting"), say("bed"), say("picked in"), say("lost to"), say("first picking"), say("half of the years"),
        say("days of\nharvest"),
    )  # fmt: skip
    rows = [_row(plan, planting, odds) for planting, odds in found]
    return [*lines, "", *aligned(heads, rows, right=(6,), room=room), "", *_notes(plan, found)]


def _head(plan: Plan) -> str:
    garden, kept = plan.garden.site.name, kept_years(plan)
    first, last = kept.span or (0, 0)
    if kept.station:
        return say(
            "{garden}, growing year {year}, in the weather of {first} to {last} at {station}",
            garden=garden,
            year=plan.year,
            first=first,
            last=last,
            station=kept.station,
        )
    return say(
        "{garden}, growing year {year}, in the weather of {first} to {last}",
        garden=garden,
        year=plan.year,
        first=first,
        last=last,
    )


def _row(plan: Plan, planting: Planting, odds: Odds) -> tuple[str, ...]:
    name = f"{crop_name(plan, planting.crop)} {planting.variety}".strip()
    spread, days = odds.first, odds.harvest_days
    return (
        name,
        plan.bed_of(planting).name,
        picked_words(odds),
        lost_words(odds),
        day_words(spread.middle, plan.year) if spread is not None else "",
        half_words(spread) if spread is not None and odds.rests_on == "heat" else "",
        whole_words(days.middle) if days is not None and odds.picked else "",
    )


def picked_words(odds: Odds) -> str:
    """In how many years a planting is picked: ``27 of 30, small in 2``; empty where no year counts."""
    if not odds.years:
        return ""
    if odds.small:
        return say(
            "{picked} of {years}, small in {small}", picked=odds.picked, years=odds.years, small=odds.small
        )
    return say("{picked} of {years}", picked=odds.picked, years=odds.years)


def lost_words(odds: Odds) -> str:
    """What takes a planting, and in how many years: ``frost 2, seed 1``; empty where nothing does."""
    parts = []
    if odds.frost:
        parts.append(say("frost {count}", count=odds.frost))
    if odds.seed:
        parts.append(say("running to seed {count}", count=odds.seed))
    if odds.unripe:
        parts.append(say("unripe {count}", count=odds.unripe))
    if odds.cleared:
        parts.append(say("cleared unripe {count}", count=odds.cleared))
    return join_list(parts) if parts else ""


def _notes(plan: Plan, found: Sequence[tuple[Planting, Odds]]) -> list[str]:
    """What the odds rest on, and what is left out of them."""
    notes = [
        say("Odds are of the weather alone: which sort you grow, pests and care are not in them."),
    ]
    if any(odds.rests_on in ("days", "calendar") for _, odds in found):
        notes.append(
            say(
                "Where no half of the years is told, the day goes by the calendar and is the same in every year."
            )
        )
    weather = weather_in(plan)
    if weather is not None and weather.years.bridged:
        notes.append(
            say_count(
                "{count} day of the record lacked a temperature, in gaps of at most {most} days, and was bridged.",
                "{count} days of the record lacked a temperature, in gaps of at most {most} days, and were bridged.",
                weather.years.bridged,
                most=MOST_BRIDGED,
            )
        )
    gaps = {one.year for _, odds in found for one in odds.left_out if one.why == "gaps"}
    if gaps:
        notes.append(
            say(
                "Left out for some plantings, since days are missing: {years}.",
                years=join_list(str(year) for year in sorted(gaps)),
            )
        )
    if any(one.why == "record ends" for _, odds in found for one in odds.left_out):
        notes.append(say("Years in which the record ends before a planting does are left out of its odds."))
    return notes
