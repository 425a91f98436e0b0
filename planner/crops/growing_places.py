"""Climates in which published days to maturity were counted, with sources (``growing_places.toml``).

A number of days is worth what its place gave the crop: sixty days of a Florida winter are other degree-days than sixty
of a Maine summer.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import AfterValidator, Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import Catalogue, load_catalogue
from planner.crops.figures import ESTIMATE, PRACTICE, Basis, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "growing_places.toml"
#: Table of the file that says where the days of each source were counted.
MEASURED_AT = "measured_at"
#: Entry of that table for sources that it does not name.
DEFAULT = "default"

#: A year with a 29 February. [calendar year]
_LEAP_YEAR = 2000


def _day_of_year(text: str) -> str:
    found = re.fullmatch(r"(\d\d)-(\d\d)", text)
    try:
        if found is None:
            raise ValueError
        dt.date(_LEAP_YEAR, int(found[1]), int(found[2]))
    except ValueError:
        raise ValueError(f"'{text}' is no day of the year; write month and day as MM-DD, as 05-09") from None
    return text


#: A day of any year, written MM-DD.
Day = Annotated[str, AfterValidator(_day_of_year)]
#: Means of the months from January on. [deg C]
Monthly = Annotated[tuple[Annotated[float, Field(ge=-60, le=60)], ...], Field(min_length=12, max_length=12)]


class GrowingPlace(Value):
    """A place and its climate.

    Attributes
    ----------
    key, name : str
    latitude : float
        [degrees north]
    monthly_minimum, monthly_maximum : tuple of 12 float
        Mean daily minimum and maximum from January on. [deg C]
    last_frost, first_frost : str or None
        Days MM-DD after which the last frost of spring, and before which the first one of autumn, comes in half of
        the years; both None of a place without frost.
    cool_start, warm_start : str or None
        Days MM-DD on which cool-season and warm-season crops are usually started there; None where that follows
        from the frosts.
    source : str
        Key into ``sources.toml`` of the temperatures.
    basis : str
        How they came about.
    note : str or None
    """

    key: str
    name: str = Field(min_length=1)
    latitude: float = Field(ge=-66, le=66)
    monthly_minimum: Monthly
    monthly_maximum: Monthly
    last_frost: Day | None = None
    first_frost: Day | None = None
    cool_start: Day | None = None
    warm_start: Day | None = None
    source: str = Field(min_length=1)
    basis: Basis
    note: str | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        for month, (low, high) in enumerate(zip(self.monthly_minimum, self.monthly_maximum, strict=True), 1):
            if low > high:
                raise ValueError(f"month {month}: the minimum {low:g} is above the maximum {high:g}")
        if (self.last_frost is None) != (self.first_frost is None):
            raise ValueError("has one of its two frosts; give both, or none where there is no frost")
        if self.last_frost is None and (self.cool_start is None or self.warm_start is None):
            raise ValueError(
                "has no frost from which its starts would follow; give cool_start and warm_start"
            )
        if (
            self.last_frost
            and self.first_frost
            and (self.last_frost > self.first_frost) != (self.latitude < 0)
        ):
            raise ValueError(
                f"its last frost {self.last_frost} and first frost {self.first_frost} are in the wrong order"
            )
        if self.basis in (PRACTICE, ESTIMATE) and self.source != self.basis:
            raise ValueError(f"its basis is {self.basis}, yet it names a source")
        return self


class MeasuredAt(Value):
    """Where the days of a source were counted.

    Attributes
    ----------
    place : str
        Key of a place.
    cool_start, warm_start : str or None
        Days MM-DD on which the source starts its crops, where they are other than usual there.
    """

    place: str
    cool_start: Day | None = None
    warm_start: Day | None = None


class GrowingPlaces(Value):
    """All places, and which of them each source speaks of.

    Attributes
    ----------
    places : mapping of str to GrowingPlace
        By key.
    of_sources : mapping of str to GrowingPlace
        By key of the source, with the days on which that starts its crops.
    default : GrowingPlace
        Of sources that are not named.
    """

    places: Mapping[str, GrowingPlace]
    of_sources: Mapping[str, GrowingPlace]
    default: GrowingPlace

    def measured_at(self, source: str) -> GrowingPlace:
        """The place where the days to maturity of a source were counted.

        Parameters
        ----------
        source : str
            Key into ``sources.toml``.
        """
        return self.of_sources.get(source, self.default)


def growing_places(catalogue: Catalogue) -> GrowingPlaces:
    """Climates in which days to maturity were counted, read and cached at the first call.

    Parameters
    ----------
    catalogue : Catalogue
        One that was not read from files has the shipped places.

    Raises
    ------
    CatalogueError
        With one line that names every fault by file, place or source, and field.
    """
    return _load(catalogue.folder or resources.resource())


@lru_cache(maxsize=1)
def shipped_places() -> GrowingPlaces:
    """The places that ship with the program."""
    return _load(resources.resource())


# -- reading -----------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _load(folder: Path) -> GrowingPlaces:
    faults: list[str] = []
    sources = {*load_catalogue(folder).sources, PRACTICE, ESTIMATE}
    tables = read_toml(folder / FILE, faults)
    named = tables.pop(MEASURED_AT, {})
    places: dict[str, GrowingPlace] = {}
    for key, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"{FILE}, {key}: must be a table of a place")
            continue
        try:
            places[key] = GrowingPlace.model_validate({"key": key, **table})
        except ValidationError as error:
            faults += fault_lines(FILE, key, error, "the place")
            continue
        if places[key].source not in sources:
            faults.append(f"{FILE}, {key}, source: unknown source key '{places[key].source}'")
    refuse(faults, folder)  # a source whose place has a fault would be blamed for it too
    if not isinstance(named, dict) or DEFAULT not in named:
        faults.append(f"{FILE}, {MEASURED_AT}: must be a table of places by source, with a {DEFAULT}")
        named = {}
    of_sources: dict[str, GrowingPlace] = {}
    for source, entry in named.items():
        if source != DEFAULT and source not in sources:
            faults.append(f"{FILE}, {MEASURED_AT}, {source}: unknown source key")
        place = _of_source(source, entry, places, faults)
        if place is not None:
            of_sources[source] = place
    refuse(faults, folder)
    default = of_sources.pop(DEFAULT)
    return GrowingPlaces(places=places, of_sources=of_sources, default=default)


def _of_source(
    source: str, entry: Any, places: Mapping[str, GrowingPlace], faults: list[str]
) -> GrowingPlace | None:
    try:
        found = MeasuredAt.model_validate({"place": entry} if isinstance(entry, str) else entry)
    except ValidationError as error:
        faults += fault_lines(f"{FILE}, {MEASURED_AT}", source, error, "the source")
        return None
    place = places.get(found.place)
    if place is None:
        faults.append(f"{FILE}, {MEASURED_AT}, {source}: '{found.place}' is none of its places")
        return None
    starts = {"cool_start": found.cool_start, "warm_start": found.warm_start}
    return place.model_copy(update={name: day for name, day in starts.items() if day is not None})
