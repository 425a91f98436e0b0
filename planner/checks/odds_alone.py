"""What only the recorded years tell: a planting that is lost in so many of them that it suffers, though the usual year lets it pass."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix, Severity
from planner.checks.frame.odds import (
    FEW_LOST,
    LivedYears,
    assuming,
    enough,
    frosts_in_spring,
    lived_years,
    ripening_is_known,
    seed_words,
    severity_of,
    taken_words,
)
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.lived.lived_years import FROST, Lived
from planner.season.lived.odds import Odds
from planner.season.practice import WARMING
from planner.words import capital, later, say, say_count

#: The checks that report them.
FROST_CHECK, SEASON_CHECK, BOLTING_CHECK = "frost", "season", "bolting"
#: Topic of all of them.
TOPIC = "years"
#: How grave what is reported for the sake of the years alone may be; less is not reported.
TOLD: tuple[Severity, ...] = ("stop", "mind")
#: Other starts that are tried: so many days away at the most, so many apart. [days]
MOST_TRIED, STEP = 42, 3
_RULE_FROST = later(
    "What frost takes in half of the recorded years fails as planned; in one of five it suffers"
)
_RULE_RIPE = later(
    "What is not ripe in half of the recorded years fails as planned; in one of five it suffers"
)
_RULE_SEED = later(
    "What runs to seed in half of the recorded years fails as planned; in one of five it suffers"
)
#: By so many more days it is left on its ground at the most. [days]
MOST_LONGER = 42


def is_judged(view: PlantingView, years: LivedYears) -> bool:
    """Whether a planting is judged by its odds alone: begun in this year, and nothing of its end is known yet."""
    dates = view.dates
    if not enough(years) or not view.starts_here or view.stays_for_years or dates.outcome is not None:
        return False
    first = dates.first_harvest
    return dates.start != "standing" and not (first is not None and first.origin == "done")


def judge_frost_in_years(view: PlantingView, years: LivedYears, southern: bool) -> Finding | None:
    """Report a planting that frost takes before midsummer in many years."""
    lived, odds, on = years.lived, years.odds, view.dates.on_plot
    if lived is None or odds is None or on is None or not is_judged(view, years):
        return None
    lost = frosts_in_spring(lived, on.day, southern)
    severity = severity_of(lost, odds.years)
    if severity not in TOLD:
        return None
    return planting_finding(
        FROST_CHECK,
        severity,
        (view,),
        _text(view, years, taken_words(lost, odds.years)),
        say(_RULE_FROST),
        "practice",
        [lost, odds.years],
        topic=TOPIC,
        candidates=lambda plan: _with_better_odds(plan, view.id, FROST_CHECK),
    )


def judge_ripening_in_years(view: PlantingView, years: LivedYears, southern: bool) -> Finding | None:
    """Report a planting that is not ripe in many years before frost, clearing or its year ends it."""
    lived, odds, on = years.lived, years.odds, view.dates.on_plot
    if lived is None or odds is None or on is None or not is_judged(view, years):
        return None
    if not ripening_is_known(years) or view.manure:
        return None
    lost = odds.lost - odds.seed - frosts_in_spring(lived, on.day, southern)
    severity = severity_of(lost, odds.years)
    if severity not in TOLD:
        return None
    return planting_finding(
        SEASON_CHECK,
        severity,
        (view,),
        _text(view, years, _unripe_words(odds, lost)),
        say(_RULE_RIPE),
        "practice",
        [lost, odds.years],
        topic=TOPIC,
        candidates=lambda plan: _with_better_odds(plan, view.id, SEASON_CHECK),
    )


def judge_seed_in_years(view: PlantingView, years: LivedYears) -> Finding | None:
    """Report a planting that runs to seed in many years before it is picked."""
    odds = years.odds
    if odds is None or not is_judged(view, years):
        return None
    severity = severity_of(odds.seed, odds.years)
    if severity not in TOLD:
        return None
    return planting_finding(
        BOLTING_CHECK,
        severity,
        (view,),
        _text(view, years, seed_words(odds.seed, odds.years)),
        say(_RULE_SEED),
        "practice",
        [odds.seed, odds.years],
        topic=TOPIC,
        candidates=lambda plan: _with_better_odds(plan, view.id, BOLTING_CHECK),
    )


def _unripe_words(odds: Odds, lost: int) -> str:
    """Why it is not ripe in so many years: for the most part it is cleared, or it is too late for the frost."""
    if odds.cleared > odds.lost - odds.cleared - odds.seed:
        return say_count(
            "it is cleared before it is ripe in {lost} of {count} year",
            "it is cleared before it is ripe in {lost} of {count} years",
            odds.years,
            lost=lost,
        )
    return say_count(
        "it is not ripe before the frost in {lost} of {count} year",
        "it is not ripe before the frost in {lost} of {count} years",
        odds.years,
        lost=lost,
    )


def _text(view: PlantingView, years: LivedYears, words: str) -> str:
    return capital(say("{planting}: {odds}", planting=view.name, odds=assuming(years, words)))


# -- fixes -------------------------------------------------------------------------------------


def _with_better_odds(plan: Plan, key: str, check: str) -> Iterator[Candidate]:
    """The nearest start with which few years are lost, or the best there is; then covers against frost, or a longer stay."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    trial, now = plan.what_if(plan.garden), lived_years(plan, view)
    if now.lived is None or now.odds is None:
        return
    later, sooner = range(STEP, MOST_TRIED + 1, STEP), range(-STEP, -MOST_TRIED - 1, -STEP)
    tried = {"frost": later, "season": sooner}.get(check, sorted((*later, *sooner), key=abs))
    best = now.odds.share_lost, 0
    for days in tried:
        share = _share_lost(plan, trial, key, fixes.start_on(view, shift(view.span.first, days), "").apply)
        if share is not None and share < best[0]:
            best = share, days
            if share <= FEW_LOST:
                break
    if best[1]:
        yield fixes.start_on(view, shift(view.span.first, best[1]), _moved_words(best[1]))
    if check == "frost":
        yield from _covered(view, now.lived)
    elif view.planting.last is not None:
        for more in range(7, MOST_LONGER + 1, 7):
            fix = fixes.clear_on(view, shift(view.span.last, more), say("it is picked to its end"))
            share = _share_lost(plan, trial, key, fix.apply)
            if share is not None and share <= FEW_LOST:
                yield fix
                return


