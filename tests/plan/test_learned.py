"""What a garden's own years tell, and what its plans make of it."""

from __future__ import annotations

import datetime as dt
import random
from typing import Any

import pytest
from making import garden, planting
from own_years import garden_of_years
from random_edits import random_edit

from planner.amounts.yields import planting_yield
from planner.checks.frame.planting_view import planting_view
from planner.garden import Climate, Garden, OwnFigure, Variety
from planner.garden import edits as e
from planner.garden.learned import LearnedChoice, LearnedKind, Learning
from planner.listings.learned import learned_lines
from planner.listings.left_out import end_lines, left_out_lines
from planner.plan import Plan
from planner.plan.changes import changed_beds, learned_anew
from planner.plan.own_years import NOTHING, OwnYears, rounded
from planner.plan.shrinkage import shrink, variance_between, variance_within
from planner.season.seen_times import LeftOut

#: Dwarf beans, weighed in three years; the fourth year is planned.
YEARS: dict[int, dict[str, Any]] = {
    2023: {"sow": (5, 20), "up": (6, 5), "first": (8, 20), "grams": {(8, 20): 900, (9, 1): 4000}, "end": (10, 1)},
    2024: {"sow": (5, 25), "up": (6, 8), "first": (8, 24), "grams": {(8, 24): 900, (9, 4): 5000}, "end": (10, 1)},
    2025: {"sow": (5, 15), "up": (6, 2), "first": (8, 11), "grams": {(8, 11): 1900, (9, 1): 5000}, "end": (10, 1)},
    2026: {},
}  # fmt: skip


def years(**changes: dict[str, Any]) -> dict[int, dict[str, Any]]:
    """The years, with the entries of some of them changed: ``y2024={"why": "eaten"}``."""
    return {year: {**told, **changes.get(f"y{year}", {})} for year, told in YEARS.items()}


def own(of: Garden, kind: LearnedKind, variety: str = "") -> OwnYears | None:
    """The own years of dwarf beans of a kind."""
    found = Plan(of, 2026).learned.own
    return next((one for one in found if one.kind == kind and one.name == variety), None)


def told(of: Garden, kind: LearnedKind) -> OwnYears:
    found = own(of, kind)
    assert found is not None
    return found


def with_learning(of: Garden, **fields: Any) -> Garden:
    return e.change_site(of, learned=Learning(**fields))


# -- what is learned ----------------------------------------------------------------------------


def test_days_and_grams_are_counted_from_the_records() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    up, first, picked = told(of, "coming up"), told(of, "first picking"), told(of, "yield")
    assert [one.seen for one in up.years] == [16, 14, 18]
    assert [one.seen for one in first.years] == [92, 91, 88]
    assert (up.own, up.spread) == (16, 2)
    plan = Plan(of, 2026)
    metres = plan.placed(of.plantings[0]).layout.row_length
    plants = plan.placed(of.plantings[0]).plants
    grams = [4900, 5900, 6900]
    assert picked.by_metre == pytest.approx(sum(grams) / 3 / metres)
    assert picked.by_plant == pytest.approx(sum(grams) / 3 / plants)


def test_the_figure_that_is_used_follows_the_stated_rule() -> None:
    """Worked out by hand from the factors, the printed range and the prior."""
    of = garden_of_years("dwarf_bean", YEARS)
    found = told(of, "yield")
    published = planting_yield(Plan(with_learning(of, use="never"), 2026), of.plantings[3])
    assert published.grams is not None
    factors = [grams / published.grams for grams in (4900, 5900, 6900)]
    figure = Plan(of, 2026).catalogue.crops["dwarf_bean"].yield_per_metre
    assert figure is not None
    assert figure.value is not None
    within = rounded(variance_within([factors], 0.35))
    between = variance_between(figure.value, figure.low, figure.high, 0.5)
    expected = shrink(factors, 1.0, within, between)
    assert found.shrunk is not None
    assert found.shrunk == pytest.approx(expected)
    mine = planting_yield(Plan(of, 2026), of.plantings[3])
    assert mine.learned
    assert mine.source == "this garden, 2023-2025"
    assert mine.grams == pytest.approx(published.grams * expected.value, abs=1)
    assert mine.low is not None
    assert mine.high is not None
    assert mine.low < mine.grams < mine.high


