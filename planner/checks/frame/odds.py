"""Findings that speak in odds: in how many of the recorded years what they fear happened, and how grave that makes them."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from planner.checks.frame.finding import SEVERITIES, Finding, Severity
from planner.checks.frame.planting_view import PlantingView
from planner.plan import Plan
from planner.season.lived.assumed import assumed_words
from planner.season.lived.lived_years import FROST, Lived
from planner.season.lived.odds import Odds
from planner.sun import next_longest_day
from planner.words import say, say_count

#: Fewest recorded years by which a finding is judged; by fewer they are told only (practice).
ENOUGH_YEARS = 10
#: Share of the years lost from which a planting fails as planned, and from which it suffers; fewer are information (practice).
FAILS_FROM, SUFFERS_FROM = 0.5, 0.2
#: Share of the years lost up to which another day is offered where no share is small (practice).
FEW_LOST = 0.1


class LivedYears(NamedTuple):
    """A planting lived through the recorded years, as the checks read it.

    Attributes
    ----------
    lived : Lived or None
        None where no years are kept, or nothing is known of the planting.
    odds : Odds or None
    assumed : str
        What the view assumes of the years, in words; empty where nothing.
    """

    lived: Lived | None = None
    odds: Odds | None = None
    assumed: str = ""


def lived_years(plan: Plan, view: PlantingView) -> LivedYears:
    """A planting lived through the recorded years.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    """
    lived = plan.lived(view.planting) if plan.recorded is not None else None
    if lived is None or not len(lived.years):
        return NO_YEARS
    return LivedYears(lived, plan.odds(view.planting), assumed_words(plan.assumed, view.units))


NO_YEARS = LivedYears()


def severity_of(lost: int, years: int) -> Severity:
    """How grave it is that so many of some recorded years are lost.

    Examples
    --------
    >>> severity_of(15, 30), severity_of(6, 30), severity_of(5, 30)
    ('stop', 'mind', 'note')
    """
    share = lost / years
    return "stop" if share >= FAILS_FROM else "mind" if share >= SUFFERS_FROM else "note"


def enough(years: LivedYears) -> bool:
    """Whether so many years are recorded that a planting is judged by them."""
    return years.odds is not None and years.odds.years >= ENOUGH_YEARS


def ripening_is_known(years: LivedYears) -> bool:
    """Whether it is known from the warmth of each year when it ripens."""
    return years.odds is not None and years.odds.rests_on == "heat"


def frosts_in_spring(lived: Lived, out: dt.date, southern: bool) -> int:
    """Years in which frost takes a planting before the longest day that follows the day it is out."""
    midsummer = next_longest_day(out, southern).toordinal()
    return int(np.count_nonzero((lived.fate == FROST) & (lived.frost <= midsummer)))


def frosts_by(lived: Lived, day: dt.date) -> int:
    """Years in which a night has killed it by a day."""
    return int(np.count_nonzero(lived.frost <= day.toordinal()))


# -- words -------------------------------------------------------------------------------------


def taken_words(count: int, years: int) -> str:
    """In how many years frost takes it."""
    return say_count(
        "frost takes it in {frost} of {count} year", "frost takes it in {frost} of {count} years", years, frost=count
    )  # fmt: skip


def ended_words(count: int, years: int) -> str:
    """In how many years frost has ended it by then."""
    return say_count(
        "frost has ended it by then in {frost} of {count} year",
        "frost has ended it by then in {frost} of {count} years",
        years,
        frost=count,
    )


def blossom_words(count: int, years: int) -> str:
    """In how many years frost takes its blossom."""
    return say_count(
        "frost takes its blossom in {frost} of {count} year",
        "frost takes its blossom in {frost} of {count} years",
        years,
        frost=count,
    )


def ripe_words(picked: int, years: int) -> str:
    """In how many years it ripens."""
    return say_count(
        "it ripens in {picked} of {count} year", "it ripens in {picked} of {count} years", years, picked=picked
    )  # fmt: skip


def seed_words(count: int, years: int) -> str:
    """In how many years it runs to seed first."""
    return say_count(
        "it runs to seed first in {seed} of {count} year",
        "it runs to seed first in {seed} of {count} years",
        years,
        seed=count,
    )


def assuming(years: LivedYears, text: str) -> str:
    """Odds with what is assumed of the years."""
    return say("{assumption}, {odds}", assumption=years.assumed, odds=text) if years.assumed else text


def with_odds(finding: Finding, years: LivedYears, text: str, lost: int | None) -> Finding:
    """A finding that says the odds of what it fears, and is as grave as they are.

    Parameters
    ----------
    finding : Finding
    years : LivedYears
        With odds.
    text : str
        The odds in words.
    lost : int or None
        Years lost; None where the odds do not decide how grave it is.
    """
    assert years.odds is not None
    said = say("{finding}; {odds}", finding=finding.text, odds=assuming(years, text))
    if lost is None or not enough(years):
        return replace(finding, text=said)
    severity = severity_of(lost, years.odds.years)
    graver = SEVERITIES.index(severity) < SEVERITIES.index(finding.severity)
    return replace(
        finding,
        text=said,
        severity=severity,
        # What was waived when it was less grave is told again.
        key="-".join((finding.key, severity)) if graver else finding.key,
    )
