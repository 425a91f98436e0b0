"""Two crops in one bed that want water unlike often cost where the garden counts it."""

from __future__ import annotations

import math

import pytest
from making import bed, garden

from planner.crops.catalogue import load_catalogue
from planner.crops.crop_water import water_figures
from planner.garden import Site
from planner.garden.wishes import LayoutWeights, Wish
from planner.plan import Plan
from planner.proposal.costs import TIMES, UNLIKE_WATER, Costs

CATALOGUE = load_catalogue()


def costs(watering: str) -> Costs:
    site = Site(
        latitude=54.0, longitude=-2.0, layout_weights=LayoutWeights(neighbours="off", watering=watering)
    )
    return Costs(Plan(garden(bed(), site=site), 2027, CATALOGUE), ())


def wish(crop: str) -> Wish:
    return Wish(id=crop, year=2027, crop=crop, amount=6)


@pytest.mark.parametrize("weight", ["off", "some", "much"])
def test_celery_beside_a_deep_rooted_crop_costs_what_counts(weight):
    table = water_figures()
    celery, tomato = (table.of(CATALOGUE.get(key)).row for key in ("celeriac", "tomato"))
    # FAO 56, tables 12 and 22: celery 0.20 of roots of 0.3 to 0.5 m at 1.05, tomato 0.40 of 0.7 to 1.5 m at 1.15.
    assert celery.lasts == pytest.approx(0.20 * 0.4 / 1.05)
    assert tomato.lasts == pytest.approx(0.40 * 1.1 / 1.15)
    expected = round(UNLIKE_WATER * math.log2(tomato.lasts / celery.lasts))
    assert costs(weight).together(wish("celeriac"), wish("tomato")) == TIMES[weight] * expected
    assert costs(weight).together(wish("tomato"), wish("celeriac")) == TIMES[weight] * expected


def test_crops_of_like_need_cost_nothing():
    assert costs("much").together(wish("cabbage"), wish("broccoli")) == 0
    assert costs("much").together(wish("lettuce"), wish("lettuce")) == 0
