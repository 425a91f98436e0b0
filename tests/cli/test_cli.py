"""The command line, through its entry point."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import os
import subprocess
import sys
import types
from typing import Any

import jsonschema
import pytest

from planner.cli import command_line as cli
from planner.garden import Bed, Garden, Places, Planting, Rectangle, Rows, Site, Stretch
from planner.listings import tables
from planner.plan import Plan
from planner.storage import dump, load, save

BED = Rectangle(length=4.8, width=1.2)
GARDEN = Garden(
    site=Site(name="Plot"),
    beds=(
        Bed(id="b1", name="North", outline=BED),
        Bed(id="b2", name="South", outline=BED),
        Bed(id="b3", name="south", outline=BED),
        Bed(id="b4", name="Old", outline=BED, last_year=2024),
    ),
    plantings=(
        Planting(
            id="p1",
            bed="b1",
            crop="cabbage",
            variety="Drum",
            year=2025,
            start="raised",
            arrangement=Rows(in_row_spacing=0.4, row_spacing=0.4),
        ),
        Planting(id="p2", bed="b2", crop="carot", variety="=1+1", year=2025),
        Planting(
            id="p3",
            bed="b3",
            crop="garlic",
            year=2025,
            start="cloves",
            plot=Stretch(start=0, end=1.2),
            arrangement=Places(points=((-2.0, 0.0), (-1.8, 0.0), (9.0, 9.0))),
        ),
        Planting(id="p4", bed="b1", crop="kale", year=2023),
    ),
)


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "plot.bedwright"
    save(GARDEN, path)
    return str(path)


# -- amounts -----------------------------------------------------------------------------------


def test_amounts_as_json(bedwright, file):
    code, out, err = bedwright("amounts", file, "--json")
    assert code == 0
    rows = {row["planting_id"]: row for row in json.loads(out)}
    assert list(rows) == ["p1", "p2", "p3"]
    raised = rows["p1"]
    wanted = {"bed": "North", "bed_id": "b1", "crop": "cabbage", "crop_name": "cabbage", "variety": "Drum"}
    assert wanted.items() <= raised.items()
    assert (raised["plants"], raised["rows"], raised["area_m2"]) == (36, 3, 5.76)
    assert raised["seeds"] == raised["raise"] > 36
    assert raised["acquire"] == 0
    assert raised["seed_grams"] > 0
    assert (rows["p3"]["plants"], rows["p3"]["acquire"], rows["p3"]["seeds"]) == (2, 2, 0)
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
    assert lines[north + 1].split() == [
        "crop",
        "variety",
        "start",
        "plants",
        "rows",
        "seeds",
        "grams",
        "raise",
        "get",
    ]
    assert lines[north + 2].split()[:5] == ["cabbage", "Drum", "raised", "36", "3"]
    assert "Totals" in lines
    problems = lines[lines.index("Problems") :]
    assert any("garlic lie outside its plot." in line for line in problems)
    assert any(line.startswith("  South: carot is not in the catalogue") for line in problems)
    assert "Not known (?)" in lines


def test_amounts_of_another_year(bedwright, file):
    _, out, _ = bedwright("amounts", file, "--year", "2023", "--json")
    assert [row["crop"] for row in json.loads(out)] == ["kale"]


def test_amounts_of_a_year_without_plantings(bedwright, file):
    code, out, err = bedwright("amounts", file, "--year", "2030")
    assert (code, err) == (0, "")
    assert out == "Plot: nothing is planted in 2030. Years with plantings: 2023, 2025.\n"
    assert bedwright("amounts", file, "--year", "2030", "--json")[1] == "[]\n"


def test_amounts_of_an_empty_garden(bedwright, tmp_path):
    save(Garden(), tmp_path / "e.bedwright")
    code, out, _ = bedwright("amounts", str(tmp_path / "e.bedwright"))
    assert code == 0
    assert out == f"Garden: nothing is planted in {dt.date.today().year}.\n"


@pytest.mark.parametrize(
    ("latitude", "day", "year"),
    [(50, dt.date(2026, 3, 1), 2026), (-40, dt.date(2026, 3, 1), 2025), (-40, dt.date(2026, 7, 1), 2026)],
)
def test_usual_year_without_plantings(latitude, day, year):
    assert cli.usual_year(Garden(site=Site(latitude=latitude)), day) == year


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

    rows = tables.amount_rows(amounts(Plan(load(file), 2025)))
    assert all(tuple(row) == tables.AMOUNT_COLUMNS for row in rows)


def test_totals_agree_with_the_plantings(bedwright, tmp_path):
    arrangement = Rows(in_row_spacing=0.4, row_spacing=0.4)
    plantings = tuple(
        Planting(id=f"p{i}", bed=f"b{i}", crop="cabbage", year=2025, arrangement=arrangement)
        for i in (1, 2, 3)
    )
    save(GARDEN.with_(plantings=plantings), tmp_path / "t.bedwright")
    _, out, _ = bedwright("amounts", str(tmp_path / "t.bedwright"))
    total = out[out.index("Totals") :].splitlines()[2].split()
    assert total[:3] == ["cabbage", "3", "108"]


# -- what is refused ---------------------------------------------------------------------------


def test_file_that_is_not_there(refused, tmp_path):
    assert "there is no such file" in refused("amounts", str(tmp_path / "gone.bedwright"))


def test_damaged_file(refused, tmp_path):
    (tmp_path / "bad.bedwright").write_text('{"format": ')
    assert "is damaged at line 1" in refused("amounts", str(tmp_path / "bad.bedwright"))


def test_half_a_character_in_the_file(refused, tmp_path):
    fields = {"format": "bedwright garden", "schema": 1, "\ud83d": 1}
    (tmp_path / "bad.bedwright").write_text(json.dumps(fields))
    assert "half of a character" in refused("amounts", str(tmp_path / "bad.bedwright"))


def test_control_characters_do_not_reach_the_terminal(refused, tmp_path):
    fields = {"format": "bedwright garden", "schema": 1, "\x1b[31m\u202e": 1}
    (tmp_path / "bad.bedwright").write_text(json.dumps(fields))
    assert "\x1b" not in refused("amounts", str(tmp_path / "bad.bedwright"))


@pytest.mark.parametrize("year", ["soon", "1700", "2401", "-5", "２０２５", "2025.0"])
def test_year_that_is_none(refused, file, year):
    assert "--year" in refused("amounts", file, f"--year={year}")


def test_word_that_is_no_command(refused):
    assert refused("amonts") == "bedwright: there is no command and no file 'amonts'. Did you mean amounts?\n"


@pytest.mark.parametrize(
    "words", [["amounts"], ["amounts", "a", "b"], ["sheets", "a"], ["new", "a"], ["crops", "--x"]]
)
def test_command_that_is_not_whole(refused, words):
    assert "Help: bedwright " in refused(*words)


def test_json_and_csv_at_once(refused, file):
    assert "not allowed with" in refused("amounts", file, "--json", "--csv", "x.csv")


def test_csv_over_the_garden_itself(refused, file):
    with open(file) as stream:
        before = stream.read()
    assert "is the garden file itself" in refused_after_warning(refused, "amounts", file, "--csv", file)
    with open(file) as stream:
        assert stream.read() == before


def refused_after_warning(refused, *arguments: str) -> str:
    """The garden's unknown crop is complained of first; look at a year without it."""
    return refused(*arguments, "--year", "2023")


