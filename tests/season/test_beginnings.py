"""What each beginning brings: sprouted tubers, bought plants by size, onions from seed, years until the first harvest."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import ZONE_5, D, dates, day, plan_of
from making import catalogue_of, crop, planting

from planner.amounts.tasks import planting_tasks
from planner.garden import Climate, Site
from planner.garden.planting import State
from planner.season.counting_back import days_on_plot
from planner.season.practice import SPROUTED_SOONER


def days_later(early: dt.date | None, late: dt.date | None) -> int:
    assert early is not None
    assert late is not None
    return (late - early).days


# -- tubers ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("planted", [D(2026, 4, 1), D(2026, 4, 15), D(2026, 5, 1)])
def test_sprouted_tubers_come_up_ten_to_fourteen_days_sooner_in_spring(catalogue, planted):
    """Published as 10 to 14 days; colder soil than that of the fourth month makes it a little more, warmer less."""
    sprouted, plain = (
        dates("potato", ZONE_5, catalogue, start="tubers", first=planted, state=state)
        for state in (None, "unsprouted")
    )
    assert 8 <= days_later(day(sprouted.emerge), day(plain.emerge)) <= 14
    assert 0 < days_later(day(sprouted.first_harvest), day(plain.first_harvest)) <= 14


def test_without_temperatures_they_come_up_twelve_days_sooner(catalogue):
    sprouted, plain = (
        dates("potato", Climate(), catalogue, start="tubers", first=D(2026, 4, 1), state=state, site=Site())
        for state in (None, "unsprouted")
    )  # fmt: skip
    assert days_later(day(sprouted.emerge), day(plain.emerge)) == SPROUTED_SOONER == 12


def test_tubers_of_which_no_difference_is_known_come_up_alike(catalogue):
    """No figure says what sprouting brings to a dahlia: with temperatures known nothing is added."""
    sprouted, plain = (
        dates(
            "jerusalem_artichoke", ZONE_5, catalogue, start="tubers", first=D(2026, 4, 1), state=state
        ).emerge
        for state in (None, "unsprouted")
    )
    assert sprouted is not None
    assert plain is not None
    assert sprouted.why.startswith("About") == plain.why.startswith("About")


def test_tubers_that_are_not_sprouted_have_no_chitting_in_their_work(catalogue):
    found = [
        dates("potato", ZONE_5, catalogue, start="tubers", state=state) for state in (None, "unsprouted")
    ]
    assert [one.care_day("chit") is not None for one in found] == [True, False]


# -- plants bought in -----------------------------------------------------------------------------

BOUGHT = crop("bought", starts={"value": ["bought", "raised", "sown"], "source": "practice"}, weeks_to_raise=6,
              set_out_from=0, sow_from=0, days_to_maturity=90, maturity_from="setting out")  # fmt: skip


@pytest.mark.parametrize(
    ("start", "state", "days"),
    [
        ("raised", None, 90),
        ("bought", None, 90),
        ("bought", "plugs", 90 + 21),  # three weeks old instead of six
        ("bought", "large plants", 90 - 21),
        ("sown", None, 90 + 42),
        ("raised", "plugs", 90),  # raised ones have the age they are raised for
    ],
)
def test_bought_plants_are_ripe_by_their_age(start, state, days):
    assert days_on_plot(BOUGHT.number, BOUGHT, start, state) == days


@pytest.mark.parametrize(
    ("start", "state", "days"),
    [("sown", None, 90), ("bought", None, 48), ("bought", "plugs", 69), ("bought", "large plants", 30)],
)
def test_the_same_where_days_are_counted_from_sowing(start, state, days):
    """A third of its days is left to the largest."""
    one = BOUGHT.model_copy(update={"maturity_from": crop("x", maturity_from="sowing").maturity_from})
    assert days_on_plot(one.number, one, start, state) == days


@pytest.mark.parametrize("key", ["tomato", "cabbage", "leek"])
def test_large_plants_are_picked_before_usual_ones_and_those_before_plugs(catalogue, key):
    large, usual, plugs = (
        day(dates(key, ZONE_5, catalogue, start="bought", first=D(2026, 5, 12), state=state).first_harvest)
        for state in ("large plants", None, "plugs")
    )
    assert large is not None
    assert usual is not None
    assert plugs is not None
    assert large < usual < plugs


# -- onions ---------------------------------------------------------------------------------------


def test_onions_from_seed_are_ripe_about_a_month_after_those_from_sets(catalogue):
    """Printed: from sets 100 to 120 days, from seed about a month more."""
    sets, sown = (
        day(dates("onion", ZONE_5, catalogue, start=start, first=D(2026, 4, 1)).first_harvest)
        for start in ("sets", "sown")
    )
    assert 20 <= days_later(sets, sown) <= 40


def test_raised_onions_lie_between_sets_and_seed(catalogue):
    sets, raised, sown = (
        day(dates("onion", ZONE_5, catalogue, start=start, first=D(2026, 4, 1)).first_harvest)
        for start in ("sets", "raised", "sown")
    )
    assert sets is not None
    assert raised is not None
    assert sown is not None
    assert sets <= raised < sown


def test_days_from_seed_follow_the_sort(catalogue):
    onion = catalogue.crops["onion"]
    assert days_on_plot(onion.number, onion, "sets") == 110
    assert days_on_plot(onion.number, onion, "sown") == 140
    assert days_on_plot(lambda field: 99.0 if field == "days_to_maturity" else onion.number(field), onion, "sown") == pytest.approx(140 * 99 / 110)  # fmt: skip


# -- years ----------------------------------------------------------------------------------------


SPRING = D(2026, 4, 5)


def first_year(catalogue, key: str, start: str, state: State | None = None, first: dt.date = SPRING) -> int:
    one = planting(crop=key, start=start, state=state, year=first.year, first=first)
    plan = plan_of(one, ZONE_5, catalogue)
    return next(
        year
        for year in range(first.year, first.year + 8)
        if plan.after(plan.garden, year).dates(one).first_harvest
    )


@pytest.mark.parametrize(
    ("key", "start", "state", "year"),
    [
        ("asparagus", "crowns", None, 2029),  # full cutting from the fourth year
        ("asparagus", "raised", None, 2030),  # a year later from seed
        ("rhubarb", "crowns", None, 2028),  # full pulling from the third year
        ("rhubarb", "raised", None, 2029),
        ("strawberry", "crowns", None, 2027),
        ("raspberry", "crowns", None, 2027),  # fruit is picked from the first year in which there is some
        ("blackcurrant", "bought", None, 2028),
        ("blackcurrant", "bought", "large plants", 2027),
        ("blackcurrant", "bought", "cuttings", 2029),
        ("blackcurrant", "standing", None, 2026),  # found grown
        ("mint", "bought", None, 2026),  # cut in its first summer
    ],
)
def test_what_stays_for_years_is_first_picked_by_its_beginning(catalogue, key, start, state, year):
    assert first_year(catalogue, key, start, state) == year


def test_asparagus_planted_in_autumn_counts_from_the_spring_after(catalogue):
    assert first_year(catalogue, "asparagus", "crowns", first=D(2025, 11, 1)) == first_year(
        catalogue, "asparagus", "crowns"
    )


def test_a_garden_without_the_state_means_what_it_did(catalogue):
    """Files of before have no state: their tubers are sprouted, their plants of the usual size."""
    assert planting().state is None
    assert catalogue_of(BOUGHT).crops["bought"].number("days_from_seed") is None


def test_the_work_names_what_is_planted(catalogue):
    """A state of tubers says nothing of plants that are bought in."""
    for state, words in (("plugs", "plugs"), (None, "bought plants"), ("unsprouted", "bought plants")):
        one = planting(crop="tomato", start="bought", state=state, first=D(2026, 5, 20))
        (plant, *_) = planting_tasks(plan_of(one, ZONE_5, catalogue), one)
        assert (plant.kind, plant.text) == ("set out", f"Plant tomato in b1, {plant.stations} {words}.")
