"""What a fix gains in the recorded years: in how many fewer of them a planting is lost, and when it is first picked."""

from __future__ import annotations

from dataclasses import replace

from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.fixes import join_gains
from planner.checks.frame.odds import frosts_in_spring
from planner.checks.odds_alone import TOPIC
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.season.lived.odds import Odds
from planner.words import say_count


def with_better_odds(plan: Plan, garden: Garden, finding: Finding, fix: Fix) -> Fix:
    """A fix that says what it gains in odds; the fix itself where no years are kept, or nothing changes in them.

    Parameters
    ----------
    plan : Plan
        In which it was found.
    garden : Garden
        As the fix makes it.
    finding : Finding
    fix : Fix
    """
    key = finding.plantings[0] if finding.plantings else ""
    old, new = plan.garden.plantings_by_id.get(key), garden.plantings_by_id.get(key)
    if finding.check not in ("frost", "season", "bolting") or old is None or new is None:
        return fix
    trial = plan.what_if(garden)
    before, after = plan.odds(old), trial.odds(new)
    if before is None or after is None or not before.years or not after.years:
        return fix
    frosts = before.frost, after.frost
    if finding.topic in ("spring", TOPIC):  # which counts those of spring alone
        frosts = _frosts_in_spring(plan, old), _frosts_in_spring(trial, new)
    lost = _lost_words(finding.check, before, after, frosts)
    parts = [words for words in (lost, _first_words(before, after)) if words]
    gain = fix.gain
    for words in parts:
        gain = join_gains(gain, words)
    return replace(fix, gain=gain) if parts else fix


def _frosts_in_spring(plan: Plan, planting: Planting) -> int:
    lived, on = plan.lived(planting), plan.dates(planting).on_plot
    if lived is None or on is None:
        return 0
    return frosts_in_spring(lived, on.day, plan.garden.site.southern)


def _lost_words(check: str, before: Odds, after: Odds, frosts: tuple[int, int]) -> str:
    """How many years are lost then, and are now; empty where that is the same."""
    if check == "frost" and frosts[0] != frosts[1]:
        return say_count(
            "frost in {after} of {count} year instead of {before}",
            "frost in {after} of {count} years instead of {before}",
            after.years,
            after=frosts[1],
            before=frosts[0],
        )
    if check == "bolting" and before.seed != after.seed:
        return say_count(
            "run to seed in {after} of {count} year instead of {before}",
            "run to seed in {after} of {count} years instead of {before}",
            after.years,
            after=after.seed,
            before=before.seed,
        )
    if before.picked != after.picked and before.rests_on != "nothing":
        return say_count(
            "picked in {after} of {count} year instead of {before}",
            "picked in {after} of {count} years instead of {before}",
            after.years,
            after=after.picked,
            before=before.picked,
        )
    return ""


def _first_words(before: Odds, after: Odds) -> str:
    """By how many days the first picking of half of the years moves; empty where it does not."""
    if before.first is None or after.first is None:
        return ""
    days = (after.first.middle - before.first.middle).days
    if days > 0:
        return say_count("first picking {count} day later", "first picking {count} days later", days)
    if days < 0:
        return say_count("first picking {count} day sooner", "first picking {count} days sooner", -days)
    return ""
