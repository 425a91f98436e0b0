"""Charts of the weather of a place: frosts of each year, warmth over the year, degree-days, rain, dry spells and the trend."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, get_args

import numpy as np

from planner.garden.site import UnitSystem
from planner.garden.units import INCH
from planner.season.daily_weather import Numbers
from planner.season.frost_seasons import RISKS
from planner.season.place_weather import Heat, PlaceWeather
from planner.season.year_table import DAYS, day_index
from planner.sheets.chart_marks import Area, Chart, ChartInk, Dot, Frame, Line, Mark, Place, Room, Words
from planner.words import say, short_number, whole_words
from planner.words.dates import month_words

ChartName = Literal["frosts", "warmth", "heat", "rain", "dry", "trend"]
CHARTS: tuple[ChartName, ...] = get_args(ChartName)
#: Dashes of lines that are not the main one, and of extremes.
_DASHED, _DOTTED = (0.5, 0.3), (0.12, 0.25)


def draw_chart(
    name: ChartName,
    place: PlaceWeather,
    heat: Heat,
    room: Room,
    units: UnitSystem,
    year: int | None = None,
    *,
    frosts: bool = False,
) -> Chart | None:
    """A chart of a place; None where the years do not hold what it shows.

    Parameters
    ----------
    name : str
    place : PlaceWeather
    heat : Heat
    room : Room
    units : {"metric", "feet_inches"}
    year : int, optional
        A year that is drawn apart.
    frosts : bool
        Whether the days of the last and the first frost are drawn into the warmth over the year.
    """
    if name == "frosts":
        return _frosts(place, room, year)
    if name == "warmth":
        return _warmth(place, room, units, frosts=frosts)
    if name == "heat":
        return _heat(place, heat, room, units, year)
    if name == "rain":
        return _rain(place, room, units)
    if name == "dry":
        return _dry(place, room, units)
    return _trend(place, room, units)


# -- over the days of the year ----------------------------------------------------------------------


def _months(frame: Frame, place: PlaceWeather) -> None:
    """Names of the months, and a faint line where each begins."""
    begins = place.table.month_begins
    for begin in begins[:-1]:
        x = frame.x(begin)
        frame.add(Line(((x, frame.top), (x, frame.bottom)), "faint"))
    names = [month_words(month, short=True) for month in place.table.months]
    wide = frame.x(30) - frame.x(0) > max(map(frame.room.measure, names)) + frame.room.line * 0.3
    frame.foot(((begin + 15, name if wide else name[:1]) for begin, name in zip(begins, names, strict=False)))


def _frost_days(frame: Frame, place: PlaceWeather, *, inside: bool) -> None:
    """Lines at the days of the last and of the first frost, the even chance as a whole line; risks as far as they have room."""
    line, measure = frame.room.line, frame.room.measure
    days = [
        (risk, spring, index)
        for risk in sorted(RISKS, key=lambda risk: abs(risk - 50))
        for spring in (True, False)
        if (index := place.frost_index(spring, risk)) is not None
    ]
    taken: list[tuple[float, float]] = []
    for risk, spring, index in days:
        x, even = frame.x(index + 0.5), risk == 50
        ends = ((x, frame.top), (x, frame.bottom))
        frame.add(Line(ends, "cold", 1.4 if even else 1.0, () if even else _DASHED))
        words = say("{risk} %", risk=risk)
        begin = x + line * 0.2 if inside else x - measure(words) / 2
        end = begin + measure(words) + line * 0.2
        if any(begin < right and left < end for left, right in taken):
            continue
        taken.append((begin, end))
        frame.add(Words(begin, frame.top + line * (0.9 if inside else -0.25), words, "cold"))
        if even and inside:
            name = say("last frost") if spring else say("first frost")
            frame.add(Words(begin, frame.top + line * 1.9, name, "cold"))


def _frosts(place: PlaceWeather, room: Room, year: int | None) -> Chart:
    frosts = place.frosts_by_year()
    years = [one[0] for one in frosts]
    count = len(years)
    high = room.height - room.line * 3.1
    each = max(1, int(np.ceil(count * room.line * 1.15 / max(high, 1.0))))
    named = {count - at - 0.5: str(one) for at, one in enumerate(years) if one % _step_of(each) == 0}
    title = say("Last frost (dot) and first frost (ring) of each year")
    frame = Frame(room, title, 0.0, float(count), named.__getitem__, DAYS, list(named), 0.7)
    _months(frame, place)
    radius = min(room.line * 0.28, max(0.35 * (frame.bottom - frame.top) / max(count, 1), room.line * 0.1))
    _frost_days(frame, place, inside=False)
    for at, (one, last, first) in enumerate(frosts):
        y = frame.y(count - at - 0.5)
        for day, filled in ((last, True), (first, False)):
            if day is not None:
                x = frame.x(day_index(day, place.table.first_month) + 0.5)
                frame.add(Dot(x, y, radius * (1.5 if one == year else 1.0), "ink", filled))
    frame.steps = count
    return frame.chart(down=True)


def _step_of(least: int) -> int:
    """Every which year is named."""
    return next((step for step in (1, 2, 5, 10, 20) if step >= least), 50)


def _warmth(place: PlaceWeather, room: Room, units: UnitSystem, *, frosts: bool) -> Chart | None:
    low, high = _degrees(place.bands.low, units), _degrees(place.bands.high, units)
    if np.isnan(low[2]).all():
        return None
    least, most = float(np.nanmin(low)), float(np.nanmax([np.nanmax(low), np.nanmax(high, initial=-99)]))
    sign = "°C" if units == "metric" else "°F"
    frame = Frame(
        room, say("Minimum and maximum over the year, {degrees}", degrees=sign), least, most, _whole, DAYS
    )
    _months(frame, place)
    if frosts:
        _frost_days(frame, place, inside=True)
    freezing = 0.0 if units == "metric" else 32.0
    if frame.low < freezing < frame.high:
        y = frame.y(freezing)
        frame.add(Line(((frame.left, y), (frame.right, y)), "pencil", 1.0))
    for values, ink, dash, extreme in ((high, "warm", (), 4), (low, "cold", _DASHED, 0)):
        chosen: ChartInk = "warm" if ink == "warm" else "cold"
        if np.isnan(values[2]).all():
            continue
        frame.add(_band(frame, values[1], values[3], chosen))
        frame.add(
            *_curve(frame, values[2], chosen, 1.6, dash),
            *_curve(frame, values[extreme], chosen, 1.0, _DOTTED),
        )
        words = say("maximum") if extreme else say("minimum")
        at = int(np.nanargmax(values[2])) if extreme else int(np.nanargmax(low[2]))
        y = frame.y(values[2, at])
        frame.add(Words(frame.x(at), y - room.line * 0.25, words, chosen, "middle", bold=True))
    return frame.chart()


def _heat(place: PlaceWeather, heat: Heat, room: Room, units: UnitSystem, year: int | None) -> Chart | None:
    if not heat.years:
        return None
    scale = 1.0 if units == "metric" else 1.8
    base = short_number(heat.base if units == "metric" else heat.base * 1.8 + 32)
    sign = "°C" if units == "metric" else "°F"
    title = say("Degree-days over {base} {degrees}", base=base, degrees=sign)
    bands = heat.bands * scale
    most = float(max(bands.max(), heat.sums.max() * scale if year in heat.years else 0.0))
    frame = Frame(room, title, 0.0, max(most, 1.0), _whole, DAYS)
    _months(frame, place)
    frame.add(_band(frame, bands[0], bands[2], "warm"), *_curve(frame, bands[1], "warm", 1.6))
    if year in heat.years:
        own = heat.sums[heat.years.index(year)] * scale
        frame.add(*_curve(frame, own, "ink", 1.6, _DASHED))
        frame.add(
            Words(
                frame.right, frame.y(float(own[-1])) - room.line * 0.25, str(year), "ink", "right", bold=True
            )
        )
    return frame.chart()


# -- over months and years --------------------------------------------------------------------------


def _rain(place: PlaceWeather, room: Room, units: UnitSystem) -> Chart | None:
    if place.rain is None or np.isnan(place.rain.bands[1]).all():
        return None
    bands = place.rain.bands / (1.0 if units == "metric" else 1000 * INCH)
    title = say("Rain by month, mm") if units == "metric" else say("Rain by month, inches")
    frame = Frame(room, title, 0.0, float(np.nanmax(bands)), _short, 12)
    for at in range(12):
        low, middle, high = (float(value) for value in bands[:, at])
        if np.isnan(middle):
            continue
        left, right, x = frame.x(at + 0.2), frame.x(at + 0.8), frame.x(at + 0.5)
        frame.add(_box(left, frame.y(middle), right, frame.bottom, "wet", 0.45))
        frame.add(Line(((left, frame.y(middle)), (right, frame.y(middle))), "wet", 1.8))
        frame.add(Line(((x, frame.y(low)), (x, frame.y(high))), "ink", 1.2))
        tick = (right - left) * 0.2
        frame.add(
            *(Line(((x - tick, frame.y(end)), (x + tick, frame.y(end))), "ink", 1.2) for end in (low, high))
        )
    names = [month_words(month, short=True) for month in place.table.months]
    wide = frame.x(1) - frame.x(0) > max(map(room.measure, names)) + room.line * 0.3
    frame.foot((at + 0.5, name if wide else name[:1]) for at, name in enumerate(names))
    return frame.chart()


def _dry(place: PlaceWeather, room: Room, units: UnitSystem) -> Chart | None:
    rain = place.rain
    if rain is None or not rain.spells:
        return None
    years = place.table.years
    by_year = {year: days for year, _, days in rain.spells}
    if units == "metric":
        title = say("Longest run of days under 1 mm in each year")
    else:
        title = say("Longest run of days under 0.04 in in each year")
    frame = Frame(room, title, 0.0, float(max(by_year.values())), _whole, len(years))
    for at, year in enumerate(years):
        if year in by_year:
            left, right = frame.x(at + 0.15), frame.x(at + 0.85)
            frame.add(_box(left, frame.y(by_year[year]), right, frame.bottom, "warm", 0.45))
            frame.add(Line(((left, frame.y(by_year[year])), (right, frame.y(by_year[year]))), "warm", 1.6))
    half = float(np.median(list(by_year.values())))
    frame.add(Line(((frame.left, frame.y(half)), (frame.right, frame.y(half))), "ink", 1.2, _DASHED))
    _years(frame, years)
    return frame.chart()


def _trend(place: PlaceWeather, room: Room, units: UnitSystem) -> Chart | None:
    trend = place.trend
    if trend is None:
        return None
    years = range(trend.years[0], trend.years[-1] + 1)
    means = _degrees(trend.means, units)
    sign = "°C" if units == "metric" else "°F"
    title = say("Mean temperature of each year, {degrees}", degrees=sign)
    frame = Frame(room, title, float(means.min()), float(means.max()), _short, len(years))

    def at(year: int, slope: float) -> float:
        value = trend.middle[1] + slope * (year - trend.middle[0])
        return frame.y(value if units == "metric" else value * 1.8 + 32)

    def inside(y: float) -> float:
        return min(max(y, frame.top), frame.bottom)

    ends = (years[0], years[-1])
    fan = [
        (frame.x(year - years[0] + 0.5), inside(at(year, slope)))
        for slope, pair in ((trend.low, ends), (trend.high, ends[::-1]))
        for year in pair
    ]
    middle = (frame.x(trend.middle[0] - years[0] + 0.5), at(0, 0.0))
    frame.add(
        Area((fan[0], middle, fan[3]), "warm", 0.2),
        Area((fan[1], middle, fan[2]), "warm", 0.2),
    )
    line = tuple((frame.x(year - years[0] + 0.5), at(year, trend.slope)) for year in ends)
    frame.add(Line(line, "warm", 1.8, () if trend.is_proven else _DASHED))
    for year, mean in zip(trend.years, means, strict=True):
        frame.add(Dot(frame.x(year - years[0] + 0.5), frame.y(float(mean)), room.line * 0.18, "ink"))
    _years(frame, years)
    return frame.chart()


def _years(frame: Frame, years: Sequence[int]) -> None:
    width = frame.room.measure("2000") + frame.room.line * 0.6
    each = max(1, int(np.ceil(width * len(years) / max(frame.right - frame.left, 1.0))))
    frame.foot((at + 0.5, str(year)) for at, year in enumerate(years) if year % _step_of(each) == 0)


# -- parts ------------------------------------------------------------------------------------------


def _degrees(celsius: Numbers, units: UnitSystem) -> Numbers:
    return celsius if units == "metric" else celsius * 1.8 + 32


def _whole(value: float) -> str:
    return whole_words(value).replace("-", "−")


def _short(value: float) -> str:
    return short_number(value).replace("-", "−")


def _box(left: float, top: float, right: float, bottom: float, ink: ChartInk, share: float) -> Area:
    return Area(((left, top), (right, top), (right, bottom), (left, bottom)), ink, share)


def _places(frame: Frame, values: Numbers) -> list[Place]:
    return [
        (frame.x(at + 0.5), frame.y(value)) for at, value in enumerate(values.tolist()) if not np.isnan(value)
    ]


def _curve(
    frame: Frame, values: Numbers, ink: ChartInk, weight: float, dash: tuple[float, ...] = ()
) -> list[Mark]:
    places = _places(frame, values)
    return [Line(tuple(places), ink, weight, dash)] if len(places) > 1 else []


def _band(frame: Frame, low: Numbers, high: Numbers, ink: ChartInk) -> Area:
    return Area((*_places(frame, low), *reversed(_places(frame, high))), ink)