def test_csv_into_a_folder_that_is_not_there(refused, file, tmp_path):
    out = str(tmp_path / "no" / "x.csv")
    assert "cannot be written: No such file or directory" in refused_after_warning(
        refused, "amounts", file, "--csv", out
    )


def test_fault_in_the_program_gives_one_line(refused, file, monkeypatch):
    def breaks(*args):
        raise ZeroDivisionError("first\nsecond")

    monkeypatch.delenv("BEDWRIGHT_TRACEBACK", raising=False)
    monkeypatch.setattr(cli, "plan_of", breaks)
    assert "a fault in the program itself: ZeroDivisionError: first second" in refused("amounts", file)


def test_stopping_gives_one_line(bedwright, file, monkeypatch):
    def stops(*args):
        raise KeyboardInterrupt

    monkeypatch.setattr(cli, "plan_of", stops)
    assert bedwright("amounts", file) == (130, "", "bedwright: stopped.\n")


# -- other commands ----------------------------------------------------------------------------


def test_new_from_each_sample(bedwright, tmp_path):
    assert cli.samples()
    for name, path in cli.samples().items():
        out = tmp_path / f"{name}.bedwright"
        assert bedwright("new", str(out), "--sample", name)[0] == 0
        assert load(out) == load(path)


def test_new_never_overwrites(refused, file):
    assert "is not overwritten" in refused("new", file, "--sample", next(iter(cli.samples())))
    assert load(file) == GARDEN


