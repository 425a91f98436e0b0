"""The layouts of weather services: what each file holds, and files of one station joined.

The files are in ``tests/reference/weather``; its SOURCES.md says which are open records and which invented.
"""

from __future__ import annotations

import csv
import datetime as dt
import gzip
from pathlib import Path

import numpy as np
import pytest

from planner.importing.weather_columns import Choice, guess_columns
from planner.importing.weather_readings import SeveralStationsError
from planner.importing.weather_table import parse_weather, read_tables, read_weather
from planner.season.daily_weather import WeatherError

FILES = Path(__file__).parents[1] / "reference" / "weather"
D = dt.date


def at(weather, day: dt.date) -> tuple[float, float, float]:
    """Minimum, maximum and rain of a day."""
    low, high = weather.part(day, day)
    return float(low[0]), float(high[0]), float(weather.rain_in(day, day)[0])


# -- GHCN-Daily -------------------------------------------------------------------------------------


def test_fixed_width_is_read_by_its_columns():
    table = read_tables([FILES / "invented.dly"])
    weather = table.weather
    assert table.files[0].layout == "fixed width"
    assert table.station.id == "XX000000001"
    assert (weather.first, weather.last) == (D(1999, 12, 1), D(2000, 2, 29))
    assert at(weather, D(1999, 12, 1)) == pytest.approx((-7.2, -1.7, 0.1))
    assert at(weather, D(2000, 2, 29)) == pytest.approx((1.2, 6.7, (29 * 29 % 37) / 10))
    assert at(weather, D(1999, 12, 2))[2] == 0.0  # a trace
    for gap in (
        D(1999, 12, 5),
        D(1999, 12, 7),
        D(2000, 1, 10),
    ):  # flagged, missing, a month that is not there
        assert np.isnan(at(weather, gap)[0])
    assert "2 values with a quality flag were left out" in weather.notes


def test_fixed_width_as_a_plain_loop_reads_it():
    expected = {}
    for line in (FILES / "invented.dly").read_text().splitlines():
        if line[17:21] != "TMAX":
            continue
        for day in range(1, 32):
            begin = 21 + 8 * (day - 1)
            value, quality = int(line[begin : begin + 5]), line[begin + 6]
            if value != -9999 and quality == " ":
                expected[D(int(line[11:15]), int(line[15:17]), day)] = value / 10
    weather = read_weather(FILES / "invented.dly")
    days = {
        weather.first + dt.timedelta(days=i): high
        for i, high in enumerate(weather.high)
        if not np.isnan(high)
    }
    assert days == pytest.approx(expected)


def test_access_table_gives_rain_in_tenths_and_the_place_of_the_station():
    text = (
        '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME","PRCP","PRCP_ATTRIBUTES","TMAX","TMIN"\n'
        '"XX0","2024-03-01","47.5","-122.3","4.0","NOWHERE, XX","  127",",,W","  100","  -28"\n'
        '"XX0","2024-03-02","47.5","-122.3","4.0","NOWHERE, XX","   20",",G,W","  120","  -33"\n'
    )
    table = read_text(text)
    assert at(table.weather, D(2024, 3, 1)) == pytest.approx((-2.8, 10.0, 12.7))
    assert np.isnan(at(table.weather, D(2024, 3, 2))[2])
    station = table.station
    assert (station.id, station.name) == ("XX0", "NOWHERE, XX")
    assert (station.latitude, station.longitude, station.elevation) == (47.5, -122.3, 4.0)


def read_text(text: str, choice: Choice | None = None):
    """A table's text read as a file is."""
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "daily.csv"
        path.write_text(text)
        return read_tables([path], choice)


def test_rain_of_a_table_by_station():
    text = (
        "X,20240101,TMIN,-11,,,7,\nX,20240101,PRCP,30,,,7,\nX,20240102,TMIN,0,,,7,\nX,20240102,PRCP,5,,K,7,\n"
    )
    weather = parse_weather(text)
    assert weather.rain is not None
    assert weather.rain[0] == 3.0
    assert np.isnan(weather.rain[1])


# -- European station texts -------------------------------------------------------------------------


