"""What recorded years tell of a place, in sentences: in all, of a day of the year, of a month and of a year."""

from __future__ import annotations

import numpy as np

from planner.garden import Site
from planner.garden.site import UnitSystem
from planner.garden.units import INCH, show_heat
from planner.listings.phrases import day
from planner.season.frost_seasons import RISKS
from planner.season.place_weather import CONFIDENCE, DRY, WINDOW, Heat, PlaceWeather, Trend
from planner.words import capital, day_words, join_list, number_words, say, whole_words
from planner.words.dates import day_of_year_words, month_words

#: A trend of fewer years is said to be from few.
_FEW = 20


def degrees_words(celsius: float, units: UnitSystem) -> str:
    """A temperature to a tenth of a degree, with a true minus.

    Parameters
    ----------
    celsius : float
        [deg C]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> degrees_words(-3.14, "metric"), degrees_words(0, "feet_inches")
    ('−3.1 °C', '32.0 °F')
    """
    value, sign = (celsius, "°C") if units == "metric" else (celsius * 1.8 + 32, "°F")
    return f"{number_words(value, 1)} {sign}".replace("-", "−")


def rain_words(millimetres: float, units: UnitSystem) -> str:
    """A depth of rain.

    Parameters
    ----------
    millimetres : float
        [mm]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> rain_words(51.2, "metric"), rain_words(50.8, "feet_inches")
    ('51 mm', '2.0 in')
    """
    if units == "metric":
        return say("{number} mm", number=whole_words(round(millimetres)))
    return say("{number} in", number=number_words(millimetres / 1000 / INCH, 1))


def place_lines(place: PlaceWeather, heat: Heat, site: Site) -> list[str]:
    """The place in sentences, one for each picture.

    Parameters
    ----------
    place : PlaceWeather
    heat : Heat
    site : Site
    """
    lines = [frost_words(place), warmth_words(place, site), heat_words(heat, site)]
    if place.rain is not None:
        lines += [rain_year_words(place, site), dry_words(place)]
    return [*lines, trend_words(place.trend, site)]


def frost_words(place: PlaceWeather) -> str:
    """Days of the last and of the first frost at each risk."""
    parts = []
    for spring, season in ((True, place.spring), (False, place.autumn)):
        if not season.days:
            continue
        days = [
            say(
                "{day} at {risk} %",
                day=day_of_year_words(text) if text is not None else say("none"),
                risk=risk,
            )
            for risk in RISKS
            for text in (season.at_risk(risk),)
        ]
        named = join_list(days)
        if spring:
            parts.append(
                say("Last frost of spring {days}, from {years} years.", days=named, years=season.years)
            )
        else:
            parts.append(
                say("First frost of autumn {days}, from {years} years.", days=named, years=season.years)
            )
    return " ".join(parts) or say("No year has few enough gaps for its frosts.")


def warmth_words(place: PlaceWeather, site: Site) -> str:
    """The warmest and the coldest time of the year, and how the bands are made."""
    low, high = place.bands.low, place.bands.high
    if np.isnan(low[2]).all() or np.isnan(high[2]).all():
        return say("Too few days for bands of warmth.")
    warmest, coldest = int(np.nanargmax(high[2])), int(np.nanargmin(low[2]))
    return say(
        "Warmest about {warmest}, with a maximum of {high}; coldest about {coldest}, with a minimum of {low}. Bands hold 8 of 10 days, dotted lines all of them, within {days} days about each.",
        warmest=day_words(place.table.date_of(warmest), 2001),
        high=degrees_words(float(high[2, warmest]), site.units),
        coldest=day_words(place.table.date_of(coldest), 2001),
        low=degrees_words(float(low[2, coldest]), site.units),
        days=WINDOW,
    )


