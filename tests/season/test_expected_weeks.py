"""What a grower of two places expected of sixty crops, written down before the program was asked.

``tests/reference/expected_weeks.csv`` gives weeks of the year (1 is the first of January, 53 to 104 are those of the year after,
105 to 156 of the second): for the sowing, inside or out, or the planting, and for the season of harvest.  The places are
southern England (E, zone 8b) and southern Wisconsin (W, zone 5b); their climates are rounded.  No figure and no rule is
fitted to a row: what stays outside is listed with its cause.
"""

from __future__ import annotations

import csv
import datetime as dt
from pathlib import Path

import pytest
from making import bed, garden, planting

from planner.crops import Catalogue
from planner.garden import Climate, FrostDates, Site
from planner.plan import Plan
from planner.season.planting_dates import Dates

YEAR = 2026
#: Weeks outside of what was expected that are no matter.
NEAR = 2
PLACES = {
    "E": (
        Site(latitude=51.2, longitude=-0.5, time_zone="Europe/London"),
        Climate(
            zone="8b",
            last_frost=FrostDates(risk_10="05-11", risk_50="04-25", risk_90="04-08"),
            first_frost=FrostDates(risk_10="10-08", risk_50="10-25", risk_90="11-12"),
            monthly_minimum=(1.8, 1.7, 3.0, 4.7, 7.8, 10.7, 12.8, 12.6, 10.2, 7.5, 4.3, 2.2),
            monthly_maximum=(8.0, 8.5, 11.3, 14.5, 17.8, 20.8, 23.1, 22.8, 19.6, 15.3, 11.2, 8.5),
        ),
    ),
    "W": (
        Site(latitude=43.1, longitude=-89.4, time_zone="America/Chicago"),
        Climate(
            zone="5b",
            last_frost=FrostDates(risk_10="05-14", risk_50="05-01", risk_90="04-19"),
            first_frost=FrostDates(risk_10="09-22", risk_50="10-05", risk_90="10-18"),
            monthly_minimum=(-12.0, -10.0, -4.3, 2.0, 8.2, 13.7, 16.0, 15.0, 10.3, 4.1, -2.1, -8.3),
            monthly_maximum=(-3.0, -0.5, 6.4, 13.6, 20.2, 25.6, 27.7, 26.5, 22.6, 15.4, 7.2, 0.0),
        ),
    ),
}
#: Starts that are not as expected, and why.
OTHER_START: dict[tuple[str, str], str] = {
    ("anemone", "E"): "Its window is that of Utah, in spring; corms of autumn are given their timing.",
    ("field_bean", "E"): "Its window of autumn opens in September, for green manure.",
    ("hardy_kiwi", "E"): "Sold in pots, it is set out after the last frost.",
    ("lucerne", "E"): "April where the last frost is taken as that of mid-May.",
    ("lucerne", "W"): "April where the last frost is taken as that of mid-May.",
}
#: Harvests that do not begin as expected, and why.
OTHER_HARVEST: dict[tuple[str, str], str] = {
    (
        "alpine_strawberry",
        "E",
    ): "Its days are those to the first June; plants raised early bear in their first autumn.",
    ("alpine_strawberry", "W"): "The same.",
    ("caraway", "W"): "A week before that, by days counted from late April to early August of the next year.",
    ("chickpea", "E"): "By a sum of Montana; sown in March it is ripe in July.",
    ("chickpea", "W"): "By a sum of Montana, two weeks before what was expected.",
    ("dry_bean", "E"): "Its published sum is that of a hot place; it comes a week too late for the frost.",
    ("field_bean", "E"): "It is a green manure: nothing is picked.",
    ("field_bean", "W"): "It is a green manure: nothing is picked.",
    ("root_parsley", "E"): "Grown in August, lifted from then on as it is wanted.",
    ("root_parsley", "W"): "The same.",
}


def rows() -> list[dict[str, str]]:
    path = Path(__file__).parents[1] / "reference" / "expected_weeks.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = {(row["crop"], row["place"]): row for row in rows()}


def week(day: dt.date) -> int:
    """Week of its own year, from 1 to 52."""
    return min((day - dt.date(day.year, 1, 1)).days // 7 + 1, 52)


def lies_within(found: int, first: str, last: str) -> bool:
    """Whether a week of some year is one of those expected, give or take :data:`NEAR`."""
    begins, ends = int(first) - NEAR, int(last) + NEAR
    return any(begins <= found + 52 * years <= ends for years in range(4))


def first_dates(catalogue: Catalogue, row: dict[str, str]) -> Dates:
    """Its dates; of what stays for years those of the first year with a harvest."""
    site, climate = PLACES[row["place"]]
    crop = catalogue.crops[row["crop"]]
    start = row["start"] if row["start"] in crop.starts.value else crop.usual_start
    winter = row["start_from"] and int(row["start_from"]) > 26 and crop.number("autumn_from") is not None
    one = planting(
        crop=crop.key,
        start=start,
        year=YEAR,
        timing="autumn" if winter and crop.life_cycle == "annual" else None,
    )
    found = [
        Plan(garden(bed(), one, site=site, climate=climate), year, catalogue).dates(one)
        for year in range(YEAR, YEAR + 5)
    ]
    return next((dates for dates in found if dates.first_harvest is not None), found[0])


@pytest.mark.parametrize("key", [key for key, row in ROWS.items() if row["start_from"]], ids="-".join)
def test_it_starts_when_the_grower_expects_it(key, catalogue):
    row = ROWS[key]
    dates = first_dates(catalogue, row)
    begun = dates.sow or dates.set_out
    assert begun is not None
    assert lies_within(week(begun.day), row["start_from"], row["start_until"]) != (key in OTHER_START)


@pytest.mark.parametrize("key", [key for key, row in ROWS.items() if row["harvest_first"]], ids="-".join)
def test_its_harvest_begins_in_the_season_that_the_grower_expects(key, catalogue):
    row = ROWS[key]
    dates = first_dates(catalogue, row)
    found = dates.ripens and dates.first_harvest is not None
    found = found and lies_within(week(dates.first_harvest.day), row["harvest_first"], row["harvest_last"])
    assert found != (key in OTHER_HARVEST)
