"""How a weather table was read, what it lacks and where its station lies, as sentences."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from planner.garden import Site, WeatherYears
from planner.garden.coordinates import show_latitude, show_longitude
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, MILE
from planner.listings.phrases import day
from planner.season.daily_weather import Weather
from planner.season.weather_gaps import gaps_of
from planner.season.weather_years import LAPSE_RATE, height_correction, station_distance
from planner.words import join_list, later, number_words, say, say_count, whole_words

#: Units of a table as printed.
_UNITS = {
    "C": later("°C"),
    "F": later("°F"),
    "tenths C": later("tenths of °C"),
    "mm": later("mm"),
    "inch": later("inches"),
    "tenths mm": later("tenths of mm"),
}
#: How files without headings of their own are laid out.
_LAYOUTS = {
    "by station": later("by station, a value a line, in tenths of °C and of mm"),
    "fixed width": later("in fixed width, a month a line, in tenths of °C and of mm"),
    "model": later("a weather file of a crop model, in °C and mm"),
}
_ELEMENTS = {
    "low": later("minimum"),
    "high": later("maximum"),
    "rain": later("rain"),
    "evapotranspiration": later("evapotranspiration"),
}
#: A station as far away as this with its longitude mirrored is probably that of the garden. [m]
_NEAR, _FAR = 150_000.0, 1_000_000.0


class TableColumns(Protocol):
    """How a table was read: its headings and the units of its values; see the reader's own."""

    @property
    def date(self) -> str:
        """Heading of the days."""

    @property
    def month(self) -> str | None:
        """Heading of the months, where the date is parted."""

    @property
    def year(self) -> str | None:
        """Heading of the years, where the date is parted."""

    @property
    def minimum(self) -> str | None:
        """Heading of the minimum."""

    @property
    def maximum(self) -> str | None:
        """Heading of the maximum."""

    @property
    def unit(self) -> str:
        """``C``, ``F`` or ``tenths C``."""

    @property
    def rain(self) -> str | None:
        """Heading of the precipitation."""

    @property
    def rain_unit(self) -> str:
        """``mm``, ``inch`` or ``tenths mm``."""

    @property
    def evapotranspiration(self) -> str | None:
        """Heading of the reference evapotranspiration."""

    @property
    def evapotranspiration_unit(self) -> str:
        """``mm``, ``inch`` or ``tenths mm``."""


class ReadFile(Protocol):
    """How a file was read."""

    @property
    def name(self) -> str:
        """Of the file."""

    @property
    def layout(self) -> str:
        """``headings``, ``by station``, ``fixed width`` or ``model``."""

    @property
    def columns(self) -> TableColumns | None:
        """None for a layout without headings."""

    @property
    def elements(self) -> Sequence[str]:
        """What it holds."""


class ReadTable(Protocol):
    """How the files of a station were read."""

    @property
    def name(self) -> str:
        """Names of the files."""

    @property
    def files(self) -> Sequence[ReadFile]:
        """Each of them."""


def file_lines(files: Sequence[ReadFile]) -> list[str]:
    """How files were read, those that were read in the same way together.

    Parameters
    ----------
    files : sequence of ReadFile
    """
    ways: dict[str, list[str]] = {}
    for file in files:
        ways.setdefault(_way(file), []).append(file.name)
    if len(ways) == 1:
        return [next(iter(ways))]
    return [
        say("{files}: {way}", files=join_list(names[:4]) + (" …" if len(names) > 4 else ""), way=way)
        for way, names in ways.items()
    ]


def unit_words(unit: str) -> str:
    """A unit of a weather table as shown.

    Parameters
    ----------
    unit : {"C", "F", "tenths C", "mm", "inch", "tenths mm"}
    """
    return say(_UNITS[unit])


def _way(file: ReadFile) -> str:
    columns = file.columns
    if columns is None:
        held = join_list(say(_ELEMENTS[element]) for element in file.elements) or say("nothing")
        return say("laid out {layout}: {held}", layout=say(_LAYOUTS[file.layout]), held=held)
    dates = [name for name in (columns.year, columns.month, columns.date) if name is not None]
    parts = [say("date '{heading}'", heading=" ".join(dates))]
    if columns.minimum is not None:
        parts.append(say("minimum '{heading}'", heading=columns.minimum))
    if columns.maximum is not None:
        parts.append(say("maximum '{heading}'", heading=columns.maximum))
    if columns.minimum is not None or columns.maximum is not None:
        parts.append(say("in {unit}", unit=unit_words(columns.unit)))
    if columns.rain is not None:
        parts.append(
            say("rain '{heading}' in {unit}", heading=columns.rain, unit=unit_words(columns.rain_unit))
        )
    if columns.evapotranspiration is not None:
        parts.append(
            say(
                "evapotranspiration '{heading}' in {unit}",
                heading=columns.evapotranspiration,
                unit=unit_words(columns.evapotranspiration_unit),
            )
        )
    return say("read as: {columns}", columns=", ".join(parts))


