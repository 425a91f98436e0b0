"""Wishes for the next growing year, from what this one brought."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planner.amounts.begun import begun_in_year
from planner.amounts.closing import gaps_of
from planner.amounts.supply_year import CropYear, crop_years
from planner.garden import Planting
from planner.garden.planting import Purpose
from planner.garden.records import PickedRecord
from planner.garden.units import show_mass
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.words import day_words, join_list, say

#: Nothing is wished more, or less, than so many times what was grown (practice).
MOST_MORE, LEAST_LESS = 2.0, 0.5
#: What is eaten; of all else as much is wished as there was.
_EATEN: tuple[Purpose, ...] = ("kitchen", "store", "bottling", "drying", "freezing")


class _Kind(NamedTuple):
    """What is wished together: a variety of a crop for one purpose."""

    crop: str
    variety: str
    purpose: Purpose


def wishes_from(plan: Plan) -> tuple[Wish, ...]:
    """Wishes for the next growing year: what was begun in this one, more of what lacked and less of what spoiled.

    The number of plants is what was planted.  Of what is stored or preserved it is times what was wanted over what was there
    where the household lacked some: gaps of what is eaten fresh are closed by other days, not by more of it.  Where some
    spoiled, or was given away, there is less of it.  At most it is doubled, at least halved.  A planting that was sown anew
    counts once; green manure goes by its area.  Ids are those of no garden.

    Parameters
    ----------
    plan : Plan
        Of the growing year that ends.
    """
    groups: dict[_Kind, list[Planting]] = {}
    for planting in begun_in_year(plan):
        if plan.dates(planting).stays_for_years:
            continue
        groups.setdefault(_Kind(planting.crop, planting.variety, planting.purpose), []).append(planting)
    years = {crop: year for year in crop_years(plan) for crop in year.appetite.crops}
    found: list[Wish] = []
    for kind, plantings in sorted(groups.items()):
        outcomes = {one.id: plan.garden.outcome(one) for one in plantings}
        counted = [one for one in plantings if (out := outcomes[one.id]) is None or out.why != "resown"]
        counted = counted or plantings
        plants = sum(plan.placed(one).plants for one in counted)
        area = sum(plan.placed(one).area for one in counted)
        factor, why = _more_or_less(plan, kind, years.get(kind.crop), plantings)
        by_area = kind.purpose == "green manure"
        reasons = [*why, *_picked(plan, plantings), *_lost(plan, plantings)]
        found.append(
            Wish(
                id=f"w{len(found) + 1}",
                year=plan.year + 1,
                crop=kind.crop,
                variety=kind.variety,
                amount=round(area, 2) or None if by_area else math.ceil(plants * factor - 1e-9) or None,
                unit="m2" if by_area else "plants",
                purpose=kind.purpose,
                reason="; ".join(reasons),
            )
        )
    return tuple(found)


def _more_or_less(
    plan: Plan, kind: _Kind, year: CropYear | None, plantings: Sequence[Planting]
) -> tuple[float, list[str]]:
    """How many times as much is wished of a crop, and why."""
    whole, given = _picked_and_given(plan, plantings)
    if given:  # its own words say how much
        return max(LEAST_LESS, 1 - given / whole), []
    if year is None or year.course is None or kind.purpose not in _EATEN:
        return 1.0, []
    there = sum(one.within(plan.span) for one in year.harvests)
    units = plan.garden.site.units
    gaps = gaps_of(plan, year)
    lack = sum(gap.grams for gap in gaps)
    if there and lack and kind.purpose != "kitchen":
        words = say(
            "{amount} lacked from {day} on",
            amount=show_mass(lack, units),
            day=day_words(gaps[0].first),
        )
        return min(MOST_MORE, 1 + lack / there), [words]
    spoilt = sum(glut.grams for glut in year.gluts)
    if there and spoilt:
        words = say("{amount} of {all} spoiled", amount=show_mass(spoilt, units), all=show_mass(there, units))
        return max(LEAST_LESS, 1 - spoilt / there), [words]
    return 1.0, []


def _picked_and_given(plan: Plan, plantings: Iterable[Planting]) -> tuple[float, float]:
    """What was really picked, and how much of it was given away or fed to animals. [g]"""
    picked = [
        one
        for planting in plantings
        for one in plan.garden.records_of(planting.id)
        if isinstance(one, PickedRecord) and one.amount.unit == "g"
    ]
    given = sum(one.amount.value for one in picked if one.picked_for in ("given away", "fed to animals"))
    return sum(one.amount.value for one in picked), given


def _picked(plan: Plan, plantings: Iterable[Planting]) -> list[str]:
    """What was really picked, and how much of it was not kept, in words."""
    units, (whole, given) = plan.garden.site.units, _picked_and_given(plan, plantings)
    if not whole:
        return []
    if given:
        return [
            say(
                "{amount} picked, {given} of it given away or fed to animals",
                amount=show_mass(whole, units),
                given=show_mass(given, units),
            )
        ]
    return [say("{amount} picked", amount=show_mass(whole, units))]


def _lost(plan: Plan, plantings: Sequence[Planting]) -> list[str]:
    """Beds in which it was lost, and when."""
    lost = [
        say("{bed} on {day}", bed=plan.bed_of(one).name, day=day_words(outcome.day))
        for one in plantings
        if (outcome := plan.garden.outcome(one)) is not None
        and outcome.lost
        and not _picked_and_given(plan, [one])[0]  # what was picked of before it ended was not lost
    ]
    return [say("lost in {places}", places=join_list(lost))] if lost else []