def test_new_does_not_follow_a_link_to_nothing(refused, tmp_path):
    (tmp_path / "link").symlink_to(tmp_path / "plot.bedwright")
    refused("new", str(tmp_path / "link"), "--sample", next(iter(cli.samples())))
    assert not (tmp_path / "plot.bedwright").exists()


def test_new_from_a_sample_there_is_not(refused, tmp_path):
    name = next(iter(cli.samples()))
    line = refused("new", str(tmp_path / "x.bedwright"), "--sample", name[:-1])
    assert f"Did you mean {name}?" in line
    assert "there is no sample '../x'" in refused("new", str(tmp_path / "x.bedwright"), "--sample", "../x")


def test_schema(bedwright):
    code, out, _ = bedwright("schema")
    assert code == 0
    jsonschema.Draft202012Validator(json.loads(out)).validate(json.loads(dump(GARDEN)))


def test_help_and_version(bedwright):
    assert "COMMAND" in bedwright("--help")[1]
    assert "--year" in bedwright("amounts", "--help")[1]
    assert bedwright("--version")[1].startswith("Bedwright ")


def test_commands_of_the_parser_are_the_commands():
    text = cli.make_parser().format_help()
    assert all(f"\n    {name} " in text for name in cli.COMMANDS)


def test_one_crop_with_its_sources(bedwright, catalogue):
    code, out, _ = bedwright("crops", "carrots")
    assert code == 0
    assert out.startswith("carrot (Daucus carota")
    crop = catalogue.crops["carrot"]
    row = next(line for line in out.splitlines() if line.split()[:1] == ["in_row_spacing"])
    assert row.split()[1:3] == [f"{crop.in_row_spacing.value:g}", "m"]
    assert crop.in_row_spacing.source in row
    assert catalogue.source_line(crop.in_row_spacing.source) in out


def test_several_crops_are_listed(bedwright):
    _, out, _ = bedwright("crops", "bean")
    assert "broad bean" in out
    assert "runner bean" in out
    assert "Name one to see its figures" in out


def test_all_crops(bedwright, catalogue):
    assert f"{len(catalogue.crops)} crops." in bedwright("crops")[1]
    every = json.loads(bedwright("crops", "--json")[1])
    assert [crop["key"] for crop in every] == list(catalogue.crops)
    for crop in every:
        for figure in crop["figures"].values():
            assert figure["citation"] or not figure["applies"]


def test_crop_as_json(bedwright, catalogue):
    (found,) = json.loads(bedwright("crops", "carrot", "--json")[1])
    spacing, figure = found["figures"]["in_row_spacing"], catalogue.crops["carrot"].in_row_spacing
    assert (spacing["value"], spacing["unit"], spacing["source"]) == (figure.value, "m", figure.source)
    assert spacing["citation"] == catalogue.source_line(figure.source)
    assert set(found["figures"]) | set(found["not_known"]) == set(cli_fields())


def cli_fields() -> tuple[str, ...]:
    from planner.crops.crop import ENTRY_FIELDS

    return ENTRY_FIELDS


