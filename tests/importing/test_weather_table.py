"""Weather tables: what is read, and the error that each bad one gets."""

from __future__ import annotations

import datetime as dt
import gzip

import numpy as np
import pytest
from open_weather import seattle_file, seattle_rows

from planner.importing.weather_columns import Choice, Columns, guess_columns
from planner.importing.weather_table import parse_weather, read_weather
from planner.season.daily_weather import WeatherError

D = dt.date
BY_STATION = """\
USC00000001,20240101,TMAX,56,,,7,0700
USC00000001,20240101,TMIN,-11,,,7,0700
USC00000001,20240101,PRCP,30,,,7,
USC00000001,20240102,TMIN,-22,,,7,
USC00000001,20240102,TMAX,100,,I,7,
USC00000001,20240104,TMIN,-9999,,,7,
USC00000001,20240104,TMAX,40,,,7,
USC00000001,20240105,TMIN,0,,,7,
"""


def lines(head: str, days: int, row) -> str:
    start = D(2020, 1, 1)
    return "\n".join([head, *(row(start + dt.timedelta(days=i), i) for i in range(days))])


def test_by_station_table_is_in_tenths_and_leaves_flagged_values_out():
    found = parse_weather(BY_STATION)
    assert (found.first, found.last) == (D(2024, 1, 1), D(2024, 1, 5))
    assert found.low.tolist()[:2] == [-1.1, -2.2]
    assert np.isnan(found.low[[2, 3]]).all()
    assert found.high[0] == 5.6
    assert np.isnan(found.high[1])
    assert found.notes == ("1 values with a quality flag were left out",)


def test_access_table_is_in_tenths_and_leaves_flagged_values_out():
    text = (
        '"STATION","DATE","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"\n'
        '"USW0","2024-03-01","  100",",,W","  -28",",,W"\n'
        '"USW0","2024-03-02","  120",",,W","  -33",",G,W"\n'
    )
    found = parse_weather(text)
    assert found.low[0] == -2.8
    assert np.isnan(found.low[1])
    assert found.high.tolist() == [10.0, 12.0]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("date,tmin,tmax\n2024-01-01,-1,5\n", Columns("date", "tmin", "tmax", "C")),
        ("Date;Low (°F);High (°F)\n2024-01-01;30;41\n", Columns("Date", "Low (°F)", "High (°F)", "F")),
        ("day,min temp\n2024-01-01,-1\n", Columns("day", "min temp", None, "C")),
        ("Date\tTemp Max\tTemp Min\n01.02.2024\t5\t1\n", Columns("Date", "Temp Min", "Temp Max", "C")),
        ("date,tmin,tmax\n" + "2024-07-01,60,88\n" * 9, Columns("date", "tmin", "tmax", "F")),
    ],
)
def test_columns_and_unit_are_guessed(text, expected):
    assert guess_columns(text) == expected


def test_chosen_columns_and_unit_count():
    text = "when,a,b\n2024-01-01,32,50\n2024-01-02,14,41\n"
    found = parse_weather(text, Choice("when", "a", "b", unit="F"))
    assert found.low.tolist() == [0.0, -10.0]
    assert found.high.tolist() == [10.0, 5.0]


@pytest.mark.parametrize(
    ("dates", "first"),
    [
        (("13/02/2024", "14/02/2024"), D(2024, 2, 13)),
        (("02/13/2024", "02/14/2024"), D(2024, 2, 13)),
        (("20240213", "20240214"), D(2024, 2, 13)),
        (("2024-02-13 00:00", "2024-02-14 00:00"), D(2024, 2, 13)),
        (("29.02.2024", "01.03.2024"), D(2024, 2, 29)),
    ],
)
def test_dates_are_read_however_they_are_written(dates, first):
    found = parse_weather("date,min\n" + "".join(f"{day},1\n" for day in dates))
    assert (found.first, len(found.low)) == (first, 2)


