"""bedwright amounts: text, JSON, CSV, years."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json

from making import bed, garden, planting
from plot_garden import GARDEN

from planner.garden import Garden, Planting, Rows
from planner.listings.reports.amounts import AMOUNT_COLUMNS, amount_rows
from planner.plan import Plan
from planner.storage import load, save


def test_amounts_as_json(bedwright, file):
    code, out, err = bedwright("amounts", file, "--json")
    assert code == 0
    rows = {row["planting_id"]: row for row in json.loads(out)["plantings"]}
    assert list(rows) == ["p1", "p2", "p3"]
    raised = rows["p1"]
    wanted = {"bed": "North", "bed_id": "b1", "crop": "cabbage", "crop_name": "cabbage", "variety": "Drum"}
    assert wanted.items() <= raised.items()
    assert (raised["plants"], raised["rows"], raised["area_m2"]) == (36, 3, 5.76)
    assert raised["seeds"] == raised["plants_to_raise"] > 36
    assert raised["sets_and_plants_needed"] == 0
    assert raised["seed_g"] > 0
    assert (rows["p3"]["plants"], rows["p3"]["sets_and_plants_needed"], rows["p3"]["seeds"]) == (2, 2, 0)
    assert "1 of 3 places" in rows["p3"]["problem"]
    assert rows["p2"]["plants"] == 0
    assert rows["p2"]["problem"]
    assert err.count("\n") == 1


def test_unknown_crop_is_named_with_what_may_be_meant(bedwright, file):
    _, _, err = bedwright("amounts", file)
    assert err == "bedwright: South: 'carot' is not in the catalogue; did you mean 'carrot'?\n"


def test_amounts_as_text(bedwright, file):
    code, out, _ = bedwright("amounts", file)
    assert code == 0
    lines = out.splitlines()
    assert lines[0] == "Plot, growing year 2025"
    north = lines.index("North (5.76 m²)")
    assert " ".join(lines[north + 1 : north + 3]).split() == ["sets", "and", "plants", "plants"]
    heads = "crop variety start plants rows seeds seed, g to raise needed"
    assert lines[north + 3].split() == heads.split()
    assert lines[north + 4].split()[:5] == ["cabbage", "Drum", "raised", "36", "3"]
    assert "Totals" in lines
    problems = lines[lines.index("Problems") :]
    assert any("garlic lie outside its plot." in line for line in problems)
    assert any(line.startswith("  South: carot is not in the catalogue") for line in problems)
    assert "Not known (?)" in lines


def test_amounts_of_another_year(bedwright, file):
    _, out, _ = bedwright("amounts", file, "--year", "2023", "--json")
    assert [row["crop"] for row in json.loads(out)["plantings"]] == ["kale"]


def test_amounts_of_a_year_without_plantings(bedwright, file):
    code, out, err = bedwright("amounts", file, "--year", "2030")
    assert (code, err) == (0, "")
    assert out == "Plot: nothing is planted in 2030. Years with plantings: 2023, 2025.\n"
    found = json.loads(bedwright("amounts", file, "--year", "2030", "--json")[1])
    assert (found["growing_year"]["year"], found["plantings"], found["totals"]) == (2030, [], [])


def test_amounts_of_an_empty_garden(bedwright, tmp_path):
    save(Garden(), tmp_path / "e.bedwright")
    code, out, _ = bedwright("amounts", str(tmp_path / "e.bedwright"))
    assert code == 0
    assert out == f"Garden: nothing is planted in {dt.date.today().year}.\n"


def test_amounts_as_csv(bedwright, file, tmp_path):
    out = tmp_path / "amounts.csv"
    assert bedwright("amounts", file, "--csv", str(out))[0] == 0
    data = out.read_bytes().decode("utf-8")
    assert data.count("\r\n") == data.count("\n") == 4
    rows = list(csv.DictReader(io.StringIO(data, newline="")))
    assert rows[0]["plants"] == "36"
    assert rows[1]["variety"] == "'=1+1"
    assert bedwright("amounts", file, "--csv", "-")[1] == data.replace("\r\n", "\r\n")


def test_csv_has_the_columns_of_json(file):
    from planner.amounts import amounts

    rows = amount_rows(amounts(Plan(load(file), 2025)))
    assert all(tuple(row) == AMOUNT_COLUMNS for row in rows)


def test_totals_agree_with_the_plantings(bedwright, tmp_path):
    arrangement = Rows(in_row_spacing=0.4, row_spacing=0.4)
    plantings = tuple(
        Planting(id=f"p{i}", bed=f"b{i}", crop="cabbage", year=2025, arrangement=arrangement)
        for i in (1, 2, 3)
    )
    save(GARDEN.with_(plantings=plantings), tmp_path / "t.bedwright")
    _, out, _ = bedwright("amounts", str(tmp_path / "t.bedwright"))
    total = out[out.index("Totals") :].splitlines()[4].split()
    assert total[:3] == ["cabbage", "3", "108"]


def test_json_and_csv_at_once(refused, file):
    assert "not allowed with" in refused("amounts", file, "--json", "--csv", "x.csv")


def refused_after_warning(refused, *arguments: str) -> str:
    """The garden's unknown crop is complained of first; look at a year without it."""
    return refused(*arguments, "--year", "2023")


def test_csv_over_the_garden_itself(refused, file):
    with open(file) as stream:
        before = stream.read()
    assert "is the garden file itself" in refused_after_warning(refused, "amounts", file, "--csv", file)
    with open(file) as stream:
        assert stream.read() == before


def test_csv_into_a_folder_that_is_not_there(refused, file, tmp_path):
    out = str(tmp_path / "no" / "x.csv")
    assert "cannot be written: No such file or directory" in refused_after_warning(
        refused, "amounts", file, "--csv", out
    )


def test_a_year_in_which_all_stands_already_says_so(bedwright, tmp_path):
    made = garden(
        bed("b1", name="North"), planting("p1", "b1", crop="rhubarb", year=2025, first="2025-04-01")
    )
    path = tmp_path / "standing.bedwright"
    save(made, path)
    code, out, _ = bedwright("amounts", str(path), "--year", "2026")
    assert code == 0
    assert "Nothing is sown or planted in 2026." in out
    assert "North: rhubarb, since " in out
    assert "Years with plantings" not in out
