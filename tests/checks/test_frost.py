"""Frost in spring, autumn and winter: both sides of each threshold."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from checks.faults import INLAND, WARM, YEAR, beans, day, lettuce, made, rows
from checks.thresholds import Threshold, own
from making import bed, planting

from planner.checks import check_all
from planner.garden import FrostDates, Garden
from planner.garden import edits as e
from planner.plan import Plan


def tomato(first: dt.date, **fields: Any) -> Garden:
    """Tomatoes set out on a day; the last frost is on 6 May."""
    return made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=first,
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
            **fields,
        ),
    )


def potato_in_a_late_spring(first: dt.date) -> Garden:
    late = WARM.with_(last_frost=FrostDates(risk_10="06-07", risk_50="06-01", risk_90="05-20"))
    one = planting(crop="potato", start="tubers", first=first, last=day(9, 10), arrangement=rows(0.4, 0.6))
    return made(bed(), one, climate=late)


def basil(last: dt.date, **fields: Any) -> Garden:
    """Basil left until a day; the first frost is on 17 October."""
    return made(
        bed(),
        planting(
            crop="basil", start="raised", first=day(6, 5), last=last, arrangement=rows(0.3, 0.3), **fields
        ),
        climate=WARM,
    )


JUNE, APRIL = day(6, 1), day(4, 1, 2027)


def winter_kale(
    bears: float = -2.0,
    first: dt.date = JUNE,
    last: dt.date = APRIL,
    kind: str = "open",
    **fields: Any,
) -> Garden:
    """Kale of a variety that bears so much, in a zone of -6.7 degrees."""
    one = planting(
        crop="kale",
        variety="Own",
        start="raised",
        first=first,
        last=last,
        pinned_dates={"last_harvest": last},
        arrangement=rows(0.45, 0.5),
        **fields,
    )
    return made(bed(kind=kind), one, **own("kale", least_night_temperature=bears))


SPRING = [("mind", "spring")]
AUTUMN = [("note", "autumn")]
WINTER = [("mind", "winter")]

THRESHOLDS = [
    Threshold(
        "tender, 14 or 15 days early", "frost", tomato, day(4, 22), SPRING, day(4, 21), [("stop", "spring")]
    ),
    Threshold("tender, 3 or 4 days early", "frost", tomato, day(5, 3), [], day(5, 2), SPRING),
    Threshold(
        "hardy, when nights are 5 degrees colder than that of the last frost, and 3 days before",
        "frost",
        lambda first: made(bed(), lettuce(first=first), climate=INLAND),
        day(3, 30),
        [],
        day(3, 29),
        SPRING,
    ),
    Threshold(
        "shoots out 14 days before the frost and 3 more or 4",
        "frost",
        potato_in_a_late_spring,
        day(4, 7),
        [],
        day(4, 6),
        SPRING,
    ),
    Threshold(
        "cover taken off too early",
        "frost",
        lambda off: tomato(day(4, 23), covers=[{"kind": "fleece", "last": off}]),
        day(5, 5),
        [],
        day(5, 4),
        SPRING,
    ),
    Threshold(
        "cover put on too late",
        "frost",
        lambda on: tomato(day(4, 23), covers=[{"kind": "fleece", "first": on, "last": day(6, 1)}]),
        day(4, 27),
        [],
        day(4, 28),
        SPRING,
    ),
    Threshold("left 21 or 22 days after the frost", "frost", basil, day(11, 7), [], day(11, 8), AUTUMN),
    Threshold(
        "left so long under fleece, until nights are 2 degrees colder than that of the frost",
        "frost",
        lambda last: basil(last, covers=[{"kind": "fleece", "first": day(10, 1), "last": day(12, 30)}]),
        day(11, 18),
        [],
        day(11, 19),
        AUTUMN,
    ),
    Threshold(
        "picked 7 or 8 days after the frost",
        "frost",
        lambda last: made(bed(), beans(pinned_dates={"last_harvest": last}, last=day(11, 29))),
        day(10, 24),
        [],
        day(10, 25),
        AUTUMN,
    ),
    Threshold("bears 3 degrees less than the zone", "frost", winter_kale, -3.7, [], -3.6, WINTER),
    Threshold(
        "the same under glass, 3 degrees warmer",
        "frost",
        lambda bears: winter_kale(bears, kind="under glass"),
        -0.7,
        [],
        -0.6,
        WINTER,
    ),
    Threshold(
        "the same under fleece, 2 degrees warmer",
        "frost",
        lambda bears: winter_kale(
            bears, covers=[{"kind": "fleece", "first": day(11, 1), "last": day(3, 1, 2027)}]
        ),
        -1.7,
        [],
        -1.6,
        WINTER,
    ),
    Threshold(
        "cleared 29 or 30 days after the coldest night",
        "frost",
        lambda last: winter_kale(last=last),
        day(2, 13, 2027),
        AUTUMN,
        day(2, 14, 2027),
        WINTER,
    ),
    Threshold(
        "begun 30 or 29 days before the coldest night",
        "frost",
        lambda first: winter_kale(first=first),
        day(12, 16),
        WINTER,
        day(12, 17),
        [],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


def texts_of_fixes(garden: Garden) -> list[str]:
    (one,) = [one for one in check_all(Plan(garden, YEAR), light=False) if one.check == "frost"]
    return [fix.text for fix in one.fixes]


def test_fix_that_contradicts_the_dates_of_a_winter_planting_is_not_offered() -> None:
    garden = winter_kale()
    assert "Pick it before the worst cold" in texts_of_fixes(garden)
    spring = {"first_harvest": day(2, 20, 2027), "last_harvest": APRIL}
    from_spring_on = e.change_planting(garden, "p1", pinned_dates=spring)
    assert "Keep fleece over it in winter" in texts_of_fixes(from_spring_on)
    assert "Pick it before the worst cold" not in texts_of_fixes(from_spring_on)


def test_fix_that_contradicts_the_dates_of_a_tender_planting_is_not_offered() -> None:
    garden = tomato(day(4, 23))
    assert "Keep fleece over it until 20 May" in texts_of_fixes(garden)
    pinned = e.change_planting(garden, "p1", first=day(7, 1), pinned_dates={"set_out": day(4, 23)})
    assert not any("fleece" in text for text in texts_of_fixes(pinned))


def test_a_heated_house_and_a_warm_wall_hold_off_frost() -> None:
    early = tomato(day(3, 1))
    assert [one.topic for one in check_all(Plan(early, YEAR), light=False) if one.check == "frost"] == [
        "spring"
    ]
    glass = early.with_(beds=(bed(kind="under glass"),))
    assert "frost" in {one.check for one in check_all(Plan(glass, YEAR), light=False)}
    heated = early.with_(beds=(bed(kind="under glass", kept_above=8.0),))
    assert "frost" not in {one.check for one in check_all(Plan(heated, YEAR), light=False)}
