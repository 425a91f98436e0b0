"""Neighbours that are no crops: trees whose roots harm what grows near them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from planner.checks.frame import fixes, moves, swaps
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.neighbours_grades import known_from, severity
from planner.crops.neighbours import DEFAULT_GRADES, GRADES, Rule, rules_between
from planner.garden import Structure
from planner.garden.units import show_distance
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.words import capital, say, table_words

CHECK = "neighbours"
#: Latin names of trees that are no crops, by a word in the name of a structure.
TREES = {"walnut": "Juglans nigra"}


def near_trees(context: CheckContext) -> Iterator[Finding]:
    """Report plantings within reach of a tree that harms them."""
    plan = context.plan
    grades = GRADES if context.lore else DEFAULT_GRADES
    for tree in sorted(plan.garden.structures, key=lambda structure: structure.id):
        latin = _latin_name(tree)
        if latin is None or not tree.in_use(plan.year):
            continue
        for view in context.views:
            if view.crop is None or not len(view.points):
                continue
            away = _distance(view, tree)
            for between in rules_between(plan.catalogue, latin, view.crop, grades):
                reach = reach_of(tree, between.rule)
                if between.rule.effect == "bad" and away <= reach:
                    yield _near_tree(view, tree, between.rule, away, reach)
                    break


def reach_of(tree: Structure, rule: Rule) -> float:
    """How far a tree does harm by a rule. [m]

    A young walnut's roots reach as far as it is high (Ohio State, HYG-1148); that of a grown tree is the rule's.  Its
    leaves fall as far as its crown spreads at least.
    """
    crown = math.sqrt(plan_polygon(tree.outline).area / math.pi)
    return min(rule.reach, max(tree.height, crown))


def _latin_name(structure: Structure) -> str | None:
    """Latin name of a tree that harms crops; None of any other structure."""
    if structure.kind != "tree":
        return None
    return next((latin for word, latin in TREES.items() if word in structure.name.casefold()), None)


def harms_crops(structure: Structure) -> bool:
    """Whether a structure is a tree whose roots harm crops, known by its name."""
    return _latin_name(structure) is not None


def _distance(view: PlantingView, tree: Structure) -> float:
    """From the trunk to the nearest of its plants. [m]"""
    return float(np.hypot(*(view.points - np.array(tree.outline.center)).T).min())


def _near_tree(view: PlantingView, tree: Structure, rule: Rule, away: float, reach: float) -> Finding:
    text = say(
        "{planting} stands {distance} from the trunk of {tree}: {mechanism} within {reach}",
        planting=view.name,
        distance=show_distance(away, view.units),
        tree=tree.name,
        mechanism=table_words(rule.mechanism),
        reach=show_distance(reach, view.units),
    )
    found = planting_finding(
        CHECK,
        severity(rule),
        (view,),
        capital(known_from(rule, text)),
        say("{rule} ({note})", rule=table_words(rule.mechanism), note=table_words(rule.note)),
        rule.source,
        [tree.id, round(away, 1)],
        topic=tree.id,
        candidates=lambda plan: _away_from_tree(plan, view.id),
        structures=(tree.id,),
    )
    return replace(found, kind="tree", cause=tree.name)


def _away_from_tree(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    gain = say("farther from the tree")
    yield from moves.elsewhere(plan, view, gain)
    yield from swaps.swapped(plan, view, gain)
    yield fixes.remove(view, say("nothing wilts by the tree"))
