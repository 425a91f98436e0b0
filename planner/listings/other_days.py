"""What other days, sorts and shelter would do for a planting, in words."""

from __future__ import annotations

import numpy as np

from planner.plan import Plan
from planner.plan.lived_otherwise import DayCurve
from planner.season.lived.compared import BETWEEN, Compared
from planner.season.lived.even_series import Series
from planner.season.lived.gains import first_gained, picking_gained, years_gained
from planner.season.lived.odds import Odds, odds_words
from planner.season.lived.other_days import TriedDay
from planner.words import capital, day_words, join_list, later, say, say_count

#: A sort or a shelter as it is called in a table.
WAY_NAMES = {
    "early": later("an early sort"),
    "usual": later("a usual sort"),
    "late": later("a late sort"),
    BETWEEN: later("the sort it is taken for"),
    "open": later("in the open"),
    "fleece": later("under fleece"),
    "low tunnel": later("under a low tunnel"),
    "tunnel": later("in a tunnel"),
    "glasshouse": later("in a glasshouse"),
}


def way_words(compared: Compared) -> str:
    """A way to grow it; an own variety by its name, the one of the plan said so."""
    name = say(WAY_NAMES[compared.way]) if compared.way in WAY_NAMES else compared.way
    return say("{way}, as planned", way=name) if compared.as_planned else name


def tried_words(plan: Plan, one: TriedDay) -> str:
    """A day of the curve and what becomes of the planting then: ``12 May: ripens in 27 of 30 years; ...``."""
    return say("{day}: {odds}", day=day_words(one.day, plan.year), odds=odds_words(one.odds))


def curve_words(plan: Plan, curve: DayCurve) -> str:
    """What the best day would gain over the planned one, in a sentence or two.

    Parameters
    ----------
    plan : Plan
    curve : DayCurve
    """
    planned, best = curve.planned, curve.best
    if best is None:
        return say("On none of these days anything is picked of it.")
    if planned is None or not planned.odds.years:
        return say("Best begun on {day}.", day=day_words(best.day, plan.year))
    if best.day == planned.day:
        if curve.window is None:
            return say(
                "No other day does clearly better than {day}, as planned.",
                day=day_words(planned.day, plan.year),
            )
        return say(
            "Of the days on which the crop may be begun here, {first} to {last}, none does clearly better than {day}, as planned.",
            first=day_words(curve.window.first, plan.year),
            last=day_words(curve.window.last, plan.year),
            day=day_words(planned.day, plan.year),
        )
    by = (best.day - planned.day).days
    later_by = (
        say_count("{count} day later", "{count} days later", by)
        if by > 0
        else say_count("{count} day sooner", "{count} days sooner", -by)
    )
    return say(
        "Begun {days}, on {day}: {gain}.",
        days=later_by,
        day=day_words(best.day, plan.year),
        gain=gain_words(planned.odds, best.odds),
    )


def series_words(plan: Plan, series: Series, fewer: Series | None) -> str:
    """The days of an even series, and on how many days something is picked of it in the middle year.

    Parameters
    ----------
    plan : Plan
    series : Series
    fewer : Series or None
        With one sowing less, to be compared.
    """
    low, middle, high = (round(float(one)) for one in np.quantile(series.picked_days, (0.25, 0.5, 0.75)))
    parts = [
        say("Begun on {days}.", days=join_list(day_words(day, plan.year) for day in series.days)),
        say_count(
            "In the middle one of {years} years something is picked on {count} day (half of the years: {low} to {high}).",
            "In the middle one of {years} years something is picked on {count} days (half of the years: {low} to {high}).",
            middle,
            years=len(series.years),
            low=low,
            high=high,
        ),
    ]
    if fewer is not None:
        without = round(float(np.median(fewer.picked_days)))
        parts.append(
            say_count("With one start less: {count} day.", "With one start less: {count} days.", without)
        )
    return " ".join(parts)


def gain_words(before: Odds, after: Odds) -> str:
    """What changes from one way to grow a planting to another: years lost, first picking, days of picking.

    Parameters
    ----------
    before, after : Odds
    """
    if not after.picked:
        return years_gained(before, after, "lost") or say("no difference")
    parts = (
        years_gained(before, after, "lost"),
        first_gained(before, after),
        picking_gained(before, after),
    )
    return ", ".join(one for one in parts if one) or say("no difference")


def way_cells(plan: Plan, compared: Compared, planned: Odds | None) -> tuple[str, str, str, str]:
    """A way to grow it as cells: its name, years picked, first picking, and what it changes."""
    odds = compared.odds
    first = day_words(odds.first.middle, plan.year) if odds.first is not None else ""
    changes = "" if compared.as_planned or planned is None else gain_words(planned, odds)
    return (
        capital(way_words(compared)),
        say("{picked} of {years}", picked=odds.picked, years=odds.years),
        first,
        changes,
    )
