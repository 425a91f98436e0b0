"""bedwright weather: what a table of daily weather says, and into a garden."""

from __future__ import annotations

import datetime as dt
import gzip
import json

import numpy as np
import pytest
from work_garden import GARDEN

from planner.garden import FrostDates, Garden, Site
from planner.season.weather_years import station_weather
from planner.storage import load, save

D = dt.date


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


def table(southern: bool = False, years: range = range(2001, 2013), head: str = "date,tmin,tmax") -> str:
    """Daily weather: the last frost of spring on 1 to 12 April, the first of autumn on 1 to 12 October.

    In the south half a year later.
    """
    lines = [head]
    day = D(years[0], 1, 1)
    while day.year <= years[-1]:
        shifted = day - dt.timedelta(days=182) if southern else day
        k = shifted.year - years[0] + 1
        frost = not D(shifted.year, 4, 1 + k % 12) < shifted < D(shifted.year, 10, 1 + k % 12)
        lines.append(f"{day},{-6.0 if frost else 8.0},{1.0 if frost else 19.0}")
        day += dt.timedelta(days=1)
    return "\n".join(lines) + "\n"


def headings(found: dict) -> dict:
    """Headings and unit of the first file in a report."""
    return {name: found["columns"][name] for name in ("date", "minimum", "maximum", "unit")}


@pytest.fixture
def weather_file(tmp_path):
    path = tmp_path / "daily.csv"
    path.write_text(table())
    return str(path)


def test_weather_as_text(bedwright, weather_file):
    code, out, err = bedwright("weather", weather_file)
    assert (code, err) == (0, "")
    for line in (
        "daily.csv: 1 Jan 2001 to 31 Dec 2012, 4,383 days",
        "  read as: date 'date', minimum 'tmin', maximum 'tmax', in °C",
        "  taken as lying in the northern half of the world",
        "Last spring frost",
        "  0 °C (32 °F)     11 Apr     7 Apr      2 Apr         12",
        "First autumn frost",
        "  0 °C (32 °F)     2 Oct      7 Oct      11 Oct        12",
        "  years used: 2001 to 2012",
        "Hardiness zone 9a: mean yearly minimum −6.0 °C",
        "  Jan          −6.0         1.0",
        "  Jul           8.0        19.0",
    ):
        assert line in out.splitlines(), (line, out)


def test_weather_as_json(bedwright, weather_file):
    found = json.loads(bedwright("weather", weather_file, "--json")[1])
    spring = found["last_frost"][0]
    # days 1 to 12: ranks 1 + 11 q, 2.1 at 90 % risk, 6.5 at 50 %, 10.9 at 10 %
    assert (spring["risk_10"], spring["risk_50"], spring["risk_90"]) == ("04-11", "04-07", "04-02")
    assert spring["years"][0] == {"year": 2001, "day": "2001-04-02"}
    assert found["zone"] == "9a"
    assert found["columns"]["unit"] == "C"
    assert len(found["monthly_minimum_c"]) == 12


def test_years_left_out_are_named(bedwright, tmp_path):
    lines = [line for line in table().splitlines() if not line.startswith("2005-02")]
    (tmp_path / "gap.csv").write_text("\n".join(lines))
    _, out, _ = bedwright("weather", str(tmp_path / "gap.csv"))
    assert "  years used: 2001 to 2004, 2006 to 2012" in out
    assert "  left out for gaps: 2005" in out


def test_weather_of_the_south(bedwright, tmp_path):
    (tmp_path / "s.csv").write_text(table(southern=True))
    out = bedwright("weather", str(tmp_path / "s.csv"), "--south")[1]
    assert "southern half" in out
    spring = next(line for line in out.splitlines() if line.startswith("  0 °C (32 °F)"))
    assert "Oct" in spring


def test_columns_and_unit_may_be_named(bedwright, tmp_path):
    rows = table(head="when,a,b").splitlines()
    fahrenheit = [rows[0]]
    for row in rows[1:]:
        day, low, high = row.split(",")
        fahrenheit.append(f"{day},{float(low) * 1.8 + 32:.1f},{float(high) * 1.8 + 32:.1f}")
    path = tmp_path / "own.csv.gz"
    path.write_bytes(gzip.compress("\n".join(fahrenheit).encode()))
    columns = ("--date", "when", "--min", "a", "--max", "b", "--unit", "f")
    found = json.loads(bedwright("weather", str(path), *columns, "--json")[1])
    assert headings(found) == {"date": "when", "minimum": "a", "maximum": "b", "unit": "F"}
    assert found["yearly_minimum_c"] == pytest.approx(-6.0)
    assert found["monthly_maximum_c"][6] == pytest.approx(19.0)