def test_european_texts_of_one_element_each_are_joined():
    names = ("invented_tn.txt", "invented_tx.txt", "invented_rr.txt")
    table = read_tables([FILES / name for name in names])
    assert (table.station.id, table.station.name) == ("999999", "Nowhere, Invented")
    assert [one.elements for one in table.files] == [("low",), ("high",), ("rain",)]
    assert at(table.weather, D(2003, 1, 1)) == pytest.approx((-6.0, 1.0, 0.0))
    assert at(table.weather, D(2003, 2, 15)) == pytest.approx((-1.5, 10.0, 3.5))
    assert np.isnan(at(table.weather, D(2003, 1, 4))).all()  # missing in each
    assert np.isnan(at(table.weather, D(2003, 1, 6))[:2]).all()  # suspect
    assert "2 values with a quality flag were left out" in table.weather.notes


def test_a_file_of_rain_alone_says_what_is_not_there():
    with pytest.raises(
        WeatherError, match=r"invented_rr\.txt: has no heading that looks like the minimum temp"
    ):
        read_tables([FILES / "invented_rr.txt"])


# -- DSSAT ------------------------------------------------------------------------------------------


def test_weather_files_of_the_crop_model():
    table = read_tables([FILES / "invented.wth"])
    weather, station = table.weather, table.station
    assert (weather.first, weather.last) == (D(1999, 12, 20), D(2000, 1, 12))  # 99354 to 00012
    assert at(weather, D(1999, 12, 20)) == pytest.approx((3.0, 14.0, 0.0))
    assert np.isnan(at(weather, D(1999, 12, 24))[0])  # -99
    low, high, rain = at(weather, D(1999, 12, 26))  # no rain and no dew point in the line
    assert (low, high) == (6.0, 17.0)
    assert np.isnan(rain)
    assert (station.id, station.name, station.elevation) == ("INVE", "Nowhere, invented", 10.0)
    assert (station.latitude, station.longitude) == (29.63, 82.37)
    notes = " ".join(weather.notes)
    assert "29.63° N, 82.37° E" in notes
    assert "leave out the minus of the west" in notes
    assert "00 to 35 were taken as 2000 to 2035" in notes


def test_years_of_four_digits_need_no_note():
    text = (
        "$WEATHER DATA : X\n\n@ INSI      LAT     LONG  ELEV   TAV   AMP REFHT WNDHT\n"
        "  XXXX   29.630  -82.370   -99  20.9   7.5  2.00  3.00\n"
        "@  DATE  SRAD  TMAX  TMIN  RAIN\n1936001  11.0  20.0   7.5   3.2\n1936002  11.0  21.0   8.5   0.0\n"
    )
    table = read_text(text)
    assert table.weather.first == D(1936, 1, 1)
    assert table.weather.notes == ()
    assert (table.station.longitude, table.station.elevation) == (-82.37, None)


def test_evapotranspiration_of_a_model_file_is_that_of_the_worked_example():
    """FAO-56, example 18: Uccle, 6 July: 3.9 mm.  Its radiation 22.07 MJ, wind 10 km/h at 10 m, vapour 1.409 kPa (dew at 12.1)."""
    text = (
        "*WEATHER DATA : Uccle\n\n@ INSI      LAT     LONG  ELEV   TAV   AMP REFHT WNDHT\n"
        "  UCCL   50.800    4.350   100   9.9   8.0  2.00 10.00\n"
        "@DATE  SRAD  TMAX  TMIN  RAIN  DEWP  WIND  RHUM\n"
        "98187  22.1  21.5  12.3   0.0  12.1 240.0 -99.0\n"
        "98188  22.1  21.5  12.3   0.0 -99.0 240.0  73.5\n"
        "98189  22.1  21.5  12.3   0.0  12.1 -99.0 -99.0\n"
    )
    weather = read_text(text).weather
    assert weather.evapotranspiration is not None
    assert weather.evapotranspiration[0] == pytest.approx(3.88, abs=0.05)
    assert weather.evapotranspiration[1] == pytest.approx(3.88, abs=0.25)  # by mean humidity, equation 19
    assert np.isnan(weather.evapotranspiration[2]), "without wind it is not worked out"
    assert "worked out from radiation, wind and humidity" in " ".join(weather.notes)


