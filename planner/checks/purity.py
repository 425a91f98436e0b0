"""Seed purity: a crop grown for seed among its own kind in flower, or from too few plants.

The pollen of maize that ripens dry spoils the ears of sweet corn of the same year, whether they are for seed or not.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from typing import NamedTuple

import shapely

from planner.checks.frame import fixes, moves
from planner.checks.frame.begun import begun, in_the_ground
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.frame.published import closest_published
from planner.crops import Crop
from planner.crops.neighbours import genus
from planner.garden.units import show_distance, show_spacing
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital, later, number_words, say, say_count

CHECK = "seed purity"
#: Families whose crop is the fruit or seed: they flower before they are picked.
_FRUITING = ("Cucurbitaceae", "Fabaceae", "Solanaceae", "Malvaceae")
#: Products of which any crop flowers.
_PAST_FLOWER = ("dry seed", "flowers", "grain")
#: Products of those families that are lifted, and do not cross by flower.
_LIFTED = ("roots", "tubers")
#: Least days in flower together on which two cross. [days]
LEAST_DAYS = 5
#: Most days in the ground that count; the first flower opens after a third of them (practice). [days]
A_YEAR = 365

#: The species whose kernels are what is eaten, so that foreign pollen shows in them at once.
MAIZE = "Zea mays"
#: Share of the days from the start to the first harvest after which its crops are in silk (practice): sweet corn of 70 days
#: is picked three weeks later, in milk, popcorn of 100 days six weeks later, dry.
_SWEET_IN_SILK, _DRY_IN_SILK = 0.7, 0.58
#: Days between the silk of two kinds from which they don't meet, and their distance (practice). [days], [m]
SILK_APART, MAIZE_APART = 14, 75.0
#: Most days later that are tried. [days]
MOST_TRIED = 60

_RULE_EARS = later(
    "Sweet corn and maize that ripens dry are in silk two weeks apart, or far from each other: the pollen makes the kernel"
)
_RULE = later("Seed stays true where nothing else of its species flowers within the isolation distance")
_RULE_FEW = later("Seed of too few plants loses vigour from year to year")


class SeedPlantsInputs(NamedTuple):
    """A planting grown for seed."""

    view: PlantingView


class CrossingInputs(NamedTuple):
    """What the crossing of one planting depends on.

    Attributes
    ----------
    view : PlantingView
        Grown for seed.
    others : tuple of PlantingView
        Of its species, and of another variety or of one that is not known.
    """

    view: PlantingView
    others: tuple[PlantingView, ...]


class EarsInputs(NamedTuple):
    """Sweet corn, and the plantings of maize of the year that ripen dry."""

    view: PlantingView
    others: tuple[PlantingView, ...]


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings for seed from too few plants, or near others of their species in flower, and ears that are spoilt."""
    plan = context.plan
    maize = tuple(view for view in context.views if species(view.crop) == MAIZE and view.placed.plants)
    dry = tuple(view for view in maize if _ripens_dry(view.crop))
    for view in maize:
        if dry and not _ripens_dry(view.crop):
            ears = plan.cached(ears_finding, view.id, EarsInputs(view, dry))
            if ears is not None:
                yield ears
    told: set[frozenset[str]] = set()
    for view in context.views:
        if view.planting.purpose != "seed" or view.crop is None or not view.placed.plants:
            continue
        few = plan.cached(seed_plants_finding, view.id, SeedPlantsInputs(view))
        if few is not None:
            yield few
        kind = species(view.crop)
        others = tuple(
            other
            for other in context.views
            if other is not view
            and species(other.crop) == kind
            and not _same_variety(view, other)
            and frozenset((view.id, other.id)) not in told
        )
        crossing = plan.cached(crossing_finding, view.id, CrossingInputs(view, others))
        if crossing is not None:
            told |= {frozenset((view.id, key)) for key in crossing.plantings[1:]}
            yield crossing


def species(crop: Crop | None) -> str:
    """The first two words of the Latin name of a crop: what crosses with what."""
    if crop is None:
        return ""
    words = [word for word in crop.latin.replace("×", " ").split() if word != "x"]
    return " ".join(words[:2]) if genus(crop.latin) else ""


def _product(crop: Crop | None) -> str | None:
    product = crop.product if crop is not None else None
    return product.value if product is not None else None


def _ripens_dry(crop: Crop | None) -> bool:
    """Whether maize is grown for dry grain: popcorn, flour corn."""
    return _product(crop) == "grain"