def test_warmth_counts_until_the_first_picking_not_days() -> None:
    """Had a planting been picked on the days that the published figures say, its factor would be 1 whenever it was sown."""
    plain = garden_of_years(
        "dwarf_bean", {2023: {"sow": (5, 10)}, 2024: {"sow": (6, 15)}, 2025: {"sow": (5, 28)}}
    )
    plan = Plan(plain, 2025)
    firsts = [plan.dates(one).first_harvest for one in plain.plantings]
    records = [
        {"kind": "first picking", "planting": one.id, "day": first.day}
        for one, first in zip(plain.plantings, firsts, strict=True)
        if first is not None
    ]
    found = told(e.add_records(plain, records)[0], "first picking")
    days = [one.seen for one in found.years]
    assert max(days) - min(days) >= 5  # sown at other times it takes other numbers of days
    assert [one.factor for one in found.years] == pytest.approx([1, 1, 1], abs=0.03)


def test_plantings_of_one_year_are_one_year() -> None:
    of = garden_of_years("dwarf_bean", years())
    of = e.change_planting(of, "p1", year=2023)
    found = told(of, "coming up")
    assert [(one.year, one.plantings) for one in found.years] == [(2023, 2), (2025, 1)]


def left_out(of: Garden) -> tuple[LeftOut, ...]:
    """What is left out of the own figures of a garden of one crop."""
    return tuple(one for group in Plan(of, 2026).learned.left_out for one in group.what)


def left_out_words(of: Garden) -> list[str]:
    """The same as the page says it."""
    found = Plan(of, 2026).learned.left_out
    return [line for group in found for line in left_out_lines(group, of.site.units)]


def test_a_year_that_was_lost_is_told_apart_and_is_no_yield_of_nothing() -> None:
    """By hand: the yield is over the two years that were harvested; voles took one of three."""
    of = garden_of_years("dwarf_bean", years(y2024={"why": "eaten", "grams": {}}))
    voles = {"kind": "seen", "harm": "voles", "planting": "p1", "day": dt.date(2024, 8, 1)}
    of = e.add_records(of, [voles])[0]
    assert [one.year for one in told(of, "first picking").years] == [2023, 2025]
    found = told(of, "yield")
    assert [one.year for one in found.years] == [2023, 2025]
    metres = Plan(of, 2026).placed(of.plantings[0]).layout.row_length
    assert found.by_metre == pytest.approx((4900 + 6900) / 2 / metres)
    assert [(one.year, one.why, one.cause) for one in left_out(of)] == [(2024, "lost", "voles")]
    assert left_out_words(of) == ["lost in 1 of 3 years: 2024 to voles"]


def test_what_was_picked_before_a_loss_is_a_yield_where_it_is_a_fifth_of_what_was_expected() -> None:
    of = garden_of_years("dwarf_bean", years(y2024={"why": "frozen"}))
    assert [one.year for one in told(of, "yield").years] == [2023, 2024, 2025]
    few = garden_of_years("dwarf_bean", years(y2024={"why": "frozen", "grams": {(9, 1): 50}}))
    assert [one.year for one in told(few, "yield").years] == [2023, 2025]


def test_a_garden_in_which_nothing_is_weighed_has_no_yield() -> None:
    unweighed = {year: {**one, "grams": {}, "why": "eaten"} for year, one in YEARS.items()}
    assert own(garden_of_years("dwarf_bean", unweighed), "yield") is None


def test_half_lost_is_half_as_many_plants_that_were_picked() -> None:
    """A year in which half was lost and half was picked yields the same a metre that stood as a whole one."""
    of = garden_of_years("dwarf_bean", years(y2024={"grams": {(8, 24): 450, (9, 4): 2500}}))
    lost = {"kind": "seen", "harm": "slugs", "lost": 0.5, "planting": "p1", "day": dt.date(2024, 7, 1)}
    whole = garden_of_years("dwarf_bean", YEARS)
    assert [one.seen for one in told(e.add_records(of, [lost])[0], "yield").years] == pytest.approx(
        [one.seen for one in told(whole, "yield").years]
    )


