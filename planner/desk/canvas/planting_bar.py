"""A planting as a bar over the year, and its dates in words."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from planner.desk.canvas.odds_band import ABOVE, paint_spread
from planner.desk.model.document import Document
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look
from planner.garden import Planting
from planner.listings.odds_line import odds_shown
from planner.season.lived.odds import DaySpread, spreads_of
from planner.season.planting_dates import Dated, Dates
from planner.sheets.family_inks import family_ink
from planner.words import later, say

_DAY = dt.timedelta(days=1)

#: What is said of where a date comes from.
MARKS = {"worked out": "", "by hand": later(", set by hand"), "done": later(", done")}

_STEPS = {
    "sow": later("sow"),
    "prick_out": later("prick out"),
    "pot_on": later("pot on"),
    "harden_off": later("harden off"),
    "set_out": later("set out"),
    "thin": later("thin"),
    "first_harvest": later("pick from"),
    "last_harvest": later("pick until"),
    "clear": later("clear"),
}


def steps_of(dates: Dates) -> list[tuple[str, Dated]]:
    """The dates of a planting with their words, in order."""
    found = [(say(_STEPS[name]), getattr(dates, name)) for name in _STEPS]
    return [(words, dated) for words, dated in found if dated is not None]


class YearScale(Protocol):
    """Where the days of the growing year lie across a drawing."""

    @property
    def document(self) -> Document:
        """The garden drawn."""
        ...

    def x_of(self, day: dt.date) -> float:
        """Where a day begins. [pixels]"""
        ...


class _Bar:
    """The stretch of the drawing that a span of days takes, as high as the bar."""

    def __init__(self, scale: YearScale, top: float, height: float) -> None:
        self.scale, self.year = scale, scale.document.plan.span
        self.top, self.height = top, height

    def rect(self, first: dt.date, last: dt.date) -> QRectF | None:
        """Where a span of days is drawn; None where it lies outside the growing year."""
        if last < self.year.first or first > self.year.last:
            return None
        left = self.scale.x_of(max(first, self.year.first))
        right = self.scale.x_of(min(last, self.year.last) + _DAY)
        return QRectF(left, self.top + 4, max(right - left, 2.0), self.height - 8)

    def places(self, spread: DaySpread) -> tuple[float, float, float, float, float] | None:
        """Where the days of a spread are drawn; None where it lies outside the growing year."""
        if spread.nine_tenths < self.year.first or spread.tenth > self.year.last:
            return None
        inside = [min(max(day, self.year.first), self.year.last) for day in spread]
        half = (self.scale.x_of(self.year.first + _DAY) - self.scale.x_of(self.year.first)) / 2
        low, quarter, middle, most, high = (self.scale.x_of(day) + half for day in inside)
        return low, quarter, middle, most, high


@dataclass(frozen=True)
class BarInks:
    """The inks of a planting's bar, and how its stretches are drawn with them: on the bar and in a legend.

    Attributes
    ----------
    look : Look
    family : str
        Botanical family of the crop; empty where it is not known.
    """

    look: Look
    family: str

    @property
    def line(self) -> QColor:
        """Ink of the family's lines."""
        return plant_symbols.colour(family_ink(self.family, dark=self.look.dark).line_rgb)

    def paint_indoors(self, painter: QPainter, rect: QRectF) -> None:
        """The days on which young plants are raised indoors."""
        painter.setPen(QPen(self.line, 1.0, Qt.PenStyle.DashLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(rect.adjusted(0, 2, 0, -2))

    def paint_growing(self, painter: QPainter, rect: QRectF) -> None:
        """The days on the plot."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(plant_symbols.hatch_brush(self.family, self.look.dark, 0.4, 1.0))
        painter.drawRect(rect)

    def paint_picking(self, painter: QPainter, rect: QRectF) -> None:
        """The days of the harvest, over those on the plot."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.line)
        painter.drawRect(rect)

    def paint_frame(self, painter: QPainter, rect: QRectF, *, chosen: bool = False) -> None:
        """The frame about the days on the plot."""
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.look.accent if chosen else self.line, 1.8 if chosen else 1.0))
        painter.drawRect(rect)

    def paint_set_by_hand(self, painter: QPainter, at: QPointF) -> None:
        """The dot at a first or last day that was set by hand."""
        painter.setBrush(self.look.ink)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.drawEllipse(at, 2.4, 2.4)


def paint_bar(
    painter: QPainter,
    scale: YearScale,
    look: Look,
    planting: Planting,
    top: float,
    height: float,
    *,
    chosen: bool = False,
) -> None:
    """Paint a planting as a bar over the year: raised indoors, growing, picked, until it is cleared; above it its odds.

    Parameters
    ----------
    painter : QPainter
    scale : YearScale
    look : Look
    planting : Planting
    top, height : float
        Of the line the bar lies in. [pixels]
    chosen : bool
        Whether its planting is selected.
    """
    plan = scale.document.plan
    crop = scale.document.catalogue.get(planting.crop)
    inks = BarInks(look, crop.family if crop else "")
    span, bar = plan.span_of(planting), _Bar(scale, top, height)
    stages = plan.dates(planting).stages()
    for stage in stages:
        bench = bar.rect(stage.first, stage.last)
        if stage.name == "indoors" and bench is not None:
            inks.paint_indoors(painter, bench)
    whole = bar.rect(span.first, span.last)
    if whole is None:
        return
    inks.paint_growing(painter, whole)
    for stage in stages:
        picked = bar.rect(max(stage.first, span.first), min(stage.last, span.last))
        if stage.name == "picking" and picked is not None:
            inks.paint_picking(painter, picked)
    inks.paint_frame(painter, whole, chosen=chosen)
    for spread, first in spreads_of(odds_shown(plan, planting)):
        places = bar.places(spread)
        if places is not None:
            paint_spread(painter, look, places, whole.top() - ABOVE, first=first)
    for day, x in ((planting.first, whole.left()), (planting.last, whole.right())):
        if day is not None and plan.span.holds(day):
            inks.paint_set_by_hand(painter, QPointF(x, whole.center().y()))
