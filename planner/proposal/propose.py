"""Next year's layout: a first answer at once, better ones while time lasts, and none that the checks have a word against."""

from __future__ import annotations

import time
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from planner.garden import Garden
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.alternatives import alternatives, difference
from planner.proposal.board import Board
from planner.proposal.bound import lower_bound
from planner.proposal.decomposition import Decomposition
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.greedy import cheapest_places, greedy, in_order, insert
from planner.proposal.in_part import with_fitting_parts, with_parts
from planner.proposal.judging import (
    Case,
    Objection,
    cases_of,
    objections,
    shut_by,
    with_nevers,
    with_real_lengths,
)
from planner.proposal.layout_model import SolverError
from planner.proposal.layouts import planted
from planner.proposal.offers import GardenPuzzle
from planner.proposal.puzzle import Choice, Layout, Never, cost_of, faults_of
from planner.proposal.puzzle_index import PuzzleIndex
from planner.proposal.search import search

#: Rounds of search, where neither they nor a time are given.
ROUNDS = 24
#: Times that a layout is mended after what the checks said; what they still object to is then left out.
MOST_MENDED = 8
#: Times that wishes which are left out then are tried elsewhere.
MOST_REFILLED = 6
#: Share of the rounds, or of the time, that goes before the first judgement; the rest is for what is mended.
FIRST = 0.6
#: Rounds after each mending.
AFTER_MENDING = 3
#: Rounds of search for unlike layouts; the share of wishes that are elsewhere in each at the least, after it was mended; and how much
#: dearer one may be.
UNLIKE_ROUNDS, LEAST_UNLIKE, DEARER = 12, 0.25, 0.2


@dataclass(frozen=True, eq=False)
class Proposal:
    """A layout that is proposed.

    Attributes
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    cost : int
    bound : int or None
        No layout costs less; None where nothing is proven.
    round : int
        Rounds of search that went before.
    judged : bool
        Whether the ordinary checks have been asked, and have nothing against it.
    objected : tuple of Objection
        What they said of layouts before.
    solver : bool
        Whether better layouts were searched for: OR-Tools is installed by choice.
    """

    of: GardenPuzzle
    layout: Layout
    cost: int
    bound: int | None = None
    round: int = 0
    judged: bool = False
    objected: tuple[Objection, ...] = ()
    solver: bool = True

    @property
    def garden(self) -> Garden:
        """The garden with it."""
        return planted(self.of, self.layout)

    @property
    def unmet(self) -> tuple[Wish, ...]:
        """Wishes that are not met."""
        met = {self.of.puzzle.options[choice.option].wish for choice in self.layout}
        return tuple(wish for number, wish in enumerate(self.of.wishes) if number not in met)

    @property
    def in_part(self) -> tuple[Wish, ...]:
        """Wishes that are met in part only."""
        offers = [self.of.offers[choice.option] for choice in self.layout]
        there = {offer.wish.id for offer in offers if offer.share < 1}
        return tuple(one for one in self.of.wishes if one.id in there)

    @property
    def gap(self) -> float | None:
        """How much of its cost may be saved at most, as a share of it; None where nothing is proven."""
        if self.bound is None:
            return None
        return max(0.0, (self.cost - self.bound) / max(abs(self.cost), 1))


def propose(
    plan: Plan,
    *,
    beds: Collection[str] | None = None,
    rounds: int | None = None,
    seconds: float | None = None,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    prove: float = 0.0,
) -> Iterator[Proposal]:
    """Layouts for the wishes of a growing year, each better than the one before, but for what the checks object to.

    The last one is judged: the ordinary checks find nothing grave in it, and no rotation that a wish does not allow.

    Parameters
    ----------
    plan : Plan
        Of the year that is to be laid out.
    beds : collection of str, optional
        Ids of the beds in which something may be planted; all by default.
    rounds : int, optional
        Of search: the same number gives the same layout.
    seconds : float, optional
        After which the search ends. [s]
    seed : int
    stop : callable, optional
        Whether to end the search now; what is found so far is still judged.
    prove : float
        Deterministic time, about as many seconds, in which it is proven afterwards how much better a layout could be.
    """
    if rounds is None and seconds is None:
        rounds = ROUNDS
    of = garden_puzzle(plan, beds)
    yield from _Proposing(of, rounds, seconds, seed, stop, prove).steps()


