"""The place of a weather station as it is typed, where its table does not tell it or tells it wrongly."""

from __future__ import annotations

from planner.garden import WeatherYears
from planner.garden.coordinates import parse_place
from planner.season.daily_weather import WeatherError
from planner.words import say, short_number

#: Heights that a station may have. [m]
LOWEST, HIGHEST = -500.0, 9_000.0


def placed(kept: WeatherYears, place: str = "", elevation: float | None = None) -> WeatherYears:
    """Recorded years with another place of their station.

    Parameters
    ----------
    kept : WeatherYears
    place : str
        Latitude and longitude as typed; they stay where empty.
    elevation : float, optional
        It stays where left out. [m]

    Raises
    ------
    WeatherError
        Where the text is no place, or no station is as high.
    """
    if place.strip():
        found = parse_place(place)
        if found is None:
            raise WeatherError(
                say("'{text}' is no latitude and longitude", text=place.strip()),
                fix=say("Write them as 52.2, 0.12"),
            )
        kept = kept.with_(latitude=found[0], longitude=found[1])
    if elevation is not None:
        if not LOWEST <= elevation <= HIGHEST:
            raise WeatherError(
                say("no station is {height} m above the sea", height=short_number(elevation)),
                fix=say("Write its height in metres"),
            )
        kept = kept.with_(elevation=elevation)
    return kept
