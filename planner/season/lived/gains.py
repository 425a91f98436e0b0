"""What changes in the recorded years from one way to grow a planting to another, in words."""

from __future__ import annotations

from typing import Literal

from planner.season.lived.odds import Odds
from planner.words import say, say_count

#: What is counted of the years: all that are lost, those with frost or run to seed, or those in which it is picked.
Counted = Literal["lost", "frost", "seed", "picked"]


def years_gained(before: Odds, after: Odds, counted: Counted, counts: tuple[int, int] | None = None) -> str:
    """In how many more or fewer years something comes of it; empty where that is the same.

    Parameters
    ----------
    before, after : Odds
    counted : {"lost", "frost", "seed", "picked"}
    counts : tuple of int, optional
        Years before and after, where not all of what the odds count is meant.
    """
    was, now = counts if counts is not None else (getattr(before, counted), getattr(after, counted))
    if was == now and (counts is not None or before.years == after.years):
        return ""
    words = _instead(counted, was, now, after.years)
    return words if before.years == after.years else say("{gain} of {years}", gain=words, years=before.years)


def _instead(counted: Counted, was: int, now: int, years: int) -> str:
    match counted:
        case "frost":
            return say_count(
                "frost in {after} of {count} year instead of {before}",
                "frost in {after} of {count} years instead of {before}",
                years,
                after=now,
                before=was,
            )
        case "seed":
            return say_count(
                "run to seed in {after} of {count} year instead of {before}",
                "run to seed in {after} of {count} years instead of {before}",
                years,
                after=now,
                before=was,
            )
        case "picked":
            return say_count(
                "picked in {after} of {count} year instead of {before}",
                "picked in {after} of {count} years instead of {before}",
                years,
                after=now,
                before=was,
            )
        case "lost":
            return say_count(
                "lost in {after} of {count} year instead of {before}",
                "lost in {after} of {count} years instead of {before}",
                years,
                after=now,
                before=was,
            )


def first_gained(before: Odds, after: Odds) -> str:
    """By how many days the first picking of half of the years moves; empty where it does not."""
    if before.first is None or after.first is None:
        return ""
    days = (after.first.middle - before.first.middle).days
    if days > 0:
        return say_count("first picking {count} day later", "first picking {count} days later", days)
    if days < 0:
        return say_count("first picking {count} day sooner", "first picking {count} days sooner", -days)
    return ""


def picking_gained(before: Odds, after: Odds) -> str:
    """For how many days more or less it is picked in half of the years; empty where that is the same."""
    if before.harvest_days is None or after.harvest_days is None:
        return ""
    more = round(after.harvest_days.middle - before.harvest_days.middle)
    if more > 0:
        return say_count("picked for {count} day more", "picked for {count} days more", more)
    if more < 0:
        return say_count("picked for {count} day less", "picked for {count} days less", -more)
    return ""
