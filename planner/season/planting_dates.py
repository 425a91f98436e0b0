"""The dates of one planting, each with its reason."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal, NamedTuple

from planner.garden import Cover, Outcome
from planner.season.frosts import shift
from planner.season.practice import HEAT_ENOUGH
from planner.words import day_words, say

Origin = Literal["worked out", "by hand", "done"]

#: Stages of a planting, in order.
StageName = Literal["indoors", "growing", "picking", "standing"]


@dataclass(frozen=True)
class Dated:
    """A day and why it is that day.

    Attributes
    ----------
    day : date
    why : str
        The rule, in words.
    source : str
        Key of the source of the figure in it: a publication, ``practice`` or ``estimate``; may be empty.
    origin : str
        ``worked out``, ``by hand`` (pinned by the gardener) or ``done`` (ticked off).
    earliest, latest : date or None
        Half of the years lie between the two; None where that is not known.
    """

    day: dt.date
    why: str
    source: str = ""
    origin: Origin = "worked out"
    earliest: dt.date | None = None
    latest: dt.date | None = None

    @property
    def reason(self) -> str:
        """Why it is that day, and between which days half of the years lie."""
        if self.earliest is None or self.latest is None or self.earliest >= self.latest:
            return self.why
        return say(
            "{why}; in half of the years between {early} and {late}",
            why=self.why,
            early=day_words(self.earliest),
            late=day_words(self.latest),
        )

    @property
    def pinned(self) -> bool:
        """Whether the day was given by hand."""
        return self.origin == "by hand"


@dataclass(frozen=True)
class CoverDays:
    """First and last day of one cover; without a last one it lies until the planting is cleared.

    ``cover`` is the planting's cover whose days they are; ``vent`` the first day on which it may have to be opened.
    """

    kind: str
    on: Dated
    off: Dated | None
    cover: Cover | None = None
    vent: Dated | None = None

    def lies_on(self, day: dt.date) -> bool:
        """Whether the cover lies on a day."""
        return self.on.day <= day and (self.off is None or day <= self.off.day)


class CareDays(NamedTuple):
    """A piece of work between the start and the end of a planting, and when it is due.

    Attributes
    ----------
    kind, task : str
        One of :data:`planner.crops.aftercare.CARE_WORDS` and of :data:`planner.crops.aftercare.TASKS`.
    on : Dated
        First day for it.
    until : date
        Last day for it; the same where it is one day's work.
    every : int
        It is done again after so many days until then; 0 where it is done once. [days]
    """

    kind: str
    task: str
    on: Dated
    until: dt.date
    every: int = 0


@dataclass(frozen=True)
class HeatSum:
    """Heat that a planting needs to be ripe, and finds, in degree-days over its crop's base.

    Attributes
    ----------
    wanted : float
        Need of the soonest sort it may be. [deg C days]
    found : float
        Heat of its place until then, with that of covers and glass. [deg C days]
    base : float
        [deg C]
    until : date
        The first autumn frost, or the day from which it is too cool and dark for what frost does not kill.
    """

    wanted: float
    found: float
    base: float
    until: dt.date

    @property
    def enough(self) -> bool:
        """Whether it may ripen."""
        return self.found >= HEAT_ENOUGH * self.wanted


@dataclass(frozen=True)
class Bolting:
    """When a planting runs to seed.

    Attributes
    ----------
    begins : date
        The day from which it does.
    gone : date
        The day by which it is of no more use.
    cause : {"long days", "heat", "cold", "winter"}
        ``cold`` of spring felt by young plants, ``winter`` by grown ones.
    source : str
        Key of the source of the figure.
    """

    begins: dt.date
    gone: dt.date
    cause: Literal["long days", "heat", "cold", "winter"]
    source: str


@dataclass(frozen=True)
class Stage:
    """A stretch of a planting's life, both ends included."""

    name: StageName
    first: dt.date
    last: dt.date


