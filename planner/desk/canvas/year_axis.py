"""The growing year along a horizontal axis: where its days lie, and its months as lines."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from planner.desk.theme.palette import Look, letters
from planner.garden.site import RISKS
from planner.plan import Plan
from planner.season.frosts import day_within
from planner.season.spans import Span
from planner.words.dates import month_words

#: Where a month has less room, its name is one letter. [pixels]
NAME_WIDTH = 30
#: The cold half of the year is drawn so long before the last and after the first frost. [days]
COLD = 120
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class YearAxis:
    """The days of a span along a horizontal axis.

    Attributes
    ----------
    span : Span
    left, width : float
        Where the first day begins, and the length of the axis. [pixels]
    """

    span: Span
    left: float
    width: float

    def x_of(self, day: dt.date) -> float:
        """Where a day begins. [pixels]"""
        return self.left + (day - self.span.first).days / self.span.days * self.width

    def day_at(self, x: float) -> dt.date:
        """The day at a place, the first or last one beyond the ends. [pixels]"""
        days = int((x - self.left) / self.width * self.span.days)
        return self.span.first + _DAY * min(max(days, 0), self.span.days - 1)


def frost_shade(look: Look) -> QColor:
    """Wash over the days in which frost is likely; it is laid once for each risk."""
    shade = QColor(look.glass)
    shade.setAlphaF(0.13)
    return shade


def paint_frost(painter: QPainter, axis: YearAxis, plan: Plan, look: Look, top: float, bottom: float) -> None:
    """Lay bands from where frost is likely to where it is not: the more of them, the likelier.

    Parameters
    ----------
    painter : QPainter
    axis : YearAxis
    plan : Plan
    look : Look
    top, bottom : float
        Ends of the bands. [pixels]
    """
    climate, span, shade = plan.garden.climate, plan.span, frost_shade(look)
    for dates, spring in ((climate.last_frost, True), (climate.first_frost, False)):
        if dates is None:
            continue
        for text in (dates.at(risk) for risk in RISKS):
            day = day_within(text, span.first)
            edge = day - _DAY * COLD if spring else day + _DAY * COLD
            edge = min(max(edge, span.first), span.last + _DAY)
            left, right = sorted((axis.x_of(edge), axis.x_of(day)))
            painter.fillRect(QRectF(left, top, right - left, bottom - top), shade)


def paint_months(
    painter: QPainter, axis: YearAxis, look: Look, top: float, bottom: float, text: tuple[float, float] | None
) -> None:
    """Draw a line where each month begins, with its name beside it, or the first letter of it.

    Parameters
    ----------
    painter : QPainter
    axis : YearAxis
    look : Look
    top, bottom : float
        Ends of the lines. [pixels]
    text : tuple of float or None
        Distance of the names from the lines, and their base line; None for lines without names. [pixels]
    """
    painter.setFont(letters(9))
    narrow = axis.width / axis.span.days * 365 / 12 < NAME_WIDTH
    day = axis.span.first
    while day <= axis.span.last:
        x = round(axis.x_of(day)) + 0.5
        painter.setPen(QPen(look.grid_major, 1))
        painter.drawLine(QPointF(x, top), QPointF(x, bottom))
        painter.setPen(look.pencil)
        if text is not None:
            name = month_words(day.month, short=True)
            painter.drawText(QPointF(x + text[0], text[1]), name[:1] if narrow else name)
        day = (day.replace(day=1) + _DAY * 32).replace(day=1)
