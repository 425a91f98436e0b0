"""The harvest of a growing year: each planting's yield on its days of picking, and how long it keeps."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from planner.amounts.eating import FRESH, STORED
from planner.amounts.larder import Lot
from planner.amounts.picking import Pick, Picking, by_week, picking_of, share_left
from planner.amounts.store_places import Kept, best_place
from planner.amounts.yields import missing_of_loss, planting_yield
from planner.crops.figures import ESTIMATE
from planner.garden import Bed, Planting
from planner.garden.harm_words import loss_words
from planner.garden.household import StorePlace
from planner.garden.planting_figures import PlantingFigures
from planner.garden.site import UnitSystem
from planner.garden.weight_words import weight_words
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.survival import WHOLE, Survival
from planner.plan.yields import NOT_EATEN, Yield
from planner.season.frosts import shift
from planner.season.keeping import Grown, Keeping, frost_after, how_long_it_keeps
from planner.season.planting_dates import Dates
from planner.season.spans import Span
from planner.season.tasks import monday
from planner.words import day_words, say

#: Days from Monday in which what is picked is one lot; the rest of the week is another (practice). [days]
HALF_A_WEEK = 3
#: Days for which preserved harvests keep, by purpose: bottled and dried a year, frozen eight to twelve months (estimate).
PRESERVED = {"bottling": 365, "freezing": 300, "drying": 365}
#: Share of its weight that is left of what is dried, by product: fresh leaves are four fifths of water, fruit nine tenths
#: (estimate, from the water in fresh vegetables).  What is harvested dry loses nothing.
LEFT_DRY = {
    "leaves": 0.2, "young leaves": 0.2, "shoots": 0.2, "flowers": 0.2, "buds": 0.2, "fruit": 0.12, "green fruit": 0.12,
    "pods": 0.12, "green seed": 0.25, "roots": 0.15, "tubers": 0.25, "bulbs": 0.15, "stalks": 0.1, "heads": 0.1,
}  # fmt: skip
#: What those are kept in: words of :attr:`planner.amounts.larder.Lot.place`.
PRESERVED_IN = {"bottling": "jars", "freezing": "freezer", "drying": "dried"}
#: Where a harvest is until it is brought in, where it is eaten fresh, and where it keeps if the garden has no place for it.
PLOT, FRESH_PLACE, AS_WANTED = "plot", "fresh", "store"


@dataclass(frozen=True)
class Harvest:
    """What one planting gives.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    crop, variety : str
        As shown.
    amount : Yield
    picking : Picking or None
        None where no harvest is known.
    picks : tuple of Pick
        Empty where the yield is not known.  They add up to the yield without what is lost.
    kept : Kept or None
        Of what is picked on the last day; None where nothing is known of its keeping.
    keeping : Keeping or None
        The same as its figures and its growing say, wherever it is kept.
    lots : tuple of Lot
    missing : str
        Why nothing, or nothing in grams, is known of it, a sentence without a full stop; else empty.
    """

    planting: Planting
    bed: Bed
    crop: str
    variety: str
    amount: Yield
    picking: Picking | None = None
    picks: tuple[Pick, ...] = ()
    kept: Kept | None = None
    keeping: Keeping | None = None
    lots: tuple[Lot, ...] = ()
    missing: str = ""

    @property
    def picked(self) -> int:
        """What is picked in all, also in other growing years. [g]"""
        return sum(pick.grams for pick in self.picks)

    @property
    def lost(self) -> int:
        """What of the yield would come after frost or clearing has ended it. [g]"""
        return (self.amount.grams or 0) - self.picked if self.picks else 0

    @property
    def stored(self) -> bool:
        """Whether it is for the store: lifted for it or preserved, or kept for months."""
        return any(lot.place not in (FRESH_PLACE, PLOT) for lot in self.lots)

    def weeks(self, span: Span) -> Mapping[dt.date, int]:
        """Grams by the Monday of each week with a picking in a span. [g]"""
        if self._lies_in(span):
            return self._all_weeks
        return by_week(pick for pick in self.picks if span.holds(pick.day))

    def within(self, span: Span) -> int:
        """Grams picked in a span. [g]"""
        if self._lies_in(span):
            return sum(self._all_weeks.values())
        return sum(pick.grams for pick in self.picks if span.holds(pick.day))

    def _lies_in(self, span: Span) -> bool:
        return not self.picks or (span.holds(self.picks[0].day) and span.holds(self.picks[-1].day))

    @lazy_property
    def _all_weeks(self) -> Mapping[dt.date, int]:
        return by_week(self.picks)


class HarvestInputs(NamedTuple):
    """What the harvest of a planting depends on."""

    planting: Planting
    bed: Bed
    figures: PlantingFigures
    dates: Dates
    span: Span
    amount: Yield
    frost: dt.date | None
    places: tuple[StorePlace, ...]
    lives: Survival = WHOLE
    lost: LostHarvest | None = None


class LostHarvest(NamedTuple):
    """A planting of which nothing is left: when it was lost, to what, and what is missing of it. [g]"""

    day: dt.date
    cause: str
    missing: int | None
    units: UnitSystem


def _lost_harvest(plan: Plan, planting: Planting, lives: Survival) -> LostHarvest | None:
    """What was lost of a planting of which nothing is left; None of any other."""
    outcome = plan.garden.outcome(planting)
    if outcome is not None:
        day, why = (outcome.day, outcome.why) if outcome.lost else (None, "")
    else:
        day, why = (lives.steps[-1].day if lives.steps and lives.left == 0 else None), ""
    if day is None:
        return None
    cause = loss_words(plan.garden.records_of(planting.id), why) if why != "resown" else say("sown anew")
    return LostHarvest(day, cause, missing_of_loss(plan, planting), plan.garden.site.units)


def harvest(plan: Plan, planting: Planting) -> Harvest:
    """The harvest of a planting; of what stays for years that of the plan's growing year.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of its garden.
    """
    inputs = harvest_inputs(plan, planting)
    return plan.cached(harvest_of_planting, (planting.id, plan.year), inputs)


def harvest_inputs(plan: Plan, planting: Planting) -> HarvestInputs:
    """What the harvest of a planting depends on.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of its garden.
    """
    dates = plan.dates(planting)
    last = dates.last_harvest or dates.first_harvest
    frost = frost_after(plan.frosts(planting.year), last.day) if last is not None else None
    lives = plan.survival(planting)
    return HarvestInputs(
        planting,
        plan.bed_of(planting),
        plan.figures_of(planting),
        dates,
        plan.span_of(planting),
        planting_yield(plan, planting),
        frost,
        plan.garden.store_places,
        lives,
        _lost_harvest(plan, planting, lives),
    )


@fact("harvest")
def harvest_of_planting(inputs: HarvestInputs) -> Harvest:
    """What one planting gives."""
    planting, figures, amount = inputs.planting, inputs.figures, inputs.amount
    crop = figures.crop
    name = crop.name if crop is not None else planting.crop
    picking = picking_of(planting, figures, inputs.dates)
    base = Harvest(planting, inputs.bed, name, planting.variety, amount, picking)
    if picking is None or (inputs.lost is not None and share_left(picking, inputs.lives) == 0.0):
        return Harvest(
            planting, inputs.bed, name, planting.variety, amount, missing=_no_harvest(name, inputs)
        )
    keeping = _keeping(inputs, picking)
    kept = _kept(inputs, keeping)
    if amount.grams is None:
        return Harvest(
            planting, inputs.bed, name, base.variety, amount, picking, (), kept, keeping, (), amount.missing
        )
    picks = picking.picks_left(amount.grams, inputs.lives)
    lots = tuple(_lots(planting, picking, picks, kept))
    return Harvest(planting, inputs.bed, name, base.variety, amount, picking, picks, kept, keeping, lots)


def _no_harvest(name: str, inputs: HarvestInputs) -> str:
    lost = inputs.lost
    if lost is not None and lost.missing:
        return say(
            "{crop} was lost on {day} ({cause}): {weight} is missing",
            crop=name,
            day=day_words(lost.day),
            cause=lost.cause,
            weight=weight_words(lost.missing, lost.units),
        )
    if lost is not None:
        return say("{crop} was lost on {day} ({cause})", crop=name, day=day_words(lost.day), cause=lost.cause)
    if not inputs.dates.ripens:
        return say("{crop} does not ripen in time", crop=name)
    return say("the days on which {crop} is harvested are not known", crop=name)


def _keeping(inputs: HarvestInputs, picking: Picking) -> Keeping | None:
    if inputs.planting.purpose in PRESERVED:
        return Keeping(PRESERVED[inputs.planting.purpose])
    grown = Grown(inputs.planting, inputs.figures, inputs.dates, inputs.span)
    warm = not inputs.places and picking.shape == "once"
    return how_long_it_keeps(grown, picking.last, inputs.frost, in_a_warm_store=warm)


def _kept(inputs: HarvestInputs, keeping: Keeping | None) -> Kept | None:
    if keeping is None:
        return None
    if inputs.planting.purpose in PRESERVED:
        return Kept(None, keeping.days)
    return best_place(inputs.planting.crop, inputs.figures, keeping.days, inputs.places)


def _lots(planting: Planting, picking: Picking, picks: Iterable[Pick], kept: Kept | None) -> Iterable[Lot]:
    days = kept.days if kept is not None else FRESH
    if planting.purpose in PRESERVED:
        place = PRESERVED_IN[planting.purpose]
    elif days < STORED or picking.stands:
        place = PLOT if picking.stands else FRESH_PLACE
    else:
        place = kept.place.id if kept is not None and kept.place is not None else AS_WANTED
    if picking.stands and planting.purpose not in PRESERVED:
        grams = sum(pick.grams for pick in picks)
        yield Lot(planting.id, grams, picking.first, shift(picking.last, int(days)), place)
        return
    for pick in _batches(picks):
        if pick.grams:
            yield Lot(planting.id, pick.grams, pick.day, shift(pick.day, int(days)), place)


def _batches(picks: Iterable[Pick]) -> Iterator[Pick]:
    """What is picked in either half of a week, as one picking on the first of its days."""
    for _, half in itertools.groupby(
        picks, key=lambda pick: (monday(pick.day), pick.day.weekday() >= HALF_A_WEEK)
    ):
        together = tuple(half)
        yield Pick(together[0].day, sum(pick.grams for pick in together))


def dry_weight(plan: Plan, planting: Planting, grams: int) -> int | None:
    """What a harvest weighs when it is dried; None where it is not. [g]

    Parameters
    ----------
    plan : Plan
    planting : Planting
    grams : int
        Fresh. [g]
    """
    if planting.purpose != "drying":
        return None
    crop = plan.figures_of(planting).crop
    product = crop.product.value if crop is not None and crop.product is not None else None
    return round(grams * LEFT_DRY.get(product or "", 1.0))


def keeping_source(plan: Plan, planting: Planting) -> tuple[str, str]:
    """Key of the source of how long a planting's harvest keeps, and how that came about; empty where nothing is known."""
    if planting.purpose in PRESERVED:
        return ESTIMATE, ESTIMATE
    figures = plan.figures_of(planting)
    own = figures.variety.figures if figures.variety is not None else ()
    figure = next((one.as_figure() for one in own if one.field == "store_days"), None)
    if figure is None and figures.crop is not None:
        figure = figures.crop.store_days
    if figure is None or not figure.applies:
        return "", ""
    return figure.source or "", figure.provenance


