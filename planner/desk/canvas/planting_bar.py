"""A planting as a bar over the year, and its dates in words."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from planner.desk.theme import plant_symbols
from planner.garden import Planting
from planner.season.planting_dates import Dated, Dates

_DAY = dt.timedelta(days=1)

#: What is said of where a date comes from.
MARKS = {"worked out": "", "by hand": ", pinned", "done": ", done"}

_STEPS = (
    ("sow", "sow"),
    ("prick_out", "prick out"),
    ("harden_off", "harden off"),
    ("set_out", "set out"),
    ("thin", "thin"),
    ("first_harvest", "pick from"),
    ("last_harvest", "pick until"),
    ("clear", "clear"),
)


def steps_of(dates: Dates) -> list[tuple[str, Dated]]:
    """The dates of a planting with their words, in order."""
    found = [(words, getattr(dates, name)) for name, words in _STEPS]
    return [(words, dated) for words, dated in found if dated is not None]


def paint_bar(
    painter: QPainter, scale, look, planting: Planting, top: float, height: float, *, chosen: bool = False
) -> None:
    """A planting as a bar over the year: raised indoors, growing, picked, standing.

    ``scale`` has ``document`` and ``x_of(day)``.
    """
    plan = scale.document.plan
    crop = scale.document.catalogue.get(planting.crop)
    family = crop.family if crop else ""
    ink = plant_symbols.family_ink(family, dark=look.dark)
    year, span = plan.span, plan.span_of(planting)

    def rect(first: dt.date, last: dt.date) -> QRectF | None:
        if last < year.first or first > year.last:
            return None
        left, right = scale.x_of(max(first, year.first)), scale.x_of(min(last, year.last) + _DAY)
        return QRectF(left, top + 4, max(right - left, 2.0), height - 8)

    line = plant_symbols.colour(ink.line_rgb)
    whole = rect(span.first, span.last)
    stages = plan.dates(planting).stages()
    for stage in stages:
        bench = rect(stage.first, stage.last)
        if stage.name == "indoors" and bench is not None:
            painter.setPen(QPen(line, 1.0, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(bench.adjusted(0, 2, 0, -2))
    if whole is None:
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(plant_symbols.hatch_brush(family, look.dark, 0.4, 1.0))
    painter.drawRect(whole)
    for stage in stages:
        picked = rect(max(stage.first, span.first), min(stage.last, span.last))
        if stage.name == "picking" and picked is not None:
            painter.setBrush(line)
            painter.drawRect(picked)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(look.accent if chosen else line, 1.8 if chosen else 1.0))
    painter.drawRect(whole)
    painter.setBrush(look.ink)
    painter.setPen(Qt.PenStyle.NoPen)
    for day, side in ((planting.first, -1), (planting.last, 1)):  # a pin on each day given by hand
        if day is not None and year.holds(day):
            x = whole.left() if side < 0 else whole.right()
            painter.drawEllipse(QPointF(x, whole.center().y()), 2.4, 2.4)
