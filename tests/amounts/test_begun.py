"""Amounts, shortages and findings hold what is begun in the growing year, and agree."""

from __future__ import annotations

import datetime as dt
import itertools
import json

import pytest
from begun_garden import BEGUN, NOT_BEGUN, YEAR, begun_garden, garden_of_all_stock, keys
from making import bed, garden, planting
from sample_reading import FOLDER

from planner.amounts import Need, amounts, begun_before, begun_in_year, begun_on, needs, shortages
from planner.checks import check_all, check_only
from planner.checks.grouping import group_mends, grouped
from planner.cli import main
from planner.garden import Garden, Site
from planner.garden import edits as e
from planner.listings.findings import findings_lines
from planner.plan import Plan
from planner.storage import load, save

D = dt.date
SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))


def gardens() -> dict[str, Garden]:
    own = {"all cases": begun_garden(), "all cases of stock": garden_of_all_stock()}
    return {name: load(FOLDER / f"{name}.bedwright") for name in SAMPLES} | own


def _sort(need: Need) -> str:
    return f"{need.name} '{need.variety}'" if need.variety else need.name


def _listed(text: str) -> list[str]:
    """The sorts that the lines of amounts call short."""
    _, _, rest = text.partition("Seed that is short\n")
    lines = itertools.takewhile(bool, rest.splitlines())
    return sorted(line.strip().partition(": ")[0] for line in lines if " seeds ordered" not in line)


def test_only_what_is_begun_in_the_year_counts():
    plan = Plan(begun_garden(), YEAR)
    assert {part.planting.id for part in amounts(plan)} == keys(BEGUN)
    got = {p.id for p in begun_before(plan)}
    assert got == keys(NOT_BEGUN - {"next year's peas"})


def test_every_planting_begins_in_one_year_only():
    document = begun_garden()
    begun: list[str] = []
    for year in range(YEAR - 6, YEAR + 3):
        begun += [planting.id for planting in begun_in_year(Plan(document, year))]
    assert sorted(begun) == sorted(keys(BEGUN | NOT_BEGUN) - {"standing_sage"})


def test_garlic_of_last_autumn_is_not_to_get_again():
    both = {p: Plan(begun_garden(), YEAR + change) for change, p in enumerate(("this", "next"))}
    assert [p.planting.id for p in amounts(both["this"]) if p.crop == "garlic"] == ["autumn_garlic"]
    assert [p.planting.id for p in amounts(both["next"]) if p.crop == "garlic"] == []


@pytest.mark.parametrize("first_month", [1, 3, 7, 10])
def test_young_plants_count_where_their_seed_is_sown(first_month):
    fields = {"crop": "tomato", "start": "raised", "year": 2026}
    pins = {"sow": D(2026, 2, 20), "set_out": D(2026, 5, 20)}
    document = garden(bed(), planting(pinned_dates=pins, **fields), site=Site(first_month=first_month))
    plans = [Plan(document, year) for year in (2024, 2025, 2026)]
    begun = [plan.year for plan in plans if begun_in_year(plan)]
    assert begun == [2026 if first_month == 1 else 2025]


def test_what_was_really_done_decides_in_which_year_it_begins():
    document = garden(bed(), planting(crop="garlic", start="cloves", year=2026, first=D(2026, 12, 20)))
    assert [p.id for p in begun_in_year(Plan(document, 2026))] == ["p1"]
    late = e.tick(document, "p1", "set out", D(2027, 1, 4))
    assert begun_in_year(Plan(late, 2026)) == ()
    plan = Plan(late, 2027)
    assert begun_on(plan, late.plantings[0]) == D(2027, 1, 4)
    assert [part.acquire > 0 for part in amounts(plan)] == [True]


