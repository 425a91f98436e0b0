"""bedwright tasks: text, JSON, calendar, spans."""

from __future__ import annotations

import datetime as dt
import json
import os
from typing import Any

import pytest
import vobject
from making import bed, garden, planting, rectangle
from work_garden import GARDEN

from planner.cli import main
from planner.garden import Garden, Planting, Site
from planner.storage import load, save

D = dt.date


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


def tasks(bedwright, *arguments: str) -> list[dict[str, Any]]:
    code, out, err = bedwright("tasks", *arguments, "--json")
    assert (code, err) == (0, "")
    return json.loads(out)["tasks"]


def test_tasks_as_json(bedwright, file):
    found = tasks(bedwright, file, "--year", "2025")
    sow = found[0]
    wanted = {
        "first": "2025-04-10",
        "last": "2025-04-10",
        "work": "sow",
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
    assert sow["plants"] > 0
    assert sow["seeds"] >= sow["plants"]
    assert sow["seed_g"] > 0
    assert [one["first"] for one in found] == sorted(one["first"] for one in found)
    assert all(one["first"] <= one["last"] for one in found)
    assert {one["work"] for one in found} >= {"sow", "thin", "pick", "clear", "set out"}


def test_tasks_of_the_latest_year(bedwright, file):
    assert {one["planting_id"] for one in tasks(bedwright, file)} == {"p2", "p3"}


def test_tasks_of_a_span(bedwright, file):
    found = tasks(bedwright, file, "--from", "2025-04-01", "--to", "2025-04-30")
    assert found[0]["work"] == "sow"
    assert all(one["first"] <= "2025-04-30" and one["last"] >= "2025-04-01" for one in found)
    from_on = tasks(bedwright, file, "--from", "2025-10-01")
    assert {one["planting_id"] for one in from_on} == {"p2"}
    whole = tasks(bedwright, file, "--from", "2025-01-01", "--to", "2026-12-31")
    assert {one["planting_id"] for one in whole} == {"p1", "p2", "p3"}
    keys = [(one["planting_id"], one["work"], one["first"]) for one in whole]
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize(
    ("first", "last"),
    [
        ("1 Apr", "30 Apr"),
        ("1.4.", "30.4."),
        ("1/4", "4/30"),
        ("1/4/2025", "April 30, 2025"),
        ("2025-04-01", "30 Apr"),
    ],
)
def test_days_are_typed_as_in_the_window(bedwright, file, first, last, monkeypatch):
    monkeypatch.setenv("LC_ALL", "en_US.UTF-8")  # of a garden in metres the locale says nothing
    whole = tasks(bedwright, file, "--from", "2025-04-01", "--to", "2025-04-30")
    year = () if "2025" in first else ("--year", "2025")
    assert tasks(bedwright, file, *year, "--from", first, "--to", last) == whole


def test_a_last_day_without_a_year_comes_after_the_first(bedwright, file):
    whole = tasks(bedwright, file, "--from", "2025-10-01", "--to", "2026-02-28")
    assert tasks(bedwright, file, "--from", "2025-10-01", "--to", "28 Feb") == whole != []


def test_tasks_as_text_by_week(bedwright, file):
    code, out, _ = bedwright("tasks", file, "--year", "2025")
    lines = out.splitlines()
    assert code == 0
    assert lines[0] == "Plot, work from 1 Jan 2025 to 31 Dec 2025"
    week = lines.index("7 – 13 Apr 2025 · week 15")
    assert lines[week + 1].startswith("  [ ]  10 Apr*  Sow carrot Long in North, ")
    assert "* set by hand" in lines


def test_tasks_where_there_is_nothing_to_do(bedwright, file):
    code, out, _ = bedwright("tasks", file, "--year", "2030")
    assert code == 0
    assert out == "Plot: nothing is planted in 2030. Years with plantings: 2025, 2026.\n"
    assert tasks(bedwright, file, "--year", "2030") == []
    assert "Nothing to do." in bedwright("tasks", file, "--from", "2025-02-01", "--to", "2025-02-07")[1]


def test_calendar_file(bedwright, file, tmp_path):
    out = tmp_path / "work.ics"
    assert bedwright("tasks", file, "--year", "2025", "--ics", str(out))[0] == 0
    data = out.read_bytes()
    assert b"\r\n" in data
    events = vobject.readOne(data.decode()).vevent_list
    found = tasks(bedwright, file, "--year", "2025")
    days = [(D.fromisoformat(one["first"]), D.fromisoformat(one["last"])) for one in found]
    ends = [last for first, last in days if (last - first).days >= 28]
    assert len(events) == len(found) + len(ends)
    assert {event.dtstart.value for event in events} == {first for first, _ in days} | set(ends)


def test_reminders_are_asked_for_in_days(bedwright, refused, file):
    found = bedwright("tasks", file, "--year", "2025", "--ics", "-", "--remind", "2")[1]
    assert found.count("BEGIN:VALARM") == found.count("BEGIN:VEVENT") > 0
    assert "--remind goes with --ics" in refused("tasks", file, "--remind", "2")
    assert "Give one from 0 to 60" in refused("tasks", file, "--ics", "-", "--remind", "61")
    assert "Give one from 0 to 60" in refused("tasks", file, "--ics", "-", "--remind=-1")


def test_calendar_to_standard_output_is_the_same(file, tmp_path, capfdbinary):
    assert main(["tasks", file, "--year", "2025", "--ics", "-"]) == 0
    shown = capfdbinary.readouterr().out
    main(["tasks", file, "--year", "2025", "--ics", str(tmp_path / "x.ics")])

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
    ("words", "complaint"),
    [
        (["--from", "2025-13-01"], "--from: '2025-13-01' is a day that no calendar has"),
        (["--from", "2025-02-29"], "--from: 2025 has no 29 February"),
        (["--to", "1.4.20x5"], "is no day"),
        (["--to", "2025-4"], "is no day"),
        (["--from", "1500-01-01"], "--from: 1500 is no year of a garden"),
        (["--from", "2025-05-01", "--to", "2025-04-01"], "the last day 2025-04-01 is before the first"),
        (["--year", "2026", "--to", "2025-04-01"], "the last day 2025-04-01 is before the first 2026-01-01"),
        (["--from", "1900-01-01", "--to", "2025-04-01"], "more than 20 growing years"),
        (["--json", "--ics", "x"], "not allowed with"),
    ],
)
def test_tasks_that_are_refused(refused, file, words, complaint):
    assert complaint in refused("tasks", file, *words)