# -- tables with headings ---------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["brussels", "champion", "cordoba"])
def test_open_records_parted_by_blanks_or_tabs_are_read_whole(name):
    path = FILES / f"{name}_climate.txt.gz"
    rows = [line.split() for line in gzip.decompress(path.read_bytes()).decode().splitlines()[1:]]
    weather = read_weather(path)
    assert weather.first == D(int(rows[0][2]), int(rows[0][1]), int(rows[0][0]))
    for at_, values in (
        (3, weather.low),
        (4, weather.high),
        (5, weather.rain),
        (6, weather.evapotranspiration),
    ):
        assert np.array_equal(values, [float(row[at_]) for row in rows])
    assert weather.notes == ()


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("date,tmin,tmax,rain (in)\n2024-07-01,60,88,0.25\n", "inch"),
        ("date,tmin,tmax,precip\n" + "2024-07-01,60,88,0.12\n" * 9, "inch"),
        ("date,tmin,tmax,rain\n" + "2024-07-01,12,22,2.4\n" * 9, "mm"),
        ("date,tmin,tmax,rain (0.1 mm)\n2024-07-01,12,22,24\n", "tenths mm"),
        ("date,tmin,tmax,prcp\n" + "2024-07-01,120,220,24\n" * 9, "tenths mm"),
        ("date,tmin,tmax,rain_mm\n" + "2024-07-01,60,88,0.25\n" * 9, "mm"),
    ],
)
def test_unit_of_rain_is_guessed(text, unit):
    columns = guess_columns(text)
    assert columns.rain is not None
    assert columns.rain_unit == unit


def test_rain_in_inches_and_a_trace():
    weather = parse_weather(
        "date,tmin,tmax,rain (in)\n2024-07-01,50,68,0.5\n2024-07-02,50,68,T\n2024-07-03,50,68,M\n"
    )
    assert weather.rain is not None
    assert weather.rain[:2].tolist() == [12.7, 0.0]
    assert np.isnan(weather.rain[2])


def test_a_named_unit_of_rain_counts():
    text = "date,tmin,rain\n2024-07-01,12,50\n"
    assert read_text(text, Choice(rain_unit="tenths mm")).weather.rain[0] == 5.0


def test_lines_before_the_headings_are_left_out():
    text = "Station: Nowhere\nMinimum and maximum, in shade\n\nDate;Min;Max;Rain\n01.02.2024;-1,5;4;0,2\n02.02.2024;0;5;1\n"
    weather = parse_weather(text)
    assert at(weather, D(2024, 2, 1)) == (-1.5, 4.0, 0.2)


def test_days_of_the_year_and_names_of_months():
    by_number = parse_weather("year doy tmin tmax\n2024 60 1 2\n2024 366 3 4\n2023 365 5 6\n")
    assert (by_number.first, by_number.last) == (D(2023, 12, 31), D(2024, 12, 31))
    assert at(by_number, D(2024, 2, 29))[0] == 1.0
    assert parse_weather("date,min\n01-jan-1999,3\n").first == D(1999, 1, 1)


def test_impossible_rain_is_left_out_and_said():
    lines = [
        f"{D(2024, 1, 1) + dt.timedelta(days=i)},1,5,{2500 if i == 3 else -1 if i == 4 else 2.5}"
        for i in range(60)
    ]
    weather = parse_weather("date,tmin,tmax,rain\n" + "\n".join(lines))
    assert weather.rain is not None
    assert np.isnan(weather.rain[3:5]).all()
    assert "2 impossible values of rain were left out" in weather.notes


# -- several files and stations ---------------------------------------------------------------------


def days(first: dt.date, count: int, low: float, station: str = "") -> str:
    """A table of days."""
    head = "station,date,tmin,tmax\n" if station else "date,tmin,tmax\n"
    begin = f"{station}," if station else ""
    return head + "".join(
        f"{begin}{first + dt.timedelta(days=i)},{low + i % 3},{low + 9}\n" for i in range(count)
    )


def test_years_in_files_of_their_own_are_joined(tmp_path):
    paths = []
    for year in (2003, 2001, 2002):
        paths.append(tmp_path / f"{year}.csv")
        paths[-1].write_text(days(D(year, 1, 1), 365, float(year - 2000)))
    weather = read_tables(paths).weather
    assert (weather.first, weather.last) == (D(2001, 1, 1), D(2003, 12, 31))
    assert weather.low[[0, 365, 730]].tolist() == [1.0, 2.0, 3.0]


def test_a_day_in_two_files_counts_once(tmp_path):
    (tmp_path / "a.csv").write_text(days(D(2001, 1, 1), 40, 1.0))
    (tmp_path / "b.csv").write_text(days(D(2001, 1, 1), 50, 1.0).replace("2001-01-02,2.0", "2001-01-02,2.5"))
    weather = read_tables([tmp_path / "a.csv", tmp_path / "b.csv"]).weather
    assert len(weather.low) == 50
    assert weather.low[1] == 2.0
    assert weather.notes == ("1 days are given twice with different values; the first counts",)