def unlike(
    proposal: Proposal,
    count: int = 3,
    *,
    rounds: int = UNLIKE_ROUNDS,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
) -> tuple[Proposal, ...]:
    """Layouts about as good as one, in which many wishes are met in other beds; fewer, or none, where no more were found.

    Each is judged as the one was, and mended after what the checks say of it; what has grown too like the others by that, or
    dearer by a fifth, is left out.

    Parameters
    ----------
    proposal : Proposal
        Judged.
    count : int
    rounds : int
        Of search, for all of them.
    seed : int
    stop : callable, optional
        Whether to end now.
    """
    before = cases_of(proposal.of.plan)
    try:
        found = alternatives(proposal.of.puzzle, proposal.layout, count, rounds=rounds, seed=seed, stop=stop)
    except SolverError:
        return ()
    kept = [proposal]
    for one in found:
        of, layout = _mended(proposal.of, one.layout, before)
        cost = cost_of(of.puzzle, layout)
        like = min(difference(of.puzzle, layout, other.layout) for other in kept)
        if like >= LEAST_UNLIKE and cost <= proposal.cost + DEARER * abs(proposal.cost):
            kept.append(replace(proposal, of=of, layout=layout, cost=cost, bound=None))
    return tuple(kept[1:])


def _mended(of: GardenPuzzle, layout: Layout, before: frozenset[Case]) -> tuple[GardenPuzzle, Layout]:
    """A layout with the lengths that it really takes, against which the checks have nothing, and the puzzle with those."""
    for _ in range(MOST_MENDED):
        real, against = _objected(of, layout, before)
        if real is of and not against:
            return of, layout
        of = with_nevers(real, shut_by(real, against))
        layout = mended_layout(of, layout)
    return refilled(of, layout, before)


def _objected(
    of: GardenPuzzle, layout: Layout, before: frozenset[Case]
) -> tuple[GardenPuzzle, tuple[Objection, ...]]:
    """The puzzle with the lengths that a layout really takes, itself where they are right, and what the checks then say against it."""
    real = with_real_lengths(of, layout)
    return real, (objections(of, layout, before) if real is of else ())


class _Proposing:
    def __init__(
        self,
        of: GardenPuzzle,
        rounds: int | None,
        seconds: float | None,
        seed: int,
        stop: Callable[[], bool] | None,
        prove: float,
    ) -> None:
        self.of, self.seed, self.stop, self.prove = of, seed, stop, prove
        self.rounds = rounds
        self.seconds = seconds
        self.begun = time.monotonic()
        self.layout = greedy(of.puzzle)
        self.bound: int | None = None
        self.round = 0
        self.objected: list[Objection] = []
        self.solver = True
        self._relaxed: Decomposition | None = None
        self._clean: Layout | None = None  # in this puzzle, as it is now
        self._best: tuple[int, GardenPuzzle, Layout] | None = (
            None  # of those that the checks have nothing against
        )

    @cached_property
    def _before(self) -> frozenset[Case]:
        return cases_of(self.of.plan)

    def steps(self) -> Iterator[Proposal]:
        yield self._proposal()
        yield from self._search(FIRST)
        self._take_parts(with_parts(self.of, self.layout))
        yield from self._mend()
        yield from self._search(1.0)
        yield from self._mend()
        if self._take_parts(with_fitting_parts(self.of, self.layout)):
            yield from self._search(1.0, AFTER_MENDING)
            yield from self._mend()
        if self.prove > 0 and self.solver:
            self._prove()
        yield self._proposal(judged=True)

    def _take_parts(self, of: GardenPuzzle) -> bool:
        """Meet in part what is not met, and more of what is in part, where there is room; whether the puzzle has more options now."""
        if of is self.of:
            return False
        self.of, self.bound = of, None
        self.layout = more_in_part(of, self.layout)
        return True

    def _mend(self) -> Iterator[Proposal]:
        """Ask the checks, and place anew what they object to, until they do not; what is left then is left out."""
        if self.layout == self._clean:
            return
        for mended in range(MOST_MENDED):
            of, against = _objected(self.of, self.layout, self._before)
            if of is self.of and not against:
                self._keep_clean()
                return
            self._clean = None
            self.objected += against
            self.of = with_nevers(of, shut_by(of, against))
            self.bound = None
            self.layout = mended_layout(self.of, self.layout)
            if mended < MOST_MENDED - 1:
                yield from self._search(1.0, AFTER_MENDING)
        self.of, self.layout = refilled(self.of, self.layout, self._before)
        self._keep_clean()

    def _keep_clean(self) -> None:
        """What the checks have nothing against is kept, so that nothing worse comes in the end."""
        cost = cost_of(self.of.puzzle, self.layout)
        if self._best is None or cost <= self._best[0]:
            self._best = cost, self.of, self.layout
        else:
            _, self.of, self.layout = self._best
        self._clean = self.layout

    def _prove(self) -> None:
        """Work out how much better a layout could be; a better one that is come across is taken if it has no objections."""
        found = lower_bound(self.of.puzzle, self.layout, effort=self.prove, seed=self.seed)
        if found is None:
            return
        self.bound = max(found.cost, self.bound) if self.bound is not None else found.cost
        better = found.layout
        if better is None or with_real_lengths(self.of, better) is not self.of:
            return
        if not objections(self.of, better, self._before):
            self.layout = better

    def _search(self, share: float, rounds: int | None = None) -> Iterator[Proposal]:
        """Search until a share of the rounds, or of the time, is used; or for some rounds more at the most."""
        most = max(0, round(self.rounds * share) - self.round) if self.rounds is not None else None
        if rounds is not None:
            most = rounds
        seconds = None
        if self.seconds is not None:
            seconds = max(0.0, self.begun + self.seconds * share - time.monotonic())
        if not self.solver or most == 0:
            return
        before = self.round
        try:
            for step in search(
                self.of.puzzle,
                self.layout,
                rounds=most,
                seconds=seconds,
                seed=self.seed + before,
                stop=self.stop,
                relaxed=self._relaxed if rounds is None else None,
            ):
                self.layout, self.bound, self.round = step.layout, step.bound, before + step.round
                if rounds is None:
                    self._relaxed = step.relaxed
                yield self._proposal()
        except SolverError:
            self.solver = False

    def _proposal(self, judged: bool = False) -> Proposal:
        cost = cost_of(self.of.puzzle, self.layout)
        return Proposal(
            self.of, self.layout, cost, self.bound, self.round, judged, tuple(self.objected), self.solver
        )