def test_one_typing_error_is_forgiven(bedwright):
    assert bedwright("crops", "parnsip")[1].startswith("parsnip (")
    assert bedwright("crops", "zuchini")[1].startswith("courgette (")


def test_coverage_counts_every_figure(bedwright, catalogue):
    code, out, _ = bedwright("crops", "--coverage")
    assert code == 0
    lines = out.splitlines()
    assert lines[0] == f"{len(catalogue.crops)} crops, {len(cli_fields())} fields"
    carrot = next(line.split() for line in lines if line.split()[:1] == ["carrot"])
    assert sum(map(int, carrot[1:6])) == len(carrot[6]) == len(cli_fields())
    (height,) = (line.split() for line in lines if line.startswith("  * height "))
    assert sum(map(int, height[2:7])) == len(catalogue.crops)
    assert "Published of the driving figures: " in lines[-1]


def test_coverage_as_json(bedwright, catalogue):
    found = json.loads(bedwright("crops", "--coverage", "--json")[1])
    assert found["crops"] == len(catalogue.crops) == len(found["by_crop"])
    whole = len(catalogue.crops) * len(cli_fields())
    words = ("published", "practice", "estimate", "missing", "does_not_apply")
    assert sum(found["total"][word] for word in words) == whole
    for word in words:
        assert sum(one[word] for one in found["by_crop"].values()) == found["total"][word]
        assert sum(one[word] for one in found["by_field"].values()) == found["total"][word]
        driving = [found["by_field"][field][word] for field in found["driving_fields"]]
        assert sum(driving) == found["driving"][word]
    driving = found["driving"]
    share = driving["published"] / (sum(driving[word] for word in words) - driving["does_not_apply"])
    assert driving["published_share"] == pytest.approx(share, abs=1e-4)
    assert driving["published_share_with_inapplicable"] >= driving["published_share"]


def test_coverage_of_some_crops(bedwright):
    found = json.loads(bedwright("crops", "carrot", "--coverage", "--json")[1])
    assert list(found["by_crop"]) == ["carrot"]
    assert found["by_crop"]["carrot"]["standing"]["height"] == "published"


def test_crop_that_is_not_known(refused):
    assert refused("crops", "zzzzqqq") == (
        "bedwright: no crop is called 'zzzzqqq'. bedwright crops lists all there are.\n"
    )
    assert refused("crops", "brocolli").endswith("Did you mean 'broccoli'?\n")


# -- sheets ------------------------------------------------------------------------------------


@pytest.fixture
def written(monkeypatch):
    """Takes the place of the writer of bed sheets and keeps what it was asked for."""
    asked: list[dict[str, Any]] = []

    def write_bed_sheets(plan, path, beds=None, paper="a4", today=None):
        asked.append({"year": plan.year, "path": path, "beds": beds, "paper": paper, "today": today})

    module = types.ModuleType("planner.sheets.bed_sheets")
    module.write_bed_sheets = write_bed_sheets  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "planner.sheets.bed_sheets", module)
    return asked


def test_sheets_of_all_beds(bedwright, file, written):
    assert bedwright("sheets", file, "-o", "x.pdf")[0] == 0
    assert written == [{"year": 2025, "path": "x.pdf", "beds": None, "paper": "a4", "today": dt.date.today()}]


def test_sheets_of_beds_by_name_or_id(bedwright, file, written):
    bedwright("sheets", file, "-o", "x.pdf", "--bed", "SOUTH", "--bed", "b1", "North", "--paper", "letter")
    assert [bed.id for bed in written[0]["beds"]] == ["b1", "b2", "b3"]
    assert written[0]["paper"] == "letter"


def test_sheets_of_a_bed_there_is_not(refused, file, written):
    assert "there is no bed 'Nroth'. Did you mean 'North'?" in refused(
        "sheets", file, "-o", "x.pdf", "--bed", "Nroth"
    )
    assert "Beds are: North, South, south." in refused("sheets", file, "-o", "x.pdf", "--bed", "zzz")
    assert "bed 'Old' is not in use in 2025" in refused("sheets", file, "-o", "x.pdf", "--bed", "Old")
    assert written == []


