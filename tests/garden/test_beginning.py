"""A garden begun with answers."""

from __future__ import annotations

import pytest

from planner.garden import Garden, edits
from planner.garden.edits import BedRange, Beginning, EditError, begin_garden


def test_every_answer_is_written_where_forms_write_it():
    answers = Beginning(
        latitude=-41.3,
        longitude=174.8,
        time_zone="Pacific/Auckland",
        units="feet_inches",
        last_frost="10-05",
        first_frost="05-02",
        risk=10,
        beds=BedRange("Box", 1.0, 0.4, across=3, path_across=0.3),
        boxed=True,
    )
    garden, keys = begin_garden(Garden(), answers)
    by_forms = edits.change_site(
        Garden(), latitude=-41.3, longitude=174.8, time_zone="Pacific/Auckland", units="feet_inches"
    )
    by_forms = edits.set_frost_days(by_forms, "last_frost", {10: "10-05"})
    by_forms = edits.set_frost_days(by_forms, "first_frost", {10: "05-02"})
    by_forms = edits.change_climate(by_forms, risk=10)
    assert (garden.site, garden.climate) == (by_forms.site, by_forms.climate)
    assert [bed.name for bed in garden.beds] == ["Box 1", "Box 2", "Box 3"]
    assert len(keys) == 3
    assert all(bed.kind == "container" and bed.depth for bed in garden.beds)


def test_what_was_not_answered_stays_unknown():
    garden, keys = begin_garden(Garden(), Beginning(beds=None))
    assert garden == Garden()
    assert keys == ()


def test_no_frost_at_all_leaves_no_frost_days():
    garden, _ = begin_garden(Garden(), Beginning(last_frost="05-10", frost_free=True))
    assert garden.climate.frost_free
    assert garden.climate.last_frost is None


def test_an_impossible_day_is_refused_by_name():
    with pytest.raises(EditError, match="frost dates"):
        begin_garden(Garden(), Beginning(last_frost="02-31"))
