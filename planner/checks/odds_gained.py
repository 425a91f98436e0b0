"""What a fix gains in the recorded years: in how many fewer of them a planting is lost, and when it is first picked."""

from __future__ import annotations

from dataclasses import replace

from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.fixes import join_gains
from planner.checks.frame.odds import frosts_in_spring
from planner.checks.odds_alone import TOPIC
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.season.lived.gains import first_gained, years_gained
from planner.season.lived.odds import Odds


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
    parts = [words for words in (lost, first_gained(before, after)) if words]
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
    """In how many years what the check is about comes then, and comes now; else in how many it is picked."""
    if check == "frost" and frosts[0] != frosts[1]:
        return years_gained(before, after, "frost", frosts)
    if check == "bolting" and before.seed != after.seed:
        return years_gained(before, after, "seed")
    if before.picked != after.picked and before.rests_on != "nothing":
        return years_gained(before, after, "picked")
    return ""