def flowering(view: PlantingView) -> Span | None:
    """Days on which it may be in flower; None where it is picked before it flowers."""
    crop = view.crop
    if crop is None or view.manure or not view.placed.plants:
        return None
    flowers = (
        view.dates.flower is not None
        or crop.growth_form == "flower"
        or _product(crop) in _PAST_FLOWER
        or (crop.family in _FRUITING and _product(crop) not in _LIFTED)
    )
    if view.planting.purpose != "seed" and not flowers:
        return None
    if view.dates.flower is not None:
        return Span(min(view.dates.flower.day, view.span.last), view.span.last)
    days = min(view.span.days, A_YEAR)
    return Span(shift(view.span.first, days // 3), view.span.last)


def _same_variety(one: PlantingView, other: PlantingView) -> bool:
    a, b = one.planting, other.planting
    return a.crop == b.crop and a.variety.casefold() == b.variety.casefold()


# -- too few plants ------------------------------------------------------------------------------


@fact("seed plants finding")
def seed_plants_finding(inputs: SeedPlantsInputs) -> Finding | None:
    """Report a planting that gives seed from fewer plants than keep its variety sound."""
    view = inputs.view
    least = view.number("seed_plants")
    if least is None or view.placed.plants >= least:
        return None
    text = say_count(
        "{planting} gives seed from {count} plant; at least {least} keep the variety sound",
        "{planting} gives seed from {count} plants; at least {least} keep the variety sound",
        view.placed.plants,
        planting=view.name,
        least=number_words(least, 0),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE_FEW),
        view.source("seed_plants"),
        [view.placed.plants, least],
        topic="few",
        candidates=lambda plan: _enough_for_seed(plan, view.id, math.ceil(least)),
    )


def _enough_for_seed(plan: Plan, key: str, least: int) -> Iterator[Fix]:
    """Grow as many plants as keep a variety sound, if they are not in the ground yet; else save no seed."""
    planting = plan.garden.plantings_by_id[key]
    if not in_the_ground(plan, planting):
        view = planting_view(plan, planting)
        gain = say("enough to keep the variety sound")
        yield from _more_beside(plan, view, least, gain)
        yield from _set_closer(plan, view, least, gain)
    yield from _for_the_kitchen(plan, key)


def _more_beside(plan: Plan, view: PlantingView, least: int, gain: str) -> Iterator[Fix]:
    """Lengthen a stretch over free ground beside it until it holds so many plants."""
    for plot in fixes.lengthened(plan, view):
        longer = view.planting.with_(plot=plot)
        more = plan.trial(longer).plants - view.placed.plants
        if view.placed.plants + more >= least:
            text = say_count(
                "Grow {count} more plant of {crop} beside it",
                "Grow {count} more plants of {crop} beside it",
                more,
                crop=view.crop_name,
            )
            yield Fix(text, gain, fixes.changed(view.planting, plot=plot))
            return


def _set_closer(plan: Plan, view: PlantingView, least: int, gain: str) -> Iterator[Fix]:
    """Set plants in a row so near that there are so many, no nearer than their closest published spacing."""
    arrangement, closest = view.planting.arrangement, closest_published(view)
    apart = view.placed.layout.in_row_spacing
    if arrangement.kind not in ("rows", "staggered") or closest is None or apart is None:
        return
    nearest = math.ceil(100 * closest.spacing - 1e-6)
    for spacing in range(math.ceil(100 * apart - 1e-6) - 1, nearest - 1, -1):
        new = arrangement.with_(in_row_spacing=spacing / 100)
        count = plan.trial(view.planting.with_(arrangement=new)).plants
        if count >= least:
            distance = show_spacing(spacing / 100, view.units)
            text = say("Set it {distance} apart in the row", distance=distance)
            plants = say_count("{count} plant", "{count} plants", count)
            yield Fix(text, fixes.join_gains(plants, gain), fixes.changed(view.planting, arrangement=new))
            return


def _for_the_kitchen(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    gain = say("no seed is saved from it")
    yield Fix(say("Grow it to use fresh"), gain, fixes.changed(planting, purpose="kitchen"))
    yield fixes.remove(planting_view(plan, planting), gain)


# -- spoilt ears ---------------------------------------------------------------------------------


def _silk(view: PlantingView) -> dt.date | None:
    """The day on which maize is in silk; None where its harvest is not known."""
    first = view.dates.first_harvest
    if first is None:
        return None
    share = _DRY_IN_SILK if _ripens_dry(view.crop) else _SWEET_IN_SILK
    return shift(view.span.first, share * (first.day - view.span.first).days)


@fact("spoilt ears finding")
def ears_finding(inputs: EarsInputs) -> Finding | None:
    """Report sweet corn that is in silk with maize that ripens dry near it."""
    view, others = inputs
    mine = _silk(view)
    if mine is None:
        return None
    near: list[tuple[int, str, PlantingView]] = []
    for other in others:
        theirs = _silk(other)
        apart = abs((theirs - mine).days) if theirs is not None else SILK_APART
        away = float(shapely.distance(shapely.multipoints(view.points), shapely.multipoints(other.points)))
        if apart < SILK_APART and away < MAIZE_APART:
            near.append((apart, other.id, other))
    if not near:
        return None
    apart, _, other = min(near, key=lambda item: item[:2])
    text = say_count(
        "{planting} and {other} are in silk within {count} day of each other: pollen of {maize} makes its kernels hard and starchy "
        "this year already",
        "{planting} and {other} are in silk within {count} days of each other: pollen of {maize} makes its kernels hard and starchy "
        "this year already",
        max(apart, 1),
        planting=view.name,
        other=other.name,
        maize=other.crop_name,
    )
    return planting_finding(
        CHECK,
        "mind",
        (view, *(one for *_, one in sorted(near, key=lambda item: item[:2]))),
        capital(text),
        say(_RULE_EARS),
        "practice",
        [apart, len(near)],
        Span(mine, shift(mine, SILK_APART)),
        topic="ears",
        candidates=lambda plan: _silk_apart(plan, view.id, other.id, apart),
    )


def _silk_apart(plan: Plan, key: str, other_key: str, apart: int) -> Iterator[Candidate]:
    for one in (key, other_key):
        planting = plan.garden.plantings_by_id[one]
        if not begun(plan, planting):
            view = planting_view(plan, planting)
            days = (*range(SILK_APART - apart, MOST_TRIED, 3), *range(apart - SILK_APART, -MOST_TRIED, -3))
            yield other_start(view, days, lambda _: say("in silk two weeks apart"))
    for one in (other_key, key):
        view = planting_view(plan, plan.garden.plantings_by_id[one])
        yield fixes.remove(view, say("the ears stay true"))


# -- crossing ------------------------------------------------------------------------------------


@fact("crossing finding")
def crossing_finding(inputs: CrossingInputs) -> Finding | None:
    """Report a planting grown for seed within the isolation distance of others in flower at the same time."""
    view, others = inputs
    wanted, mine = view.number("isolation"), flowering(view)
    if wanted is None or mine is None:
        return None
    near = _near(view, others, mine, wanted)
    if not near:
        return None
    away, _, other, days = near[0]
    pollination = view.crop.pollination if view.crop is not None else None
    return planting_finding(
        CHECK,
        "note" if pollination is not None and pollination.value == "self" else "mind",
        (view, *(one for _, _, one, _ in near)),
        capital(_crossing(view, other, away, wanted, len(near) - 1)),
        say(_RULE),
        view.source("isolation"),
        [round(away, 1), wanted, len(near)],
        days,
        topic="crossing",
        candidates=lambda plan: _keep_apart(plan, view.id, other.id),
    )


def _near(
    view: PlantingView, others: tuple[PlantingView, ...], mine: Span, wanted: float
) -> list[tuple[float, str, PlantingView, Span]]:
    """Distance, id, view and shared days of those that may cross with it, the nearest first."""
    near: list[tuple[float, str, PlantingView, Span]] = []
    for other in others:
        theirs = flowering(other)
        days = shared(mine, theirs) if theirs is not None else None
        if days is None or days.days < LEAST_DAYS:
            continue
        away = float(shapely.distance(shapely.multipoints(view.points), shapely.multipoints(other.points)))
        if away < wanted - 1e-6:
            near.append((away, other.id, other, days))
    return sorted(near, key=lambda item: item[:2])


def _crossing(view: PlantingView, other: PlantingView, away: float, wanted: float, more: int) -> str:
    if not more:
        return say(
            "{planting} is grown for seed {distance} from {other} of the same species, in flower at the same time; "
            "{wanted} keep it true",
            planting=view.name,
            distance=show_distance(away, view.units),
            other=other.name,
            wanted=show_distance(wanted, view.units),
        )
    return say_count(
        "{planting} is grown for seed {distance} from {other} (and {count} more) of the same species, in flower at the "
        "same time; {wanted} keep it true",
        "{planting} is grown for seed {distance} from {other} (and {count} more) of the same species, in flower at the "
        "same time; {wanted} keep it true",
        more,
        planting=view.name,
        distance=show_distance(away, view.units),
        other=other.name,
        wanted=show_distance(wanted, view.units),
    )


def _keep_apart(plan: Plan, key: str, other_key: str) -> Iterator[Fix]:
    view, other = (planting_view(plan, plan.garden.plantings_by_id[one]) for one in (key, other_key))
    if not in_the_ground(plan, view.planting):
        yield from moves.elsewhere(plan, view, say("farther from {crop}", crop=other.crop_name))
    if view.planting.crop == other.planting.crop and not begun(plan, other.planting):
        yield Fix(
            say("Grow {crop} of the same variety", crop=other.crop_name),
            say("what crosses is one variety"),
            fixes.changed(other.planting, variety=view.planting.variety),
        )
    yield fixes.remove(other, say("{crop} stays true", crop=view.crop_name))
    yield from _for_the_kitchen(plan, key)