def gap_lines(weather: Weather) -> list[str]:
    """What days lack, a sentence for each kind of value that has gaps; nothing was filled.

    Parameters
    ----------
    weather : Weather
    """
    lines = []
    for gaps in gaps_of(weather):
        if gaps.longest_first is None:
            continue
        named, first = say(_ELEMENTS[gaps.element]), day(gaps.longest_first)
        if gaps.missing == 1:
            lines.append(say("without {element}: {day}", element=named, day=first))
            continue
        lines.append(
            say(
                "without {element}: {number} days, the longest gap {longest} from {first}",
                element=named,
                number=whole_words(gaps.missing),
                longest=whole_words(gaps.longest),
                first=first,
            )
        )
    return lines


def station_lines(kept: WeatherYears, site: Site) -> list[str]:
    """Where the station of some years lies, how far from the garden, and what its height does to the temperatures.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    """
    lines = []
    named = kept.station or say("not named")
    if kept.latitude is not None and kept.longitude is not None:
        place = say(
            "{latitude}, {longitude}",
            latitude=show_latitude(kept.latitude),
            longitude=show_longitude(kept.longitude),
        )
        lines.append(say("station: {name}, at {place}", name=named, place=place))
    else:
        lines.append(say("station: {name}; its place is not known", name=named))
    distance = station_distance(kept, site)
    if distance is not None:
        lines.append(say("{distance} from the garden", distance=_far(distance, site)))
        mirrored = station_distance(kept, site, mirrored=True)
        if mirrored is not None and distance > _FAR and mirrored < _NEAR:
            lines.append(
                say(
                    "with the other sign of its longitude it would be {distance} away: look whether that was left out",
                    distance=_far(mirrored, site),
                )
            )
    lines.append(height_line(kept, site))
    return lines


def height_line(kept: WeatherYears, site: Site) -> str:
    """What the difference of height between station and garden does to the temperatures, or that it is not known.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    """
    if kept.elevation is None or site.elevation is None:
        return say("heights of station and garden are not both known: temperatures are taken as they are")
    warmer = height_correction(kept, site)
    station, garden = height_words(kept.elevation, site.units), height_words(site.elevation, site.units)
    if abs(warmer) < 0.05:
        return say(
            "station at {station}, garden at {garden}: temperatures are taken as they are",
            station=station,
            garden=garden,
        )
    metric = site.units == "metric"
    step, sign = (1000.0, "°C") if metric else (1000 * FOOT, "°F")
    scale = 1.0 if metric else 1.8
    parts = (
        f"{number_words(abs(warmer) * scale, 1)} {sign}",
        f"{number_words(LAPSE_RATE * step * scale, 1)} {sign}",
        height_words(step, site.units),
    )
    if warmer < 0:
        return say(
            "station at {station}, garden at {garden}: taken {degrees} colder, {rate} for each {step}",
            station=station,
            garden=garden,
            degrees=parts[0],
            rate=parts[1],
            step=parts[2],
        )
    return say(
        "station at {station}, garden at {garden}: taken {degrees} warmer, {rate} for each {step}",
        station=station,
        garden=garden,
        degrees=parts[0],
        rate=parts[1],
        step=parts[2],
    )


def height_words(metres: float, units: UnitSystem) -> str:
    """A height above the sea in whole metres or feet.

    Parameters
    ----------
    metres : float
        [m]
    units : {"metric", "feet_inches"}
    """
    if units == "metric":
        return say("{number} m", number=whole_words(round(metres)))
    return say("{number} ft", number=whole_words(round(metres / FOOT)))


def _far(metres: float, site: Site) -> str:
    if site.units == "feet_inches":
        return say("{number} miles", number=whole_words(round(metres / MILE)))
    return say("{number} km", number=whole_words(round(metres / 1000)))


def kept_line(kept: WeatherYears) -> str:
    """How many years a garden keeps.

    Parameters
    ----------
    kept : WeatherYears
    """
    if kept.span is None:
        return say("no years of weather")
    first, last = kept.span
    years = str(first) if first == last else say("{first} to {last}", first=first, last=last)
    return say_count(
        "{count} year of daily weather: {years}",
        "{count} years of daily weather: {years}",
        len(kept.years),
        years=years,
    )
