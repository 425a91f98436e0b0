"""The year on the command line: work, weather, week sheets."""

from __future__ import annotations

import datetime as dt
import gzip
import json
import os
from typing import Any

import pytest
import vobject

from planner.garden import Bed, Climate, FrostDates, Garden, Planting, Rectangle, Site
from planner.storage import load, save

D = dt.date
BED = Rectangle(length=4.8, width=1.2)
GARDEN = Garden(
    site=Site(name="Plot", latitude=52, time_zone="Europe/London"),
    climate=Climate(
        last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
        first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
    ),
    beds=(Bed(id="b1", name="North", outline=BED), Bed(id="b2", name="South", outline=BED)),
    plantings=(
        Planting(id="p1", bed="b1", crop="carrot", variety="Long", year=2025, first=D(2025, 4, 10)),
        Planting(id="p2", bed="b2", crop="garlic", year=2025, start="cloves", first=D(2025, 10, 15)),
        Planting(id="p3", bed="b1", crop="carrot", year=2026),
    ),
)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


# -- tasks -------------------------------------------------------------------------------------


def tasks(bedwright, *arguments: str) -> list[dict[str, Any]]:
    code, out, err = bedwright("tasks", *arguments, "--json")
    assert (code, err) == (0, "")
    return json.loads(out)


def test_tasks_as_json(bedwright, file):
    found = tasks(bedwright, file, "--year", "2025")
    sow = found[0]
    wanted = {
        "date": "2025-04-10",
        "until": "2025-04-10",
        "kind": "sow",
        "bed": "North",
        "bed_id": "b1",
        "planting_id": "p1",
        "crop": "carrot",
        "variety": "Long",
        "origin": "by hand",
        "done": None,
    }
    assert wanted.items() <= sow.items()
    assert sow["text"].startswith("Sow carrot Long in North, ")
    assert sow["stations"] > 0
    assert sow["seeds"] >= sow["stations"]
    assert sow["grams"] > 0
    assert [one["date"] for one in found] == sorted(one["date"] for one in found)
    assert all(one["date"] <= one["until"] for one in found)
    assert {one["kind"] for one in found} >= {"sow", "thin", "pick", "clear", "set out"}


def test_tasks_of_the_latest_year(bedwright, file):
    assert {one["planting_id"] for one in tasks(bedwright, file)} == {"p2", "p3"}


def test_tasks_of_a_span(bedwright, file):
    found = tasks(bedwright, file, "--from", "2025-04-01", "--to", "2025-04-30")
    assert found[0]["kind"] == "sow"
    assert all(one["date"] <= "2025-04-30" and one["until"] >= "2025-04-01" for one in found)
    from_on = tasks(bedwright, file, "--from", "2025-10-01")
    assert {one["planting_id"] for one in from_on} == {"p2"}
    whole = tasks(bedwright, file, "--from", "2025-01-01", "--to", "2026-12-31")
    assert {one["planting_id"] for one in whole} == {"p1", "p2", "p3"}
    keys = [(one["planting_id"], one["kind"], one["date"]) for one in whole]
    assert len(set(keys)) == len(keys)


def test_tasks_as_text_by_week(bedwright, file):
    code, out, _ = bedwright("tasks", file, "--year", "2025")
    lines = out.splitlines()
    assert code == 0
    assert lines[0] == "Plot, work from 1 Jan 2025 to 31 Dec 2025"
    week = lines.index("7 – 13 Apr 2025 · week 15")
    assert lines[week + 1].startswith("  [ ]  10 Apr*  Sow carrot Long in North, ")
    assert "* given by hand" in lines


def test_tasks_where_there_is_nothing_to_do(bedwright, file):
    code, out, _ = bedwright("tasks", file, "--year", "2030")
    assert code == 0
    assert "Nothing to do." in out
    assert tasks(bedwright, file, "--year", "2030") == []


def test_calendar_file(bedwright, file, tmp_path):
    out = tmp_path / "work.ics"
    assert bedwright("tasks", file, "--year", "2025", "--ics", str(out))[0] == 0
    data = out.read_bytes()
    assert b"\r\n" in data
    events = vobject.readOne(data.decode()).vevent_list
    found = tasks(bedwright, file, "--year", "2025")
    assert len(events) == len(found)
    assert {event.dtstart.value for event in events} == {D.fromisoformat(one["date"]) for one in found}


def test_calendar_to_standard_output_is_the_same(file, tmp_path, capfdbinary):
    from planner.cli import command_line as cli

    assert cli.main(["tasks", file, "--year", "2025", "--ics", "-"]) == 0
    shown = capfdbinary.readouterr().out
    cli.main(["tasks", file, "--year", "2025", "--ics", str(tmp_path / "x.ics")])

    def plain(data: bytes) -> list[bytes]:
        moving = (b"DTSTAMP", b"LAST-MODIFIED", b"SEQUENCE")
        return [line for line in data.split(b"\r\n") if not line.startswith(moving)]

    assert plain(shown) == plain((tmp_path / "x.ics").read_bytes())


