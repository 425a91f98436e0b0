"""The heat that crops of warm summers need, and seed that comes up late in the cold."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting
from planner.season.heat import WARM_BASE, days_for, heat_between

from planner.crops import load_catalogue
from planner.garden import Climate, Cover, FrostDates, Variety
from planner.garden.varieties import OwnFigure
from planner.plan import Plan
from planner.season.planting_dates import Dates, HeatSum

D = dt.date
FROSTS = {
    "last_frost": FrostDates(risk_10="05-20", risk_50="05-10", risk_90="05-01"),
    "first_frost": FrostDates(risk_10="09-28", risk_50="10-08", risk_90="10-18"),
}
#: Every day 14 to 24 degrees: 9 degree-days each. [deg C]
WARM = Climate(**FROSTS, monthly_minimum=(14.0,) * 12, monthly_maximum=(24.0,) * 12)
#: Every day 8 to 16 degrees: 3 degree-days each, since the minimum counts as 10. [deg C]
COOL = Climate(**FROSTS, monthly_minimum=(8.0,) * 12, monthly_maximum=(16.0,) * 12)
#: Ripe 80 days from sowing, early sorts 60, after 400 degree-days; early sorts 300.
EAR = crop(
    "ear",
    starts={"value": ["sown", "raised"], "source": "practice"},
    hardiness="tender",
    sow_from=0,
    set_out_from=0,
    days_to_maturity={"value": 80, "low": 60, "high": 90, "source": "estimate"},
    maturity_from={"value": "sowing", "source": "estimate"},
    weeks_to_raise=3,
    harvest_days=10,
    heat=400,
)
SHELF = catalogue_of(EAR)


def dates(climate: Climate, first: dt.date, kind: str = "open", **fields) -> Dates:
    own = fields.pop("own", ())
    one = planting(crop="ear", first=first, **fields)
    return Plan(garden(bed(kind=kind), one, climate=climate, varieties=own), 2026, SHELF).dates(one)


def test_degree_days_hold_minimum_and_maximum_between_the_bounds():
    # (16 + 10) / 2 - 10, and not (8 + 16) / 2 - 10: the minimum counts as the base.
    assert heat_between(COOL, D(2026, 6, 1), 10, WARM_BASE, clipped=True) == pytest.approx(30)
    assert heat_between(COOL, D(2026, 6, 1), 10, WARM_BASE) == pytest.approx(20)
    hot = COOL.with_(monthly_maximum=(40.0,) * 12)
    assert heat_between(hot, D(2026, 6, 1), 10, WARM_BASE, clipped=True) == pytest.approx(
        100
    )  # (30 + 10) / 2
    assert (
        days_for(COOL, D(2026, 6, 1), 30, WARM_BASE, clipped=True, warmer=2.0) == 8
    )  # (18 + 10) / 2 - 10 a day


def test_figure_of_sweet_corn_is_that_of_its_source():
    """Croptime, Oregon State University 2016: Jubilee, 1,539 degree-days over 50 F."""
    corn = load_catalogue().crops["sweet_corn"]
    assert corn.number("heat") == pytest.approx(1539 / 1.8, abs=0.5)


def test_where_it_is_warm_its_days_hold():
    found = dates(WARM, D(2026, 5, 20), start="sown")
    assert found.first_harvest.day == D(2026, 8, 8)
    assert found.heat == HeatSum(pytest.approx(300), pytest.approx(9 * 141))
    assert found.ripens


def test_in_a_cool_place_it_waits_for_its_heat():
    found = dates(COOL, D(2026, 5, 20), start="sown")
    assert found.first_harvest.day == D(2026, 5, 20) + dt.timedelta(days=100)
    assert found.first_harvest.source == "estimate"
    assert "300 degree-days" in found.first_harvest.why
    assert found.ripens


def test_too_late_a_start_does_not_find_it_before_the_frost():
    found = dates(COOL, D(2026, 7, 20), start="sown")
    assert found.heat.found == pytest.approx(3 * 80)
    assert not found.ripens
    assert any("240 of the 300 degree-days" in doubt for doubt in found.doubts)


def test_nearly_enough_heat_is_ripe_with_the_frost():
    found = dates(COOL, D(2026, 7, 2), start="sown")  # 98 days, 294 degree-days
    assert found.ripens
    assert found.first_harvest.day == D(2026, 10, 7)


def test_raised_plants_need_the_less_heat_by_the_days_they_are_ahead():
    assert dates(COOL, D(2026, 5, 20), start="raised").heat.wanted == pytest.approx(400 * 59 / 80 * 60 / 80)


def test_glass_and_covers_warm():
    assert dates(COOL, D(2026, 7, 20), "under glass", start="sown").ripens
    cloche = Cover(kind="cloche", first=D(2026, 7, 20), last=D(2026, 9, 18))
    assert dates(COOL, D(2026, 7, 20), start="sown", covers=(cloche,)).heat.found == pytest.approx(240 + 120)
    film = Cover(kind="film")
    assert dates(COOL, D(2026, 7, 20), start="sown", covers=(film,)).heat.found == pytest.approx(240 + 80)
    net = Cover(kind="netting")
    assert dates(COOL, D(2026, 7, 20), start="sown", covers=(net,)).heat.found == pytest.approx(240)


def test_a_sort_of_ones_own_is_judged_by_its_own_days_and_heat():
    quick = Variety(
        id="v1", crop="ear", name="Quick", figures=(OwnFigure(field="days_to_maturity", value=60),)
    )
    of_it = dates(COOL, D(2026, 5, 20), start="sown", variety="Quick", own=(quick,))
    assert of_it.heat.wanted == pytest.approx(300)
    measured = Variety(
        id="v1",
        crop="ear",
        name="Quick",
        figures=(OwnFigure(field="days_to_maturity", value=60), OwnFigure(field="heat", value=250)),
    )
    of_it = dates(COOL, D(2026, 5, 20), start="sown", variety="Quick", own=(measured,))
    assert of_it.heat.wanted == pytest.approx(250)


def test_without_monthly_means_its_days_hold():
    found = dates(Climate(**FROSTS), D(2026, 5, 20), start="sown")
    assert found.heat is None
    assert found.first_harvest.day == D(2026, 8, 8)


def test_seed_that_lies_long_in_the_cold_is_ripe_later():
    catalogue = load_catalogue()

    def carrots(first: dt.date) -> Dates:
        one = planting(crop="carrot", start="sown", year=2026, first=first)
        cold = Climate(
            **FROSTS,
            monthly_minimum=(0, 0, 1, 3, 6, 9, 11, 11, 8, 6, 3, 1),
            monthly_maximum=(6, 7, 10, 13, 16, 19, 21, 21, 18, 14, 9, 7),
        )
        return Plan(garden(bed(), one, climate=cold), 2026, catalogue).dates(one)

    usual, early = carrots(D(2026, 5, 15)), carrots(D(2026, 2, 10))
    days = catalogue.crops["carrot"].number("days_to_maturity")
    assert (usual.first_harvest.day - D(2026, 5, 15)).days == days
    assert (early.emerge.day - D(2026, 2, 10)).days > 40
    assert (early.first_harvest.day - early.emerge.day).days == round(0.7 * days)
    assert "late in the cold" in early.first_harvest.why


def test_frost_comes_four_weeks_later_under_glass():
    """3 degree-days a day outdoors, where the minimum counts as 10; 5.5 a day under glass, 3 degrees warmer."""
    found = dates(COOL, D(2026, 7, 20), "under glass", start="sown")
    assert found.heat.found == pytest.approx(5 * (80 + 28))


def test_a_cover_without_days_warms_for_the_two_weeks_of_its_shelter():
    cloche = Cover(kind="cloche")
    assert dates(COOL, D(2026, 7, 20), start="sown", covers=(cloche,)).heat.found == pytest.approx(
        240 + 2 * 14
    )


@pytest.mark.parametrize(("hardiness", "base"), [("tender", "10.0"), ("frost-tolerant", "4.4")])
def test_degree_days_of_the_usual_season_count_from_the_base_that_fits_the_crop(hardiness, base):
    one = crop("one", hardiness=hardiness, sow_from=0, days_to_maturity=80, harvest_days=10)
    sown = planting(crop="one", first=D(2026, 6, 1))
    place = garden(bed(), sown, climate=WARM.with_(by_heat=True))
    found = Plan(place, 2026, catalogue_of(one)).dates(sown).first_harvest
    assert found is not None
    assert found.why.endswith(f"degree-days over {base} °C, as in its usual season")
