"""Neighbours: pairs that do each other good or harm, by the distance between their nearest stations.

The findings are the harmful pairs; the good ones are reported too where lore is included, and
:func:`pairs_of` lists both.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import shapely

from planner.checks.frame import fixes, moves, swaps
from planner.checks.frame.context import NEAR, CheckContext, Pair, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.neighbours_grades import known_from, severity
from planner.checks.neighbours_lone_rows import lone_rows
from planner.checks.neighbours_trees import near_trees
from planner.crops import Catalogue, Crop
from planner.crops.neighbours import DEFAULT_GRADES, GRADES, OF_BEDS, Between, Rule, rules_between
from planner.garden.units import show_length, show_spacing
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.sun import next_longest_day
from planner.words import capital, say, say_count, table_words

CHECK = "neighbours"
#: Fewer days side by side do nothing (practice). [days]
LEAST_DAYS = 14
#: Share of its distance within a bed over which harm reaches from bed to bed, over a path (practice).
OVER_A_PATH = 0.5
#: Days of spring before the longest. [days]
SPRING = 150
#: Days before the longest at which summer begins. [days]
SUMMER = 7


@dataclass(frozen=True, eq=False)
class Beside:
    """A rule that holds between two plantings of a plan.

    Attributes
    ----------
    rule : Rule
    pair : Pair
    distance : float
        Between their nearest stations. [m]
    on_one : bool
        Whether the first of the pair is affected.
    """

    rule: Rule
    pair: Pair
    distance: float
    on_one: bool

    @property
    def affected_first(self) -> tuple[PlantingView, PlantingView]:
        """The planting that is affected, and the other."""
        one, other = self.pair.one, self.pair.other
        return (one, other) if self.on_one else (other, one)


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings near neighbours that harm them, rows too lone for the wind, and crops near walnut trees."""
    reported: set[tuple[str, str, str]] = set()
    for beside in pairs_of(context):
        rule, pair = beside.rule, beside.pair
        case = (pair.one.id, pair.other.id, rule.effect)
        if case in reported or (rule.effect == "good" and not context.lore):
            continue
        reported.add(case)
        days = pair.days
        inputs = BesideInputs(*beside.affected_first, rule, beside.distance, days.first, days.last)
        yield context.plan.cached(beside_finding, case, inputs)
    yield from lone_rows(context)
    yield from near_trees(context)


# -- which pairs ---------------------------------------------------------------------------------


class RuleInputs(NamedTuple):
    """Two crops of a catalogue, and whether rules that are only handed down count."""

    catalogue: Catalogue
    one: Crop
    other: Crop
    lore: bool


@fact("rules of neighbours")
def rules_of_neighbours(inputs: RuleInputs) -> tuple[Between, ...]:
    """Rules that hold between two crops and have an effect at some distance, best evidence first."""
    grades = GRADES if inputs.lore else DEFAULT_GRADES
    found = rules_between(inputs.catalogue, inputs.one, inputs.other, grades)
    return tuple(between for between in found if between.rule.effect != "none" and between.rule.reach > 0)


class StationInputs(NamedTuple):
    """Two plantings."""

    one: PlantingView
    other: PlantingView


@fact("distance of stations")
def distance_of_stations(inputs: StationInputs) -> float | None:
    """Distance between the nearest stations of two plantings; None where one has none. [m]"""
    few, many = sorted((inputs.one.points, inputs.other.points), key=len)
    if not len(few):
        return None
    tree = shapely.STRtree(shapely.points(many))
    _, distance = tree.query_nearest(shapely.points(few), all_matches=False, return_distance=True)
    return float(distance.min())


def pairs_of(context: CheckContext) -> Iterator[Beside]:
    """All pairs of plantings between which a rule holds, good and bad, best evidence first in each pair."""
    plan, southern = context.plan, context.plan.garden.site.southern
    for pair in context.pairs:
        one, other = pair.one, pair.other
        if one.crop is None or other.crop is None or pair.days.days < LEAST_DAYS:
            continue
        inputs = RuleInputs(plan.catalogue, one.crop, other.crop, context.lore)
        rules = plan.cached(rules_of_neighbours, (one.crop.key, other.crop.key, context.lore), inputs)
        if not rules or pair.apart > max(between.rule.reach for between in rules):
            continue
        distance = plan.cached(distance_of_stations, (one.id, other.id), StationInputs(one, other))
        helped = any(between.rule.effect == "good" and between.rule.grade in OF_BEDS for between in rules)
        for between in rules:
            rule = between.rule
            if rule.effect == "bad" and not _does_harm(rule, pair, helped, southern):
                continue
            over_path = rule.effect == "bad" and one.bed is not other.bed
            reach = rule.reach * OVER_A_PATH if over_path else rule.reach
            if distance is not None and distance <= reach + 1e-9:
                yield Beside(rule, pair, distance, between.on_first)