@pytest.mark.parametrize(
    ("changes", "why", "words"),
    [
        ({"grams": {(9, 1): 490_000}}, "slip", "2024 is left out of the yield: 490 kg is more than 68 times"),
        ({"first": (5, 27)}, "slip", "2024 is left out of the days until the first picking: 2 days"),
        ({"grams": {}}, "unweighed", "2024 is left out of the yield: nothing that was picked was weighed"),
    ],
)
def test_each_year_that_is_left_out_is_named_with_its_reason(
    changes: dict[str, Any], why: str, words: str
) -> None:
    of = garden_of_years("dwarf_bean", years(y2024=changes))
    (one,) = left_out(of)
    assert (one.year, one.why) == (2024, why)
    (line,) = left_out_words(of)
    assert line.startswith(words)
    assert any(words in text for text in learned_lines(Plan(of, 2026)))


def test_pieces_and_a_year_without_an_end_are_named() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    amount = {"value": 3, "unit": "bunches"}
    more = {"kind": "picked", "planting": "p1", "day": dt.date(2024, 9, 9), "amount": amount}
    assert [(one.year, one.why) for one in left_out(e.add_records(of, [more])[0])] == [(2024, "pieces")]
    going_on = {**YEARS[2025]}
    del going_on["end"]
    of = garden_of_years("dwarf_bean", {**YEARS, 2025: going_on})
    assert [(one.year, one.why) for one in left_out(of)] == [(2025, "not over")]


def test_a_year_that_is_not_over_has_no_yield_yet() -> None:
    going_on = {**YEARS[2025]}
    del going_on["end"]
    of = garden_of_years("dwarf_bean", {**YEARS, 2025: going_on})
    assert [one.year for one in told(of, "yield").years] == [2023, 2024]
    later = [{"kind": "note", "words": "A new year", "day": dt.date(2026, 2, 1)}]
    assert [one.year for one in told(e.add_records(of, later)[0], "yield").years] == [2023, 2024, 2025]


def test_pickings_that_were_not_weighed_are_no_yield() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    more = {
        "kind": "picked",
        "planting": "p1",
        "day": dt.date(2024, 9, 9),
        "amount": {"value": 3, "unit": "bunches"},
    }
    assert [one.year for one in told(e.add_records(of, [more])[0], "yield").years] == [2023, 2025]


def test_what_waits_in_the_ground_is_picked_when_it_is_wanted() -> None:
    """A first picking says nothing of when carrots were ripe; being seen ripe does, and being picked over for weeks."""
    of = garden_of_years("carrot", {2024: {"sow": (4, 20), "first": (10, 1)}})
    assert own(of, "first picking") is None
    assert [(one.kind, one.why) for one in left_out(of)] == [("first picking", "wanted")]
    picked = garden_of_years("beetroot", {2024: {"sow": (4, 20), "first": (7, 20), "last": (8, 10)}})
    found = next(one for one in Plan(picked, 2026).learned.own if one.kind == "first picking")
    assert [(one.year, one.seen) for one in found.years] == [(2024, 91)]
    assert left_out(picked) == ()
    ripe = [{"kind": "ripe", "planting": "p0", "day": dt.date(2024, 8, 20)}]
    assert told(e.add_records(of, ripe)[0], "first picking").years[0].seen == 122


def test_slips_of_the_pen_teach_nothing() -> None:
    of = garden_of_years("dwarf_bean", years(y2024={"first": (5, 27), "grams": {(9, 1): 4_900_000}}))
    assert [one.factor is None for one in told(of, "first picking").years] == [False, True, False]
    assert [one.year for one in told(of, "yield").years] == [2023, 2025]


def test_emergence_by_lot() -> None:
    of = garden_of_years("dwarf_bean", years(y2023={"share": 0.5}))
    of, lot = e.put_lot(of, crop="dwarf_bean", seeds=100)
    counted = {
        "kind": "came up",
        "day": dt.date(2024, 6, 9),
        "planting": "p1",
        "lot": lot,
        "count": 30,
        "sown": 40,
    }
    of, _ = e.add_records(of, [counted])
    plan = Plan(of, 2026)
    assert [(one.lot, one.sowings, one.share) for one in plan.learned.lots] == [(lot, 1, 0.75)]
    assert [one.seen for one in told(of, "emergence").years] == [0.5, 0.75]


# -- when it is used ------------------------------------------------------------------------------