@dataclass(frozen=True)
class Dates:
    """Dates of a planting; None where a step does not belong to it or cannot be worked out.

    Attributes
    ----------
    start : str
        How it starts, one of :data:`planner.crops.crop.START_WORDS`.
    sheltered : bool
        It grows under glass.
    stays_for_years : bool
        It is a perennial left in its ground; its harvest is that of the growing year wanted.
    sow, prick_out, pot_on, harden_off, set_out, emerge, thin, support_up, flower : Dated or None
    first_harvest, last_harvest, clear : Dated or None
    stands_on : date or None
        A day on which it still stands; of a planting whose clearing is not known.
    covers : tuple of CoverDays
    bolts : Bolting or None
        None where it never runs to seed, and where that is not known.
    aftercare : tuple of CareDays
        Work between its start and its end, one of each kind.
    heat : HeatSum or None
        Of what is harvested in the year it starts, where the monthly means are known.
    ripens : bool
        False where it would not be ripe in time.
    outcome : Outcome or None
        How it ended, where that is recorded.
    picked_until : date or None
        The last day on which it would have been picked, where it was lost while it was picked.
    missing : tuple of str
        Why dates could not be worked out, a sentence each.
    doubts : tuple of str
        What is doubtful of the dates, a sentence each.
    """

    start: str
    sheltered: bool = False
    stays_for_years: bool = False
    sow: Dated | None = None
    prick_out: Dated | None = None
    pot_on: Dated | None = None
    harden_off: Dated | None = None
    set_out: Dated | None = None
    emerge: Dated | None = None
    thin: Dated | None = None
    support_up: Dated | None = None
    flower: Dated | None = None
    first_harvest: Dated | None = None
    last_harvest: Dated | None = None
    clear: Dated | None = None
    stands_on: dt.date | None = None
    covers: tuple[CoverDays, ...] = ()
    bolts: Bolting | None = None
    aftercare: tuple[CareDays, ...] = ()
    heat: HeatSum | None = None
    ripens: bool = True
    outcome: Outcome | None = None
    picked_until: dt.date | None = None
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    @property
    def on_plot(self) -> Dated | None:
        """The day it takes its plot: sown there, or set out."""
        return self.sow if self.start == "sown" else self.set_out

    def care_day(self, kind: str) -> Dated | None:
        """The first day for a kind of aftercare; None where it needs none."""
        return next((care.on for care in self.aftercare if care.kind == kind), None)

    @property
    def off_plot(self) -> Dated | None:
        """The last day it takes its plot."""
        return self.clear

    @property
    def indoors(self) -> tuple[dt.date, dt.date] | None:
        """First and last day on the bench, both included; None where it is not raised."""
        if self.start != "raised" or self.sow is None or self.set_out is None:
            return None
        last = shift(self.set_out.day, -1)
        return (self.sow.day, last) if last >= self.sow.day else None

    def stages(self) -> tuple[Stage, ...]:
        """Stretches of its life, in order and without gaps, as far as the dates are known."""
        found: list[Stage] = []
        bench, on, off = self.indoors, self.on_plot, self.off_plot
        if bench is not None:
            found.append(Stage("indoors", *bench))
        if on is None or (off is None and not self.stays_for_years):
            return tuple(found)
        end = off.day if off is not None else dt.date(on.day.year + 100, 12, 31)
        marks: list[tuple[StageName, dt.date]] = [("growing", on.day)]
        if self.first_harvest is not None:
            marks.append(("picking", self.first_harvest.day))
            if self.last_harvest is not None and self.last_harvest.day < end:
                marks.append(("standing", shift(self.last_harvest.day, 1)))
        for i, (name, first) in enumerate(marks):
            last = shift(marks[i + 1][1], -1) if i + 1 < len(marks) else end
            first, last = max(first, on.day), min(last, end)
            if first <= last:
                found.append(Stage(name, first, last))
        return tuple(found)