def _does_harm(rule: Rule, pair: Pair, helped: bool, southern: bool) -> bool:
    """Whether a rule of harm counts for a pair, which another rule may help."""
    one, other = pair.one, pair.other
    if helped and (one.planting.shares_ground or other.planting.shares_ground):
        return False  # a mixture that is meant, and known to do good on the whole
    if rule.reach > NEAR:  # carried by the air
        # Glass keeps off what rain and wind carry, and blight comes with warm rain.
        return one.sheltered == other.sheltered and not _before_summer(pair.days, southern)
    kin = one.crop is not None and other.crop is not None and one.crop.family == other.crop.family
    return not kin or rule.grade == "trial"  # what a family shares in the soil is a matter of rotation


def _before_summer(days: Span, southern: bool) -> bool:
    """Whether days are over before summer begins."""
    longest = next_longest_day(days.first, southern)
    return (longest - days.first).days < SPRING and days.last < shift(longest, -SUMMER)


# -- a pair --------------------------------------------------------------------------------------


class BesideInputs(NamedTuple):
    """What the finding about a pair depends on.

    Attributes
    ----------
    affected, other : PlantingView
    rule : Rule
        That holds between them.
    distance : float
        Between their nearest stations. [m]
    first, last : date
        Days that they share within the growing year.
    """

    affected: PlantingView
    other: PlantingView
    rule: Rule
    distance: float
    first: dt.date
    last: dt.date


@fact("beside finding")
def beside_finding(inputs: BesideInputs) -> Finding:
    """Report two plantings that do each other good or harm."""
    affected, other, rule = inputs.affected, inputs.other, inputs.rule
    bad = rule.effect == "bad"
    days = Span(inputs.first, inputs.last)
    return planting_finding(
        CHECK,
        severity(rule),
        (affected, other),
        capital(_text(inputs, days.days)),
        _rule_text(rule, show_length(min(rule.reach, NEAR), affected.units)),
        rule.source,
        [rule.effect, rule.mechanism, round(inputs.distance, 1)],
        days,
        shapely.shortest_line(affected.plot, other.plot).buffer(0.1),
        rule.effect,
        (lambda plan: _set_apart(plan, affected.id, other.id)) if bad else (lambda plan: ()),
    )


def _text(inputs: BesideInputs, days: int) -> str:
    effect = say_count(
        "{planting} stands {distance} from {other} for {count} day: {mechanism}",
        "{planting} stands {distance} from {other} for {count} days: {mechanism}",
        days,
        planting=inputs.affected.name,
        distance=show_spacing(inputs.distance, inputs.affected.units),
        other=inputs.other.name,
        mechanism=table_words(inputs.rule.mechanism),
    )
    return known_from(inputs.rule, effect)


def _rule_text(rule: Rule, reach: str) -> str:
    if rule.effect == "bad":
        text = say(
            "Kept apart within {reach}: {mechanism}", reach=reach, mechanism=table_words(rule.mechanism)
        )
    else:
        text = say("Together within {reach}: {mechanism}", reach=reach, mechanism=table_words(rule.mechanism))
    return say("{rule} ({note})", rule=text, note=table_words(rule.note)) if rule.note else text


def _set_apart(plan: Plan, affected_id: str, other_id: str) -> Iterator[Fix]:
    affected, other = (
        planting_view(plan, plan.garden.plantings_by_id[key]) for key in (affected_id, other_id)
    )
    both_ways = ((affected, other), (other, affected))
    for one, left in both_ways:
        yield from moves.elsewhere(plan, one, say("out of reach of {crop}", crop=left.crop_name))
    for one, left in both_ways:
        yield from swaps.swapped(plan, one, say("out of reach of {crop}", crop=left.crop_name))
    if shared(affected.span, other.span) is not None:
        for one, left in both_ways:
            picked, day = one.dates.last_harvest, shift(left.span.first, LEAST_DAYS - 3)
            if picked is not None and picked.day <= day < one.span.last:
                yield fixes.clear_on(one, day, say("gone before {crop} is large", crop=left.crop_name))
    for one, left in reversed(both_ways):
        if not one.stays_for_years:
            yield fixes.remove(one, say("{crop} is undisturbed", crop=left.crop_name))