def test_two_years_are_not_used_by_themselves_and_three_are() -> None:
    two = {year: YEARS[year] for year in (2023, 2024)} | {2026: {}}
    of = garden_of_years("dwarf_bean", two)
    assert not Plan(of, 2026).learned.used
    chosen = with_learning(of, choices=(LearnedChoice(crop="dwarf_bean", figure="yield", used=True),))
    assert [one.kind for one in Plan(chosen, 2026).learned.used[0][1].figures] == ["yield"]
    kinds = [one.kind for one in Plan(garden_of_years("dwarf_bean", YEARS), 2026).learned.used[0][1].figures]
    assert kinds == ["coming up", "first picking", "length of picking", "yield"]


def test_a_figure_can_be_switched_off_by_itself() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    off = with_learning(of, choices=(LearnedChoice(crop="dwarf_bean", figure="coming up", used=False),))
    before, after = Plan(of, 2026), Plan(off, 2026)
    one = of.plantings[3]
    emerge = after.dates(one).emerge
    assert emerge is not None
    assert emerge.source != "this garden, 2023-2025"
    assert before.dates(one).first_harvest == after.dates(one).first_harvest


def test_a_variety_has_its_own_years_and_a_planting_without_one_those_of_all() -> None:
    named = years(y2023={"planting": {"variety": "Lane"}}, y2024={"planting": {"variety": "lane"}})
    of = garden_of_years("dwarf_bean", named)
    assert [one.year for one in told(of, "coming up").years] == [2023, 2024, 2025]
    mine = own(of, "coming up", "Lane")
    assert mine is not None
    assert [one.year for one in mine.years] == [2023, 2024]
    assert not mine.used
    assert Plan(of, 2026).figures_of(of.plantings[3]).learned is not None
    assert Plan(of, 2026).figures_of(of.plantings[0]).learned is None


def test_a_figure_from_the_gardeners_experience_stands_until_another_is_chosen() -> None:
    experience = Variety(
        id="v1", crop="dwarf_bean", name="Lane", figures=(OwnFigure(field="days_to_maturity", value=70),)
    )
    named = {year: {**one, "planting": {"variety": "Lane"}} for year, one in YEARS.items()}
    of = garden_of_years("dwarf_bean", named, varieties=(experience,))
    mine = own(of, "first picking", "Lane")
    assert mine is not None
    assert mine.learned is not None
    assert not mine.used
    assert Plan(of, 2026).figures_of(of.plantings[3]).number("days_to_maturity") == 70
    choice = LearnedChoice(crop="dwarf_bean", variety="Lane", figure="first picking", used=True)
    number = (
        Plan(with_learning(of, choices=(choice,)), 2026)
        .figures_of(of.plantings[3])
        .number("days_to_maturity")
    )
    assert number == mine.learned.value


def test_what_was_learned_is_over_the_sort_that_is_taken_here() -> None:
    """Cool gardens are taken for early sorts of beans; those that were picked when early sorts are have a factor of 1."""
    of = garden_of_years("dwarf_bean", YEARS)
    planned = of.plantings[3]
    mine = Plan(of, 2026).dates(planned).first_harvest
    published = Plan(with_learning(of, use="never"), 2026).dates(planned).first_harvest
    assert mine is not None
    assert published is not None
    assert mine.source == "this garden, 2023-2025"
    assert "early sort" in mine.why
    assert "this garden's own years" in mine.why
    assert "early sort" in published.why
    shrunk = told(of, "first picking").shrunk
    assert shrunk is not None
    assert shrunk.value > 1
    assert mine.day > published.day


# -- what stays the same ----------------------------------------------------------------------------


def test_without_learning_the_plan_is_that_of_a_garden_without_these_records() -> None:
    """All but what the records themselves say of their own plantings."""
    of = garden_of_years("dwarf_bean", YEARS)
    off, bare = with_learning(of, use="never"), garden_of_years("dwarf_bean", {year: {} for year in YEARS})
    one, plain = Plan(off, 2026), Plan(with_learning(bare, use="never"), 2026)
    assert one.learned.own
    assert not one.learned.used
    assert plain.learned is NOTHING
    planned = of.plantings[3]
    assert repr(one.dates(planned)) == repr(plain.dates(planned))
    assert one.span_of(planned) == plain.span_of(planned)
    assert planting_yield(one, planned) == planting_yield(plain, planned)
    assert one.figures_of(planned) == plain.figures_of(planned)


