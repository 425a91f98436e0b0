"""``bedwright amounts --what shopping``, and every part as a workbook."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import subprocess
import sys

import pytest
from making import bed, garden, planting
from openpyxl import load_workbook
from sample_reading import sample

from planner.garden import (
    Climate,
    Dressing,
    FrostDates,
    Garden,
    Lot,
    Offer,
    PlantingStock,
    ShedItem,
    Site,
    Stretch,
)
from planner.listings.amounts_parts import PARTS
from planner.storage import save

HOLLOW = str(sample("hollow_lane"))
WORDS = ("plants", *PARTS)


def allotment(**site: object) -> Garden:
    return garden(
        bed("b1", name="North"),
        bed("b2", name="South"),
        planting("p1", plot=Stretch(start=0, end=2)),
        planting("p2", "b2", crop="potato", variety="Pink"),
        planting("p3", crop="onion", start="sets", plot=Stretch(start=2, end=4)),
        site=Site(name="Plot", latitude=52.0, currency="€", **site),
        climate=Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17")),
        dressings=(Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 1), depth=0.05),),
        stock=(Lot(id="l1", crop="carrot", seeds=100),),
        planting_stock=(PlantingStock(id="g1", crop="onion", kind="sets", number=900, ordered=True),),
        offers=(
            Offer(id="o1", crop="carrot", seeds=400, price=2.5, shop="Corner shop", notes="untreated\nred"),
            Offer(id="o2", crop="potato", variety="Pink", kind="tubers", pieces=20),
        ),
        shed=(
            ShedItem(id="m1", kind="compost", litres=50, sold=True, price=7, shop="yard", name="peat-free"),
        ),
    )


@pytest.fixture
def allotment_file(tmp_path):
    path = tmp_path / "a.bedwright"
    save(allotment(), path)
    return str(path)


def test_the_list_as_text(bedwright, allotment_file):
    code, out, err = bedwright("amounts", allotment_file, "--what", "shopping")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Plot, to buy for 2026"
    carrot = next(line for line in lines if " carrot " in line)
    assert "2 packets of 400 seeds" in carrot
    assert "€5.00" in carrot
    assert carrot.endswith("Corner shop (untreated)")
    onion = next(line for line in lines if " onion (sets) " in line).split()
    assert onion[-5:] == ["900", "-", "-", "-", "-"]
    assert any("6 bags of 50 l" in line and "€42.00" in line and "yard (peat-free)" in line for line in lines)
    assert any("1 pack of 20" in line and "potato Pink (tubers)" in line for line in lines)
    assert "In all €47.00; 1 line has no price" in lines
    assert any(line == "  Compost: 288 l for North." for line in lines)


def test_nothing_needed_and_everything_there_is_said(bedwright, tmp_path):
    path = tmp_path / "e.bedwright"
    save(garden(bed(), site=Site(name="Bare")), path)
    assert bedwright("amounts", str(path), "--what", "shopping", "--year", "2026")[1].endswith(
        "Nothing is needed in 2026.\n"
    )
    there = garden(bed(), planting(), stock=(Lot(id="l1", crop="carrot", seeds=90_000),))
    save(there, path)
    assert bedwright("amounts", str(path), "--what", "shopping")[1].endswith(
        "Everything for 2026 is on hand.\n"
    )


def test_gardens_in_feet_have_their_units(bedwright, tmp_path):
    path = tmp_path / "f.bedwright"
    save(allotment(units="feet_inches"), path)
    out = bedwright("amounts", str(path), "--what", "shopping")[1]
    assert "cu ft" in out
    assert " l " not in out


def test_csv_holds_what_json_holds(bedwright):
    records = json.loads(bedwright("amounts", HOLLOW, "--what", "shopping", "--json")[1])["items"]
    rows = list(
        csv.DictReader(io.StringIO(bedwright("amounts", HOLLOW, "--what", "shopping", "--csv", "-")[1]))
    )
    assert len(rows) == len(records) > 40
    for row, record in zip(rows, records, strict=True):
        for name, text in row.items():
            value = record[name]
            wanted = "; ".join(value) if isinstance(value, list) else "" if value is None else str(value)
            assert text == wanted


def test_json_adds_up(bedwright, allotment_file):
    report = json.loads(bedwright("amounts", allotment_file, "--what", "shopping", "--json")[1])
    assert report["currency"] == "€"
    bought = [one for one in report["items"] if one["status"] in ("to buy", "not known")]
    assert report["price"] == sum(one["price"] or 0 for one in bought) == 47
    assert report["without_price"] == sum(one["price"] is None for one in bought) == 1
    for one in report["items"]:
        assert sum(served["amount"] for served in one["serves"]) == pytest.approx(one["amount_needed"])
        assert {served["bed_id"] for served in one["serves"]} <= {"b1", "b2"}


@pytest.mark.parametrize("word", WORDS)
def test_a_workbook_holds_what_the_csv_holds_in_cells_of_their_kind(bedwright, tmp_path, word):
    path = tmp_path / "out.xlsx"
    assert bedwright("amounts", HOLLOW, "--what", word, "--xlsx", str(path)) == (0, "", "")
    head, *cells = load_workbook(path).active.iter_rows(values_only=True)
    rows = list(csv.reader(io.StringIO(bedwright("amounts", HOLLOW, "--what", word, "--csv", "-")[1])))
    assert list(head) == rows[0]
    assert len(cells) == len(rows) - 1 > 0
    kinds = set()
    for row, texts in zip(cells, rows[1:], strict=True):
        for value, text in zip(row, texts, strict=True):
            kinds.add(type(value))
            if isinstance(value, dt.datetime):
                assert value.date().isoformat() == text
            elif isinstance(value, (int, float)) and not isinstance(value, bool):
                assert value == pytest.approx(float(text))
            else:
                assert ("" if value is None else str(value)) == text
    assert str in kinds
    assert kinds & {int, float}


def test_a_workbook_of_other_work_is_not_overwritten(bedwright, tmp_path):
    path = tmp_path / "mine.xlsx"
    path.write_bytes(b"PK\x03\x04\x14\x00\x06\x00\x08\x00\x00\x00!\x00" + b"rest")
    code, _, err = bedwright("amounts", HOLLOW, "--what", "shopping", "--xlsx", str(path))
    assert code == 2
    assert "there is a file of another kind, which is not overwritten" in err
    assert path.read_bytes().endswith(b"rest")


def test_a_workbook_needs_its_ending(bedwright, tmp_path):
    code, _, err = bedwright("amounts", HOLLOW, "--xlsx", str(tmp_path / "out.xls"))
    assert code == 2
    assert "A workbook has a name that ends with .xlsx" in err


def test_the_library_of_workbooks_is_loaded_only_for_one():
    program = (
        "import sys; from planner.cli import main; main(sys.argv[1:]); sys.exit('xlsxwriter' in sys.modules)"
    )
    for more, loaded in (([], 0), (["--xlsx", "-"], 1)):
        arguments = [sys.executable, "-c", program, "amounts", HOLLOW, "--what", "ground", *more]
        assert subprocess.run(arguments, stdout=subprocess.DEVNULL, check=False).returncode == loaded
