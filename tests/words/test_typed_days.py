"""Days as people type them."""

from __future__ import annotations

import datetime as dt

import pytest

from planner.words.typed_days import DayError, date_as_typed, day_of_year_as_typed, read_typed_day

D = dt.date
JANUARY, OCTOBER = D(2027, 1, 1), D(2026, 10, 1)

#: The examples of ISO 8601:2000, 5.2: the 12th of April 1985.
ISO_8601 = ("19850412", "1985-04-12", "1985102", "1985-102", "1985W155", "1985-W15-5")


@pytest.mark.parametrize("text", ISO_8601)
@pytest.mark.parametrize("month_first", [False, True])
def test_examples_of_iso_8601(text, month_first):
    assert date_as_typed(text, JANUARY, month_first=month_first) == D(1985, 4, 12)


@pytest.mark.parametrize("text", ["--0412", "--04-12"])
def test_a_day_without_a_year_of_iso_8601(text):
    assert day_of_year_as_typed(text) == "04-12"


@pytest.mark.parametrize(
    "text",
    [
        "25 Apr", "25 April", "25. April", "25-Apr", "25/Apr", "25Apr", "Apr 25", "April 25th", "the 25th of April",
        "25.4.", "25.4", "25. 4.", "25.04.", "4/25", "25/4", "04-25", "25-04", "25 avril", "APRIL 25", " 25  apr. ",
    ],
)  # fmt: skip
@pytest.mark.parametrize("month_first", [False, True])
def test_a_day_that_leaves_no_doubt_is_the_same_everywhere(text, month_first):
    assert date_as_typed(text, JANUARY, month_first=month_first) == D(2027, 4, 25)


@pytest.mark.parametrize(
    "text",
    [
        "2027-04-25", "2027-4-25", "2027/04/25", "20270425", "25 April 2027", "April 25, 2027", "25.4.2027", "25.4.27",
        "25. 4. 2027", "4/25/2027", "25/4/2027", "4/25/27", "25-4-2027", "25 Apr '27", "2027 Apr 25", "2027‑04‑25",
    ],
)  # fmt: skip
@pytest.mark.parametrize("month_first", [False, True])
def test_a_day_with_its_year_is_of_that_year(text, month_first):
    assert date_as_typed(text, D(2030, 1, 1), month_first=month_first) == D(2027, 4, 25)


@pytest.mark.parametrize("text", ["4/5", "4-5", "4/5/2027", "04/05/27"])
def test_only_what_is_left_in_doubt_goes_by_the_habit(text):
    assert date_as_typed(text, JANUARY, month_first=False) == D(2027, 5, 4)
    assert date_as_typed(text, JANUARY, month_first=True) == D(2027, 4, 5)


@pytest.mark.parametrize("month_first", [False, True])
def test_dots_are_always_day_and_month(month_first):
    assert date_as_typed("4.5.", JANUARY, month_first=month_first) == D(2027, 5, 4)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("1 Oct", D(2026, 10, 1)),
        ("31 Dec", D(2026, 12, 31)),
        ("25 Apr", D(2027, 4, 25)),
        ("30 Sep", D(2027, 9, 30)),
    ],
)
def test_a_day_means_the_growing_year(text, day):
    assert date_as_typed(text, OCTOBER) == day


def test_a_leap_day_needs_a_leap_year():
    assert date_as_typed("29 Feb", D(2027, 10, 1)) == D(2028, 2, 29)
    assert day_of_year_as_typed("29 Feb") == "02-29"
    for text in ("29 Feb", "29 Feb 2027", "2027-02-29"):
        with pytest.raises(DayError, match="2027 has no 29 February"):
            date_as_typed(text, JANUARY)


@pytest.mark.parametrize(
    ("begins", "year"), [(D(2026, 1, 1), 2027), (D(1999, 1, 1), 2027), (D(1960, 1, 1), 1927)]
)
def test_a_year_of_two_digits_is_the_nearest(begins, year):
    assert date_as_typed("25 Apr 27", begins) == D(year, 4, 25)


@pytest.mark.parametrize("number", range(1, 13))
@pytest.mark.parametrize(
    "names",
    [
        "January February March April May June July August September October November December",
        "Jan Feb Mar Apr May Jun Jul Aug Sept Oct Nov Dec",
        "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
        "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
    ],
)
def test_names_of_months(names, number):
    assert read_typed_day(f"7 {names.split()[number - 1]}").month == number


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "soon", "May", "9", "9 9", "31.2.", "31 Apr", "0 May", "32 May", "13/13", "2027-13-01", "2027-00-10",
        "2027-366", "2027-W54-1", "27-04-25", "9 ju", "9 jui", "9 Maybe 2027", "9 May 20277", "1/2/3/4", "9 May!",
        "x" * 10_000, "٩ May ×", "1.2,3", "2027-04-25T10:00", "9 May\n10 May", "4/25.", "25.4/2027",
    ],
)  # fmt: skip
def test_what_is_no_day_is_refused_with_an_example(text):
    with pytest.raises(DayError, match=r"Type one like 25 Apr, 25\.4\. or 2027-04-25") as error:
        read_typed_day(text)
    assert "\n" not in str(error.value)
    with pytest.raises(DayError, match="4/25"):
        read_typed_day(text, month_first=True)


@pytest.mark.parametrize("text", ["31.12.9999", "1 Jan 1799"])
def test_years_far_off_are_refused(text):
    with pytest.raises(DayError, match="no year of a garden"):
        date_as_typed(text, JANUARY)


def test_a_day_of_every_year_has_no_year():
    assert day_of_year_as_typed("5/9", month_first=True) == day_of_year_as_typed("9.5.") == "05-09"
    with pytest.raises(DayError, match="Type 9 May"):
        day_of_year_as_typed("2026-05-09")
    with pytest.raises(DayError, match=r"'soon' is no day. Type one like 25 Apr or 25\.4\.$"):
        day_of_year_as_typed("soon")
