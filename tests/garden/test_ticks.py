"""Records of tasks: their order, their years, and what removes them."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.garden import Garden
from planner.garden import edits as e
from planner.garden.edits import EditError

D = dt.date


@pytest.fixture
def two() -> Garden:
    """Two plantings, the first of them sown."""
    document = garden(bed(), planting("p1"), planting("p2"))
    return e.tick(document, "p1", "sow", D(2026, 4, 10))


def dates_of(document: Garden, kind: str) -> list[dt.date]:
    return [record.day for record in document.records if record.task == kind]


def test_a_second_tick_corrects_the_first(two):
    later = e.tick(two, "p1", "sow", D(2026, 4, 12))
    assert dates_of(later, "sow") == [D(2026, 4, 12)]
    assert e.tick(later, "p1", "sow", D(2026, 4, 12)) is later


def test_work_may_be_done_on_the_day_of_the_work_before_it(two):
    document = e.tick(two, "p1", "set out", D(2026, 4, 10))
    assert dates_of(document, "set out") == [D(2026, 4, 10)]


@pytest.mark.parametrize(
    "kind", ["prick out", "harden off", "set out", "thin", "pick", "lift and cure", "clear"]
)
def test_work_before_the_sowing_is_refused(two, kind):
    with pytest.raises(EditError, match=f"'{kind}' on 2026-04-09 is before 'sow' on 2026-04-10"):
        e.tick(two, "p1", kind, D(2026, 4, 9))
    assert e.tick(two, "p2", kind, D(2026, 4, 9)).records[-1].task == kind


def test_a_sowing_after_work_that_follows_it_is_refused(two):
    document = e.tick(two, "p1", "thin", D(2026, 5, 1))
    with pytest.raises(EditError, match="'thin' on 2026-05-01 is before 'sow' on 2026-05-02"):
        e.tick(document, "p1", "sow", D(2026, 5, 2))


@pytest.mark.parametrize(("days", "records"), [(183, 1), (184, 2)])
def test_yearly_work_has_a_record_for_each_year(two, days, records):
    first = D(2026, 4, 10)
    document = e.tick(e.tick(two, "p1", "mulch", first), "p1", "mulch", first + dt.timedelta(days))
    assert len(dates_of(document, "mulch")) == records


def test_other_work_has_one_record_in_all_years(two):
    document = e.tick(e.tick(two, "p1", "thin", D(2026, 5, 1)), "p1", "thin", D(2027, 5, 1))
    assert dates_of(document, "thin") == [D(2027, 5, 1)]


def test_untick_removes_the_record_of_one_year_or_of_all(two):
    document = two
    for year in (2025, 2026, 2027):
        document = e.tick(document, "p1", "mulch", D(year, 11, 1))
    one_less = e.untick(document, "p1", "mulch", D(2026, 10, 20))
    assert dates_of(one_less, "mulch") == [D(2025, 11, 1), D(2027, 11, 1)]
    assert dates_of(e.untick(document, "p1", "mulch"), "mulch") == []
    assert dates_of(one_less, "sow") == [D(2026, 4, 10)]
    assert e.untick(document, "p2", "mulch") is document


def test_records_go_with_their_planting(two):
    document = e.tick(two, "p2", "sow", D(2026, 4, 11))
    assert [record.planting for record in e.remove(document, ["p1"]).records] == ["p2"]
    assert e.remove(document, ["b1"]).records == ()


@pytest.mark.parametrize(("planting_id", "kind"), [("p9", "sow"), ("p1", "dance")])
def test_ticks_of_unknown_plantings_or_work_are_refused(two, planting_id, kind):
    with pytest.raises(EditError):
        e.tick(two, planting_id, kind, D(2026, 4, 11))


# -- waivers --------------------------------------------------------------------------------------

KEY = "crowding/p1/0123456789ab"


def test_a_waiver_has_its_reason_without_blanks(two):
    document = e.waive(two, KEY, "  on purpose ")
    assert [(one.finding, one.reason) for one in document.waived] == [(KEY, "on purpose")]
    assert e.waive(document, KEY, "on purpose") is document
    assert [one.reason for one in e.waive(document, KEY, "as last year").waived] == ["as last year"]


def test_a_waiver_without_a_reason_is_refused(two):
    with pytest.raises(EditError, match="reason"):
        e.waive(two, KEY, "  ")


def test_unwaive_removes_one_waiver(two):
    other = "frost/p2/0123456789ab"
    document = e.waive(e.waive(two, KEY, "x"), other, "y")
    assert [one.finding for one in e.unwaive(document, KEY).waived] == [other]
    assert e.unwaive(two, KEY) is two