def test_decimal_commas_and_packed_files_are_read(tmp_path):
    path = tmp_path / "w.csv.gz"
    path.write_bytes(gzip.compress("date;tmin\n2024-01-01;-1,5\n".encode("utf-8-sig")))
    assert read_weather(path).low.tolist() == [-1.5]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is empty"),
        ("\0\1\2", "is no table of text"),
        ("hello there", "no heading that looks like the date; its headings are hello there"),
        ("date,rain\n2024-01-01,3\n", "no heading that looks like the minimum temperature"),
        ("date,tmin\n2024-01-01,\n", "holds no daily minimum"),
        ("date,tmin\n" + "x,y\n" * 50, "50 of 50 lines cannot be read"),
        ("date,tmin\n2023-02-29,1\n2023-03-01,1\n", "1 of 2 lines cannot be read"),
        ("A,20240101,TMIN,1,,,\nB,20240101,TMIN,1,,,\n", "more than one station (A, B)"),
        ("date,tmin\n1750-01-01,1\n2399-01-01,1\n", "runs over 649 years"),
        (lines("date,tmin", 400, lambda day, i: f"{day},{60 + i % 10}"), None),
    ],
)
def test_bad_tables_get_one_line(text, words):
    if words is None:  # read as F by its looks; as C it cannot be
        with pytest.raises(WeatherError, match="cannot be in the unit chosen") as caught:
            parse_weather(text, Choice("date", "tmin", unit="C"))
    else:
        with pytest.raises(WeatherError) as caught:
            parse_weather(text)
        assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_swapped_columns_are_refused():
    text = lines("date,tmin,tmax", 60, lambda day, i: f"{day},12,3")
    with pytest.raises(WeatherError, match="minimum is above its maximum on 60 days"):
        parse_weather(text)


def test_celsius_taken_for_fahrenheit_is_pointed_out():
    text = lines(
        "date,tmin,tmax",
        730,
        lambda day, i: f"{day},{10 - 8 * np.cos(i / 58):.1f},{18 - 8 * np.cos(i / 58):.1f}",
    )
    found = parse_weather(text, Choice("date", "tmin", "tmax", unit="F"))
    assert any("look whether the unit is right" in note for note in found.notes)
    assert parse_weather(text).notes == ()


def test_a_column_that_is_not_there_is_named():
    with pytest.raises(WeatherError, match="has no column 'low'; it has date, tmin"):
        parse_weather("date,tmin\n2024-01-01,1\n", Choice("date", "low"))


def test_a_few_impossible_values_are_left_out():
    text = lines("date,tmin,tmax", 300, lambda day, i: f"{day},{-99 if i == 7 else i % 9},20")
    found = parse_weather(text)
    assert np.isnan(found.low[7])
    assert found.notes == ("1 impossible values were left out",)


def test_files_that_are_too_large_or_not_there_get_one_line(tmp_path, monkeypatch):
    with pytest.raises(WeatherError, match=r"none\.csv: cannot be read: No such file"):
        read_weather(tmp_path / "none.csv")
    (tmp_path / "cut.gz").write_bytes(gzip.compress(b"date,tmin\n" * 99)[:-12])
    with pytest.raises(WeatherError, match="cannot be read"):
        read_weather(tmp_path / "cut.gz")
    whole = bytearray(gzip.compress(b"date,tmin\n" * 99))
    whole[12] ^= 0xFF
    (tmp_path / "broken.gz").write_bytes(whole)
    with pytest.raises(WeatherError, match=r"broken\.gz: cannot be read: is damaged\. Choose another file\."):
        read_weather(tmp_path / "broken.gz")
    monkeypatch.setattr("planner.importing.weather_table.MOST_BYTES", 10)
    (tmp_path / "big.csv").write_text("date,tmin\n2024-01-01,1\n")
    with pytest.raises(WeatherError, match="is larger than"):
        read_weather(tmp_path / "big.csv")


def test_two_hundred_years_are_read():
    start = D(1820, 1, 1)
    text = "date,tmin\n" + "\n".join(f"{start + dt.timedelta(days=i)},{i % 20 - 5}" for i in range(73_000))
    assert len(parse_weather(text).low) == 73_000


def test_open_weather_of_seattle_is_read_whole():
    table, rows = read_weather(seattle_file()), seattle_rows()
    assert (table.first, table.last, len(table.low)) == (D(2012, 1, 1), D(2015, 12, 31), 1461)
    assert np.array_equal(table.low, [low for _, low, _ in rows])
    assert np.array_equal(table.high, [high for _, _, high in rows])


def test_seattle_in_fahrenheit_gives_the_same():
    table, rows = read_weather(seattle_file()), seattle_rows()
    text = "date,low,high\n" + "\n".join(f"{d},{a * 1.8 + 32:.2f},{b * 1.8 + 32:.2f}" for d, a, b in rows)
    other = parse_weather(text, Choice("date", "low", "high", unit="F"))
    assert np.allclose(other.low, table.low, atol=0.01)
    guessed = parse_weather(text)
    assert np.allclose(guessed.high, table.high, atol=0.01)
