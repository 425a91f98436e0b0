"""bedwright tick: work is ticked off with its day, and taken back."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from making import bed, garden, planting, ticked

from planner.garden import Climate, Dressing, FrostDates
from planner.storage import load, save

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)


@pytest.fixture
def file(tmp_path):
    """A garden with potatoes in one bed, and rhubarb in another and in the same."""
    path = tmp_path / "garden.bedwright"
    potato = planting("p1", "b1", crop="potato", start="tubers", first=D(2026, 4, 10))
    old = {"crop": "rhubarb", "start": "standing", "year": 2020, "first": D(2020, 3, 1)}
    made = garden(
        bed("b1", name="North"),
        bed("b2", name="South"),
        potato,
        planting("p2", "b2", **old),
        planting("p3", "b1", **old),
        climate=CLIMATE,
    )
    save(made, path)
    return path


def test_work_is_ticked_off_corrected_and_taken_back(bedwright, file):
    code, out, _ = bedwright("tick", str(file), "earth up again", "2026-06-20")
    assert code == 0
    assert out == f"{file}: Earth up potato in North a second time: done on 2026-06-20\n"
    assert load(file).records == (ticked("p1", "earth up again", D(2026, 6, 20), id="r1"),)
    bedwright("tick", str(file), "earth up again", "2026-06-22")
    assert [record.day for record in load(file).records] == [D(2026, 6, 22)]
    work = json.loads(bedwright("tasks", str(file), "--year", "2026", "--json")[1])["tasks"]
    assert [(one["first"], one["done"]) for one in work if one["work"] == "earth up again"] == [
        ("2026-06-22",) * 2
    ]
    bedwright("tick", str(file), "earth up again", "2026-06-22", "--undo")
    assert load(file).records == ()


def test_yearly_work_has_a_tick_for_each_year(bedwright, file):
    for day in ("2025-04-20", "2026-04-22"):
        assert bedwright("tick", str(file), "mulch", day, "--bed", "South")[0] == 0
    assert {(one.planting, one.day) for one in load(file).records} == {
        ("p2", D(2025, 4, 20)),
        ("p2", D(2026, 4, 22)),
    }
    bedwright("tick", str(file), "mulch", "2025-04-20", "--planting", "p2", "--undo")
    assert [one.day for one in load(file).records] == [D(2026, 4, 22)]


def test_a_planting_is_named_where_several_have_the_work(refused, file):
    before = file.read_bytes()
    error = refused("tick", str(file), "mulch", "2026-04-20")
    assert "'mulch' is work on 2 plantings: rhubarb in South, " in error
    assert "2026 (p2); rhubarb in North, " in error
    assert "--bed, --crop or --planting" in error
    other = refused("tick", str(file), "mulch", "2026-04-20", "--crop", "potato", "--bed", "South")
    assert "there is no potato in 'South'" in other
    assert "In 2026 there is rhubarb" in other
    assert "no work 'dance' is planned there" in refused(
        "tick", str(file), "dance", "2026-04-20", "--crop", "potato"
    )
    assert "There is 'chit'" in refused("tick", str(file), "dance", "2026-04-20", "--crop", "potato")
    assert "there is no crop 'quince tart'" in refused(
        "tick", str(file), "mulch", "2026-04-20", "--crop", "quince tart"
    )
    assert "is before 'earth up'" in _twice(refused, file)
    assert file.read_bytes() == before


def _twice(refused, file) -> str:
    """A second earthing up before the first one that is recorded."""
    made = load(file)
    other = file.with_name("other.bedwright")
    save(made.with_(records=(ticked("p1", "earth up", D(2026, 6, 10)),)), other)
    return refused("tick", str(other), "earth up again", "2026-06-01")


@pytest.fixture
def dressed(tmp_path):
    """A bed with two dressings, another with one, and a planting under two covers."""
    path = tmp_path / "dressed.bedwright"
    spread = [
        Dressing(id=f"d{n}", bed=bed, kind=kind, day=D(2026, 3, 10), depth=0.05)
        for n, (bed, kind) in enumerate((("b1", "compost"), ("b1", "straw"), ("b2", "compost")), 1)
    ]
    covers = ({"kind": "fleece"}, {"kind": "netting", "first": "2026-06-01"})
    made = garden(
        bed("b1", name="North"),
        bed("b2", name="South"),
        planting("p1", first=D(2026, 4, 10), covers=covers),
        climate=CLIMATE,
        dressings=tuple(spread),
    )
    save(made, path)
    return path


def test_what_was_spread_is_ticked_off_by_bed_or_id(bedwright, dressed):
    code, out, _ = bedwright("tick", str(dressed), "spread", "2026-03-12", "--bed", "South")
    assert (code, out) == (
        0,
        f"{dressed}: Spread compost in South, 5 cm deep, 288 l (about 3 barrows): done on 2026-03-12\n",
    )
    code, _, error = bedwright("tick", str(dressed), "spread", "2026-03-12", "--bed", "North")
    assert code == 2
    assert "work on 2 dressings: compost in North" in error
    assert "--planting" in error
    assert bedwright("tick", str(dressed), "spread", "2026-03-13", "--planting", "d2")[0] == 0
    assert [one.done for one in load(dressed).dressings] == [None, D(2026, 3, 13), D(2026, 3, 12)]
    bedwright("tick", str(dressed), "spread", "2026-03-13", "--planting", "d2", "--undo")
    assert load(dressed).dressings[1].done is None


def test_work_on_one_of_two_covers_is_named(bedwright, dressed):
    code, _, error = bedwright("tick", str(dressed), "cover on", "2026-06-03")
    assert code == 2
    assert "'cover on' is work on 2 covers: fleece, netting" in error
    assert bedwright("tick", str(dressed), "cover on", "2026-06-03", "--cover", "netting")[0] == 0
    assert load(dressed).records == (ticked("p1", "cover on", D(2026, 6, 3), "netting", id="r1"),)


@pytest.fixture
def cabbages(tmp_path):
    """Cabbage in one bed two years ago, and twice in another this year."""
    path = tmp_path / "cabbages.bedwright"

    def cabbage(key: str, where: str, year: int, month: int = 5):
        return planting(key, where, crop="cabbage", start="raised", year=year, first=D(year, month, 25))

    save(
        garden(
            bed("b1", name="West 3"),
            bed("b2", name="West 4"),
            cabbage("old", "b1", 2024),
            cabbage("early", "b2", 2026),
            cabbage("late", "b2", 2026, 7),
            climate=CLIMATE,
        ),
        path,
    )
    return path


def test_a_tick_goes_to_no_planting_of_another_year(bedwright, refused, cabbages):
    before = cabbages.read_bytes()
    error = refused("tick", str(cabbages), "set out", "25 May 2026", "--bed", "West 3", "--crop", "cabbage")
    assert "no work 'set out' is planned there in 2026" in error
    assert "cabbage in West 3, 25 May 2024 (old)" in error
    assert "--planting" in error
    assert cabbages.read_bytes() == before
    assert bedwright("tick", str(cabbages), "set out", "2024-05-20", "--crop", "cabbage")[0] == 0
    assert [(one.planting, one.day) for one in load(cabbages).records] == [("old", D(2024, 5, 20))]


def test_two_plantings_of_one_year_are_told_apart_by_day_and_id(bedwright, refused, cabbages):
    error = refused("tick", str(cabbages), "set out", "25 May 2026", "--crop", "cabbage")
    assert "cabbage in West 4, 25 May 2026 (early); cabbage in West 4, 25 Jul 2026 (late)" in error
    assert bedwright("tick", str(cabbages), "set out", "2026-07-20", "--planting", "late")[0] == 0
    assert [one.planting for one in load(cabbages).records] == ["late"]