def test_files_of_two_places_without_names_are_refused(tmp_path):
    (tmp_path / "a.csv").write_text(days(D(2001, 1, 1), 40, 1.0))
    (tmp_path / "b.csv").write_text(days(D(2001, 1, 1), 40, 5.0))
    with pytest.raises(WeatherError, match=r"b\.csv: differs from the file before it on 40 of 40 days"):
        read_tables([tmp_path / "a.csv", tmp_path / "b.csv"])


def test_of_two_stations_one_is_chosen(tmp_path):
    both = days(D(2001, 1, 1), 40, 1.0, "north") + days(D(2001, 1, 1), 40, 6.0, "south").split("\n", 1)[1]
    (tmp_path / "both.csv").write_text(both)
    with pytest.raises(SeveralStationsError, match=r"north, south") as caught:
        read_tables([tmp_path / "both.csv"])
    assert caught.value.stations == ("north", "south")
    chosen = read_tables([tmp_path / "both.csv"], Choice(station="south"))
    assert (chosen.station.id, chosen.weather.low[0]) == ("south", 6.0)
    with pytest.raises(WeatherError, match="no days of station east"):
        read_tables([tmp_path / "both.csv"], Choice(station="east"))


def test_of_files_of_two_stations_one_is_chosen(tmp_path):
    for name, low in (("north", 1.0), ("south", 6.0)):
        (tmp_path / f"{name}.csv").write_text(days(D(2001, 1, 1), 40, low, name))
    paths = [tmp_path / "north.csv", tmp_path / "south.csv"]
    with pytest.raises(SeveralStationsError):
        read_tables(paths)
    table = read_tables(paths, Choice(station="north"))
    assert [one.name for one in table.files] == ["north.csv"]
    assert table.weather.low[0] == 1.0


def test_a_table_of_sixty_years_by_a_plain_loop():
    start, lines = D(1960, 1, 1), []
    for i in range(60 * 365 + 15):
        day = start + dt.timedelta(days=i)
        lines.append(
            f"{day},{(i * 37 % 400) / 10 - 15:.1f},{(i * 37 % 400) / 10 - 5:.1f},{i * 7 % 50 / 10 if i % 3 == 0 else ''}"
        )
    text = "date,tmin,tmax,rain\n" + "\n".join(lines) + "\n"
    weather = parse_weather(text)
    for at_, row in enumerate(csv.reader(lines)):
        assert weather.low[at_] == float(row[1])
        assert weather.rain is not None
        assert np.isnan(weather.rain[at_]) if not row[3] else weather.rain[at_] == float(row[3])


# -- damaged files ----------------------------------------------------------------------------------


def sources() -> dict[str, str]:
    """The beginning of a file of each layout."""
    by_station = "".join(
        f"XX0,{D(2001, 1, 1) + dt.timedelta(days=i):%Y%m%d},{name},{i % 90},,,X,\n"
        for i in range(60)
        for name in ("TMIN", "TMAX", "PRCP")
    )
    found = {"by station": by_station, "headings": days(D(2001, 1, 1), 60, 1.0, "north")}
    for name in ("invented.dly", "invented_tn.txt", "invented.wth"):
        found[name] = (FILES / name).read_text()
    found["blanks"] = gzip.decompress((FILES / "champion_climate.txt.gz").read_bytes()).decode()[:6_000]
    return found


@pytest.mark.parametrize("name", list(sources()))
def test_a_damaged_file_is_read_or_refused_in_one_line(name):
    random = np.random.default_rng(11)
    text = sources()[name]
    signs = "0123456789-.,;\t \n\"'@*$!TNXé\0" + chr(0x661)
    refused, told = 0, []
    for _ in range(150):
        letters = list(text)
        for _ in range(int(random.choice((1, 4, 30)))):
            at = int(random.integers(len(letters)))
            kind = int(random.integers(4))
            if kind == 0:
                letters[at] = signs[int(random.integers(len(signs)))]
            elif kind == 1:
                del letters[at : at + int(random.integers(1, 40))]
            elif kind == 2:
                letters[at:at] = letters[at : at + int(random.integers(1, 200))]
            else:
                letters[at:at] = str(10 ** int(random.integers(3, 25)))
        try:
            weather = parse_weather("".join(letters))
        except WeatherError as error:
            refused += 1
            told.append(str(error))
        else:
            assert len(weather.low) == len(weather.high)
            assert np.isfinite(weather.low[~np.isnan(weather.low)]).all()
    assert not [line for line in told if "\n" in line]
    assert refused < 150
