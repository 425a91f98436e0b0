"""Height and spread by day."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from dated_plantings import CLIMATE, FROSTS_ALONE, D, ripe_in
from making import bed, catalogue_of, crop, garden, planting

from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.season.growth import BARE, s_curve, size_on
from planner.season.planting_dates import Dated, Dates
from planner.season.spans import OPEN_END, Span

DAY = dt.timedelta(days=1)
FIGURES = {"sow_from": 0, "harvest_days": 20, "height": 0.8, "spread": 0.4, **ripe_in(60)}
SOWN = crop("sown", **FIGURES)
RAISED = crop("raised", weeks_to_raise=4, set_out_from=0, maturity_from="setting out", **FIGURES)


def sizes(key: str, *days: dt.date, shelf=None, **fields):
    climate = fields.pop("climate", CLIMATE)
    one = planting(crop=key, start=fields.pop("start", key), **fields)
    plan = Plan(garden(bed(), one, climate=climate), 2026, shelf or catalogue_of(SOWN, RAISED))
    return [plan.size(one, day) for day in days], plan, one


def test_from_bare_ground_to_full_size_and_bare_again():
    found, plan, one = sizes(
        "sown", D(2026, 4, 30), D(2026, 5, 1), D(2026, 6, 30), D(2026, 7, 19), D(2026, 7, 20)
    )
    assert found[0] == BARE
    assert found[1].share == 0.0, "sown, not up"
    assert (found[2].height, found[2].spread, found[2].share) == (0.8, 0.4, 1.0)
    assert found[3].share == 1.0, "it keeps its size until it is cleared"
    assert found[4] == BARE
    assert plan.span_of(one).last == D(2026, 7, 19)


def test_growth_never_goes_back_and_is_steepest_half_way():
    days = [D(2026, 5, 1) + DAY * i for i in range(61)]
    shares = [size.share for size in sizes("sown", *days)[0]]
    assert shares == sorted(shares)
    steps = [b - a for a, b in itertools.pairwise(shares[10:])]
    assert max(steps) == pytest.approx(steps[len(steps) // 2], rel=0.05)
    assert s_curve(0.25) < 0.25 < 0.75 < s_curve(0.75)
    assert (s_curve(-1), s_curve(2)) == (0, 1)


def test_young_plants_have_some_size_when_they_are_set_out():
    (first, full), _, _ = sizes("raised", D(2026, 5, 1), D(2026, 6, 30))
    assert 0.1 < first.share < 0.3
    assert full.share == 1.0


def test_perennials_come_and_go_with_the_season(catalogue):
    days = D(2026, 1, 15), D(2026, 6, 1), D(2026, 12, 20)
    (winter, summer, late), _, _ = sizes(
        "rhubarb", *days, shelf=catalogue, start="standing", first=D(2020, 3, 1), climate=FROSTS_ALONE
    )
    assert winter.share == 0.0
    assert summer.share == 1.0
    assert late.share == 0.0
    (bush, _, _), _, _ = sizes("blackcurrant", *days, shelf=catalogue, start="standing", first=D(2020, 3, 1))
    assert bush.share == 1.0, "a shrub keeps its size all winter"


#: A perennial picked from 1 May to 30 June.
PICKED = Dates(
    start="standing",
    stays_for_years=True,
    first_harvest=Dated(D(2026, 5, 1), ""),
    last_harvest=Dated(D(2026, 6, 30), ""),
)


OLD = D(2020, 3, 1)


def share_on(day: dt.date, dates: Dates = PICKED, form: str = "fern", first: dt.date = OLD) -> float:
    one = crop("one").model_copy(update={"growth_form": form})
    return size_on(PlantingFigures(one, None), dates, Span(first, OPEN_END), day).share


@pytest.mark.parametrize(
    ("day", "share"),
    [
        (D(2026, 2, 28), 0.0),
        (D(2026, 3, 2), 0.0),
        (D(2026, 4, 1), 0.5),
        (D(2026, 5, 1), 1.0),
        (D(2026, 8, 29), 1.0),
        (D(2026, 9, 28), 0.5),
        (D(2026, 10, 28), 0.0),
        (D(2026, 12, 31), 0.0),
    ],
)
def test_a_perennial_rises_sixty_days_before_its_harvest_and_dies_back_sixty_days_after(day, share):
    assert share_on(day) == pytest.approx(share)
    assert share_on(day, form="cane") == pytest.approx(0.8 + 0.2 * share)
    assert share_on(day, form="mat") == pytest.approx(0.5 + 0.5 * share)
    assert share_on(day, form="climber") == pytest.approx(0.3 + 0.7 * share)
    assert share_on(day, form="shrub") == 1.0


def test_a_perennial_picked_nearly_all_year_has_its_full_size_all_year():
    picked = Dates(
        start="standing",
        stays_for_years=True,
        first_harvest=Dated(D(2026, 3, 1), ""),
        last_harvest=Dated(D(2026, 12, 26), ""),
    )
    assert {share_on(D(2026, month, 28), picked) for month in range(3, 13)} == {1.0}
    assert share_on(D(2027, 1, 5), picked) == 1.0


def test_a_perennial_without_a_harvest_grows_up_in_its_first_ten_weeks():
    young = Dates(start="crowns", stays_for_years=True)
    days = (D(2026, 4, 1), D(2026, 5, 6), D(2026, 6, 10), D(2026, 12, 1))
    assert [share_on(day, young, first=D(2026, 4, 1)) for day in days] == [0.0, 0.5, 1.0, 1.0]


@pytest.mark.parametrize(
    ("start", "share"), [("raised", 0.15), ("bought", 0.15), ("sown", 0.0), ("sets", 0.0)]
)
def test_plants_that_are_set_out_with_leaves_begin_at_a_seventh_of_their_size(start, share):
    dates = Dates(start=start, first_harvest=Dated(D(2026, 7, 10), ""))
    assert share_on(D(2026, 5, 1), dates, first=D(2026, 5, 1)) == share
    assert share_on(D(2026, 6, 5), dates, first=D(2026, 5, 1)) == pytest.approx(0.5)


def test_unknown_sizes_are_a_hand_high():
    (found,), _, _ = sizes("nothing", D(2026, 8, 1), start="standing")
    assert (found.height, found.spread) == (0.3, 0.3)
