"""The search for a layout beside the window: where it stands, and what it has found so far."""

from __future__ import annotations

import threading
import time
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

import shapely
from PySide6.QtCore import QObject, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.ground import plan_polygon
from planner.listings.proposal import head_lines, planting_cells, unmet_why_lines, why_lines
from planner.listings.turn import crop_and_variety, wish_amount
from planner.plan import Plan
from planner.proposal.layouts import garden_with
from planner.proposal.propose import Proposal, propose
from planner.proposal.reasons import Placement, Reasons
from planner.proposal.search_process import SearchProcess
from planner.season.spans import Span
from planner.words import capital, say

#: Nothing was begun; where each wish could stand is being worked out; better layouts are searched for; what was found is being
#: judged by the checks; the search is over.
State = Literal["idle", "begun", "searching", "judging", "over"]

#: Better layouts are shown no more often: each time the list is made anew. [s]
SHOWN_EVERY = 0.4


@dataclass(frozen=True, eq=False)
class LayoutRow:
    """A planting that is proposed or stays, or a wish that is not met.

    Attributes
    ----------
    wish : str
        Id of its wish.
    cells : tuple of str
        Crop, bed, from and to along it, how many, days.
    planting : Planting or None
        None of a wish that is not met.
    stays : bool
        Whether it is there already, and no proposal moves it.
    ground : shapely.Geometry
        On the plan. [m]
    family : str
        Sets its ink.
    span : Span or None
        Days on which it takes its ground.
    """

    wish: str
    cells: tuple[str, ...]
    planting: Planting | None = None
    stays: bool = False
    ground: shapely.Geometry = shapely.Polygon()
    family: str = ""
    span: Span | None = None


@dataclass(frozen=True, eq=False)
class FoundLayout:
    """A proposal with what is shown of it, worked out beside the window.

    Attributes
    ----------
    proposal : Proposal
    reasons : Reasons
    rows : tuple of LayoutRow
        What is proposed by bed and day, then what stays, then what is not met.
    beds : tuple of shapely.Geometry
        All beds of the year on the plan. [m]
    standing : tuple of LayoutRow
        What is planted whatever is proposed, and meets no wish.
    lines : tuple of str
        How many wishes are met, how good it is.
    placements : dict of str to Placement
        By the id of the wish.
    """

    proposal: Proposal
    reasons: Reasons
    rows: tuple[LayoutRow, ...]
    beds: tuple[shapely.Geometry, ...]
    standing: tuple[LayoutRow, ...]
    lines: tuple[str, ...]
    placements: dict[str, Placement]


def found_layout(proposal: Proposal) -> FoundLayout:
    """What is shown of a proposal.

    Parameters
    ----------
    proposal : Proposal
    """
    of = proposal.of
    garden = garden_with(of, proposal.layout)
    plan = of.plan.what_if(garden)
    fixed = of.plan.garden.plantings
    order = {strip.bed.id: at for at, strip in enumerate(of.strips)}
    new = sorted(
        garden.plantings[len(fixed) :],
        key=lambda one: (order.get(one.bed, 0), plan.span_of(one).first, one.id),
    )
    met, stays, standing = set(of.met), [], []
    for one in of.plan.plantings:
        (stays if one.wish in met and one.year == plan.year else standing).append(_row(plan, one, stays=True))
    units = plan.garden.site.units
    unmet = [
        LayoutRow(
            wish.id,
            (
                capital(crop_and_variety(plan, wish.crop, wish.variety)),
                say("not met"),
                "",
                wish_amount(wish, units),
                "",
            ),
        )
        for wish in proposal.unmet
    ]
    reasons = Reasons(of, proposal.layout)
    return FoundLayout(
        proposal,
        reasons,
        (*(_row(plan, one) for one in new), *stays, *unmet),
        tuple(plan_polygon(bed.outline) for bed in plan.beds),
        tuple(standing),
        tuple(head_lines(proposal)),
        {one.wish.id: one for one in reasons.placements()},
    )


def _row(plan: Plan, one: Planting, *, stays: bool = False) -> LayoutRow:
    crop = plan.catalogue.get(one.crop)
    return LayoutRow(
        one.wish or "",
        planting_cells(plan, one),
        one,
        stays,
        plan.plot_on_plan(one),
        crop.family if crop is not None else "",
        plan.span_of(one),
    )