def test_southern_days_belong_to_the_growing_year_begun_in_july(bedwright, tmp_path):
    site = Site(name="South", latitude=-41)
    one = Planting(id="p1", bed="b1", crop="carrot", year=2025, first=D(2025, 9, 10))
    path = str(tmp_path / "s.bedwright")
    save(Garden(site=site, climate=GARDEN.climate, beds=GARDEN.beds[:1], plantings=(one,)), path)
    found = tasks(bedwright, path, "--to", "2026-03-01")
    assert found[0]["first"] == "2025-09-10"
    assert bedwright("tasks", path)[1].startswith("South, work from 1 Jul 2025 to 30 Jun 2026\n")


@pytest.fixture
def shared(tmp_path):
    """The garden of this file, tended by two people."""
    plantings = tuple(
        planting.with_(tended_by=who)
        for planting, who in zip(GARDEN.plantings, ("Ada", "Ben", ""), strict=False)
    )
    path = tmp_path / "shared.bedwright"
    save(GARDEN.with_(plantings=(*plantings, *GARDEN.plantings[3:])), path)
    return str(path)


def test_tasks_of_some_beds_and_people(bedwright, shared):
    days = ("--from", "2025-01-01", "--to", "2026-12-31")
    whole = tasks(bedwright, shared, *days)
    ada = tasks(bedwright, shared, *days, "--tended-by", "ADA")
    assert {one["planting_id"] for one in ada} == {"p1"}
    assert {one["tended_by"] for one in ada} == {"Ada"}
    both = tasks(bedwright, shared, *days, "--tended-by", "Ada", "ben")
    assert both == [one for one in whole if one["tended_by"]]
    bed = whole[0]["bed"]
    assert tasks(bedwright, shared, *days, "--bed", bed) == [one for one in whole if one["bed"] == bed]


def test_people_who_tend_nothing_are_named(refused, shared, file):
    assert refused("tasks", shared, "--tended-by", "Adda").endswith("Did you mean 'Ada'?\n")
    assert "Plantings are tended by Ada, Ben" in refused("tasks", shared, "--tended-by", "Zzz")
    assert "Enter who tends a planting" in refused("tasks", file, "--tended-by", "Ada")
    assert "there is no bed 'Nowhere'" in refused("tasks", shared, "--bed", "Nowhere")


def test_a_year_without_plantings_is_said(bedwright, file):
    said = "Plot: nothing is planted in 2040. Years with plantings: 2025, 2026.\n"
    for command in ("tasks", "amounts"):
        assert bedwright(command, file, "--year", "2040")[:2] == (0, said)
    assert bedwright("check", file, "--no-light", "--year", "2040")[1].startswith(said)


def test_what_is_odd_is_told_of_the_chosen_beds_alone(bedwright, tmp_path):
    first, second = (
        planting(f"p{n}", f"b{n}", crop="potato", first="2026-05-01", last="2026-06-01") for n in (1, 2)
    )
    made = garden(bed("b1", name="North"), bed("b2", rectangle(center=(0, 4)), name="South"), first, second)
    path = tmp_path / "odd.bedwright"
    save(made, path)
    whole, chosen = (
        bedwright("tasks", str(path), "--year", "2026", *more)[1] for more in ((), ("--bed", "South"))
    )
    assert "  North: " in whole
    assert "  South: " in chosen
    assert "  North: " not in chosen
