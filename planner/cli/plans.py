"""The plan that a command works on, from the garden file, year and days of its command line."""

from __future__ import annotations

import argparse
import datetime as dt
from typing import TYPE_CHECKING

from planner.cli.output import print_error

if TYPE_CHECKING:
    from planner.garden import Garden
    from planner.plan import Plan


def plan_of(args: argparse.Namespace) -> Plan:
    """Return the plan of the garden file named, in the year named or the usual one."""
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load

    garden = load(args.file)
    return Plan(garden, args.year if args.year is not None else usual_year(garden, dt.date.today()))


def plan_at(args: argparse.Namespace, day: dt.date | None) -> Plan:
    """Return the plan of the garden file named; without a year named, in the one of a day.

    Parameters
    ----------
    args : argparse.Namespace
        With ``file`` and ``year``.
    day : date or None
        None where no day decides.
    """
    from planner.plan import Plan
    from planner.season.spans import growing_year

    plan = plan_of(args)
    if args.year is None and day is not None:
        plan = Plan(plan.garden, growing_year(plan.garden.site, day))
    return plan


def plan_and_days(args: argparse.Namespace) -> tuple[Plan, dt.date, dt.date]:
    """Return the plan of the garden file named and the first and last day named.

    Days that are not named are those of the growing year; without a year named it is the one of the
    first day named.
    """
    plan = plan_at(args, args.first or args.last)
    return plan, args.first or plan.span.first, args.last or plan.span.last


def warn_of_unknown_crops(plan: Plan) -> None:
    """Name on standard error the crops that the catalogue does not have, and what may be meant."""
    from planner.crops.search import near

    beds: dict[str, list[str]] = {}
    for planting in plan.plantings:
        if plan.figures_of(planting).crop is None:
            beds.setdefault(planting.crop, []).append(plan.bed_of(planting).name)
    for crop, names in beds.items():
        close = near(plan.catalogue, crop, 1)
        hint = f"did you mean '{close[0].key}'?" if close else "bedwright crops lists what there is."
        print_error(f"{', '.join(dict.fromkeys(names))}: '{crop}' is not in the catalogue; {hint}")


def years_planted(garden: Garden) -> str:
    """A sentence with the years that have plantings, a space before it; empty where none has."""
    years = ", ".join(str(year) for year in garden.years())
    return f" Years with plantings: {years}." if years else ""