def why_words(found: FoundLayout, row: LayoutRow) -> tuple[str, ...]:
    """Why a planting is proposed where it is, or why a wish is not met and what would help.

    Parameters
    ----------
    found : FoundLayout
    row : LayoutRow
    """
    of = found.proposal.of
    if row.stays:
        pinned = row.planting is not None and row.planting.pinned
        return (say("It is pinned there") if pinned else say("It is there already and stays"),)
    if row.planting is None:
        wish = next((one for one in of.wishes if one.id == row.wish), None)
        return tuple(unmet_why_lines(found.proposal, found.reasons, wish)) if wish is not None else ()
    placement = found.placements.get(row.wish)
    return tuple(why_lines(of, placement)) if placement is not None else ()


class LayoutSearch(QObject):
    """Searches for the layout of a growing year of the document, in a thread and a process beside the window.

    An edit of the garden ends the search: what it found is of the garden before.

    Signals
    -------
    changed
        It has begun, found something, or ended.

    Attributes
    ----------
    state : str
    found : FoundLayout or None
        What was found last.
    failed : str
        Why nothing can be proposed, in one line.
    year : int
        That was laid out.
    """

    changed = Signal()

    def __init__(self, parent: QObject, document: Document) -> None:
        super().__init__(parent)
        self.document = document
        self.jobs = JobQueue(self)
        self.state: State = "idle"
        self.found: FoundLayout | None = None
        self.failed = ""
        self.year = document.year
        self._base: Garden | None = None
        self._stopping = threading.Event()
        document.garden_changed.connect(self._follow)
        document.opened.connect(self.forget)

    @property
    def is_running(self) -> bool:
        """Whether something more will be found."""
        return self.state in ("begun", "searching", "judging")

    @property
    def is_outdated(self) -> bool:
        """Whether the garden is another one than that for which it was searched."""
        return self._base is not None and self._base is not self.document.stable

    def begin(
        self, year: int, beds: Collection[str] | None = None, *, seconds: float | None = None, seed: int = 0
    ) -> None:
        """Search anew, for the garden as it is now.

        Parameters
        ----------
        year : int
        beds : collection of str, optional
            Ids of the beds that are planned anew; all by default.
        seconds : float, optional
            How long to search. [s]
        seed : int
            Another one searches elsewhere.
        """
        self.jobs.cancel()
        garden, plan = self.document.stable, self.document.plan
        stopping = self._stopping = threading.Event()
        self._base, self.year, self.found, self.failed, self.state = garden, year, None, "", "begun"

        def work(cancelled: Cancelled) -> Iterator[FoundLayout | str]:
            apart, shown = SearchProcess(), -SHOWN_EVERY
            try:
                apart.begin()  # it loads the solver while the puzzle is made
                for proposal in propose(
                    plan.what_if(garden, year),
                    beds=beds,
                    seconds=seconds,
                    seed=seed,
                    stop=lambda: stopping.is_set() or cancelled(),
                    searching=apart.search,
                ):
                    if cancelled():
                        return
                    if proposal.judged or time.monotonic() - shown >= SHOWN_EVERY:
                        yield found_layout(proposal)
                        shown = time.monotonic()
            except BedwrightError as error:
                yield str(error)
            finally:
                apart.close()

        self.jobs.start(work, self._receive)
        self.changed.emit()

    def _receive(self, result: FoundLayout | str) -> None:
        if isinstance(result, str):
            self.failed, self.state = result, "over"
        else:
            self.found = result
            if result.proposal.judged:
                self.state = "over"
            elif self.state == "begun":
                self.state = "searching"
        self.changed.emit()

    def stop(self) -> None:
        """Search no further; what was found so far is still judged."""
        if self.state in ("begun", "searching"):
            self._stopping.set()
            self.state = "judging"
            self.changed.emit()

    def cancel(self) -> None:
        """End it, whatever it is about to find."""
        if self.is_running:
            self.jobs.cancel()
            self.state = "over"
            self.changed.emit()

    def forget(self) -> None:
        """Another garden is open: nothing of what was found is of it."""
        self.jobs.cancel()
        self._base = self.found = None
        self.failed, self.state = "", "idle"
        self.changed.emit()

    def _follow(self) -> None:
        if self._base is None or not self.is_outdated:
            return
        self.cancel()
