"""bedwright weather: what a table of daily weather says, and into a garden."""

from __future__ import annotations

import datetime as dt
import gzip
import json

import pytest
from work_garden import GARDEN

from planner.garden import FrostDates, Garden, Site
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
    assert found["columns"] == {"date": "when", "minimum": "a", "maximum": "b", "unit": "F"}
    assert found["yearly_minimum_c"] == pytest.approx(-6.0)
    assert found["monthly_maximum_c"][6] == pytest.approx(19.0)


def test_one_column_may_be_named_and_the_rest_guessed(bedwright, tmp_path):
    (tmp_path / "x.csv").write_text(table(head="date,tmin,roof"))
    found = json.loads(bedwright("weather", str(tmp_path / "x.csv"), "--max", "roof", "--json")[1])
    assert found["columns"] == {"date": "date", "minimum": "tmin", "maximum": "roof", "unit": "C"}


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
    assert printed.endswith(f"\n{out}: Plot with these frost dates, zone and means\n")
    made = load(out)
    assert made.climate.last_frost == FrostDates(risk_10="04-11", risk_50="04-07", risk_90="04-02")
    assert (made.climate.zone, made.climate.years) == ("9a", 12)
    assert made.climate.origin == "daily weather table daily.csv"
    assert made.with_(climate=GARDEN.climate) == GARDEN
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
        (b"a,b\n2001-01-01,3\n", ["--date", "a"], "no heading that looks like the date"),
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
