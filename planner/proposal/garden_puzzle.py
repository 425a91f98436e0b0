"""The puzzle of a garden's growing year: its wishes, the beds in which each may be met, and what shuts the others."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import replace

from planner.checks.depth import LEAST as LEAST_DEPTH
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.sizes import sort_of
from planner.checks.rotation import SHORT_CROP, interval
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Planting
from planner.garden.arrangements import Arrangement
from planner.garden.edits.common import put
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.bed_light import BedLight
from planner.proposal.costs import COVERED, SCATTERED, TIMES, UNMET, Costs, cover_of
from planner.proposal.lengths import Lengths
from planner.proposal.no_room import no_room_words
from planner.proposal.offers import GardenPuzzle, Offer, Rule, all_but, left_of
from planner.proposal.old_ground import LONG_REST, comes_too_soon
from planner.proposal.puzzle import BedGround, Block, Option, Pair, Puzzle, Shut, Use
from planner.proposal.stocks import Stocks
from planner.proposal.strips import Strip, carried_by, strips_of, taken_in
from planner.proposal.waived_rotation import waived_grounds, waived_steps
from planner.proposal.ways import (
    STANDING_SUPPORTS,
    Wanted,
    Way,
    base_draft,
    like_of,
    may_be_met_in_part,
    wanted_of,
    wanted_part,
    ways_of,
)
from planner.words import day_words, say

#: What it weighs to give a rule up, beside what it costs to leave a wish unmet: a place that stays, one that stands for years, a
#: year sooner, an hour of sun, too little soil (practice).
MOVED_PIN, MOVED_STANDING, SOONER, HOUR_OF_SUN, SHALLOW = 15_000, 60_000, 1_500, 3_000, 6_000


def free_to_move(garden: Garden, year: int, beds: Collection[str] | None = None) -> tuple[Planting, ...]:
    """Plantings of a year that a proposal may move: made for a wish of it, not pinned, and nothing was done on them yet.

    Parameters
    ----------
    garden : Garden
    year : int
    beds : collection of str, optional
        Ids of the beds that may be planned anew; all by default.
    """
    wishes = {one.id for one in garden.wishes if one.year == year}
    return tuple(
        one
        for one in garden.plantings
        if one.year == year
        and one.wish in wishes
        and not one.pinned
        and (beds is None or one.bed in beds)
        and not garden.records_of(one.id)
    )


def garden_puzzle(plan: Plan, beds: Collection[str] | None = None) -> GardenPuzzle:
    """The puzzle of a growing year.

    Parameters
    ----------
    plan : Plan
        Of the year that is to be laid out.
    beds : collection of str, optional
        Ids of the beds in which something may be planted; all in use by default.
    """
    freed = free_to_move(plan.garden, plan.year, beds)
    gone = {one.id for one in freed}
    kept = tuple(one for one in plan.garden.plantings if one.id not in gone)
    there = plan.after(put(plan.garden, plantings=kept)) if gone else plan
    return replace(_Maker(there, beds).made(), freed=freed)


class _Maker:
    """Makes the puzzle of a garden in which only what stays is planted."""

    def __init__(self, plan: Plan, beds: Collection[str] | None) -> None:
        self.plan = plan
        asked = [bed for bed in plan.beds if beds is None or bed.id in beds]
        self.strips = strips_of(plan, asked)
        self.costs = Costs(plan, self.strips)
        self.stocks = Stocks(plan)
        self.light = BedLight(plan, asked)
        self.carried = carried_by(plan, self.strips)
        self.waived = waived_grounds(plan)
        self.rules: dict[Rule, int] = {Rule("built"): 0}
        self.rule_weights: list[int | None] = [None]
        self.groups: dict[tuple[str, str], int] = {}
        self.options: list[Option] = []
        self.offers: list[Offer] = []
        self.impossible: dict[int, str] = {}
        self.too_short: dict[int, list[tuple[Option, Offer]]] = {}
        self.lengths = Lengths(plan, self.strips)
        self._arrangements: dict[object, Arrangement] = {}
        self._of_views: dict[int, tuple[PlantingView, tuple[int, ...], int]] = {}
        met = {one.wish for one in plan.garden.plantings if one.year == plan.year and one.wish}
        wishes = [one for one in plan.garden.wishes if one.year == plan.year]
        self.met = tuple(one.id for one in wishes if one.id in met)
        self.wishes = tuple(one for one in wishes if one.id not in met)

    def made(self) -> GardenPuzzle:
        for number, wish in enumerate(self.wishes):
            try:
                self._add_wish(number, wish)
            except BedwrightError as error:
                self.impossible[number] = error.what
        puzzle = Puzzle(
            beds=tuple(self._ground(strip) for strip in self.strips),
            unmet=tuple(UNMET[wish.importance] for wish in self.wishes),
            options=tuple(self.options),
            group_costs=tuple(self._group_costs()),
            pairs=tuple(self._pairs()),
            limits=tuple(self.stocks.limits),
            rules=tuple(self.rule_weights),
        )
        return GardenPuzzle(
            self.plan,
            puzzle,
            self.wishes,
            self.strips,
            tuple(self.offers),
            tuple(self.rules),
            self.impossible,
            self.met,
            self.too_short,
            self.waived,
        )

    # -- beds -------------------------------------------------------------------------------

    def _ground(self, strip: Strip) -> BedGround:
        blocks, groups = [], set()
        for one in taken_in(self.plan, strip):
            standing = self.plan.dates(one.planting).stays_for_years
            rule = self._rule(Rule("stands", one.planting.id), MOVED_STANDING if standing else MOVED_PIN)
            blocks.append(Block(one.start, one.end, one.first.toordinal(), one.last.toordinal(), rule))
            if self.plan.span_of(one.planting).meets(self.plan.span):
                groups |= set(self._groups_of(planting_view(self.plan, one.planting)))
        return BedGround(strip.length, tuple(blocks), frozenset(groups))

    def _rule(self, rule: Rule, weight: int | None) -> int:
        if rule not in self.rules:
            self.rules[rule] = len(self.rules)
            self.rule_weights.append(weight)
        return self.rules[rule]

    def _groups_of(self, view: PlantingView) -> tuple[int, ...]:
        names = [("family", view.crop.family)] if view.crop is not None else []
        cover = cover_of(view.planting)
        if cover:
            names.append(("cover", cover))
        return tuple(self.groups.setdefault(name, len(self.groups)) for name in names)

    def _group_costs(self) -> Iterator[int]:
        weights = self.costs.weights
        for kind, _ in self.groups:
            family = kind == "family"
            yield (TIMES[weights.scattering] * SCATTERED) if family else (TIMES[weights.covers] * COVERED)

    def _pairs(self) -> Iterator[Pair]:
        for i, one in enumerate(self.wishes):
            for j, other in enumerate(self.wishes[:i]):
                cost = self.costs.together(one, other)
                if cost != 0:
                    yield Pair(j, i, cost)

    # -- wishes -----------------------------------------------------------------------------

    def _add_wish(self, number: int, wish: Wish) -> None:
        catalogue = self.plan.catalogue
        if catalogue.get(wish.crop) is None:
            raise BedwrightError(
                say("nothing is known of '{crop}'; give it as a crop of your own", crop=wish.crop)
            )
        wanted = wanted_of(self.plan, wish)
        if wanted is None:
            raise BedwrightError(say("it does not say how much; give it an amount"))
        like = like_of(self.plan, wish)
        if wish.beds and not any(strip.bed.id in wish.beds for strip in self.strips):
            raise BedwrightError(say("none of the beds it is wished in is planned here"))
        allowed = [at for at, strip in enumerate(self.strips) if self._may_stand_in(wish, like, strip.bed)]
        if not allowed:
            raise BedwrightError(say("none of these beds is of the kind that is wished"))
        kinds: dict[tuple[str, ...], list[int]] = {}
        for at in allowed:
            kinds.setdefault(self.plan.shelter_of(self.strips[at].bed), []).append(at)
        tries = [
            (way, at, dark)
            for places in kinds.values()
            for way in ways_of(self.plan, wish, self.strips[places[0]].bed)
            for dark in (self.light.lacking(way.view),)
            for at in places
        ]
        if not tries:
            raise BedwrightError(self._no_day(wish, allowed[0]))
        before = len(self.options)
        for way, at, dark in tries:
            self._add_options(number, wish, wanted, way, at, like, dark)
        if len(self.options) > before:
            return
        raise BedwrightError(no_room_words(self.plan, wish, wanted, [self.strips[at] for at in allowed]))

    def _no_day(self, wish: Wish, at: int) -> str:
        """Why no day brings the harvest that is wished, with the first harvest of the usual one."""
        dates = self.plan.dates(base_draft(self.plan, wish, self.strips[at].bed))
        if not dates.ripens:
            return say("it does not ripen in time in these beds")
        if dates.first_harvest is None:
            return say("no day to begin it brings the harvest that is wished")
        return say(
            "no day to begin it brings the harvest that is wished: begun as usual it is first picked on {day}",
            day=day_words(dates.first_harvest.day, self.plan.year),
        )

    def _may_stand_in(self, wish: Wish, like: Planting | None, bed: Bed) -> bool:
        if wish.beds and bed.id not in wish.beds:
            return False
        if wish.ground is not None:
            roofed = bool(self.plan.shelter_of(bed))
            sort = sort_of(bed)
            return sort == wish.ground or (wish.ground == "under glass" and roofed and sort == "open")
        if wish.beds:
            return True
        if like is not None and like.bed in self.plan.garden.beds_by_id:
            old = self.plan.garden.beds_by_id[like.bed]
            return sort_of(old) == sort_of(bed) and self.plan.shelter_of(old) == self.plan.shelter_of(bed)
        return sort_of(bed) != "container" or all(sort_of(one.bed) == "container" for one in self.strips)

    def _add_options(
        self,
        number: int,
        wish: Wish,
        wanted: Wanted,
        way: Way,
        at: int,
        like: Planting | None,
        dark: dict[str, float],
    ) -> None:
        strip = self.strips[at]
        draft = self._draft_in(wish, way, strip)
        shut = [*self._old_ground(wish, way, at), *self._unfit(way, strip, dark)]
        for parts in range(1, wish.parts + 1):
            part, before = wanted_part(wish, wanted, parts), len(self.options)
            for start, length in self.lengths.stretches(draft, strip, part, like):
                keeps = () if start is None else all_but(strip.length, start, length)
                offer = Offer(wish, replace(way, draft=draft), strip, parts, part)
                self._add(number, offer, at, length, (*shut, *keeps), like)
            if len(self.options) == before and may_be_met_in_part(wish, wanted):
                offer = Offer(wish, replace(way, draft=draft), strip, parts, part)
                standing = draft.support is not None and draft.support.kind in STANDING_SUPPORTS
                for start, length in (
                    self.lengths.at_arches(strip, like) if standing else ((0, strip.length),)
                ):
                    keeps = all_but(strip.length, start, length)
                    option = self._option(number, offer, at, length + 1, (*shut, *keeps))
                    self.too_short.setdefault(number, []).append((option, offer))
        if like is not None and like.bed == strip.bed.id:
            was = self._as_it_was(draft, like, wanted, strip)
            if was is not None:
                again, start, length = was
                keeps = all_but(strip.length, start, length)
                offer = Offer(wish, replace(way, draft=again), strip, 1, wanted, as_it_was=True)
                self._add(number, offer, at, length, (*shut, *keeps), like)

    def _add(
        self,
        number: int,
        offer: Offer,
        at: int,
        length: int,
        shut: tuple[Shut, ...],
        like: Planting | None,
    ) -> None:
        area = length * offer.strip.step * offer.strip.width
        option = self._option(number, offer, at, length, shut)
        self.options.append(
            option._replace(
                cost=self.costs.of_option(offer.wish, offer.way, at, area, offer.parts, like),
                uses=self._uses(offer.way, at, length, offer.as_it_was),
            )
        )
        self.offers.append(offer)

    def _option(self, number: int, offer: Offer, at: int, length: int, shut: tuple[Shut, ...]) -> Option:
        """An option without its cost and what it uses."""
        way, parts = offer.way, offer.parts
        if id(way.view) not in self._of_views:
            self._of_views[id(way.view)] = (way.view, self._groups_of(way.view), self._family(way))
        _, groups, family = self._of_views[id(way.view)]
        return Option(
            wish=number,
            bed=at,
            way=way.number * 10 + parts,
            parts=parts,
            length=length,
            first=way.span.first.toordinal(),
            last=way.span.last.toordinal(),
            shut=shut,
            family=family,
            groups=groups,
        )

    def _uses(self, way: Way, at: int, length: int, as_it_was: bool) -> tuple[Use, ...]:
        """What it takes of benches and covers."""
        if not self.stocks.limits:
            return ()
        plot = way.draft.plot if as_it_was else self.strips[at].plot(0, length)
        return self.stocks.uses(way.draft.with_(plot=plot))

    def _as_it_was(
        self, draft: Planting, like: Planting, wanted: Wanted, strip: Strip
    ) -> tuple[Planting, int, int] | None:
        """A draft on the drawn region or the single places of the planting it is like; None where it had neither, or too little."""
        if like.plot.kind != "region" and like.arrangement.kind != "places":
            return None
        placed = self.plan.placed(like)
        if placed.plot.is_empty or wanted.measure(self.plan, like, placed) < wanted.amount * (1 - 1e-6):
            return None
        start, end = strip.steps(placed.plot)
        return draft.with_(plot=like.plot, arrangement=like.arrangement), start, end - start

    def _draft_in(self, wish: Wish, way: Way, strip: Strip) -> Planting:
        """The draft of a way as it is planted in a bed: by the spacing that suits it where nothing else is wished."""
        draft = way.draft
        if draft.bed == strip.bed.id:
            return draft
        like = like_of(self.plan, wish)
        key = (wish.id, strip.sort, like is not None and like.bed == strip.bed.id)
        if key not in self._arrangements:
            self._arrangements[key] = base_draft(self.plan, wish, strip.bed).arrangement
        return draft.with_(bed=strip.bed.id, arrangement=self._arrangements[key])

    def _family(self, way: Way) -> int:
        """The number of its family for a long crop in ground that has a rotation; -1 for others."""
        crop, years = way.view.crop, interval(way.view)
        if crop is None or years is None or (way.span.days <= SHORT_CROP and years.wanted < LONG_REST):
            return -1
        return self.groups.setdefault(("family", crop.family), len(self.groups))

    def _old_ground(self, wish: Wish, way: Way, at: int) -> Iterator[Shut]:
        """Stretches that carried its family too few years ago."""
        years = interval(way.view)
        crop = way.view.crop
        if years is None or crop is None or way.view.bed.kind == "container":
            return
        wanted = years.wanted if wish.back_after is None else min(years.wanted, wish.back_after)
        for old in self.carried[at]:
            if not comes_too_soon(old, crop.family, way.span, years, self.plan.year, wanted):
                continue
            weight = SOONER * max(1, math.ceil(wanted - max(old.ago, 0)))
            rule = self._rule(Rule("rotation", crop.family, float(old.ago)), weight)
            waived = waived_steps(self.strips[at], crop.key, self.waived)
            yield from (Shut(*stretch, rule) for stretch in left_of(old.start, old.end, waived))

    def _unfit(self, way: Way, strip: Strip, dark: dict[str, float]) -> Iterator[Shut]:
        missing = dark.get(strip.bed.id)
        if missing:
            hours = math.ceil(missing * 2) / 2
            yield Shut(
                0,
                strip.length,
                self._rule(Rule("light", way.draft.id, hours), round(HOUR_OF_SUN * (1 + hours))),
            )
        least, depth = LEAST_DEPTH.get(way.draft.crop), self.plan.garden.soil_of(strip.bed).depth
        if least is not None and depth is not None and depth < least - 1e-6 and not way.view.manure:
            yield Shut(0, strip.length, self._rule(Rule("depth", way.draft.crop, depth), SHALLOW))
