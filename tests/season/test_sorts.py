"""Which sort a planting without a variety is taken for."""

from __future__ import annotations

import datetime as dt

import pytest
from calendar_cases import read_places
from dated_plantings import CLIMATE, D, dates, steady
from making import bed, catalogue_of, crop, garden, planting

from planner.crops import load_catalogue
from planner.garden import Site, Variety
from planner.garden.varieties import OwnFigure
from planner.plan import Plan
from planner.season.sorts import AFTER_MIDSUMMER, BEFORE_MIDSUMMER, FORCED, MUCH_LONGER, SORT_WORDS

DAY = dt.timedelta(days=1)
SITE = Site(latitude=45)
#: Every day 14 to 24 degrees: 9 degree-days over 10; 12 to 22: 7. [deg C]
WARM, COOL = steady(14.0, 24.0), steady(12.0, 22.0)
OVER_TEN = {"base_temperature": 10, "best_temperature": 35, "ceiling_temperature": 45, "harvest_days": 9}
#: Ripe after 80 days in the warm, early sorts after 60, late ones after 100.
SORTED = {"days_to_maturity": 80, "days_early": 60, "days_late": 100, "heat_to_harvest": 720}
EAR = crop("ear", hardiness="tender", **SORTED, **OVER_TEN)
PLAIN = crop("plain", hardiness="tender", days_to_maturity=80, heat_to_harvest=720, **OVER_TEN)
LEEK = crop(
    "leek",
    hardiness="very hardy",
    harvest_ends="stands",
    slows_in_short_days={"value": False, "source": "practice"},
    **SORTED,
    **OVER_TEN,
)
SHELF = catalogue_of(EAR, PLAIN, LEEK)
EARLY, LATE = (SORT_WORDS[name] for name in ("early", "late"))


def ripe(key: str, first: dt.date, climate=WARM, **fields) -> tuple[int | None, str]:
    """Days until the first harvest, and the sort that it is taken for."""
    found = dates(key, climate, SHELF, site=SITE, start="sown", first=first, **fields).first_harvest
    if found is None:
        return None, ""
    return (found.day - first).days, next(
        (name for name, words in SORT_WORDS.items() if words in found.why), "usual"
    )


def test_a_planting_in_time_is_of_the_usual_sort():
    assert ripe("ear", D(2026, 5, 20)) == (80, "usual")


def test_what_must_be_ripe_by_a_given_day_is_the_latest_sort_that_is():
    """Of early sorts, which are ripe after 60 days at the soonest."""
    first = D(2026, 5, 20)
    for last, sort, days in (
        (60, "early", 60),
        (70, "early", 70),
        (79, "early", 79),
        (80, "usual", 80),
        (100, "usual", 80),
    ):
        assert ripe("ear", first, last=first + last * DAY) == (days, sort)


def test_before_frost_ends_the_year_early_sorts_are_grown():
    """Frost comes on 16 October in half of the years: 62 days lie two weeks before it on 1 August, not 80."""
    assert ripe("ear", D(2026, 8, 1)) == (62, "early")
    assert ripe("ear", D(2026, 8, 7)) == (60, "early")
    assert ripe("ear", D(2026, 7, 14)) == (80, "usual")
    assert ripe("plain", D(2026, 8, 1))[1] == "usual", "it has no early sorts"


def test_cool_places_grow_early_sorts_of_warm_crops():
    """At 7 degree-days a day the usual sort takes 103 days: more than a quarter longer than where its 80 were counted."""
    assert MUCH_LONGER == 1.25
    assert ripe("ear", D(2026, 5, 20), COOL) == (78, "early")  # 540 / 7
    a_little_warmer = steady(12.5, 22.5)  # 7.5 a day: 96 days, not more than 100
    assert ripe("ear", D(2026, 5, 20), a_little_warmer) == (96, "usual")


def test_a_cover_does_not_change_the_sort_that_a_cool_place_grows():
    plain, _ = ripe("ear", D(2026, 5, 20), COOL)
    for kind in ("film", "fleece", "cloche", "low tunnel"):
        days, sort = ripe("ear", D(2026, 5, 20), COOL, covers=({"kind": kind},))
        assert (days <= plain, sort) == (True, "early"), kind
    days, sort = ripe("ear", D(2026, 5, 20), COOL, bed_kind="under glass")
    assert (days < plain, sort) == (True, "early")


def test_under_glass_early_sorts_are_forced_before_the_last_frost_of_spring():
    """The last frost is on 1 May."""
    assert ripe("ear", D(2026, 4, 30), bed_kind="under glass")[1] == "early"
    assert ripe("ear", D(2026, 5, 2), bed_kind="under glass")[1] == "usual"
    assert ripe("ear", D(2026, 5, 1) - FORCED * DAY, bed_kind="under glass")[1] == "early"


