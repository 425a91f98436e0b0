"""The ways in which a wish may be met: how it is planted, on which days, and how much of a bed it takes."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from planner.amounts.enough_for import EnoughError, enough_for
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.crops import Crop
from planner.garden import Bed, Planting, Rows, Support
from planner.garden.arrangements import Arrangement, StaggeredRows
from planner.garden.model import LEAST_SPACING
from planner.garden.wishes import Wish
from planner.ground.bed_spacing import usual_arrangement
from planner.ground.place import Placed
from planner.plan import Plan
from planner.plan.yields import YieldInputs, yield_of_planting
from planner.proposal.manure_days import covers_ground, last_sowing
from planner.proposal.strips import Strip
from planner.proposal.year_later import a_year_later
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.season.spans import Span
from planner.words import say

#: Days from one start to the next that are tried for a wish whose harvest has a day. [days]
EVERY = 5
#: Days before and after the usual season that are tried for such a wish, where none in it will do. [days]
SOONER, LATER = 30, 75
#: Days for which what stands in the ground is still there from the day on which it is wanted. [days]
STANDS_ON = 30
#: Days after its season on which hardy young plants are still set out, behind what is cleared by then (practice); not those that
#: have a head or a root to make before winter. [days]
BEHIND = (21, 42)
#: Products that are there as soon as anything grows.
GROWS_ON = ("leaves", "stalks", "shoots", "young leaves")
#: Days after the days on which a bulb is begun: in June none swells any more (practice). [days]
BULBS = 30
#: Days after the usual start that are tried where the season has no end. [days]
LONGEST = 120
#: Starts of a wish that are tried beside the usual one.
MOST_LATER = 2
#: Least days from the usual start to a later one that is worth trying. [days]
LEAST_LATER = 14
#: Less than this share of a wish is not worth a bed (practice).
LEAST_PART = 0.25
#: Supports that are built for the whole width of a bed, and those that stand where they are.
STANDING_SUPPORTS = ("arch",)


@dataclass(frozen=True)
class Wanted:
    """How much of a crop is wished, as it is measured in a bed.

    Attributes
    ----------
    amount : float
    measure : callable
        How much of that a planting gives, by how it stands.
    """

    amount: float
    measure: Callable[[Plan, Planting, Placed], float]


@dataclass(frozen=True)
class Way:
    """One way to meet a wish on one kind of ground.

    Attributes
    ----------
    number : int
        The same for the same start, whatever the ground.
    draft : Planting
        In some bed of its kind of ground; not in the garden.
    dates : Dates
    span : Span
        In which it takes its ground.
    view : PlantingView
    """

    number: int
    draft: Planting
    dates: Dates
    span: Span
    view: PlantingView


def like_of(plan: Plan, wish: Wish) -> Planting | None:
    """The planting that a wish is like; None where it names none that is there."""
    return plan.garden.plantings_by_id.get(wish.like) if wish.like else None


def base_draft(plan: Plan, wish: Wish, bed: Bed) -> Planting:
    """What would be planted for a wish in a bed, over its whole length, on its usual days.

    Parameters
    ----------
    plan : Plan
    wish : Wish
    bed : Bed
    """
    like = like_of(plan, wish)
    fields = {
        "id": wish.id,
        "bed": bed.id,
        "crop": wish.crop,
        "variety": wish.variety,
        "year": plan.year,
        "purpose": wish.purpose,
        "start": wish.start,
        "wish": wish.id,
    }
    if like is None or like.crop != wish.crop:
        plain = Planting.model_validate(fields)
        figures = plan.figures_of(plain)
        support = figures.crop.support if figures.crop is not None else None
        kind = support.value if support is not None and support.applies else None
        built = (
            Support.model_validate({"kind": kind}) if kind not in (None, "none", *STANDING_SUPPORTS) else None
        )
        by_harvest = wish.unit in ("g", "people")  # large ones, as they are reckoned with
        return plain.with_(
            arrangement=Rows() if by_harvest else usual_arrangement(bed, figures), support=built
        )
    later = a_year_later(like, wish.id, plan.span_of(like).first if like.first is not None else None)
    while later.year < plan.year:
        later = a_year_later(later, f"{wish.id}-next", later.first).with_(id=wish.id, repeats=like.id)
    fields["start"] = wish.start or like.start
    draft = later.with_(**fields, plot={"kind": "whole"}, pinned=False, shares_ground=False)
    rows = draft.arrangement
    fixed = rows.kind in ("rows", "staggered") and rows.rows is not None
    if fixed and draft.support is None and like.bed != bed.id:  # it was made for the width of its bed
        draft = draft.with_(arrangement=_in_another_bed(plan, like, bed, draft))
    if draft.arrangement.kind == "places":
        draft = draft.with_(arrangement=usual_arrangement(bed, plan.figures_of(draft)))
    if draft.support is not None and draft.support.line:
        draft = draft.with_(support=draft.support.with_(line=()))
    return draft


def _in_another_bed(plan: Plan, like: Planting, bed: Bed, draft: Planting) -> Arrangement:
    """Rows by their own spacing, as many as have room there; the usual ones where they have none."""
    rows = like.arrangement
    if not isinstance(rows, (Rows, StaggeredRows)) or rows.rows is None:
        return like.arrangement
    if rows.in_row_spacing is None and rows.row_spacing is None:
        return usual_arrangement(bed, plan.figures_of(draft))
    apart = rows.row_spacing
    placed = plan.placed(like)
    if apart is None and rows.rows > 1 and placed.layout.row_length:
        apart = max(LEAST_SPACING, placed.area / placed.layout.row_length)  # as they shared its width
    return rows.with_(rows=None, row_spacing=apart)


def ways_of(plan: Plan, wish: Wish, bed: Bed) -> tuple[Way, ...]:
    """The ways to meet a wish in a bed: on its usual days, later, or by the days that are wished.

    Parameters
    ----------
    plan : Plan
    wish : Wish
    bed : Bed
        One for all of its kind of ground.
    """
    draft = base_draft(plan, wish, bed)
    crop = plan.figures_of(draft).crop
    if crop is None:
        return ()
    found = _ways_to_start(plan, wish, draft, crop)
    if not found and wish.start is None and crop.starts is not None:
        others = [
            one for one in crop.starts.value or () if one != plan.dates(draft).start and one != "standing"
        ]
        for start in others:
            found = found or _ways_to_start(plan, wish, draft.with_(start=start), crop)
    return found


def _ways_to_start(plan: Plan, wish: Wish, draft: Planting, crop: Crop) -> tuple[Way, ...]:
    """The ways to meet a wish that start as a draft does."""
    usual = _way(plan, draft, 0)
    found = [usual] if _in_time(wish, usual) and usual.dates.ripens else []
    pins = draft.pinned_dates
    if any(getattr(pins, name) is not None for name in type(pins).model_fields):
        return tuple(found)
    tried: list[Way] = []
    for days in _other_days(plan, wish, draft, crop, usual):
        for day in days:
            way = _way(plan, _begun_on(draft, day, usual.span.first), len(tried) + 1)
            covers = not _is_manure(draft, crop) or covers_ground(plan, way.view)
            if _in_time(wish, way) and way.dates.ripens and covers:
                tried.append(way)
        if found or tried:
            break
    if len(tried) > MOST_LATER:
        tried = (
            [tried[len(tried) // 2], tried[-1]] if found else [tried[0], tried[len(tried) // 2], tried[-1]]
        )
    return (*found, *tried)


def _way(plan: Plan, draft: Planting, number: int) -> Way:
    view = planting_view(plan, draft)
    return Way(number, draft, view.dates, view.span, view)


def _begun_on(draft: Planting, day: dt.date, usual: dt.date) -> Planting:
    """A draft that takes its ground on another day; its last day and its covers, where given by hand, go along."""
    moved = day - usual
    return draft.with_(
        first=day,
        last=draft.last + moved if draft.last is not None else None,
        covers=tuple(
            cover.with_(
                first=cover.first + moved if cover.first is not None else None,
                last=cover.last + moved if cover.last is not None else None,
            )
            for cover in draft.covers
        ),
    )


def _other_days(
    plan: Plan, wish: Wish, draft: Planting, crop: Crop, usual: Way
) -> Iterator[Iterable[dt.date]]:
    """First days on its ground that are tried beside the usual one, in order; the next of them where none of the first will do."""
    day, start = usual.span.first, draft.start or ""
    season = plan.outer_window(crop, start)
    if wish.earliest is not None or wish.latest is not None:
        first, last = season if season is not None else (day, shift(day, LONGEST))
        yield [one for one in _every(first, last) if one != day]
        tender = usual.view.tender or usual.view.tender_shoots
        soonest = first if tender else shift(first, -SOONER)
        yield [one for one in _every(soonest, shift(last, LATER)) if not first <= one <= last]
    elif _is_manure(draft, crop):
        # Behind what is cleared in the meantime, as long as it still covers the ground: most have no season of their own.
        latest = last_sowing(plan, usual.view)
        yield _thirds(shift(day, LEAST_LATER), latest) if latest is not None else ()
    elif season is not None and not usual.view.shelter:
        begin, last = max(season.first, shift(day, LEAST_LATER)), season.last
        good = [one for one in _thirds(begin, last) if plan.dates_begun_on(crop, start, one)[1]]
        days = [good[len(good) // 2], good[-1]] if good else []
        grows_on = crop.product is not None and crop.product.value in GROWS_ON
        if usual.dates.start in ("raised", "bought") and not usual.view.tender and grows_on:
            days += [shift(last, behind) for behind in BEHIND]
        bulb = crop.product is not None and crop.product.value == "bulbs"
        yield dict.fromkeys(one for one in days if not bulb or one <= shift(day, BULBS))


def _is_manure(draft: Planting, crop: Crop) -> bool:
    return draft.purpose == "green manure" or (
        crop.product is not None and crop.product.value == "green manure"
    )


def _thirds(first: dt.date, last: dt.date) -> list[dt.date]:
    """The ends of some days and two days between; none where the last is before the first."""
    days = (last - first).days
    return sorted({first + dt.timedelta(days=days * part // 3) for part in range(4)}) if days >= 0 else []


def _every(first: dt.date, last: dt.date) -> Iterator[dt.date]:
    """Days from a first to a last, some days apart."""
    while first <= last:
        yield first
        first = shift(first, EVERY)


def _in_time(wish: Wish, way: Way) -> bool:
    """Whether it is picked on the days that are wished; what stands in the ground may be ripe before.

    One whose harvest is not known counts as in time.
    """
    first, last = way.dates.first_harvest, way.dates.last_harvest
    if first is None:
        return True
    if wish.latest and first.day > wish.latest:
        return False
    if not wish.earliest or first.day >= wish.earliest:
        return True
    ends = way.view.crop.harvest_ends if way.view.crop is not None else None
    stands = ends is not None and ends.value == "stands"
    return stands and last is not None and last.day >= shift(wish.earliest, STANDS_ON)


# -- how much ----------------------------------------------------------------------------------------


def wanted_of(plan: Plan, wish: Wish) -> Wanted | None:
    """How much is wished; None where that is not known.

    Parameters
    ----------
    plan : Plan
    wish : Wish

    Raises
    ------
    EnoughError
        Where it is wished for people, and what they need of it is not known.
    """
    if wish.amount is None:
        like = like_of(plan, wish)
        plants = plan.placed(like).plants if like is not None else 0
        return Wanted(plants, _plants) if plants else None
    match wish.unit:
        case "plants":
            return Wanted(math.ceil(wish.amount - 1e-9), _plants)
        case "m":
            return Wanted(wish.amount, _row)
        case "m2":
            return Wanted(wish.amount, _area)
        case "g":
            return Wanted(wish.amount, _grams)
    return Wanted(_grams_for(plan, wish), _grams)


def wanted_part(wish: Wish, wanted: Wanted, parts: int) -> Wanted:
    """How much is wanted of each of so many equal parts: whole plants.

    Parameters
    ----------
    wish : Wish
    wanted : Wanted
        Of the whole wish.
    parts : int
    """
    each = wanted.amount / parts
    return replace(wanted, amount=math.ceil(each - 1e-9) if wish.unit == "plants" else each)


def may_be_met_in_part(wish: Wish, wanted: Wanted | None) -> bool:
    """Whether less of a wish may be planted: where it says so, and there is a part to be had of it.

    Seed is saved from as many plants as it takes (practice).

    Parameters
    ----------
    wish : Wish
    wanted : Wanted or None
    """
    if not wish.in_part or wanted is None or wish.purpose == "seed":
        return False
    return wanted.amount >= 2 or not counts_plants(wish)


def counts_plants(wish: Wish) -> bool:
    """Whether a wish is counted in plants."""
    return wish.unit == "plants" or wish.amount is None


def _grams_for(plan: Plan, wish: Wish) -> float:
    crop = plan.catalogue.get(wish.crop)
    if crop is None:
        raise EnoughError(say("how much of {crop} a person eats is not known", crop=wish.crop))
    until = wish.until or shift(plan.span.last, 365)
    return enough_for(plan, crop, wish.amount or 1.0, until, purpose=wish.purpose).needed.grams


def _plants(plan: Plan, planting: Planting, placed: Placed) -> float:
    return placed.plants


def _row(plan: Plan, planting: Planting, placed: Placed) -> float:
    return placed.layout.row_length


def _area(plan: Plan, planting: Planting, placed: Placed) -> float:
    return placed.area


def _grams(plan: Plan, planting: Planting, placed: Placed) -> float:
    return yield_of_planting(YieldInputs(planting, plan.figures_of(planting), placed)).grams or 0


def shortest(
    plan: Plan,
    draft: Planting,
    strip: Strip,
    wanted: Wanted,
    start: int = 0,
    known: dict[int, float] | None = None,
) -> int | None:
    """Fewest steps of a bed, from one on, in which as much of a planting has room as is wanted; None where it has not.

    The real rows and stations are laid out: their number is not that of an area.

    Parameters
    ----------
    plan : Plan
    draft : Planting
    strip : Strip
    wanted : Wanted
    start : int
        Step from which it is to lie.
    known : dict, optional
        How much lengths from that step on hold, as far as it is known; what is counted is added.
    """
    most = strip.length - start
    known = known if known is not None else {}

    def held(length: int) -> float:
        if length not in known:
            planting = draft.with_(bed=strip.bed.id, plot=strip.plot(start, length))
            known[length] = wanted.measure(plan, planting, plan.trial(planting))
        return known[length]

    enough = wanted.amount * (1 - 1e-6)
    if most <= 0 or held(most) < enough:
        return None
    low, high, before = 0, most, 0.0  # too short, and long enough
    while high - low > 1:
        share = (enough - before) / max(held(high) - before, 1e-9)
        guess = min(high - 1, max(low + 1, low + math.ceil((high - low) * share)))
        if held(guess) >= enough:
            high = guess
        else:
            low, before = guess, held(guess)
    return high