def test_every_sort_that_is_short_is_a_finding_with_its_numbers():
    plan = Plan(garden_of_all_stock(), YEAR)
    found = {one.about: one for one in check_all(plan, light=False) if one.check == "stock"}
    assert {one.kind for one in found.values()} == {"short", "old", "none", "unknown"}
    assert all(one.severity == "note" for one in found.values())
    short = {_sort(need): need for need in shortages(plan)}
    assert set(found) == set(short)
    assert found["dwarf bean"].text.startswith("20 seeds of dwarf bean are on hand and 50 are ordered; ")
    assert found["dwarf bean"].text.endswith(f" {short['dwarf bean'].short} short")
    assert found["spinach"].text.startswith(f"No seed of spinach is on hand; {short['spinach'].short} seeds ")
    assert found["carrot 'Long'"].text.startswith("No seed of carrot 'Long' is on hand; ")
    assert found["kale"].text.endswith(f"{short['kale'].short} seeds are wanted by 1 Jun")
    assert found["pea"].text == (
        "Whether the seed of pea is enough cannot be counted: Neither seeds nor grams are given"
    )
    assert found["pea"].fixes == ()
    lettuce = short["butterhead lettuce"]
    assert lettuce.short == 1
    assert found["butterhead lettuce"].text.endswith(": 1 short")


def test_all_sorts_without_a_packet_are_one_line_with_one_mend():
    document = garden_of_all_stock()
    plan = Plan(document, YEAR)
    groups = grouped(plan, check_all(plan, light=False))
    (none,) = [one for one in groups if one.findings[0].kind == "none"]
    assert none.text == "Of 2 sorts no seed is on hand"
    assert none.about == ("carrot 'Long'", "spinach")
    lines = findings_lines(plan, none.findings)
    assert "    Carrot 'Long' and spinach." in lines
    assert "    Note what is short as ordered: all 2." in lines
    (mend,) = group_mends(plan, none.findings)
    assert mend.text == "Note what is short as ordered: all 2"
    after = check_all(Plan(mend.apply(document), YEAR), light=False)
    assert not {one.kind for one in after} & {"none"}


def test_nothing_is_said_of_seed_where_no_stock_is_entered():
    plan = Plan(garden_of_all_stock().with_(stock=()), YEAR)
    assert shortages(plan)
    assert [one for one in check_all(plan, light=False) if one.check == "stock"] == []


@pytest.mark.parametrize("name", [*SAMPLES, "all cases", "all cases of stock"])
def test_command_findings_and_needs_agree(name, tmp_path, capsys):
    document = gardens()[name]
    save(document, tmp_path / "g.bedwright")
    for year in document.years():
        plan = Plan(document, year)
        parts = {part.planting.id: part for part in amounts(plan)}
        assert main(["amounts", str(tmp_path / "g.bedwright"), "--year", str(year), "--json"]) == 0
        rows = json.loads(capsys.readouterr().out)
        rows = rows if isinstance(rows, list) else rows["plantings"]
        assert {row["planting_id"] for row in rows} == set(parts)
        assert all(plan.span.holds(begun_on(plan, part.planting)) for part in parts.values())
        of_year = {(need.name, need.variety): need for need in needs(plan)}
        sown = {(p.crop, p.variety) for p in parts.values() if p.seeds or p.seeds is None}
        assert set(of_year) == sown
        for need in shortages(plan):
            group = [p.seeds for p in parts.values() if (p.crop, p.variety) == (need.name, need.variety)]
            assert need.seeds is None or need.seeds == sum(group)
        found = check_only(plan, ["stock"])
        for one in found:
            assert set(one.plantings) <= set(parts)
            crops = {(parts[key].crop, parts[key].variety) for key in one.plantings}
            assert len(crops) == 1
            need = of_year[crops.pop()]
            assert need.short or need.short is None
            assert f"{need.seeds} " in one.text or need.short is None
        wanted = [_sort(need) for need in shortages(plan)] if document.stock else []
        assert sorted(one.about for one in found) == sorted(wanted)
        assert main(["amounts", str(tmp_path / "g.bedwright"), "--year", str(year)]) == 0
        assert _listed(capsys.readouterr().out) == sorted(wanted)
