"""Site and climate of the places of the published calendars."""

from __future__ import annotations

import json
from functools import lru_cache
from pathlib import Path

from planner.garden import Climate, FrostDates, Site

REFERENCE = Path(__file__).parent / "reference"


@lru_cache
def read_places(path: Path = REFERENCE / "calendar_places.json") -> dict[str, tuple[Site, Climate]]:
    """Site and climate of each place of the cases."""
    found = {}
    for name, place in json.loads(path.read_text(encoding="utf-8")).items():
        site = Site(latitude=place["latitude"], longitude=place["longitude"], time_zone=place["time_zone"])
        climate = Climate(
            zone=place["zone"],
            last_frost=FrostDates(**place["last_frost"]),
            first_frost=FrostDates(**place["first_frost"]),
            monthly_minimum=tuple(place["monthly_minimum"]),
            monthly_maximum=tuple(place["monthly_maximum"]),
        )
        found[name] = (site, climate)
    return found