def _covered(view: PlantingView, lived: Lived) -> Iterator[Fix]:
    """Covers until the last of the nights that took it in any of the years."""
    nights = lived.frost[lived.fate == FROST]
    if view.sheltered or not len(nights) or any(cover.kind in WARMING for cover in view.planting.covers):
        return
    until = shift(dt.date.fromordinal(int(nights.max())), 1)
    for kind, text in (
        ("fleece", say("Keep fleece over it until {day}", day=view.day(until))),
        ("cloche", say("Keep a cloche over it until {day}", day=view.day(until))),
    ):
        cover = {"kind": kind, "first": view.span.first, "last": until}
        covers = (*view.planting.covers, cover)
        yield Fix(text, say("it may stay as early"), fixes.changed(view.planting, covers=covers))


def _share_lost(plan: Plan, trial: Plan, key: str, edit: Callable[[Garden], Garden]) -> float | None:
    """Share of the years lost after an edit; None where it is not possible."""
    try:
        planting = edit(plan.garden).plantings_by_id[key]
    except BedwrightError:
        return None
    odds = trial.odds(planting)
    return odds.share_lost if odds is not None and odds.years else None


def _moved_words(days: int) -> str:
    if days > 0:
        return say_count("{count} day later", "{count} days later", days)
    return say_count("{count} day sooner", "{count} days sooner", -days)
