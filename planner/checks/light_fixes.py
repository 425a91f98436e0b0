"""Edits that give plantings more direct sun."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from planner.checks.frame import fixes, moves, swaps
from planner.checks.frame.finding import Fix
from planner.checks.frame.planting_view import planting_view
from planner.checks.light_measure import growing_days, measured
from planner.light import SunHours
from planner.plan import Plan
from planner.words import capital, join_list, number_words, percent, say

#: Least gain that counts: the sky is not more exact than this. [h]
LEAST_GAIN = 0.5


def move_into_light(plan: Plan, keys: Sequence[str], shading: Sequence[str]) -> Iterator[Fix]:
    """Other plots for plantings that lack sun, or for those that take it; the brightest first.

    Parameters
    ----------
    plan : Plan
    keys : sequence of str
        Ids of the plantings that lack sun.
    shading : sequence of str
        Ids of what takes it.
    """
    before = _light_of(plan, keys)
    tried = list(_in_other_order(plan, keys, shading))
    for key in (*shading, *keys):
        planting = plan.garden.plantings_by_id.get(key)
        if planting is not None and not planting.pinned:
            view = planting_view(plan, planting)
            tried += moves.elsewhere(plan, view, "")
            tried += swaps.swapped(plan, view, "")
            tried += swaps.beds_swapped(plan, view, "")
    found: list[tuple[float, int, Fix]] = []
    for number, fix in enumerate(tried):
        after = _light_of(plan.what_if(fix.apply(plan.garden)), keys)
        if all(key in after and _brightens(before[key], after[key]) for key in keys):
            names = {key: planting_view(plan, plan.garden.plantings_by_id[key]).crop_name for key in keys}
            gain = capital(join_list(_gain_words(names[key], before[key], after[key]) for key in keys))
            gained = round(2 * sum(after[key].weighed - before[key].weighed for key in keys)) / 2
            found.append((-gained, number, replace(fix, gain=fixes.join_gains(gain, fix.gain))))
    for _, _, fix in sorted(found, key=lambda item: item[:2]):
        yield fix


def _in_other_order(plan: Plan, keys: Sequence[str], shading: Sequence[str]) -> Iterator[Fix]:
    """The tall and the low of one bed in the other order: the tall ones away from the sun."""
    plantings = plan.garden.plantings_by_id
    for tall in shading:
        for low in keys:
            if tall in plantings and low in plantings:
                one, other = planting_view(plan, plantings[tall]), planting_view(plan, plantings[low])
                yield from swaps.in_other_order(plan, one, other)


def _light_of(plan: Plan, keys: Iterable[str]) -> dict[str, SunHours]:
    """Light of some plantings by their ids; those with too few growing days are left out."""
    views = [planting_view(plan, plan.garden.plantings_by_id[key]) for key in keys]
    judged = [(view, days) for view in views if (days := growing_days(plan, view)) is not None]
    return measured(plan, judged)


def _brightens(before: SunHours, after: SunHours) -> bool:
    """Whether a planting has clearly more sun than before."""
    return after.hours > before.hours + LEAST_GAIN or after.weighed > before.weighed + LEAST_GAIN


def _gain_words(crop: str, before: SunHours, after: SunHours) -> str:
    """How much more sun a crop has after a fix."""
    if after.hours > before.hours + LEAST_GAIN:
        return say(
            "{crop} has {hours} h of sun a day instead of {before} h",
            crop=crop,
            hours=number_words(after.hours, 1),
            before=number_words(before.hours, 1),
        )
    shares = [percent(sun.weighed / max(sun.unshaded, 1e-9)) for sun in (after, before)]
    return say(
        "{crop} has {share} of the sun of an open place instead of {before}",
        crop=crop,
        share=shares[0],
        before=shares[1],
    )