def heat_words(heat: Heat, site: Site) -> str:
    """Degree-days of the whole year."""
    if not heat.years:
        return say("No year has few enough gaps for degree-days.")
    low, middle, high = (float(value) for value in heat.bands[:, -1])
    return say(
        "In half of {years} years more than {middle}; in 8 of 10 between {low} and {high}.",
        years=len(heat.years),
        middle=show_heat(middle, site.units, heat.base),
        low=_heat(low, site),
        high=_heat(high, site),
    )


def _heat(heat: float, site: Site) -> str:
    return whole_words(round(heat if site.units == "metric" else heat * 1.8))


def rain_year_words(place: PlaceWeather, site: Site) -> str:
    """Rain of a year, and its driest and wettest month."""
    rain = place.rain
    if rain is None:
        return say("No rain was measured.")
    known = rain.yearly[~np.isnan(rain.yearly)]
    middle = rain.bands[1]
    months = place.table.months
    parts = []
    if len(known):
        low, half, high = (
            rain_words(float(np.quantile(known, share)), site.units) for share in (0.1, 0.5, 0.9)
        )
        parts.append(
            say("{half} of rain in a middle year, {low} to {high} in 8 of 10.", half=half, low=low, high=high)
        )
    if not np.isnan(middle).all():
        driest, wettest = int(np.nanargmin(middle)), int(np.nanargmax(middle))
        parts.append(
            say(
                "Least falls in {driest} ({least}), most in {wettest} ({most}).",
                driest=month_words(months[driest]),
                least=rain_words(float(middle[driest]), site.units),
                wettest=month_words(months[wettest]),
                most=rain_words(float(middle[wettest]), site.units),
            )
        )
    return " ".join(parts) or say("No month has all its days of rain.")


def dry_words(place: PlaceWeather) -> str:
    """The usual and the longest dry spell."""
    rain = place.rain
    if rain is None or not rain.spells:
        return say("No rain was measured.")
    _, first, days = max(rain.spells, key=lambda spell: spell[2])
    half = float(np.median([spell[2] for spell in rain.spells]))
    return say(
        "The longest run of days under {dry} mm is {half} days in half of the years; the longest of all was {days} days from {first}.",
        dry=whole_words(DRY),
        half=whole_words(round(half)),
        days=days,
        first=day(first),
    )


def trend_words(trend: Trend | None, site: Site) -> str:
    """The trend with its interval, or that the years cannot prove one."""
    if trend is None:
        return say("Too few whole years for a trend.")
    scale = 10.0 if site.units == "metric" else 18.0
    sign = "°C" if site.units == "metric" else "°F"
    slope, low, high = (
        f"{'+' if value > 0 else ''}{number_words(value * scale, 2)}".replace("-", "−")
        for value in (trend.slope, trend.low, trend.high)
    )
    share = whole_words(CONFIDENCE * 100)
    years = len(trend.years)
    if not trend.is_proven:
        words = say(
            "Mean of the year: no trend that the {years} years can prove ({slope} {degrees} in ten years, {share} % interval {low} to {high}).",
            years=years,
            slope=slope,
            degrees=sign,
            share=share,
            low=low,
            high=high,
        )
    elif trend.slope > 0:
        slope = slope.removeprefix("+")
        words = say(
            "Mean of the year: warmer by {slope} {degrees} in ten years ({share} % interval {low} to {high}, from {years} years).",
            years=years,
            slope=slope,
            degrees=sign,
            share=share,
            low=low,
            high=high,
        )
    else:
        slope = slope.removeprefix("−")
        words = say(
            "Mean of the year: colder by {slope} {degrees} in ten years ({share} % interval {low} to {high}, from {years} years).",
            years=years,
            slope=slope,
            degrees=sign,
            share=share,
            low=low,
            high=high,
        )
    return say("{sentence} They are few.", sentence=words) if years < _FEW else words


# -- of one day, month or year ----------------------------------------------------------------------