def test_one_column_may_be_named_and_the_rest_guessed(bedwright, tmp_path):
    (tmp_path / "x.csv").write_text(table(head="date,tmin,roof"))
    found = json.loads(bedwright("weather", str(tmp_path / "x.csv"), "--max", "roof", "--json")[1])
    assert headings(found) == {"date": "date", "minimum": "tmin", "maximum": "roof", "unit": "C"}


def test_table_by_station_has_no_columns(bedwright, tmp_path):
    lines = []
    for row in table().splitlines()[1:]:
        day, low, high = row.split(",")
        plain = day.replace("-", "")
        lines += [
            f"USC0,{plain},TMIN,{float(low) * 10:.0f},,,7,",
            f"USC0,{plain},TMAX,{float(high) * 10:.0f},,,7,",
        ]
    (tmp_path / "USC0.csv").write_text("\n".join(lines))
    code, out, _ = bedwright("weather", str(tmp_path / "USC0.csv"))
    assert code == 0
    assert "read as" not in out
    assert "  0 °C (32 °F)     11 Apr     7 Apr      2 Apr         12" in out.splitlines()


def test_weather_into_a_new_garden_file(bedwright, file, weather_file, tmp_path):
    out = tmp_path / "new.bedwright"
    code, printed, _ = bedwright("weather", weather_file, "--into", file, "-o", str(out))
    assert code == 0
    assert printed.endswith(
        f"\n{out}: Plot with these frost dates, zone and means\n12 years of daily weather: 2001 to 2012\n"
    )
    made = load(out)
    assert made.climate.last_frost == FrostDates(risk_10="04-11", risk_50="04-07", risk_90="04-02")
    assert (made.climate.zone, made.climate.years) == ("9a", 12)
    assert made.climate.origin == "daily weather table daily.csv"
    assert made.weather.span == (2001, 2012)
    assert made.with_(climate=GARDEN.climate, weather=GARDEN.weather) == GARDEN
    assert load(file) == GARDEN


def test_a_southern_garden_is_taken_as_southern(bedwright, tmp_path):
    (tmp_path / "s.csv").write_text(table(southern=True))
    save(Garden(site=Site(latitude=-41)), tmp_path / "g.bedwright")
    out = tmp_path / "n.bedwright"
    bedwright("weather", str(tmp_path / "s.csv"), "--into", str(tmp_path / "g.bedwright"), "-o", str(out))
    frost = load(out).climate.last_frost
    assert frost is not None
    assert frost.risk_50.startswith("10-")


def test_weather_never_overwrites(refused, file, weather_file, tmp_path):
    assert "is there already and is not overwritten" in refused(
        "weather", weather_file, "--into", file, "-o", file
    )
    assert load(file) == GARDEN
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    refused("weather", weather_file, "--into", file, "-o", str(tmp_path / "link"))
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize(
    ("data", "words", "complaint"),
    [
        (b"", [], "is empty"),
        (b"\x00\x01\x02", [], "is no table of text"),
        (b"hello", [], "no heading that looks like the date"),
        (b"a,b\n2001-01-01,3\n", ["--date", "a"], "no heading that looks like the minimum temperature"),
        (b"date,tmin\n2001-01-01,3\n", ["--min", "low"], "has no column 'low'"),
        (b"date,tmin\n2001-01-01,3\n", [], "is complete enough for frost dates"),
        (b"date,tmin\n2001-01-01,3\n", ["--unit", "k"], "--unit"),
        (b"\x1f\x8b\x00\x00", [], "cannot be read"),
    ],
)
def test_weather_that_is_refused(refused, tmp_path, data, words, complaint):
    path = tmp_path / "w.csv"
    path.write_bytes(data)
    assert complaint in refused("weather", str(path), *words)


def test_weather_file_that_is_not_there(refused, tmp_path):
    assert "No such file" in refused("weather", str(tmp_path / "w.csv"))
    assert "it is a folder" in refused("weather", str(tmp_path), "--unit", "c")


@pytest.mark.parametrize("words", [["--into", "x"], ["-o", "y"]])
def test_a_garden_and_a_new_file_belong_together(refused, weather_file, words):
    assert "--into and -o belong together" in refused("weather", weather_file, *words)


def test_rain_is_read_and_shown(bedwright, tmp_path):
    head, *rows = table(head="date,tmin,tmax,precip").splitlines()
    lines = [head, *(f"{row},{number % 5}.2" for number, row in enumerate(rows))]
    (tmp_path / "r.csv").write_text("\n".join(lines))
    out = bedwright("weather", str(tmp_path / "r.csv"))[1]
    assert (
        "  read as: date 'date', minimum 'tmin', maximum 'tmax', in °C, rain 'precip' in mm"
        in out.splitlines()
    )
    tenths = json.loads(bedwright("weather", str(tmp_path / "r.csv"), "--rain-unit", "tenths", "--json")[1])
    assert tenths["columns"]["rain_unit"] == "tenths mm"


