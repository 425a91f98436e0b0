"""The calendar file, read back by another program's reader and by a plain one of our own."""

from __future__ import annotations

import datetime as dt
import re

import icalendar
import pytest
import vobject
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.tasks import tasks
from planner.garden import Climate, FrostDates, Garden, Site
from planner.garden import edits as e
from planner.listings.calendar import calendar, uid
from planner.plan import Plan

D = dt.date
MADE = dt.datetime(2026, 2, 1, 8, 30, tzinfo=dt.UTC)
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
CATALOGUE = catalogue_of(
    crop(sow_from=-3, days_to_maturity=70, harvest_days=10, in_row_spacing=0.075, row_spacing=0.3)
)
ODD = 'Möhre, "süß"; 100 % \\ 人参 🥕 '


@pytest.fixture
def document() -> Garden:
    one = planting(variety=(ODD * 5).strip(), first=D(2026, 4, 10))
    site = Site(name="Back; yard, 2", time_zone="Pacific/Auckland")
    return garden(bed(name="Bed, by the wall"), one, climate=CLIMATE, site=site)


def written(document: Garden, made: dt.datetime = MADE, remind: int | None = None) -> bytes:
    plan = Plan(document, 2026, CATALOGUE)
    return calendar(plan, tasks(plan), made, remind)


def plain(data: bytes) -> list[dict[str, str]]:
    """Events by a reader of a few lines, after RFC 5545 sections 3.1 and 3.3.11."""
    assert data.endswith(b"\r\n")
    for line in data.split(b"\r\n"):
        assert len(line) <= 75
        line.decode()  # no letter is cut in two
    text = data.decode().replace("\r\n ", "").replace("\r\n\t", "")
    assert "\n" not in text.replace("\r\n", "")
    events: list[dict[str, str]] = []
    for line in text.split("\r\n"):
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and ":" in line:
            name, value = line.split(":", 1)
            words = re.sub(r"\\([\\;,nN])", lambda m: "\n" if m[1] in "nN" else m[1], value)
            events[-1].setdefault(name, words)
    return events


def test_events_are_whole_days_with_an_end_beyond_them(document):
    work = tasks(Plan(document, 2026, CATALOGUE))
    events = plain(written(document))
    assert len(events) == len(work) == 3
    for task, event in zip(work, events, strict=True):
        assert event["DTSTART;VALUE=DATE"] == f"{task.date:%Y%m%d}"
        assert event["DTEND;VALUE=DATE"] == f"{task.until + dt.timedelta(days=1):%Y%m%d}"
        assert event["SUMMARY"] == task.text.rstrip(".")
        assert event["LOCATION"] == "Bed, by the wall"
        assert event["CATEGORIES"] == task.kind
        assert event["UID"] == uid(document, task)
        assert event["DTSTAMP"] == "20260201T083000Z"
    assert ODD.strip() in events[0]["SUMMARY"]
    assert "Set by hand" in events[0]["DESCRIPTION"]


def test_another_reader_finds_the_same(document):
    found = vobject.readOne(written(document).decode())
    work = tasks(Plan(document, 2026, CATALOGUE))
    assert found.version.value == "2.0"
    assert [event.summary.value for event in found.vevent_list] == [task.text.rstrip(".") for task in work]
    assert [event.dtstart.value for event in found.vevent_list] == [task.date for task in work]
    assert all(type(event.dtstart.value) is dt.date for event in found.vevent_list)
    assert [event.dtend.value - dt.timedelta(days=1) for event in found.vevent_list] == [
        t.until for t in work
    ]


def test_a_later_file_updates_instead_of_doubling(document):
    first = plain(written(document))
    moved = e.tick(document, "p1", "sow", D(2026, 4, 20))
    second = plain(written(moved, MADE + dt.timedelta(days=3)))
    assert [event["UID"] for event in first] == [event["UID"] for event in second]
    assert len({event["UID"] for event in first}) == len(first)
    assert first[1]["DTSTART;VALUE=DATE"] != second[1]["DTSTART;VALUE=DATE"]
    for old, new in zip(first, second, strict=True):
        assert int(new["SEQUENCE"]) > int(old["SEQUENCE"])
        assert int(new["SEQUENCE"]) < 2**31
    assert "Done on 20 Apr 2026" in second[0]["DESCRIPTION"]


def test_gardens_do_not_take_each_others_events(document):
    other = document.with_(site=document.site.with_(name="Front yard"))
    mine, theirs = (tasks(Plan(one, 2026, CATALOGUE)) for one in (document, other))
    assert not {uid(document, task) for task in mine} & {uid(other, task) for task in theirs}


def test_the_calendar_says_its_name_and_zone(document):
    found = icalendar.Calendar.from_ical(written(document))
    assert found["X-WR-CALNAME"] == "Back; yard, 2"
    assert found["X-WR-TIMEZONE"] == "Pacific/Auckland"
    assert b"TZID" not in written(document), "whole days belong to no zone"


def test_no_work_is_an_empty_calendar():
    data = calendar(Plan(Garden(), 2026, CATALOGUE), (), MADE)
    assert data.startswith(b"BEGIN:VCALENDAR\r\n")
    assert plain(data) == []


