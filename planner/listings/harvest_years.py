"""The spread of the harvest over the recorded years, and the worst of them for the store, in words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.amounts.harvest_years import HarvestYears
from planner.amounts.store_years import StoreYears, store_years
from planner.amounts.supply_year import CropYear
from planner.listings.odds_line import assumption_line
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.words import capital, day_words, say, say_count


def week_spread_words(plan: Plan, years: HarvestYears, week: dt.date) -> str:
    """Between which amounts most recorded years lie in a week.

    Parameters
    ----------
    plan : Plan
    years : HarvestYears
    week : date
        Its Monday.
    """
    units, (low, middle, high) = plan.garden.site.units, years.of_week(week)
    return say(
        "In 8 of 10 recorded years {low} to {high}, in half of them more than {middle}.",
        low=weight_words(low, units),
        high=weight_words(high, units),
        middle=weight_words(middle, units),
    )


def year_spread_words(plan: Plan, years: HarvestYears) -> tuple[str, ...]:
    """Between which amounts most recorded years lie, and the worst of them, as sentences."""
    units, (low, _, high), (worst, least) = plan.garden.site.units, years.total, years.worst
    return (
        say_count(
            "With the weather of {count} recorded year {low} to {high} are picked, in the worst ({year}) {least}.",
            "With the weather of {count} recorded years {low} to {high} are picked in 8 of 10, in the worst ({year}) {least}.",
            len(years.years),
            low=weight_words(low, units),
            high=weight_words(high, units),
            year=str(worst),
            least=weight_words(least, units),
        ),
    )


def low_high_words(plan: Plan) -> str:
    """What the least and the most of a week are."""
    return _assumed(
        plan, say("Low and high: in 8 of 10 recorded years what is picked in the week lies between them.")
    )


def stroke_words(plan: Plan) -> str:
    """What the strokes over a picture of weeks are."""
    return _assumed(plan, say("Strokes: what is picked in 8 of 10 recorded years lies between their ends."))


def _assumed(plan: Plan, words: str) -> str:
    assumed = assumption_line(plan)
    return say("{words} {more}.", words=words, more=assumed) if assumed else words


def worst_year_lines(plan: Plan, years: tuple[CropYear, ...]) -> Iterator[str]:
    """Say of each store what is left of it in the worst recorded year, and until when; nothing where that is as planned.

    Parameters
    ----------
    plan : Plan
    years : tuple of CropYear
    """
    found = [one for one in store_years(plan, years) if one.is_worse]
    for one in found:
        yield _worst_words(plan, one)
    assumed = assumption_line(plan)
    if found and assumed:
        yield say("{sentence}.", sentence=assumed)


def _worst_words(plan: Plan, one: StoreYears) -> str:
    units, crop, year = plan.garden.site.units, capital(one.crop.name), str(one.worst)
    planned, least = weight_words(one.planned, units), weight_words(one.least, units)
    if not one.least or one.runs_out is None:
        return say(
            "{crop}: nothing goes into store in {year} instead of {planned}",
            crop=crop,
            year=year,
            planned=planned,
        )
    out = day_words(one.runs_out, plan.year)
    if least == planned and one.planned_out is not None:
        return say(
            "{crop}: in {year} the store lasts until {day} instead of {usual}",
            crop=crop,
            year=year,
            day=out,
            usual=day_words(one.planned_out, plan.year),
        )
    if one.planned_out is None:
        return say(
            "{crop}: in {year} {least} go into store instead of {planned}, and last until {day}",
            crop=crop,
            year=year,
            least=least,
            planned=planned,
            day=out,
        )
    return say(
        "{crop}: in {year} {least} go into store instead of {planned}, and last until {day} instead of {usual}",
        crop=crop,
        year=year,
        least=least,
        planned=planned,
        day=out,
        usual=day_words(one.planned_out, plan.year),
    )
