"""Facts of common practice that the catalogue must not contradict."""

from __future__ import annotations

import datetime as dt

import pytest

from planner.crops.cautions import cautions, cautions_of
from planner.crops.neighbours import rules_for

INCH = 0.0254
WEEK = 7


@pytest.mark.parametrize("key", ["carrot", "parsnip"])
def test_carrots_and_parsnips_are_thinned_to_three_or_four_inches(catalogue, key):
    assert 3 * INCH - 0.001 <= catalogue.crops[key].number("in_row_spacing") <= 4 * INCH + 0.001


@pytest.mark.parametrize("key", ["carrot", "parsnip"])
def test_carrots_and_parsnips_are_sown_closer_than_their_final_spacing(catalogue, key):
    crop = catalogue.crops[key]
    assert crop.number("sowing_spacing") < crop.number("in_row_spacing")


def test_young_melon_plants_stay_three_weeks_in_their_pots(catalogue):
    # Muskmelon 3 to 4 weeks (isu_transplant), cantaloupe as long (midwest2022).
    figure = catalogue.crops["melon"].weeks_to_raise
    assert 3 <= figure.value <= 4
    assert figure.source == "isu_transplant"


@pytest.mark.parametrize("key", ["beetroot", "chard", "spinach", "orache", "leaf_amaranth"])
def test_beet_chard_and_their_kin_may_stay_under_cover_all_season(catalogue, key):
    assert catalogue.crops[key].family == "Amaranthaceae"
    assert catalogue.crops[key].needs_pollination.value is False


@pytest.mark.parametrize(
    "key",
    ["broccoli", "brussels_sprouts", "cabbage", "cauliflower", "chinese_cabbage", "kohlrabi", "sprouting_broccoli"],
)  # fmt: skip
def test_brassicas_grown_for_heads_may_stay_under_cover_all_season(catalogue, key):
    assert catalogue.crops[key].family == "Brassicaceae"
    assert catalogue.crops[key].needs_pollination.value is False


def test_cucurbits_must_be_open_to_bees_in_flower(catalogue):
    found = [crop for crop in catalogue.crops.values() if crop.family == "Cucurbitaceae"]
    assert len(found) >= 5
    for crop in found:
        assert crop.needs_pollination.value is True, crop.key
        assert crop.pollination.value == "insect", crop.key


@pytest.mark.parametrize(
    "key", ["runner_bean", "strawberry", "raspberry", "blueberry", "gooseberry", "blackberry"]
)
def test_other_insect_pollinated_fruit_must_be_open_in_flower(catalogue, key):
    assert catalogue.crops[key].needs_pollination.value is True


def test_cured_onions_last_from_one_autumn_until_the_next_may(catalogue):
    figure = catalogue.crops["onion"].store_days
    september, june = dt.date(2025, 9, 15), dt.date(2026, 5, 1)
    assert september + dt.timedelta(figure.value) >= june
    assert figure.low >= 240, "at least to May"
    assert figure.high <= 310, "not to the next harvest"


def test_garlic_planted_in_autumn_is_lifted_the_next_summer(catalogue):
    garlic = catalogue.crops["garlic"]
    assert garlic.usual_start == "cloves"
    assert garlic.number("autumn_from") <= garlic.number("autumn_until")
    assert garlic.maturity_from.value == "setting out"
    assert 34 * WEEK <= garlic.number("days_to_maturity") <= 45 * WEEK  # October to June, July or August


def test_potatoes_near_the_surface_need_cover_from_light(catalogue):
    found = [caution.key for caution in cautions_of(catalogue, catalogue.crops["potato"], task="earth up")]
    assert found == ["green_potato"]
    assert "covered from light" in cautions(catalogue)["green_potato"].text


def test_crowded_lettuce_invites_slugs(catalogue):
    found = cautions_of(catalogue, catalogue.crops["lettuce"], task="thin")
    assert [(caution.key, caution.source) for caution in found] == [("crowded_lettuce", "practice")]
    assert "slugs" in found[0].text


@pytest.mark.parametrize("key", ["melon", "winter_squash", "courgette", "sweet_pepper"])
def test_film_mulch_warms_the_soil_for_crops_that_want_it_warm(catalogue, key):
    crop = catalogue.crops[key]
    found = cautions_of(catalogue, crop, task="film down", structure="film")
    assert [(caution.key, caution.source) for caution in found] == [("film_warms_soil", "practice")]
    assert crop.number("soil_best") >= 25


def test_cool_crops_have_no_advice_to_lay_film(catalogue):
    assert cautions_of(catalogue, catalogue.crops["lettuce"], structure="film") == ()


def test_walnuts_keep_tomatoes_at_a_distance(catalogue):
    mentions = rules_for(catalogue, catalogue.crops["tomato"])
    walnut = [m.rule for m in mentions if m.other.latin == "Juglans nigra"]
    assert [(rule.effect, rule.reach) for rule in walnut] == [("bad", 18.0), ("none", 18.0)]