def test_calendar_of_nothing_is_refused(refused, file, tmp_path):
    out = str(tmp_path / "x.ics")
    assert "no work falls on 2030-01-01 to 2030-12-31" in refused(
        "tasks", file, "--year", "2030", "--ics", out
    )
    assert not os.path.exists(out)


def test_calendar_over_the_garden_itself(refused, file):
    assert "is the garden file itself" in refused("tasks", file, "--ics", file)
    assert load(file) == GARDEN


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--from", "2025-13-01"], "'2025-13-01' is no day; write it as 2026-04-12"),
        (["--from", "2025-02-29"], "is no day"),
        (["--to", "1.4.2025"], "is no day"),
        (["--to", "2025-4-1"], "is no day"),
        (["--from", "1500-01-01"], "is no day"),
        (["--from", "2025-05-01", "--to", "2025-04-01"], "the last day 2025-04-01 is before the first"),
        (["--year", "2026", "--to", "2025-04-01"], "the last day 2025-04-01 is before the first 2026-01-01"),
        (["--from", "1900-01-01", "--to", "2025-04-01"], "more than 20 growing years"),
        (["--json", "--ics", "x"], "not allowed with"),
    ],
)
def test_tasks_that_are_refused(refused, file, words, said):
    assert said in refused("tasks", file, *words)


def test_southern_days_belong_to_the_growing_year_begun_in_july(bedwright, tmp_path):
    site = Site(name="South", latitude=-41)
    one = Planting(id="p1", bed="b1", crop="carrot", year=2025, first=D(2025, 9, 10))
    path = str(tmp_path / "s.bedwright")
    save(Garden(site=site, climate=GARDEN.climate, beds=GARDEN.beds[:1], plantings=(one,)), path)
    found = tasks(bedwright, path, "--to", "2026-03-01")
    assert found[0]["date"] == "2025-09-10"
    assert bedwright("tasks", path)[1].startswith("South, work from 1 Jul 2025 to 30 Jun 2026\n")


# -- week sheets -------------------------------------------------------------------------------


def test_week_sheets_are_a_pdf(bedwright, file, tmp_path):
    out = tmp_path / "w.pdf"
    code, said, _ = bedwright("sheets", file, "-o", str(out), "--weeks", "--year", "2025", "--bed", "north")
    assert (code, said) == (0, f"{out}: week sheets for 2025-01-01 to 2025-12-31\n")
    assert out.read_bytes().startswith(b"%PDF-")
    bedwright(
        "sheets", file, "-o", str(tmp_path / "v.pdf"), "--weeks", "--from", "2025-04-07", "--to", "2025-04-13"
    )
    assert 0 < (tmp_path / "v.pdf").stat().st_size < out.stat().st_size


def test_week_sheets_that_are_refused(refused, file, tmp_path):
    out = str(tmp_path / "w.pdf")
    assert "--from and --to go with --weeks" in refused("sheets", file, "-o", out, "--from", "2025-04-07")
    assert "no work falls on 1 Jan 2030 to 31 Dec 2030" in refused(
        "sheets", file, "-o", out, "--weeks", "--year", "2030"
    )
    assert "is the garden file itself" in refused("sheets", file, "-o", file, "--weeks")
    assert not os.path.exists(out)


# -- weather -----------------------------------------------------------------------------------


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
    assert len(found["monthly_minimum"]) == 12


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
    assert found["yearly_minimum"] == pytest.approx(-6.0)
    assert found["monthly_maximum"][6] == pytest.approx(19.0)


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
    code, said, _ = bedwright("weather", weather_file, "--into", file, "-o", str(out))
    assert code == 0
    assert said.endswith(f"\n{out}: Plot with these frost dates, zone and means\n")
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


@pytest.mark.parametrize("words", [["--into", "x"], ["-o", "y"]])
def test_a_garden_and_a_new_file_belong_together(refused, weather_file, words):
    assert "--into and -o belong together" in refused("weather", weather_file, *words)


@pytest.mark.parametrize(
    ("data", "words", "said"),
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
def test_weather_that_is_refused(refused, tmp_path, data, words, said):
    path = tmp_path / "w.csv"
    path.write_bytes(data)
    assert said in refused("weather", str(path), *words)


def test_weather_file_that_is_not_there(refused, tmp_path):
    assert "No such file" in refused("weather", str(tmp_path / "w.csv"))
    assert "Is a directory" in refused("weather", str(tmp_path), "--unit", "c")