def test_records_change_no_crop_that_they_do_not_speak_of() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    pea = planting("q", "b3", crop="pea", year=2026)
    of = garden(*of.beds, *of.plantings, pea, site=of.site, climate=of.climate, records=of.records)
    bare = of.with_(records=())
    with_records, without = Plan(of, 2026), Plan(bare, 2026)
    assert with_records.learned.used
    assert repr(with_records.dates(pea)) == repr(without.dates(pea))
    assert planting_yield(with_records, pea) == planting_yield(without, pea)


@pytest.mark.parametrize("seed", range(4))
def test_a_plan_that_followed_edits_learned_what_a_fresh_one_does(seed: int) -> None:
    rng = random.Random(seed)
    of = garden_of_years("dwarf_bean", YEARS)
    plan = Plan(of, 2026)
    for _ in range(40):
        after = random_edit(rng, plan.garden) or plan.garden
        plan = plan.after(after)
        fresh = Plan(after, 2026)
        assert plan.learned == fresh.learned
        for one in after.plantings:
            assert plan.dates(one) == fresh.dates(one)
            assert plan.figures_of(one).learned == fresh.figures_of(one).learned


def test_an_edit_elsewhere_looks_at_no_record_again() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    plan = Plan(of, 2026)
    book = plan._book
    moved = plan.after(e.change_planting(of, "p3", notes="By the gate"))
    assert moved._book is book
    weighed = {
        "kind": "picked",
        "planting": "p0",
        "day": dt.date(2023, 9, 3),
        "amount": {"value": 500, "unit": "g"},
    }
    again = moved.after(e.add_records(moved.garden, [weighed])[0])
    assert again._book is not book
    assert all(again._book._entries[key] is book._entries[key] for key in ("p1", "p2"))


def test_an_edit_of_a_record_concerns_the_plantings_that_use_what_follows() -> None:
    """The window and the checks look again at beds in which nothing else changed."""
    of = garden_of_years("dwarf_bean", YEARS)
    before = Plan(of, 2026)
    later = before.after(
        e.change_record(
            of, next(one.id for one in of.records if one.kind == "came up"), day=dt.date(2023, 6, 12)
        )
    )
    assert learned_anew(before, later) == {"p0", "p1", "p2", "p3"}
    assert "b3" in (changed_beds(before, later) or ())
    noted = later.after(
        e.add_records(later.garden, [{"kind": "note", "words": "Dry", "day": dt.date(2026, 5, 1)}])[0]
    )
    assert learned_anew(later, noted) == set()


def test_a_stage_that_was_seen_comes_before_what_was_learned() -> None:
    """What records tell of a planting is what it was; what was learned moves the rest of it."""
    of = garden_of_years("dwarf_bean", YEARS)
    of, _ = e.add_records(
        of, [{"kind": "done", "task": "sow", "planting": "p3", "day": dt.date(2026, 5, 20)}]
    )
    expected = Plan(of, 2026).dates(of.plantings[3])
    of, _ = e.add_records(of, [{"kind": "came up", "planting": "p3", "day": dt.date(2026, 6, 12)}])
    seen = Plan(of, 2026).dates(of.plantings[3])
    assert expected.emerge is not None
    assert seen.emerge is not None
    assert expected.emerge.source == "this garden, 2023-2025"
    assert (seen.emerge.day, seen.emerge.origin) == (dt.date(2026, 6, 12), "done")
    assert seen.first_harvest is not None
    assert expected.first_harvest is not None
    assert seen.first_harvest.day > expected.first_harvest.day


@pytest.mark.parametrize("late", [6, 12])
def test_coming_up_late_moves_the_picking_as_one_that_was_seen(late: int) -> None:
    """Seen on the day that the own years say, the planting is picked on the same day; and later than by the print."""
    up = {2023: 5, 2024: 8, 2025: 2}
    told_years = {
        year: {"sow": YEARS[year]["sow"], "up": (6, day + late), "end": (10, 1)} for year, day in up.items()
    }
    of = garden_of_years("dwarf_bean", {**told_years, 2026: {"sow": (5, 20)}})
    mine, print_alone = Plan(of, 2026), Plan(with_learning(of, use="never"), 2026)
    one = of.plantings[3]
    learned, published = mine.dates(one), print_alone.dates(one)
    assert learned.emerge is not None
    assert published.emerge is not None
    assert learned.emerge.day > published.emerge.day
    assert learned.first_harvest is not None
    assert published.first_harvest is not None
    assert learned.first_harvest.day > published.first_harvest.day
    assert "own years" in learned.first_harvest.reason
    record = {"kind": "came up", "planting": one.id, "day": learned.emerge.day}
    seen = Plan(with_learning(e.add_records(of, [record])[0], use="never"), 2026).dates(one)
    assert seen.first_harvest is not None
    assert seen.first_harvest.day == learned.first_harvest.day
    both = Plan(e.add_records(of, [record])[0], 2026).dates(one)
    assert both.first_harvest is not None
    assert both.first_harvest.day == learned.first_harvest.day


