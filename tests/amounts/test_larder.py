"""What is eaten of what is there: against a second implementation that goes from day to day."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from planner.amounts.larder import Lot, course_of
from planner.amounts.supply_year import level_on

FIRST = dt.date(2026, 1, 1)
LAST = dt.date(2026, 3, 31)


def day(number):
    return FIRST + dt.timedelta(days=number)


def day_by_day(lots, weekly):
    """The same by brute force: left of each lot, the day it was gone, eaten and there on each day."""
    left, gone, eaten, there = [lot.grams for lot in lots], {}, [], []
    today, owed = FIRST, 0
    while today <= LAST:
        owed += weekly  # sevenths of a gram
        want, owed = divmod(owed, 7)
        good = [n for n, lot in enumerate(lots) if lot.first <= today <= lot.last]
        there.append(sum(left[n] for n in good))
        took = 0
        for n in sorted(good, key=lambda n: (lots[n].last, lots[n].first, n)):
            part = min(left[n], want - took)
            if part:
                left[n] -= part
                took += part
                if not left[n]:
                    gone[n] = today
        eaten.append(took)
        today += dt.timedelta(days=1)
    return left, gone, eaten, there


def level_day_by_day(lots, weekly, when):
    """What is left of each lot that is good on the morning of a day, by brute force."""
    left, owed, today = [lot.grams for lot in lots], 0, FIRST
    while today < when:
        owed += weekly
        want, owed = divmod(owed, 7)
        good = [n for n, lot in enumerate(lots) if lot.first <= today <= lot.last]
        for n in sorted(good, key=lambda n: (lots[n].last, lots[n].first, n)):
            part = min(left[n], want)
            left[n], want = left[n] - part, want - part
        today += dt.timedelta(days=1)
    return [left[n] if lot.first <= when <= lot.last else 0 for n, lot in enumerate(lots)]


lots = st.lists(
    st.tuples(st.integers(0, 3000), st.integers(-40, 95), st.integers(0, 60)).map(
        lambda one: Lot("p1", one[0], day(one[1]), day(one[1] + one[2]))
    ),
    max_size=8,
)


@settings(max_examples=200)
@given(lots, st.integers(0, 2500))
def test_a_course_is_that_of_going_from_day_to_day(lots, weekly):
    left, gone, eaten, there = day_by_day(lots, weekly)
    course = course_of(lots, weekly, FIRST, LAST, [day(31), day(59)])
    assert [one.lot.grams - one.eaten for one in course.lots] == left
    assert {n: one.gone for n, one in enumerate(course.lots) if one.gone} == gone
    assert sum(one.eaten for one in course.stretches) == sum(eaten)
    for one in course.stretches:
        begin, end = (one.first - FIRST).days, (one.end - FIRST).days
        assert one.eaten == sum(eaten[begin:end])
        assert one.there == there[begin]
    assert [one.first for one in course.stretches[1:]] == [one.end for one in course.stretches[:-1]]


@given(lots, st.integers(0, 2500), st.integers(0, 89))
def test_levels_are_those_of_going_from_day_to_day(lots, weekly, number):
    course = course_of(lots, weekly, FIRST, LAST, [day(number)])
    assert [level_on(one, day(number)) for one in course.lots] == level_day_by_day(lots, weekly, day(number))


@given(lots, st.integers(0, 2500))
def test_what_is_harvested_is_eaten_or_spoilt_or_still_there(lots, weekly):
    course = course_of(lots, weekly, FIRST, LAST)
    for one in course.lots:
        still_good = one.lot.last > LAST
        assert one.eaten + one.spoilt == one.lot.grams or (still_good and one.spoilt == 0)
    assert all(0 <= one.eaten <= one.wanted for one in course.stretches)


def test_the_day_on_which_onions_run_out_by_hand():
    # 10 kg at 700 g a week from 1 January: 100 g a day, so the last of it on the hundredth day; here 4 kg: the fortieth
    course = course_of([Lot("p1", 4000, FIRST, LAST, "store")], 700, FIRST, LAST)
    assert course.lots[0].gone == dt.date(2026, 2, 9)


def test_what_is_good_for_the_shortest_time_is_eaten_first():
    brief, lasting = Lot("p1", 700, FIRST, day(6)), Lot("p2", 700, FIRST, LAST)
    course = course_of([lasting, brief], 700, FIRST, day(13))
    assert [one.gone for one in course.lots] == [day(13), day(6)]


def test_nobody_eats_and_all_that_does_not_last_is_spoilt():
    course = course_of([Lot("p1", 700, FIRST, day(6)), Lot("p2", 50, FIRST, day(400))], 0, FIRST, LAST)
    assert [(one.eaten, one.spoilt) for one in course.lots] == [(0, 700), (0, 0)]
