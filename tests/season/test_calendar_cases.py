"""Published calendars of five places: how many of the program's days lie in the printed ranges.

The cases are months and days of sowing, setting out and harvest that extension services and growers print for a place.
Rows marked ``memory`` were recalled and are told beside those that were read, not counted with them.  Floors lie below what
was measured: a case that a better figure moves out of its range is no fault, a tenth of them is.
"""

from __future__ import annotations

import csv
import datetime as dt

import numpy as np
import pytest
from calendar_cases import (
    EVENTS,
    GROUPS,
    REFERENCE,
    Answer,
    answers,
    by_event,
    by_group,
    by_place,
    line,
    lines_of_shares,
    print_outside,
    read_cases,
    read_places,
    seen,
    share_of,
    shares,
)

from planner.crops import load_catalogue

#: Least share inside, of each event; of each place and group.
OF_EVENT, OF_PART = 0.75, 0.70
#: With fewer cases a share says little.
ENOUGH = 10


def outside() -> str:
    return "\n".join([*(line(each) for each in answers() if not each.inside), *lines_of_shares(answers())])


def test_the_table_is_whole():
    cases = read_cases()
    assert len(cases) == 194
    assert sum(case.seen == "yes" for case in cases) == 142
    assert {case.seen for case in cases} == {"yes", "memory"}
    assert {case.event for case in cases} == set(EVENTS)
    assert {case.place for case in cases} == set(read_places())
    assert {case.crop for case in cases} <= set(load_catalogue().crops)
    for case in cases:
        assert case.earliest <= case.latest, case
        assert case.planted is None or case.planted <= case.latest, case
        assert (case.planted is None) == (case.event in ("start", "lastsow")), case
        assert by_group(case) in GROUPS


def test_ranges_are_narrow():
    """A range of half a year would be inside whatever is said; half of the sources print seven weeks or less."""
    widths = [(case.latest - case.earliest).days for case in read_cases()]
    assert max(widths) < 160
    assert np.median(widths) <= 50


@pytest.mark.parametrize("event", EVENTS)
def test_of_each_event_three_in_four_are_inside(event):
    share = shares(seen(answers()), by_event)[event]
    assert share.whole >= ENOUGH
    assert share.share >= OF_EVENT, outside()
    assert shares(answers(), by_event)[event].share >= OF_EVENT, outside()


@pytest.mark.parametrize("kind", [by_place, by_group])
def test_no_place_and_no_kind_of_crop_is_far_worse(kind):
    for told in (seen(answers()), answers()):
        enough = {name: part for name, part in shares(told, kind).items() if part.whole >= ENOUGH}
        assert len(enough) >= 4
        assert [name for name, part in enough.items() if part.share < OF_PART] == [], outside()


def test_every_case_has_a_day():
    assert [line(each) for each in answers() if each.day is None] == []


def test_days_outside_are_near():
    """Nine in ten of all days are in their ranges or within two weeks of them."""
    off = [abs(each.off) for each in answers()]
    assert sum(days <= 14 for days in off) >= 0.9 * len(off), outside()


def test_the_script_prints_the_cases_outside_and_all_shares(capsys):
    print_outside()
    lines = capsys.readouterr().out.splitlines()
    missed = [each for each in answers() if not each.inside]
    assert lines[: len(missed)] == [line(each) for each in missed]
    assert lines[len(missed) :] == lines_of_shares(answers())
    print_outside(["leek"])
    few = capsys.readouterr().out.splitlines()
    assert [text for text in few if "->" in text] == [
        line(each) for each in missed if each.case.crop == "leek"
    ]


def test_days_off_are_counted_from_the_nearer_end_of_a_range():
    case = read_cases()[0]
    for days, off in ((-3, -3), (0, 0), (1, 0)):
        told = Answer(case, case.earliest + dt.timedelta(days=days), "")
        assert (told.off, told.inside) == (off, off == 0)
    assert Answer(case, case.latest + dt.timedelta(days=5), "").off == 5
    assert Answer(case, None, "").off == 365
    assert str(share_of([Answer(case, case.latest, ""), Answer(case, None, "")])) == "1/2 50 %"


VERDICTS = {"figure", "model", "sort", "use", "sources disagree", "memory"}


def test_every_case_outside_is_explained_one_by_one():
    """The table says of each whether a figure, the model, a sort, another use or another source is the reason."""
    with (REFERENCE / "calendar_outside.csv").open(encoding="utf-8", newline="") as file:
        told = {
            (row["place"], row["crop"], row["event"], row["planted"]): (row["verdict"], row["why"])
            for row in csv.DictReader(file)
        }
    assert {verdict for verdict, _ in told.values()} <= VERDICTS
    assert all(why for _, why in told.values())
    missing = [
        line(each)
        for each in answers()
        if not each.inside
        and (each.case.place, each.case.crop, each.case.event, str(each.case.planted or "")) not in told
    ]
    assert missing == []