def more_in_part(of: GardenPuzzle, layout: Layout) -> Layout:
    """A layout in which what was not met is, and what is met in part has more, where the puzzle has a way to it.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    options = of.puzzle.options
    board = Board(PuzzleIndex(of.puzzle), layout)
    insert(board, in_order(board.index, (n for n in range(len(of.wishes)) if n not in board.places)))
    there = board.layout()
    for wish in sorted({options[c.option].wish for c in there if of.offers[c.option].share < 1}):
        before, cost = board.take(wish), cost_of(of.puzzle, there)
        for choice in cheapest_places(board, wish) or before:
            board.put(choice)
        if cost_of(of.puzzle, board.layout()) > cost:
            board.take(wish)
            for choice in before:
                board.put(choice)
        there = board.layout()
    return there


def without_objections(of: GardenPuzzle, layout: Layout, before: frozenset[Case]) -> Layout:
    """A layout without the wishes to which the checks object, or that really take another length.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    before : frozenset
        What the checks say without it.
    """
    options = of.puzzle.options
    while True:
        real = with_real_lengths(of, layout)
        bad = {
            real.puzzle.options[choice.option].wish
            for one in objections(of, layout, before)
            for choice in one.choices[:1]
        }
        bad |= {
            options[one.option].wish
            for one in layout
            if real.puzzle.options[one.option] is not options[one.option]
        }
        if not bad & {options[one.option].wish for one in layout}:
            return layout
        layout = tuple(one for one in layout if options[one.option].wish not in bad)


def refilled(of: GardenPuzzle, layout: Layout, before: frozenset[Case]) -> tuple[GardenPuzzle, Layout]:
    """A layout without what the checks object to, in which wishes that are left out by that are met where else there is room.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    before : frozenset
        What the checks say without it.

    Returns
    -------
    GardenPuzzle
        With the lengths that it really takes.
    tuple of Choice
    """
    clean, tried = without_objections(of, layout, before), of
    for _ in range(MOST_REFILLED):
        more = mended_layout(tried, clean)
        if len(more) <= len(clean):
            break
        real, against = _objected(tried, more, before)
        if real is tried and not against:
            return tried, more
        tried = with_nevers(real, shut_by(real, against))
    return of, clean


def mended_layout(of: GardenPuzzle, layout: Layout) -> Layout:
    """A layout in which what breaks a rule of the puzzle is placed anew, where there is a place.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    options = of.puzzle.options
    by_wish: dict[int, list[Choice]] = {}
    for choice in layout:
        by_wish.setdefault(options[choice.option].wish, []).append(choice)
    index = PuzzleIndex(of.puzzle)
    kept: list[Choice] = []
    for wish in in_order(index, by_wish):
        beds = {options[one.option].bed for one in by_wish[wish]}
        tried = [*(one for one in kept if options[one.option].bed in beds), *by_wish[wish]]
        partial = of.puzzle._replace(nevers=_within(of.puzzle.nevers, beds))
        if not [
            fault for fault in faults_of(partial, tuple(tried)) if "parts" not in fault
        ] and not faults_of(of.puzzle, tuple(by_wish[wish])):
            kept += by_wish[wish]
    while faults_of(
        of.puzzle, tuple(kept)
    ):  # what only whole layouts break: choices that may not all be made
        lost = options[kept[-1].option].wish
        kept = [one for one in kept if options[one.option].wish != lost]
    board = Board(index, tuple(sorted(kept)))
    met = {options[one.option].wish for one in kept}
    insert(board, in_order(index, (wish for wish in range(len(of.wishes)) if wish not in met)))
    return board.layout()


def _within(nevers: Collection[Never], beds: set[int]) -> tuple[Never, ...]:
    return tuple(one for one in nevers if all(bed in beds for _, bed, _ in one))