def harvests(plan: Plan) -> tuple[Harvest, ...]:
    """Harvests of the plan's growing year, bed by bed: of all plantings of which something is eaten and picked in it.

    A planting of which no days of harvest are known is among them with the reason; one that is harvested in another
    year, or bears nothing yet, is not.

    Parameters
    ----------
    plan : Plan
    """
    found = []
    for bed in plan.beds:
        for planting in plan.in_bed(bed):
            if planting.purpose in NOT_EATEN or _no_food(plan.figures_of(planting)):
                continue
            one = harvest(plan, planting)
            if one.picking is None:
                if not plan.dates(planting).stays_for_years:
                    found.append(one)
            elif one.picking.first <= plan.span.last and plan.span.first <= one.picking.last:
                found.append(one)
    return tuple(found)


def _no_food(figures: PlantingFigures) -> bool:
    """Whether a crop is grown for its ground alone."""
    crop = figures.crop
    return crop is not None and crop.product is not None and crop.product.value == "green manure"


def not_eaten(plan: Plan) -> tuple[Planting, ...]:
    """Plantings of the year of which nothing is eaten by their purpose: for seed, for cutting."""
    return tuple(p for p in plan.plantings if p.purpose in ("seed", "cutting"))


def kept_from_before(plan: Plan) -> tuple[Harvest, ...]:
    """Harvests of before the plan's growing year of which something may still be good when it begins.

    That may have been planted two years before, as garlic is in autumn.  Of what stays for years nothing is: its dates are those of this year.

    Parameters
    ----------
    plan : Plan
    """
    found = []
    for planting in plan.garden.plantings:
        if planting.purpose in NOT_EATEN or not plan.year - 2 <= planting.year < plan.year:
            continue
        dates = plan.dates(planting)
        last = dates.last_harvest or dates.first_harvest
        if dates.stays_for_years or last is None or last.day >= plan.span.first:
            continue
        keeps = PRESERVED.get(planting.purpose, plan.figures_of(planting).number("store_days") or 0)
        if shift(last.day, int(keeps)) < plan.span.first:
            continue
        one = harvest(plan, planting)
        if any(lot.last >= plan.span.first for lot in one.lots):
            found.append(one)
    return tuple(found)