def test_gaps_are_said_and_kept(bedwright, file, tmp_path):
    lines = [line for line in table().splitlines() if not line.startswith(("2005-02", "2006-03-07"))]
    (tmp_path / "gap.csv").write_text("\n".join(lines))
    out = tmp_path / "new.bedwright"
    printed = bedwright("weather", str(tmp_path / "gap.csv"), "--into", file, "-o", str(out))[1]
    assert "  without minimum: 29 days, the longest gap 28 from 1 Feb 2005" in printed.splitlines()
    weather = station_weather(load(out).weather)
    assert weather is not None
    assert np.isnan(weather.part(D(2005, 2, 1), D(2005, 2, 28))[0]).all()


def test_files_of_one_station_are_joined(bedwright, tmp_path):
    head, *rows = table().splitlines()
    for year in range(2001, 2013):
        lines = [head, *(row for row in rows if row.startswith(str(year)))]
        (tmp_path / f"{year}.csv").write_text("\n".join(lines))
    out = bedwright("weather", *(str(tmp_path / f"{year}.csv") for year in range(2001, 2013)))[1]
    assert "1 Jan 2001 to 31 Dec 2012, 4,383 days" in out


def test_the_years_may_be_left_out(bedwright, file, weather_file, tmp_path):
    bare, full, without = (str(tmp_path / f"{name}.bedwright") for name in ("bare", "full", "without"))
    bedwright("weather", weather_file, "--into", file, "-o", bare, "--no-years")
    assert load(bare).weather == GARDEN.weather
    assert load(bare).climate.years == 12
    bedwright("weather", weather_file, "--into", file, "-o", full)
    code, printed, _ = bedwright("weather", "--no-years", "--into", full, "-o", without)
    assert (code, printed) == (0, f"{without}: Plot without its years of weather\n")
    assert load(full).weather.span == (2001, 2012)
    assert load(without) == load(full).with_(weather=load(full).weather.with_(years=()))


def test_place_and_height_of_the_station(bedwright, weather_file, tmp_path):
    garden = Garden(site=Site(latitude=52.0, longitude=0.0, elevation=500.0))
    save(garden, tmp_path / "g.bedwright")
    out = str(tmp_path / "n.bedwright")
    where = ("--at", "52.0, 1.0", "--height", "100")
    arguments = ("weather", weather_file, *where, "--into", str(tmp_path / "g.bedwright"), "-o", out)
    printed = bedwright(*arguments)[1].splitlines()
    assert "  station: not named, at 52° N, 1° E" in printed
    assert "  68 km from the garden" in printed  # 111.2 km x cos 52°
    assert "  station at 100 m, garden at 500 m: taken 2.6 °C colder, 6.5 °C for each 1,000 m" in printed
    made = load(out)
    assert (made.weather.longitude, made.weather.elevation) == (1.0, 100.0)
    assert made.climate.monthly_minimum is not None
    assert made.climate.monthly_minimum[6] == pytest.approx(8.0 - 2.6)
    station = station_weather(made.weather)
    assert station is not None
    assert station.low.max() == 8.0, "the years are the station's"


def test_a_sign_left_out_is_pointed_out(bedwright, weather_file, tmp_path):
    save(Garden(site=Site(latitude=29.6, longitude=-82.4)), tmp_path / "g.bedwright")
    arguments = ("--into", str(tmp_path / "g.bedwright"), "-o", str(tmp_path / "n.bedwright"))
    printed = bedwright("weather", weather_file, "--at", "29.6, 82.4", *arguments)[1]
    assert (
        "with the other sign of its longitude it would be 0 km away: look whether that was left out"
        in printed
    )


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "no weather table is named"),
        (("--no-years",), "no weather table is named"),
        (("{table}", "--at", "here"), "'here' is no latitude and longitude"),
        (("{table}", "--height", "20000"), "no station is 20000 m above the sea"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(bedwright, weather_file, arguments, words):
    code, _, err = bedwright("weather", *(one.format(table=weather_file) for one in arguments))
    assert code != 0
    assert words in err
    assert err.count("\n") == 1


def test_what_kept_years_say_of_a_place(bedwright, file, weather_file, tmp_path):
    out = str(tmp_path / "new.bedwright")
    bedwright("weather", weather_file, "--into", file, "-o", out)
    code, printed, _ = bedwright("weather", "--of", out)
    assert code == 0
    assert printed.startswith("Plot: 12 years of daily weather: 2001 to 2012\n")
    assert "Last frost of spring 11 Apr at 10 %, 7 Apr at 50 % and 2 Apr at 90 %, from 12 years." in printed
    assert "no trend that the 12 years can prove" in printed
    assert "They are few." in printed
    assert bedwright("weather", "--of", file)[1] == "Plot: no years of weather\n"
    assert "--of goes alone" in bedwright("weather", weather_file, "--of", out)[2]
