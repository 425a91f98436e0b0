"""The steps beside the boxes: which there are, and in which order."""

from __future__ import annotations

import datetime as dt

import pytest
from making import planting

from planner.season.planting_dates import CareDays, CoverDays, Dated, Dates
from planner.season.spans import Span
from planner.sheets.steps import steps

D = dt.date
YEAR = Span(D(2026, 1, 1), D(2026, 12, 31))


def on(month: int, day: int, year: int = 2026) -> Dated:
    return Dated(D(year, month, day), "because")


def words(dates: Dates, thinned: bool = False, **fields) -> list[str]:
    return [step.word for step in steps(planting(**fields), dates, thinned, YEAR)]


@pytest.mark.parametrize(
    ("start", "expected"),
    [
        ("sown", ["sow", "comes up", "pick", "clear"]),
        ("raised", ["sow", "prick out", "harden off", "set out", "pick", "clear"]),
        ("bought", ["get", "harden off", "set out", "pick", "clear"]),
        ("tubers", ["get", "plant", "comes up", "pick", "clear"]),
        ("standing", ["inspect", "pick", "clear"]),
    ],
)
def test_without_dates_each_start_has_its_boxes(start, expected):
    assert words(Dates(start=start)) == expected


def test_thinning_has_a_box_where_it_is_thinned_or_has_a_day():
    assert "thin" in words(Dates(start="sown"), thinned=True)
    assert "thin" in words(Dates(start="sown", thin=on(5, 1)))


def test_no_pricking_out_where_the_dates_know_of_none():
    assert "prick out" not in words(Dates(start="raised", sow=on(4, 1), set_out=on(5, 1)))


def test_potting_on_has_a_box_where_it_has_a_day():
    dates = Dates(start="raised", sow=on(3, 1), prick_out=on(3, 20), pot_on=on(4, 10), harden_off=on(4, 23))
    assert words(dates)[:4] == ["sow", "prick out", "pot on", "harden off"]
    assert "pot on" not in words(Dates(start="raised"))


def test_steps_come_in_the_order_of_their_days():
    dates = Dates(
        start="raised",
        sow=on(3, 1),
        harden_off=on(4, 20),
        set_out=on(5, 1),
        first_harvest=on(7, 1),
        last_harvest=on(9, 1),
        clear=on(9, 1),
        covers=(CoverDays("film", on(4, 24), None), CoverDays("fleece", on(5, 1), on(5, 15))),
    )
    covers = [{"kind": "fleece"}, {"kind": "film"}]
    assert words(dates, covers=covers) == [
        "sow",
        "harden off",
        "film down",
        "set out",
        "fleece on",
        "fleece off",
        "pick from",
        "pick until",
        "clear",
    ]


def test_covers_of_one_kind_have_their_own_days():
    dates = Dates(
        start="sown",
        covers=(CoverDays("fleece", on(3, 1), on(4, 1)), CoverDays("fleece", on(9, 1), on(10, 1))),
    )
    found = steps(planting(covers=[{"kind": "fleece"}, {"kind": "fleece"}]), dates, False, YEAR)
    days = [step.at.day for step in found if step.word.startswith("fleece") and step.at]
    assert days == [D(2026, 3, 1), D(2026, 4, 1), D(2026, 9, 1), D(2026, 10, 1)]


def test_what_does_not_ripen_has_no_day_to_pick():
    dates = Dates(start="sown", sow=on(9, 1), first_harvest=on(12, 1), last_harvest=on(12, 9), ripens=False)
    assert [step.at for step in steps(planting(), dates, False, YEAR) if step.word.startswith("pick")] == [
        None
    ]


def test_green_manure_is_dug_in_and_not_picked():
    found = words(Dates(start="sown", sow=on(9, 1), clear=on(11, 1)), purpose="green manure")
    assert found == ["sow", "comes up", "dig in"]


def test_onions_are_lifted_and_cured():
    found = words(Dates(start="sets", first_harvest=on(8, 1), last_harvest=on(8, 9)), crop="onion")
    assert "lift and cure" in found
    assert "pick from" not in found


def test_of_what_stands_for_years_only_this_years_work_is_meant():
    old = Dates(
        start="crowns",
        stays_for_years=True,
        set_out=on(4, 1, 2020),
        first_harvest=on(4, 20),
        clear=on(12, 31, 2032),
    )
    assert words(old, crop="asparagus") == ["inspect", "pick from", "pick until"]
    new = Dates(start="crowns", stays_for_years=True, set_out=on(4, 1))
    assert words(new, crop="asparagus") == ["get", "plant", "comes up", "pick"]


def test_film_is_laid_before_posts_go_through_it():
    dates = Dates(
        start="raised", set_out=on(5, 24), support_up=on(5, 24), covers=(CoverDays("film", on(5, 24), None),)
    )
    found = words(dates, covers=[{"kind": "film"}], support={"kind": "net"})
    assert [word for word in found if word in ("film down", "support up", "set out")] == [
        "film down",
        "support up",
        "set out",
    ]


def test_a_harvest_of_one_day_is_picked_all_at_once():
    found = words(
        Dates(start="sown", sow=on(4, 8), first_harvest=on(6, 2), last_harvest=on(6, 2), clear=on(6, 2))
    )
    assert found == ["sow", "comes up", "pick all at once", "clear"]


def test_nothing_is_picked_before_it_is_set_out():
    dates = Dates(start="bought", set_out=on(5, 1), first_harvest=on(5, 1), last_harvest=on(10, 21))
    assert words(dates) == ["get", "harden off", "set out", "pick from", "pick until", "clear"]


def test_what_is_got_has_a_last_day():
    chitted = CareDays("chit", "chit", on(2, 27), D(2026, 2, 27))
    (tubers,) = [
        step
        for step in steps(
            planting(), Dates(start="tubers", set_out=on(4, 10), aftercare=(chitted,)), False, YEAR
        )
        if step.word == "get"
    ]
    assert (tubers.words, tubers.by) == ("get tubers", D(2026, 2, 27))
    plugs = planting(start="bought", state="plugs")
    (got, *_) = steps(plugs, Dates(start="bought", set_out=on(4, 20)), False, YEAR)
    assert (got.words, got.by) == ("get plug plants", D(2026, 4, 20))
    (got, *_) = steps(plugs, Dates(start="bought"), False, YEAR)
    assert got.by is None


def test_steps_say_what_is_done():
    care = (
        CareDays("cut back", "flower stalks", on(4, 21), D(2026, 4, 21)),
        CareDays("stop", "stop", on(8, 20), D(2026, 8, 20)),
    )
    found = steps(
        planting(support={"kind": "net"}), Dates(start="sown", sow=on(4, 1), aftercare=care), False, YEAR
    )
    shown = {step.word: step.words for step in found}
    assert shown["cut back"] == "cut out flower stalks"
    assert shown["stop"] == "pinch out growing tips"
    assert shown["support up"] == "put up net"