def test_work_that_comes_again_every_year_has_an_event_for_each_year():
    import datetime as dt
    from collections import Counter

    from planner import resources, storage
    from planner.amounts.tasks import tasks
    from planner.listings.calendar import uid
    from planner.plan import Plan

    garden = storage.load(resources.sample_folder() / "hollow_lane.bedwright")
    found = []
    for year in (2025, 2026):
        plan = Plan(garden, year)
        begun = [t for t in tasks(plan) if plan.span.first <= t.date <= plan.span.last]
        found += [(uid(garden, t), t.date) for t in begun]
    again = [key for key, count in Counter(key for key, _ in set(found)).items() if count > 1]
    assert not again
    assert any(day >= dt.date(2026, 1, 1) for _, day in found)


def test_backslashes_are_read_as_they_were_typed(document):
    """The library took a backslash with a capital N for the end of a line."""
    name = "C:\\New\\,;\\\\N\\n\\"
    odd = document.with_(
        beds=(bed(name=name),),
        site=document.site.with_(name=name),
        plantings=(planting(variety=name, first=D(2026, 4, 10)),),
    )
    for read in (plain(written(odd)), icalendar.Calendar.from_ical(written(odd)).walk("VEVENT")):
        assert [str(event["LOCATION"]) for event in read] == [name] * 3
        assert name in str(read[0]["SUMMARY"])
    assert str(icalendar.Calendar.from_ical(written(odd))["X-WR-CALNAME"]) == name


def by_uid(data: bytes) -> dict[str, icalendar.Event]:
    return {str(event["UID"]): event for event in icalendar.Calendar.from_ical(data).walk("VEVENT")}


def test_uids_survive_new_names_of_garden_bed_and_variety(document):
    before = by_uid(written(document))
    renamed = e.change_site(document, name="Front yard")
    renamed = e.change_site(renamed, name="The lot")
    renamed = e.change_bed(renamed, "b1", name="Long bed")
    renamed = e.change_planting(renamed, "p1", variety="Early sort")
    after = by_uid(written(renamed))
    assert set(after) == set(before)
    assert {str(event["LOCATION"]) for event in after.values()} == {"Long bed"}


def test_a_garden_that_is_named_for_the_first_time_is_not_taken_for_another_such():
    first, second = (e.change_site(Garden(), name=name) for name in ("One", "Two"))
    assert {first.site.known_as, second.site.known_as} == {""}


def test_the_description_says_how_much_how_deep_and_how_far_apart():
    catalogue = catalogue_of(
        crop(sow_from=-3, days_to_maturity=70, in_row_spacing=0.075, row_spacing=0.3, sowing_depth=0.013)
    )
    document = garden(bed(), planting(first=D(2026, 4, 10)), climate=CLIMATE)
    plan = Plan(document, 2026, catalogue)
    found = icalendar.Calendar.from_ical(calendar(plan, tasks(plan), MADE)).walk("VEVENT")
    sowing = next(event for event in found if str(event["CATEGORIES"].cats[0]) == "sow")
    lines = str(sowing["DESCRIPTION"]).split("\n")
    assert lines[0] == f"{plan.placed(document.plantings[0]).plants} plants"
    assert "Depth: 1.3 cm (estimate)" in str(sowing["DESCRIPTION"]).replace("\u00a0", " ")
    assert "Spacing: 7.5 cm, rows 30 cm apart" in str(sowing["DESCRIPTION"]).replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("days", "before"), [(0, dt.timedelta(hours=8)), (3, dt.timedelta(days=-3, hours=8))]
)
def test_reminders_come_by_choice_at_eight_in_the_morning(document, days, before):
    assert b"VALARM" not in written(document)
    data = written(document, remind=days)
    alarms = icalendar.Calendar.from_ical(data).walk("VALARM")
    assert [alarm["TRIGGER"].dt for alarm in alarms] == [before] * 3
    for event in vobject.readOne(data.decode()).vevent_list:
        assert event.valarm.trigger.value == before
        assert event.valarm.description.value == event.summary.value


def test_work_that_is_done_needs_no_reminder(document):
    done = e.tick(document, "p1", "sow", D(2026, 4, 20))
    data = written(done, remind=1)
    assert data.count(b"BEGIN:VALARM") == data.count(b"BEGIN:VEVENT") - 1


def test_work_of_months_begins_and_ends(catalogue):
    from sample_reading import FOLDER

    from planner import storage

    plan = Plan(storage.load(FOLDER / "hollow_lane.bedwright"), 2026, catalogue)
    work = tasks(plan)
    data = calendar(plan, work, MADE)
    events = by_uid(data)
    long = [task for task in work if (task.until - task.date).days >= 28]
    assert len(long) > 10
    assert len(events) == len(plain(data)) == len(work) + len(long)
    for event in events.values():
        assert (event["DTEND"].dt - event["DTSTART"].dt).days <= 28
    for task in long:
        begin, end = events[uid(plan.garden, task)], events[uid(plan.garden, task, "/end")]
        assert (begin["DTSTART"].dt, end["DTSTART"].dt) == (task.date, task.until)
        assert str(begin["SUMMARY"]) == "From today: " + task.text.rstrip(".")
        assert str(end["SUMMARY"]) == "Last day: " + task.text.rstrip(".")
