"""The year of a household: against a reckoning of the same lots from day to day, and by hand."""

from __future__ import annotations

import datetime as dt

import pytest
from sample_reading import FOLDER

from planner.amounts.closing import IN_GAP, LEAST_GAP, closings
from planner.amounts.eating import appetite, weeks_eaten
from planner.amounts.larder import course_of
from planner.amounts.supply_year import crop_years, level_on, month_firsts
from planner.crops import load_catalogue
from planner.garden import Eaten, Household
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.tasks import monday
from planner.storage import load

HOLLOW = load(FOLDER / "hollow_lane.bedwright")


def year_of(document, crop, year=2026):
    found = [one for one in crop_years(Plan(document, year)) if crop in one.appetite.crops]
    assert len(found) == 1
    return found[0]


def fed(persons=4.0, **eats):
    own = tuple(Eaten(crop=crop, kilograms=kilograms, per="week") for crop, kilograms in eats.items())
    return HOLLOW.with_(household=Household(persons=persons, eats=own), store_places=())


def from_day_to_day(year, first, last, days):
    """Levels of all lots together, kept and fresh, on the mornings of some days: by brute force."""
    lots = [one.lot for one in year.course.lots]
    left, owed, found = [lot.grams for lot in lots], 0, {}
    today = first
    while today <= last:
        good = [n for n, lot in enumerate(lots) if lot.first <= today <= lot.last]
        if today in days:
            found[today] = sum(left[n] for n in good)
        owed += year.appetite.weekly
        want, owed = divmod(owed, 7)
        for n in sorted(good, key=lambda n: (lots[n].last, lots[n].first, n)):
            part = min(left[n], want)
            left[n], want = left[n] - part, want - part
        today += dt.timedelta(days=1)
    return found


@pytest.mark.parametrize("persons", [1.0, 2.5, 4.0, 30.0])
def test_levels_of_all_crops_are_those_from_day_to_day(persons):
    plan = Plan(fed(persons), 2026)
    months = set(month_firsts(plan.span.first, dt.date(2027, 12, 1)))
    checked = 0
    for year in crop_years(plan):
        if year.course is None:
            continue
        expected = from_day_to_day(year, shift(plan.span.first, -365), dt.date(2027, 12, 31), months)
        for month in months:
            assert sum(level_on(one, month) for one in year.course.lots) == expected[month], year.name
            checked += 1
    assert checked > 400