def day_of_place_words(place: PlaceWeather, site: Site, index: int) -> str:
    """Usual minimum and maximum about a day of the year.

    Parameters
    ----------
    place : PlaceWeather
    site : Site
    index : int
        Day of the year from 0.
    """
    low, high = place.bands.low[:, index], place.bands.high[:, index]
    on = day_words(place.table.date_of(index), 2001)
    if np.isnan(low[2]) or np.isnan(high[2]):
        return say("{day}: not known", day=on)
    return say(
        "{day}: minimum {low} ({low_10} to {low_90}, least {least}), maximum {high} ({high_10} to {high_90}, most {most})",
        day=on,
        low=degrees_words(float(low[2]), site.units),
        low_10=degrees_words(float(low[1]), site.units),
        low_90=degrees_words(float(low[3]), site.units),
        least=degrees_words(float(low[0]), site.units),
        high=degrees_words(float(high[2]), site.units),
        high_10=degrees_words(float(high[1]), site.units),
        high_90=degrees_words(float(high[3]), site.units),
        most=degrees_words(float(high[4]), site.units),
    )


def heat_of_day_words(
    place: PlaceWeather, heat: Heat, site: Site, index: int, year: int | None = None
) -> str:
    """Degree-days by a day of the year, and those of one year.

    Parameters
    ----------
    place : PlaceWeather
    heat : Heat
    site : Site
    index : int
        Day of the year from 0.
    year : int, optional
    """
    low, middle, high = (_heat(float(value), site) for value in heat.bands[:, index])
    on = day_words(place.table.date_of(index), 2001)
    words = say(
        "by {day}: {middle} degree-days, {low} to {high} in 8 of 10 years",
        day=on,
        middle=middle,
        low=low,
        high=high,
    )
    if year in heat.years:
        own = _heat(float(heat.sums[heat.years.index(year), index]), site)
        words = say("{words}; {own} in {year}", words=words, own=own, year=year)
    return capital(words)


def month_of_place_words(place: PlaceWeather, site: Site, at: int) -> str:
    """Rain and dry spells of a month.

    Parameters
    ----------
    place : PlaceWeather
    site : Site
    at : int
        Which month of the growing year, from 0.
    """
    rain = place.rain
    name = capital(month_words(place.table.months[at]))
    if rain is None or np.isnan(rain.bands[1, at]):
        return say("{day}: not known", day=name)
    low, middle, high = (rain_words(float(value), site.units) for value in rain.bands[:, at])
    spell = float(np.nanmedian(rain.monthly_spells[:, at]))
    return say(
        "{month}: {middle} of rain, {low} to {high} in 8 of 10 years; longest dry spell {days} days in half of them",
        month=name,
        middle=middle,
        low=low,
        high=high,
        days=whole_words(round(spell)),
    )


def year_of_place_words(place: PlaceWeather, site: Site, at: int) -> str:
    """Frosts, mean, rain and longest dry spell of a year.

    Parameters
    ----------
    place : PlaceWeather
    site : Site
    at : int
        Which of the years, from 0.
    """
    year, last, first = place.frosts_by_year()[at]
    parts = []
    if last is not None:
        parts.append(say("last frost {day}", day=day_words(last)))
    if first is not None:
        parts.append(say("first frost {day}", day=day_words(first)))
    if place.trend is not None and year in place.trend.years:
        mean = float(place.trend.means[place.trend.years.index(year)])
        parts.append(say("mean {degrees}", degrees=degrees_words(mean, site.units)))
    if place.rain is not None and not np.isnan(place.rain.yearly[at]):
        parts.append(say("rain {depth}", depth=rain_words(float(place.rain.yearly[at]), site.units)))
    spell = (
        next((one for one in place.rain.spells if one[0] == year), None) if place.rain is not None else None
    )
    if spell is not None:
        parts.append(say("{days} dry days from {first}", days=spell[2], first=day_words(spell[1])))
    return say("{year}: {what}", year=year, what=", ".join(parts) or say("nothing known"))
