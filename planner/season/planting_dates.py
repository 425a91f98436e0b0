"""The dates of one planting, each with its reason."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from planner.season.frosts import shift
from planner.season.practice import HEAT_ENOUGH

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
    """

    day: dt.date
    why: str
    source: str = ""
    origin: Origin = "worked out"

    @property
    def pinned(self) -> bool:
        """Whether the day was given by hand."""
        return self.origin == "by hand"


@dataclass(frozen=True)
class CoverDays:
    """Days of one cover of a planting."""

    kind: str
    on: Dated
    off: Dated | None

    def lies_on(self, day: dt.date) -> bool:
        """Whether it lies on a day."""
        return self.on.day <= day and (self.off is None or day <= self.off.day)


@dataclass(frozen=True)
class HeatSum:
    """Heat until a planting is ripe, over 10 °C. [deg C days]

    Attributes
    ----------
    wanted : float
        What the soonest sort that may be meant needs, covers and glass reckoned in.
    found : float
        What its place gives it before the first autumn frost.
    """

    wanted: float
    found: float

    @property
    def enough(self) -> bool:
        """Whether it may ripen."""
        return self.found >= HEAT_ENOUGH * self.wanted


@dataclass(frozen=True)
class Stage:
    """A stretch of a planting's life, both ends included."""

    name: StageName
    first: dt.date
    last: dt.date


@dataclass(frozen=True)
class Dates:
    """Dates of a planting; None where a step does not belong to it or cannot be worked out.

    ``missing`` says why in the second case, a sentence each; ``doubts`` is what the dates themselves
    give to think about.  ``heat`` is known of crops that a cool summer may leave unripe, where the
    monthly means are.  ``on_plot`` is the day the planting takes its plot, ``off_plot`` the last day
    it does.  A planting that stands for years has the harvest of the growing year asked for.
    """

    start: str
    stays_for_years: bool = False
    sow: Dated | None = None
    prick_out: Dated | None = None
    harden_off: Dated | None = None
    set_out: Dated | None = None
    emerge: Dated | None = None
    thin: Dated | None = None
    support_up: Dated | None = None
    mulch: Dated | None = None
    earth_up: Dated | None = None
    flower: Dated | None = None
    first_harvest: Dated | None = None
    last_harvest: Dated | None = None
    clear: Dated | None = None
    covers: tuple[CoverDays, ...] = ()
    heat: HeatSum | None = None
    ripens: bool = True
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    @property
    def on_plot(self) -> Dated | None:
        """The day it takes its plot: sown there, or set out."""
        return self.sow if self.start == "sown" else self.set_out

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