def test_where_the_first_picking_is_learned_coming_up_late_is_in_it_already() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    plan = Plan(of, 2026)
    first = plan.dates(of.plantings[3]).first_harvest
    without = with_learning(of, choices=(LearnedChoice(crop="dwarf_bean", figure="coming up", used=False),))
    assert first == Plan(without, 2026).dates(of.plantings[3]).first_harvest


def test_checks_name_this_garden_as_the_source() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    view = planting_view(Plan(of, 2026), of.plantings[3])
    assert view.source("days_to_maturity") == "this garden, 2023-2025"
    assert view.figure("days_to_maturity") is None
    assert view.figure("in_row_spacing") is not None


def test_years_long_gone_tell_nothing_any_more() -> None:
    old = {year - 13: days for year, days in YEARS.items() if days}
    of = garden_of_years("dwarf_bean", {**old, **YEARS})
    assert [one.year for one in told(of, "coming up").years] == [2023, 2024, 2025]
    near = {year - 6: days for year, days in YEARS.items() if days}
    of = garden_of_years("dwarf_bean", {**near, **YEARS})
    assert [one.year for one in told(of, "coming up").years] == [2017, 2018, 2019, 2023, 2024, 2025]


def test_a_garden_of_unknown_weather_learns_in_whole_days() -> None:
    of = garden_of_years("dwarf_bean", YEARS).with_(climate=Climate())
    of = e.change_planting(of, "p3", first=dt.date(2026, 5, 20))
    found = told(of, "first picking")
    assert found.learned is not None
    assert found.learned.value == round(55 * found.learned.factor)
    first = Plan(of, 2026).dates(of.plantings[3]).first_harvest
    assert first is not None
    assert first.day == dt.date(2026, 5, 20) + dt.timedelta(days=found.learned.value)
    assert first.why == f"{found.learned.value:.0f} days after sowing"


# -- what was lost, and what is over --------------------------------------------------------------


def test_one_of_several_plantings_that_was_lost_is_no_lost_year() -> None:
    """Two plantings in 2025: one eaten, the other picked; by hand, 1 of 2 plantings."""
    of = garden_of_years("dwarf_bean", years(y2025={"why": "eaten", "grams": {}}))
    assert left_out_words(of) == ["lost in 1 of 3 years: 2025 (eaten by animals)"]
    both = e.change_planting(of, "p1", year=2025)
    assert left_out_words(both) == ["1 of 2 plantings was lost in 2025 (eaten by animals)"]


def test_a_year_of_which_half_was_lost_is_named() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    lost = {"kind": "seen", "harm": "slugs", "lost": 0.5, "planting": "p0", "day": dt.date(2023, 7, 1)}
    assert left_out_words(e.add_records(of, [lost])[0]) == ["50 % of it was lost in 2023 to slugs"]


def test_what_nothing_more_is_written_of_long_after_its_planned_end_counts_as_over() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    latest = of.with_(records=tuple(one for one in of.records if one.kind != "ended" or one.day.year < 2025))
    planned = Plan(latest, 2025).dates(latest.plantings[2]).last_harvest
    assert planned is not None

    def lines(days: int) -> list[str]:
        day = planned.day + dt.timedelta(days)
        bean = {"kind": "done", "task": "mulch", "planting": "p1", "day": day}
        return end_lines(
            Plan(e.add_records(latest, [bean])[0], 2026).learned.left_out, lambda group: group.key.crop
        )

    assert lines(1) == [
        "Left out of the yield as long as no last picking and no end is written down: dwarf_bean 2025."
    ]
    assert "they count as over since their planned end is past: dwarf_bean 2025" in lines(70)[0]
