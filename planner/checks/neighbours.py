"""Neighbours: pairs that do each other good or harm, by the distance between their nearest stations.

The findings are the harmful pairs; the good ones are told too where lore is asked for, and by
:func:`pairs_of` always.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np
import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import NEAR, CheckContext, Pair, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.phrases import many, plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.crops import Catalogue, Crop
from planner.crops.neighbours import DEFAULT_GRADES, GRADES, Between, Rule, rules_between
from planner.garden.units import show_distance, show_length, show_spacing
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.sun import next_longest_day
from planner.words import capital

CHECK = "neighbours"
#: So few days side by side do nothing (practice). [days]
LEAST_DAYS = 14
#: From bed to bed, over a path, harm reaches so much of the distance it does within a bed (practice).
OVER_A_PATH = 0.5
#: Latin names of trees that are no crops, by a word in the name of a structure.
TREES = {"walnut": "Juglans nigra"}
#: A name that leaves no doubt which of its kin the tree is; else it is a note.
SURE = ("black", "nigra")

#: Plants of a kind so near each other are one block, and so narrow a one is a row (practice). [m]
OF_A_BLOCK, ONE_ROW = 1.5, 0.25
#: Rows of a block in a bed stand as near as this. [m]
NEAR_ROWS = 0.4
#: Days of spring before the longest. [days]
SPRING = 150

_GRADE_WORDS = {"trial": "a trial", "advice": "advice", "lore": "lore, handed down and not tried"}


@dataclass(frozen=True, eq=False)
class Beside:
    """A rule that holds between two plantings of a plan."""

    rule: Rule
    pair: Pair
    distance: float
    on_one: bool


@lru_cache(maxsize=4096)
def _rules(key: tuple[str, str], lore: bool, of: CacheKey) -> tuple[Between, ...]:
    one, other = of.crops
    grades = GRADES if lore else DEFAULT_GRADES
    found = rules_between(of.catalogue, one, other, grades)
    return tuple(between for between in found if between.rule.effect != "none" and between.rule.reach > 0)


class CacheKey:
    """A catalogue and two of its plants, as one that a cache can hold."""

    def __init__(self, catalogue: Catalogue, one: Crop | str, other: Crop | str) -> None:
        self.catalogue, self.crops = catalogue, (one, other)

    def __hash__(self) -> int:
        return id(self.catalogue)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, CacheKey) and self.catalogue is other.catalogue


def _between(catalogue: Catalogue, one: Crop, other: Crop, lore: bool) -> tuple[Between, ...]:
    return _rules((one.key, other.key), lore, CacheKey(catalogue, one, other))


def pairs_of(context: CheckContext) -> Iterator[Beside]:
    """All pairs of plantings between which a rule holds, good and bad, best evidence first in each pair."""
    plan, southern = context.plan, context.plan.garden.site.southern
    for pair in context.pairs:
        one, other = pair.one, pair.other
        if one.crop is None or other.crop is None or pair.days.days < LEAST_DAYS:
            continue
        rules = _between(plan.catalogue, one.crop, other.crop, context.lore)
        if not rules or pair.apart > max(between.rule.reach for between in rules):
            continue
        distance = plan.once(
            f"nearest to {other.id}", one.id, (one, other), partial(nearest_stations, one, other)
        )
        meant = one.planting.shares_ground or other.planting.shares_ground
        kin = one.crop.family == other.crop.family
        helped = any(between.rule.effect == "good" for between in rules)
        for between in rules:
            if between.rule.effect == "bad" and meant and helped:
                continue  # a mixture that is meant, and known to do good on the whole
            by_air = between.rule.reach > NEAR
            if between.rule.effect == "bad" and kin and between.rule.grade != "trial" and not by_air:
                continue  # what a family shares in the soil is a matter of rotation
            if between.rule.effect == "bad" and by_air and one.sheltered != other.sheltered:
                continue  # glass keeps off what rain and wind carry
            if between.rule.effect == "bad" and by_air and _before_summer(pair.days, southern):
                continue  # blight comes with warm rain
            reach = between.rule.reach
            if between.rule.effect == "bad" and one.bed is not other.bed:
                reach *= OVER_A_PATH
            if distance is not None and distance <= reach + 1e-9:
                yield Beside(between.rule, pair, distance, between.on_first)


def _before_summer(days: Span, southern: bool) -> bool:
    """Whether days are over before summer begins."""
    longest = next_longest_day(days.first, southern)
    return (longest - days.first).days < SPRING and days.last < shift(longest, -7)


def nearest_stations(one: PlantingView, other: PlantingView) -> float | None:
    """Distance between the nearest stations of two plantings. [m]"""
    few, lots = sorted((one.points, other.points), key=len)
    if not len(few):
        return None
    tree = shapely.STRtree(shapely.points(lots))
    _, distance = tree.query_nearest(shapely.points(few), all_matches=False, return_distance=True)
    return float(distance.min())


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    told: set[tuple[str, str, str]] = set()
    for beside in pairs_of(context):
        effect = beside.rule.effect
        if effect == "good" and not context.lore:
            continue
        mark = (beside.pair.one.id, beside.pair.other.id, effect)
        if mark in told:
            continue
        told.add(mark)
        yield context.plan.once(
            f"beside {mark[1]} {effect} {context.lore}",
            mark[0],
            (beside.pair.one, beside.pair.other, beside.rule, context.plan.year),
            partial(_of, beside),
        )
    yield from _lone_rows(context)
    yield from _trees(context)


def _lone_rows(context: CheckContext) -> Iterator[Finding]:
    """Crops whose fruit the wind must pollinate, in a single row with none of their kind beside it."""
    for view in context.views:
        crop = view.crop
        if crop is None or crop.growth_form != "grass" or view.manure or not len(view.points):
            continue
        wind = crop.pollination is not None and crop.pollination.value == "wind"
        if not wind or crop.needs_pollination is None or not crop.needs_pollination.value:
            continue
        mates = tuple(
            other
            for other in context.views
            if other.crop is not None
            and other.id != view.id
            and other.crop.latin == crop.latin
            and shared(other.span, view.span) is not None
            and shapely.distance(other.plot, view.plot) <= OF_A_BLOCK
        )
        found = context.plan.once("lone row", view.id, (view, mates), partial(_lone_row, view, mates))
        if found is not None:
            yield found


def _lone_row(view: PlantingView, mates: tuple[PlantingView, ...]) -> Finding | None:
    points = np.concatenate([one.points for one in (view, *mates)])
    block = shapely.minimum_rotated_rectangle(shapely.multipoints(points))
    if block.geom_type == "Polygon":
        corners = shapely.get_coordinates(block)
        if float(np.hypot(*np.diff(corners[:3], axis=0).T).min()) > ONE_ROW:
            return None
    text = (
        f"{view.name} stands in one row of {many(len(points), 'plant')}: the wind carries its pollen away, and the "
        "ears fill badly"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        "What the wind pollinates stands in a block of several short rows",
        view.source("needs_pollination"),
        [len(points)],
        topic="block",
        candidates=lambda plan: _in_a_block(plan, view.id),
    )


def _in_a_block(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    arrangement = planting.arrangement
    if arrangement.kind in ("rows", "staggered"):
        between = planting_view(plan, planting).number("row_spacing") or 0.6
        for rows, spacing in ((None, between), (None, NEAR_ROWS), (2, None)):
            new = arrangement.with_(rows=rows, row_spacing=spacing)
            placed = plan.trial(planting.with_(arrangement=new))
            yield Fix(
                f"Set it in {many(placed.layout.row_count, 'row')}",
                f"{placed.plants} plants in a block",
                fixes.changed(planting, arrangement=new),
            )
    yield fixes.remove(planting_view(plan, planting), "no ground is lost to empty ears")


def _of(beside: Beside) -> Finding:
    rule, pair = beside.rule, beside.pair
    felt, other = (pair.one, pair.other) if beside.on_one else (pair.other, pair.one)
    bad = rule.effect == "bad"
    units = felt.units
    text = (
        f"{felt.name} stands {show_spacing(beside.distance, units)} from {other.name} for "
        f"{plural_days(pair.days.days)}: {rule.mechanism} (known from {_GRADE_WORDS[rule.grade]})"
    )
    severity: Severity = "mind" if bad and rule.grade == "trial" else "note"
    rule_text = f"{'Kept apart' if bad else 'Together'} within {show_length(min(rule.reach, NEAR), units)}: {rule.mechanism}"
    if rule.note:
        rule_text += f" ({rule.note})"
    return planting_finding(
        CHECK,
        severity,
        (felt, other),
        capital(text),
        rule_text,
        rule.source,
        [rule.effect, rule.mechanism, round(beside.distance, 1)],
        pair.days,
        shapely.shortest_line(felt.plot, other.plot).buffer(0.1),
        rule.effect,
        (lambda plan: _fixes(plan, felt.id, other.id)) if bad else (lambda plan: ()),
    )


def _fixes(plan: Plan, felt_id: str, other_id: str) -> Iterator[Fix]:
    felt, other = (planting_view(plan, plan.garden.plantings_by_id[key]) for key in (felt_id, other_id))
    for one, left in ((felt, other), (other, felt)):
        yield from fixes.elsewhere(plan, one, f"out of reach of {left.crop_name}")
    for one, left in ((felt, other), (other, felt)):
        yield from fixes.swapped(plan, one, f"out of reach of {left.crop_name}")
    days = shared(felt.span, other.span)
    if days is not None:
        for one, left in ((felt, other), (other, felt)):
            picked, day = one.dates.last_harvest, shift(left.span.first, LEAST_DAYS - 3)
            if picked is not None and picked.day <= day < one.span.last:
                yield fixes.clear_on(one, day, f"gone before {left.crop_name} is large")
    for one, left in ((other, felt), (felt, other)):
        if not one.stays_for_years:
            yield fixes.remove(one, f"{left.crop_name} is undisturbed")


def _trees(context: CheckContext) -> Iterator[Finding]:
    for structure in sorted(context.plan.garden.structures, key=lambda s: s.id):
        word = next((word for word in TREES if word in structure.name.casefold()), None)
        if structure.kind != "tree" or word is None or not structure.in_use(context.plan.year):
            continue
        trunk = shapely.Point(structure.outline.center)
        for view in context.views:
            if view.crop is None or not len(view.points):
                continue
            grades = GRADES if context.lore else DEFAULT_GRADES
            for between in rules_between(context.plan.catalogue, TREES[word], view.crop, grades):
                away = float(np.hypot(*(view.points - np.array([trunk.x, trunk.y])).T).min())
                if between.rule.effect == "bad" and away <= between.rule.reach:
                    yield _of_tree(view, structure.id, structure.name, between.rule, away)
                    break


def _of_tree(view: PlantingView, key: str, name: str, rule: Rule, away: float) -> Finding:
    text = (
        f"{view.name} stands {show_distance(away, view.units)} from the trunk of {name}: {rule.mechanism} "
        f"within {show_distance(rule.reach, view.units)}"
    )
    return planting_finding(
        CHECK,
        "mind" if any(word in name.casefold() for word in SURE) else "note",
        (view,),
        capital(text),
        f"{rule.mechanism} ({rule.note})",
        rule.source,
        [key, round(away, 1)],
        topic=key,
        candidates=lambda plan: _from_tree(plan, view.id),
        structures=(key,),
    )


def _from_tree(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield from fixes.elsewhere(plan, view, "farther from the tree")
    yield from fixes.swapped(plan, view, "farther from the tree")
    yield fixes.remove(view, "nothing wilts by the tree")
