"""Days that have been, as typed; days of the week against the calendar of the standard library."""

from __future__ import annotations

import calendar
import datetime as dt

import pytest

from planner.words.recent_days import recent_day_as_typed
from planner.words.typed_days import DayError

WEDNESDAY = dt.date(2026, 6, 10)


@pytest.mark.parametrize("offset", range(7))
def test_a_day_of_the_week_is_the_last_one_up_to_today(offset: int) -> None:
    today = WEDNESDAY + dt.timedelta(days=offset)
    for number, name in enumerate(calendar.day_name):
        day = recent_day_as_typed(name, today)
        assert day.weekday() == number
        assert 0 <= (today - day).days < 7
        before = recent_day_as_typed(f"last {name}", today)
        assert before.weekday() == number
        assert 1 <= (today - before).days <= 7


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("today", (2026, 6, 10)), ("Yesterday", (2026, 6, 9)), ("gestern", (2026, 6, 9)), ("Dienstag", (2026, 6, 9)),
        ("3 days ago", (2026, 6, 7)), ("a week ago", (2026, 6, 3)), ("vor 3 Tagen", (2026, 6, 7)), ("the 3rd", (2026, 6, 3)),
        ("the 11th", (2026, 5, 11)), ("31st", (2026, 5, 31)), ("3 May", (2026, 5, 3)), ("3.5.", (2026, 5, 3)),
        ("10 Jun", (2026, 6, 10)), ("1 Dec", (2025, 12, 1)), ("2024-02-29", (2024, 2, 29)), ("3/5/25", (2025, 5, 3)),
    ],
)  # fmt: skip
def test_days_as_typed(text: str, day: tuple[int, int, int]) -> None:
    assert recent_day_as_typed(text, WEDNESDAY) == dt.date(*day)


@pytest.mark.parametrize("text", ["11 June", "1 Aug", "2026-06-11", "12 July 2027"])
def test_what_is_to_come_is_refused(text: str) -> None:
    with pytest.raises(DayError, match="still to come"):
        recent_day_as_typed(text, WEDNESDAY)


@pytest.mark.parametrize("text", ["", "su", "soon", "32nd", "40", "lettuce", "9999 days ago"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(DayError):
        recent_day_as_typed(text, WEDNESDAY)