@pytest.mark.parametrize(
    ("off", "sort"),
    [
        (-BEFORE_MIDSUMMER - 1, "usual"),
        (-BEFORE_MIDSUMMER, "late"),
        (0, "late"),
        (20, "late"),
    ],
)
def test_what_stands_the_winter_and_is_started_about_midsummer_is_a_late_sort(off, sort):
    found = ripe("leek", D(2026, 6, 21) + off * DAY)
    assert found == ({"usual": 80, "late": 100}[sort], sort)


def test_what_starts_after_the_last_late_sorts_is_ready_no_sooner_than_they():
    """On 26 July it is ripe when the light goes, on 22 October: 88 days, of a sort between late and usual."""
    for days in range(9):
        found = ripe("leek", D(2026, 6, 21) + (AFTER_MIDSUMMER + days) * DAY)
        assert found == (max(88 - days, 80), "late" if days < 8 else "usual"), days


def test_a_late_sort_that_would_not_be_grown_before_the_winter_is_not_taken():
    """Weather of a cold autumn: from October on nothing grows.  A tenth of its heat may lack."""
    months = (14.0,) * 9 + (0.0,) * 3
    cold = CLIMATE.with_(
        monthly_minimum=months, monthly_maximum=tuple(low + (10 if low else 4) for low in months)
    )
    assert ripe("leek", D(2026, 6, 5), cold)[1] == "late"
    ends = [D(2026, 6, 26) + n * DAY for n in range(0, 15, 5)]
    assert [ripe("leek", on, cold) for on in ends] == [((D(2026, 10, 16) - on).days, "late") for on in ends]
    assert ripe("leek", D(2026, 7, 14), cold)[1] == "usual"


def test_in_the_south_midsummer_is_in_december():
    south = CLIMATE.with_(
        last_frost={"risk_10": "10-20", "risk_50": "10-10", "risk_90": "10-01"},
        first_frost={"risk_10": "04-20", "risk_50": "05-01", "risk_90": "05-10"},
    )
    climate = steady(14.0, 24.0, south)
    one = planting(crop="leek", start="sown", year=2026, first=D(2026, 12, 21))
    made = garden(bed(), one, climate=climate, site=Site(latitude=-45))
    assert LATE in Plan(made, 2026, SHELF).dates(one).first_harvest.why


def test_a_variety_with_days_of_its_own_is_that_sort():
    own = Variety(id="v1", crop="ear", name="Mine", figures=(OwnFigure(field="days_to_maturity", value=80),))
    one = planting(crop="ear", start="sown", year=2026, first=D(2026, 8, 1), variety="Mine")
    made = garden(bed(), one, climate=WARM, site=SITE, varieties=(own,))
    found = Plan(made, 2026, SHELF).dates(one)
    assert found.first_harvest is None or EARLY not in found.first_harvest.why


@pytest.mark.parametrize("place", ["Kent", "Hamburg"])
@pytest.mark.parametrize("key", ["tomato", "cucumber"])
def test_in_cool_summers_the_catalogues_warm_crops_are_early_sorts(place, key):
    site, climate = read_places()[place]
    assert (
        EARLY
        in dates(
            key, climate, load_catalogue(), site=site, start="raised", first=D(2026, 5, 25)
        ).first_harvest.why
    )


@pytest.mark.parametrize("key", ["tomato", "cucumber"])
def test_in_hot_summers_they_are_not(key):
    site, climate = read_places()["Athens GA"]
    found = dates(
        key, climate, load_catalogue(), site=site, start="raised", first=D(2026, 5, 1)
    ).first_harvest
    assert EARLY not in found.why
    assert LATE not in found.why


def test_days_of_the_catalogues_sorts_are_in_order():
    for one in load_catalogue().crops.values():
        known = [one.number(field) for field in ("days_early", "days_to_maturity", "days_late")]
        told = [days for days in known if days is not None]
        assert told == sorted(told), one.key


@pytest.mark.parametrize("place", ["Kent", "Ames IA", "Athens GA", "Hamburg", "Christchurch NZ"])
def test_what_is_set_out_later_is_never_ready_sooner(place):
    """Property, over all crops that are begun and harvested once: week by week through their windows; days are whole."""
    site, climate = read_places()[place]
    plan = Plan(garden(bed(), site=site, climate=climate), 2026, load_catalogue())
    held, sooner = 0, []
    for key, one in plan.catalogue.crops.items():
        window = plan.outer_window(one, "")
        latest = None
        for days in range(0, (window.last - window.first).days + 1 if window else 0, 7):
            found, good = plan.dates_begun_on(one, "", window.first + days * DAY)
            if not good or found.stays_for_years or found.first_harvest is None:
                continue
            held += 1
            if latest is not None and found.first_harvest.day < latest - DAY:
                sooner.append((key, window.first + days * DAY, found.first_harvest.day, latest))
            latest = found.first_harvest.day
    assert held > 500
    assert sooner == []
