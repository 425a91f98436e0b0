"""The plan that a command works on, from the garden file, year and days of its command line."""

from __future__ import annotations

import argparse
import datetime as dt
from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.output import print_error, print_lines
from planner.words import say
from planner.words.typed_days import DayError, date_as_typed

if TYPE_CHECKING:
    from planner.plan import Plan
    from planner.season.lived.assumed import Assumed


def plan_of(args: argparse.Namespace) -> Plan:
    """Return the plan of the garden file named, in the year named or the usual one."""
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load

    garden = load(args.file)
    plan = Plan(garden, args.year if args.year is not None else usual_year(garden, dt.date.today()))
    return plan.assuming(_assumed(args, plan)) if _assumes(args) else plan


def _assumes(args: argparse.Namespace) -> bool:
    return bool(getattr(args, "warmer", None)) or getattr(args, "years_of", None) is not None


def _assumed(args: argparse.Namespace, plan: Plan) -> Assumed:
    """What the command line assumes of the recorded years."""
    from pathlib import Path

    from planner.season.lived.assumed import Assumed, checked_warmer
    from planner.storage.station_of import station_of

    station = station_of(Path(args.years_of)) if args.years_of is not None else None
    if station is None and not plan.garden.weather.years:
        raise UsageError(
            say("the garden keeps no recorded years of weather, so nothing can be assumed of them"),
            args.file,
            say("Leave --warmer out, or name a garden that keeps some with --years-of"),
        )
    return Assumed(checked_warmer(args.warmer or 0.0), station)


def print_assumption(plan: Plan) -> None:
    """Say above a list what is assumed of the recorded years."""
    from planner.listings.odds_line import assumption_line

    line = assumption_line(plan)
    if line:
        print_lines(say("{sentence}.", sentence=line), "")


#: Over the turn of a year so many days are meant at the most; of more it is said from when to when they are.
_MOST_MEANT = 183


def day_typed(plan: Plan, option: str, text: str, earliest: dt.date | None = None) -> dt.date:
    """Return the day of an option; one typed without a year is the first such day of the growing year.

    Parameters
    ----------
    plan : Plan
        Its garden's habit says which of day and month is typed first.
    option : str
        Named in the error.
    text : str
    earliest : date, optional
        A day before which one without a year is not.

    Raises
    ------
    UsageError
        Where no calendar, or no garden, has that day.
    """
    from planner.garden.units import month_first

    habit = month_first(plan.garden.site.units)
    try:
        return date_as_typed(text, earliest or plan.span.first, month_first=habit)
    except DayError as error:
        raise UsageError(error.what, option, error.fix) from None


def plan_at(args: argparse.Namespace, option: str, text: str) -> tuple[Plan, dt.date]:
    """Return the plan of the garden file named, and a day; without a year named it is the plan of that day's year.

    Parameters
    ----------
    args : argparse.Namespace
        With ``file`` and ``year``.
    option, text : str
        As for :func:`day_typed`.
    """
    from planner.plan import Plan
    from planner.season.spans import growing_year

    plan = plan_of(args)
    day = day_typed(plan, option, text)
    if args.year is None:
        plan = Plan(plan.garden, growing_year(plan.garden.site, day), assumed=plan.assumed)
    return plan, day


def plan_and_days(args: argparse.Namespace) -> tuple[Plan, dt.date, dt.date]:
    """Return the plan of the garden file named and the first and last day named.

    Days that are not named are those of the growing year; without a year named it is the one of the
    first day named.
    """
    if args.first is not None:
        plan, first = plan_at(args, "--from", args.first)
        last = plan.span.last if args.last is None else day_typed(plan, "--to", args.last, first)
        wrapped = args.last is not None and day_typed(plan, "--to", args.last) < first
        if wrapped and (last - first).days > _MOST_MEANT:
            print_error(
                say(
                    "--to {last} is before {first} in {year}: taken as {last_2}, of the year after",
                    last=args.last,
                    first=first,
                    year=plan.year,
                    last_2=last,
                )
            )
        return plan, first, last
    if args.last is not None:
        plan, last = plan_at(args, "--to", args.last)
        return plan, plan.span.first, last
    plan = plan_of(args)
    return plan, plan.span.first, plan.span.last


def paper_of(typed: str | None, plan: Plan) -> str:
    """The paper that was named, else that of the garden's units: Letter where they are feet and inches."""
    return typed or ("letter" if plan.garden.site.units == "feet_inches" else "a4")


def warn_of_unknown_crops(plan: Plan) -> None:
    """Name on standard error the crops that the catalogue does not have, and what may be meant."""
    from planner.crops.search import near

    beds: dict[str, list[str]] = {}
    for planting in plan.plantings:
        if plan.figures_of(planting).crop is None:
            beds.setdefault(planting.crop, []).append(plan.bed_of(planting).name)
    for crop, names in beds.items():
        close = near(plan.catalogue, crop, 1)
        print_error(
            say(
                "{names}: '{crop}' is not in the catalogue; did you mean '{close}'?",
                names=", ".join(dict.fromkeys(names)),
                crop=crop,
                close=close[0].key,
            )
            if close
            else say(
                "{names}: '{crop}' is not in the catalogue; bedwright crops lists what there is.",
                names=", ".join(dict.fromkeys(names)),
                crop=crop,
            )
        )


def warn_of_missing_signs(plan: Plan) -> None:
    """Say on standard error which signs of a garden's names no font has: they would be missing on paper."""
    from planner.sheets.missing_signs import missing_in, missing_words

    for words in missing_words(missing_in(plan)):
        print_error(words)


def nothing_planted(plan: Plan) -> str:
    """Say that nothing is planted in a plan's growing year, and in which years something is."""
    garden = plan.garden
    years = ", ".join(str(year) for year in garden.years())
    if not years:
        return say("{garden}: nothing is planted in {year}.", garden=garden.site.name, year=plan.year)
    return say(
        "{garden}: nothing is planted in {year}. Years with plantings: {years}.",
        garden=garden.site.name,
        year=plan.year,
        years=years,
    )