def test_the_day_on_which_the_onions_run_out_by_hand():
    # All lifted on 20 August; 1,750 g are eaten in a week, 250 g a day, and nothing else is there: those of the year before lasted
    # from 20 August 2025 on.  What is wanted is counted from 1 January 2025 on in whole grams.
    year = year_of(fed(1.0, onion=1.75), "onion")
    ((before, last_year), (_, this_year)) = year.stored
    assert before.planting.year == 2025
    assert last_year.gone == dt.date(2025, 8, 20) + dt.timedelta(days=last_year.lot.grams // 250)
    assert this_year.lot.grams > 10_000
    assert this_year.gone == dt.date(2026, 8, 20) + dt.timedelta(days=this_year.lot.grams // 250)
    assert level_on(this_year, dt.date(2026, 9, 1)) == this_year.lot.grams - 12 * 250


def test_weeks_of_a_crop_add_up():
    for year in crop_years(Plan(fed(), 2026)):
        if year.course is None:
            assert year.weeks == ()
            continue
        assert sum(week.picked for week in year.weeks) == sum(
            one.within(Plan(fed(), 2026).span) for one in year.harvests
        )
        assert all(0 <= week.eaten <= week.wanted for week in year.weeks)


def test_what_is_too_much_is_what_spoils_of_fresh_pickings():
    for year in crop_years(Plan(fed(), 2026)):
        spoilt = sum(
            one.spoilt
            for one in (year.course.lots if year.course else ())
            if one.lot.place == "fresh" and one.lot.first >= dt.date(2026, 1, 1)
        )
        assert spoilt - 100 * 10 < sum(glut.grams for glut in year.gluts) <= spoilt
        for glut in year.gluts:
            assert glut.first == monday(glut.first)
            assert (glut.last - glut.first).days % 7 == 6


def test_gaps_are_whole_weeks_in_which_a_tenth_is_missing():
    for year in crop_years(Plan(fed(), 2026)):
        if year.season is None or year.course is None:
            continue
        for gap in year.gaps(*year.season):
            assert gap.first >= year.season[0]
            assert gap.last <= year.season[1]
            assert gap.grams == year.lacks(gap.first, gap.last) > 0


def test_more_persons_lack_more_and_leave_less():
    lacking, spoilt = [], []
    for persons in (1.0, 2.0, 4.0, 8.0):
        year = year_of(fed(persons), "tomato")
        lacking.append(sum(gap.grams for gap in year.gaps(*year.season)))
        spoilt.append(sum(one.spoilt for one in year.course.lots))
    assert lacking == sorted(lacking)
    assert spoilt == sorted(spoilt, reverse=True)
    assert lacking[0] < lacking[-1]


def test_the_edit_that_closes_a_gap_closes_it():
    document = e.remove(fed(), ["p98", "p97", "p99"])  # ground for it
    plan = Plan(document, 2026)
    closed = 0
    for year in crop_years(plan):
        for gap, closing in closings(plan, year):
            if closing is None or not closing.whole:
                continue
            after = next(
                one
                for one in crop_years(Plan(closing.edit(document), 2026))
                if one.appetite.key == year.appetite.key
            )
            before = year.lacks(gap.first, gap.last)
            assert after.lacks(gap.first, gap.last) < before
            closed_by = before - after.lacks(gap.first, gap.last)
            assert closed_by >= 0.5 * closing.within, (
                "what is there in the gap, even where more is picked than is eaten at first"
            )
            assert sum(spot.grams for spot in closing.spots) >= closing.needed.grams >= closing.within
            closed += 1
    assert closed >= 3


def test_a_sowing_that_closes_a_gap_is_picked_in_it():
    plan = Plan(fed(), 2026)
    for year in crop_years(plan):
        for gap, closing in closings(plan, year):
            if closing is not None:
                assert closing.dates.first_harvest.day <= gap.last
                assert closing.dates.on_plot.day >= plan.span.first
                assert 0 < closing.within <= gap.grams
                assert closing.within <= closing.needed.grams <= closing.within / IN_GAP + 1
                assert gap.grams >= max(LEAST_GAP, year.appetite.weekly)


# -- what is eaten ---------------------------------------------------------------------------------------


def test_four_ounces_a_week_are_78_pounds_for_six():
    # agricultural education lesson: 6 persons, 4 oz a person and week; 4 x 6 x 52 / 16 = 78 lb
    ounce = 0.028349523125
    document = HOLLOW.with_(
        household=Household(persons=6, eats=(Eaten(crop="pea", kilograms=4 * ounce, per="week"),))
    )
    found = appetite(document, load_catalogue(), "pea")
    assert found.weekly * 52 / 453.59237 == pytest.approx(78, rel=0.001)


def test_own_amounts_come_before_published_ones_and_leave_the_rest_of_their_group():
    document = HOLLOW.with_(household=Household(persons=2, eats=(Eaten(crop="cos_lettuce", kilograms=5.2),)))
    own = appetite(document, load_catalogue(), "cos_lettuce")
    others = appetite(document, load_catalogue(), "lettuce")
    assert (own.source, own.crops, own.weekly) == ("own", ("cos_lettuce",), round(5200 * 2 / own.weeks))
    assert "cos_lettuce" not in others.crops
    assert others.source == "mu_g6201"


def test_an_amount_a_year_is_spread_over_the_weeks_in_which_it_is_eaten():
    found = appetite(fed(3.0), load_catalogue(), "potato")
    assert found.weekly == round(found.yearly * 3 * 1000 / 30), "210 days in store"
    asparagus = load_catalogue().crops["asparagus"]
    assert weeks_eaten(asparagus) == -(-(56 + 17) // 7)


def test_what_is_frozen_is_eaten_the_year_round():
    fresh = year_of(fed(), "pea")
    document = e.change_planting(fed(), "p83", purpose="freezing")
    frozen = year_of(document, "pea")
    assert fresh.appetite.weeks < frozen.appetite.weeks == 52
    assert frozen.appetite.weekly == round(frozen.appetite.yearly * 4 * 1000 / 52)
    assert [one.lot.place for _, one in frozen.stored] == ["freezer"] * len(frozen.harvests[0].lots)
    assert frozen.gluts == ()
    left = sum(one.spoilt for _, one in frozen.stored)
    assert left <= sum(glut.grams for glut in fresh.gluts), "no more of it spoils"


def test_nobody_eats_and_nothing_is_said_of_it():
    years = crop_years(Plan(fed(0.0), 2026))
    assert all(year.course is None and year.gluts == () for year in years)
    assert any(year.harvests for year in years)


def test_what_finishes_a_store_is_more_than_what_is_eaten_and_nothing_less_does():
    for year in crop_years(Plan(fed(1.0), 2026)):
        left = [one for _, one in year.stored if one.spoilt > 0.1 * one.lot.grams]
        if not left:
            continue
        weekly = year.finishes(left)
        assert weekly > year.appetite.weekly
        lots = [one.lot for one in year.course.lots]
        span = min(lot.first for lot in lots), max(lot.last for lot in lots)
        wanted = {one.lot for one in left}

        def spoilt(grams, lots=lots, span=span, wanted=wanted):
            return sum(one.spoilt for one in course_of(lots, grams, *span).lots if one.lot in wanted)

        assert spoilt(weekly) == 0
        assert spoilt(int(weekly * 0.97)) > 0
