"""Benches that are too small: what is said of them, and what makes room."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import beans, day, lettuce, made, plot
from making import bed, rectangle

from planner.amounts.bench import bench_year
from planner.checks import Finding, check_all
from planner.garden import Bench, Garden
from planner.garden import edits as e
from planner.plan import Plan

CELLS = {"way": "cells", "cells": 36}


def table(kind: str = "cool", length: float = 1.12, key: str = "t1") -> Bench:
    return Bench.model_validate({"id": key, "name": "Table", "kind": kind, "length": length, "width": 0.6})


def two_sowings(first: tuple[int, int] = (5, 24), *benches: Bench) -> Garden:
    return made(
        bed("b1", name="North"),
        bed("b2", rectangle(4.8, 1.2, center=(0, 4)), name="South"),
        lettuce(raising=CELLS),
        lettuce("p2", bed="b2", first=day(*first), raising=CELLS),
        benches=benches or (table(),),
    )


def of_benches(garden: Garden) -> list[Finding]:
    return [one for one in check_all(Plan(garden, 2026), light=False) if one.check == "bench"]


def test_a_finding_names_bench_days_and_numbers_as_counted():
    garden = two_sowings()
    (one,) = of_benches(garden)
    (there,) = bench_year(Plan(garden, 2026)).benches
    full = [there.first + dt.timedelta(days=n) for n, trays in enumerate(there.trays) if trays > 4]
    assert (one.span.first, one.span.last) == (full[0], full[-1])
    assert one.text.startswith("Table holds 4 trays; from 26 Apr to 1 May up to ")
    assert f"up to {max(there.trays)} would stand on it: butterhead lettuce" in one.text
    assert set(one.plantings) == {"p1", "p2"}
    assert one.severity == "mind"


def test_each_mend_makes_room_and_says_where():
    garden = two_sowings()
    (one,) = of_benches(garden)
    words = [fix.text for fix in one.fixes]
    assert any("a week later" in text and (" in North" in text or " in South" in text) for text in words)
    assert any("in smaller cells" in text for text in words)
    for fix in one.fixes:
        after = Plan(fix.apply(garden), 2026)
        assert bench_year(after).benches[0].too_full() == (), fix.text


def test_a_mend_of_smaller_cells_keeps_to_the_widths_that_are_printed():
    """Cabbage is raised in cells of 3.5 cm, a tray of 128 (usu_brassica): none smaller is offered."""
    garden = made(
        bed(), beans(crop="cabbage", first=day(5, 10), covers=[{"kind": "netting"}], arrangement={"kind": "rows", "in_row_spacing": 0.1, "row_spacing": 0.1}),
        benches=(table(length=0.3),),
    )  # fmt: skip
    (one,) = of_benches(garden)
    assert not any("smaller cells" in fix.text for fix in one.fixes)


@pytest.mark.parametrize(("kind", "severity"), [("heated", "mind"), ("cold frame", "note")])
def test_a_full_cold_frame_is_a_note(kind, severity):
    one, other = table("cool", 4.0, "t1"), table(kind, 0.3, "t2").with_(name="Small")
    found = of_benches(two_sowings((5, 10), one, other))
    assert [(f.about, f.severity) for f in found] == [("Small", severity)]


def test_nothing_is_said_without_benches_or_where_there_is_room():
    assert of_benches(two_sowings().with_(benches=())) == []
    assert of_benches(two_sowings((5, 31))) == []
    assert of_benches(e.put_bench(two_sowings(), "t1", length=2.0)[0]) == []


def test_days_soon_after_each_other_are_one_finding():
    garden = made(
        bed("b1"),
        *(bed(f"b{n}", rectangle(4.8, 1.2, center=(0, 4.0 * n))) for n in (2, 3)),
        lettuce(raising=CELLS),
        lettuce("p2", bed="b2", first=day(5, 24), raising=CELLS),
        lettuce("p3", bed="b3", first=day(6, 7), raising=CELLS),
        benches=(table(),),
    )
    (there,) = bench_year(Plan(garden, 2026)).benches
    assert len(there.too_full()) == 2
    (one,) = of_benches(garden)
    assert (one.span.first, one.span.last) == (there.too_full()[0].first, there.too_full()[1].last)


def test_a_finding_follows_the_seed_that_was_tested():
    """Seed of which little comes up is sown thicker, and takes more trays."""
    garden = made(bed(), beans(plot=plot(0, 1.3)), benches=(table(length=0.3),))
    assert of_benches(garden) == []
    poor, _ = e.put_lot(garden, crop="dwarf_bean", seeds=900, packed=2025, germination=0.3)
    plan = Plan(garden, 2026)
    check_all(plan, light=False)
    found = [one for one in check_all(plan.after(poor), light=False) if one.check == "bench"]
    assert [one.key for one in found] == [one.key for one in of_benches(poor)]
    assert found