def test_sheets_over_the_garden_itself(refused, file, written):
    assert "is the garden file itself" in refused("sheets", file, "-o", file)
    assert written == []


def test_sheets_on_paper_there_is_not(refused, file):
    assert "--paper" in refused("sheets", file, "-o", "x.pdf", "--paper", "a3")


def test_sheets_where_nothing_can_be_written(refused, file, tmp_path):
    out = str(tmp_path / "no" / "x.pdf")
    assert out in refused("sheets", file, "-o", out, "--year", "2023")


def test_sheets_are_a_pdf(bedwright, file, tmp_path):
    out = tmp_path / "x.pdf"
    assert bedwright("sheets", file, "-o", str(out), "--bed", "North")[0] == 0
    assert out.read_bytes().startswith(b"%PDF-")


# -- the desk ----------------------------------------------------------------------------------


@pytest.fixture
def opened(monkeypatch):
    """Takes the place of the desk and keeps what it was asked to open."""
    asked: list[tuple[str | None, bool]] = []

    def run(path: str | None, sample: bool) -> int:
        asked.append((path, sample))
        return 0

    module = types.ModuleType("planner.desk.app")
    module.run = run  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "planner.desk.app", module)
    monkeypatch.setattr("planner.desk.app", module, raising=False)
    monkeypatch.setenv("DISPLAY", ":0")
    return asked


def test_the_desk_opens(bedwright, file, opened, monkeypatch, tmp_path):
    name = next(iter(cli.samples()))
    monkeypatch.chdir(tmp_path)
    for words in ([], ["open"], [file], ["open", file], ["plot.bedwright"], ["--sample", name]):
        assert bedwright(*words)[0] == 0
    assert opened == [(None, False)] * 2 + [(file, False)] * 2 + [("plot.bedwright", False), (name, True)]


def test_the_desk_is_not_opened_for_nothing(refused, file, opened, tmp_path):
    assert "there is no such file" in refused("open", str(tmp_path / "gone.bedwright"))
    assert "is a folder" in refused(str(tmp_path))
    assert "there is no sample 'zz'" in refused("open", "--sample", "zz")
    assert "cannot both be opened" in refused("open", file, "--sample", next(iter(cli.samples())))
    assert opened == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there is always a display")
def test_the_desk_without_a_display(refused, opened, monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert "there is no display" in refused()
    assert opened == []


# -- as a process ------------------------------------------------------------------------------


def process(*arguments: str, **more: Any) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "planner", *arguments]
    return subprocess.run(command, capture_output=True, check=False, timeout=60, **more)


@pytest.mark.skipif(os.name != "posix", reason="pipes break otherwise elsewhere")
def test_reader_that_has_seen_enough():
    read, write = os.pipe()
    os.close(read)
    command = [sys.executable, "-m", "planner", "crops"]
    done = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, check=False, timeout=60)
    os.close(write)
    assert done.returncode == 141
    assert done.stderr == b""


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no full device here")
def test_output_on_a_full_disk():
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "planner", "schema"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, check=False, timeout=60)
    assert done.returncode == 2
    assert done.stderr == b"bedwright: standard output cannot be written: No space left on device.\n"


def test_terminal_that_cannot_print_a_name(tmp_path):
    bed = Bed(id="b1", name="Ätna 🥕", outline=BED)
    kale = Planting(id="p1", bed="b1", crop="kale", year=2025)
    save(Garden(beds=(bed,), plantings=(kale,)), tmp_path / "g.bedwright")
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = process("amounts", str(tmp_path / "g.bedwright"), env=environment)
    assert done.returncode == 0
    assert b"?tna ? (5.76 m?)" in done.stdout


def test_help_imports_nothing_heavy():
    code = "import sys; from planner.cli import main; main(['--help']); print(sorted(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    modules = done.stdout.splitlines()[-1]
    for heavy in ("PySide6", "shapely", "numpy", "reportlab", "pydantic"):
        assert f"'{heavy}'" not in modules
