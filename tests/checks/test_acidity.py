"""How acid soil may be for a crop, and for which nothing is told."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.checks.registry import check_all
from planner.garden import Garden, Site, Soil
from planner.plan import Plan


def told(document: Garden) -> list[str]:
    found = check_all(Plan(document, 2026), light=False)
    return [one.text for one in found if one.check == "acidity"]


def grown(crop: str, ph: float | None, **soil: object) -> Garden:
    return garden(
        bed("b1", name="North", soil=Soil(ph=ph, **soil)),
        planting("p1", crop=crop, first=dt.date(2026, 5, 10)),
        site=Site(latitude=52.0, longitude=0.0),
    )


@pytest.mark.parametrize(
    ("crop", "ph", "is_told"),
    [
        ("blueberry", 5.0, False),  # Ohio and others print 4.5 to 5.2 or so
        ("blueberry", 6.8, True),
        ("carrot", 6.5, False),
        ("carrot", 4.4, True),
        ("cabbage", 7.4, False),  # limed against clubroot
        ("cabbage", 8.4, True),
        ("carrot", None, False),
    ],
)
def test_only_soil_well_outside_of_what_is_printed_is_told(
    crop: str, ph: float | None, is_told: bool
) -> None:
    assert bool(told(grown(crop, ph))) is is_told


def test_the_sentence_names_range_bed_number_and_day() -> None:
    (text,) = told(grown("blueberry", 7.2, tested=dt.date(2025, 11, 3)))
    assert text.startswith("Blueberry in North wants soil of pH ")
    assert text.endswith("that of North has 7.2, tested on 3 Nov 2025")


def test_the_soil_of_the_garden_counts_where_a_bed_says_nothing() -> None:
    document = garden(
        bed("b1", name="North"),
        bed("b2", name="Tub", kind="container", depth=0.4),
        planting("p1", "b1", crop="blueberry", first=dt.date(2026, 5, 10)),
        planting("p2", "b2", crop="blueberry", first=dt.date(2026, 5, 10)),
        site=Site(latitude=52.0, longitude=0.0, soil=Soil(ph=7.5)),
    )
    assert len(told(document)) == 1, "a container holds other soil"
