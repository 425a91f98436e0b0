"""Charts of a planting over the days on which it may start: years in which it is lost, and its first picking."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Callable

from planner.plan.lived_otherwise import DayCurve
from planner.season.lived.odds import Odds
from planner.sheets.chart_marks import Area, Chart, ChartInk, Dot, Frame, Line, Room, Words
from planner.words import say
from planner.words.dates import day_words, month_words

#: What takes a planting, from the axis upwards, its ink and the share of it.
_LOSSES: tuple[tuple[Callable[[Odds], int], ChartInk, float], ...] = (
    (lambda odds: odds.frost, "cold", 0.85),
    (lambda odds: odds.seed, "warm", 0.7),
    (lambda odds: odds.unripe, "pencil", 0.45),
    (lambda odds: odds.cleared, "pencil", 0.15),
)
_DASHED = (0.5, 0.3)


def losses_chart(curve: DayCurve, room: Room) -> Chart:
    """Of how many recorded years it is lost, by the day on which it starts, and to what.

    Parameters
    ----------
    curve : DayCurve
    room : Room
    """
    most = max((one.odds.years for one in curve.tried), default=1)
    frame = Frame(
        room,
        say("Years in which nothing is picked"),
        0,
        max(most, 1),
        lambda value: f"{value:.0f}",
        len(curve.tried),
        heads=1.2,
    )
    _legend(frame, curve)
    _months(frame, curve)
    for number, one in enumerate(curve.tried):
        left, right, foot = frame.x(number + 0.08), frame.x(number + 0.92), 0
        for count_of, ink, share in _LOSSES:
            count = count_of(one.odds)
            if count:
                low, high = frame.y(foot), frame.y(foot + count)
                frame.add(Area(((left, low), (right, low), (right, high), (left, high)), ink, share))
                frame.add(Line(((left, low), (left, high), (right, high), (right, low)), ink, 0.8))
                foot += count
    _marked_days(frame, curve)
    return frame.chart()


def picking_chart(curve: DayCurve, room: Room) -> Chart | None:
    """Its first picking by the day on which it starts: the middle, half of the years, and eight years in ten.

    Parameters
    ----------
    curve : DayCurve
    room : Room

    Returns
    -------
    Chart or None
        None where it is picked in no year on any day.
    """
    spreads = [one.odds.first if one.odds.rests_on != "nothing" else None for one in curve.tried]
    known = [one for one in spreads if one is not None]
    if not known:
        return None
    low = min(one.tenth for one in known).toordinal()
    high = max(one.nine_tenths for one in known).toordinal()
    frame = Frame(
        room,
        say("First picking"),
        low,
        high,
        lambda value: day_words(dt.date.fromordinal(round(value))),
        len(curve.tried),
        _month_days(low, high),
        heads=1.2,
    )
    key = say("line: middle of the years; dark: half of them; light: eight in ten")
    if frame.left + room.measure(key) > room.width:
        key = say("dark: half of the years; light: eight in ten")
    frame.add(Words(frame.left, room.line * 1.9, key))
    _months(frame, curve)
    for at, spread in enumerate(spreads):
        if spread is None:
            continue
        left, right = frame.x(at), frame.x(at + 1)
        for first, last, share in (
            (spread.tenth, spread.nine_tenths, 0.16),
            (spread.quarter, spread.three_quarters, 0.34),
        ):
            bottom, top = frame.y(first.toordinal()), frame.y(last.toordinal())
            if bottom - top >= 0.5:
                frame.add(Area(((left, bottom), (right, bottom), (right, top), (left, top)), "warm", share))
        middle = frame.y(spread.middle.toordinal())
        frame.add(Line(((left, middle), (right, middle)), "ink", 2.0))
    _marked_days(frame, curve)
    return frame.chart()


def _month_days(low: int, high: int) -> list[float]:
    """First days of months that name the scale, and its two ends where those are too few. [ordinals]"""
    first = dt.date.fromordinal(low).replace(day=1)
    days = [float(first.toordinal())]
    while days[-1] < high:
        first = (first + dt.timedelta(days=32)).replace(day=1)
        days.append(float(first.toordinal()))
    step = max(1, (len(days) - 1) // 5)
    kept = days[::step]
    return kept if kept[-1] == days[-1] else [*kept, days[-1]]


def _legend(frame: Frame, curve: DayCurve) -> None:
    """What the inks that occur stand for, on the line below the title, as far as there is room."""
    line, x = frame.room.line, frame.left
    names = (say("frost"), say("running to seed"), say("not ripe in time"), say("cleared unripe"))
    for (count_of, ink, share), name in zip(_LOSSES, names, strict=True):
        if not any(count_of(one.odds) for one in curve.tried):
            continue
        end = x + line * 1.1 + frame.room.measure(name)
        if end > frame.right:
            break
        top, bottom = line * 1.35, line * 1.95
        corners = ((x, bottom), (x + line * 0.7, bottom), (x + line * 0.7, top), (x, top))
        frame.add(Area(corners, ink, share), Line((*corners, corners[0]), ink, 0.8))
        frame.add(Words(x + line * 1.0, line * 1.9, name))
        x = end + line * 0.9


def _months(frame: Frame, curve: DayCurve) -> None:
    """A faint line where a month begins, and its name."""
    names = []
    for at, (before, one) in enumerate(itertools.pairwise(curve.tried), 1):
        if before.day.month != one.day.month:
            x = frame.x(at)
            frame.add(Line(((x, frame.top), (x, frame.bottom)), "faint"))
            names.append((float(at), month_words(one.day.month, short=True)))
    frame.foot(names, centred=False)


def _marked_days(frame: Frame, curve: DayCurve) -> None:
    """The planned day as a whole line with a knob to move it by, the best one as a dashed line; days beyond the crop's own are washed."""
    line, window = frame.room.line, curve.window
    for number, one in enumerate(curve.tried):
        if window is not None and not window.first <= one.day <= window.last:
            left, right = frame.x(number), frame.x(number + 1)
            corners = ((left, frame.bottom), (right, frame.bottom), (right, frame.top), (left, frame.top))
            frame.add(Area(corners, "pencil", 0.14))
    for number, one in enumerate(curve.tried):
        planned = curve.planned is not None and one.day == curve.planned.day
        best = curve.best is not None and one.day == curve.best.day
        if not planned and not best:
            continue
        x = frame.x(number + 0.5)
        ends = ((x, frame.top), (x, frame.bottom))
        frame.add(Line(ends, "ink", 2.0 if planned else 1.2, () if planned else _DASHED))
        if planned:
            frame.add(Dot(x, frame.top, line * 0.28, "ink"))
        name = (
            say("planned")
            if planned and not best
            else say("best")
            if not planned
            else say("planned and best")
        )
        width = frame.room.measure(name)
        left = x + line * 0.4
        if left + width > frame.right:
            left = x - line * 0.4 - width
        y = frame.top + line * (0.9 if planned else 2.0)
        frame.add(Words(left, y, name, "ink", bold=planned))
