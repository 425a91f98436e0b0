"""bedwright take."""

from __future__ import annotations

import ezdxf
import pytest

from planner.storage import load

TABLE = "bed,length,width,crop,colour\nNew,4.8,1.2,carrot,red\nNorth,,,pea,\nNowhere,,,pea,\n"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" viewBox="0 0 100 100">'
    '<rect id="Box" width="40" height="20"/><line/></svg>'
)


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "beds.csv"
    path.write_text(TABLE)
    return str(path)


def test_without_a_new_file_it_is_only_shown(bedwright, file, table, tmp_path):
    code, out, _ = bedwright("take", file, table)
    assert code == 1, "a line could not be read"
    assert out.splitlines() == [
        f"{table}: 1 bed and 2 plantings; 1 could not be read",
        "Columns: bed is bed, length is length, width is width and crop is crop",
        "Passed over: colour",
        "  line 4: there is no bed 'Nowhere'. Write its length and width too, or draw it first.",
    ]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["beds.csv", "plot.bedwright"]


def test_the_new_file_holds_all_that_is_good(bedwright, refused, file, table, tmp_path):
    out = str(tmp_path / "new.bedwright")
    before = load(file)
    code, said, _ = bedwright("take", file, table, "-o", out, "--year", "2027")
    assert code == 1
    assert said.endswith(f"{out}: Plot with all of it\n")
    after = load(out)
    assert after.beds[: len(before.beds)] == before.beds
    assert after.beds[-1].name == "New"
    assert [(one.crop, one.year) for one in after.plantings[len(before.plantings) :]] == [
        ("carrot", 2027),
        ("pea", 2027),
    ]
    assert load(file) == before
    assert "is not overwritten" in refused("take", file, table, "-o", out)


def test_headings_in_other_words_are_chosen(bedwright, file, tmp_path):
    path = tmp_path / "beete.csv"
    path.write_text("Beet;Kultur;bed\nNorth;carrot;x\n")
    arguments = ("--column", "Beet=bed", "--column", "kultur=crop", "--column", "bed=")
    code, out, _ = bedwright("take", file, str(path), *arguments)
    assert code == 0
    assert "1 planting" in out


def test_outlines_of_a_drawing_by_its_scale(bedwright, file, tmp_path):
    path = tmp_path / "plan.svg"
    path.write_text(SVG)
    out = str(tmp_path / "new.bedwright")
    code, said, _ = bedwright("take", file, str(path), "--scale", "1:50", "--as", "shed", "-o", out)
    assert code == 1
    assert "1 structure; 1 could not be read" in said
    assert "line 1: a line encloses no ground." in said
    (shed,) = load(out).structures
    assert (shed.name, shed.kind, shed.height) == ("Box", "shed", 2.4)
    assert (shed.outline.length, shed.outline.width) == (2.0, 1.0)


def test_outlines_of_a_dxf_by_its_own_unit(bedwright, refused, file, tmp_path):
    path, out = tmp_path / "plan.dxf", str(tmp_path / "new.bedwright")
    drawn = ezdxf.new(units=4)
    corners = [(0, 0), (4800, 0), (4800, 1200), (0, 1200)]
    drawn.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "East"})
    drawn.modelspace().add_line((0, 0), (1, 1), dxfattribs={"layer": "Paths"})
    drawn.saveas(path)
    code, said, _ = bedwright("take", file, str(path), "-o", out)
    assert code == 1
    assert "1 bed; 1 could not be read" in said
    assert "layer Paths: LINE: it encloses no ground." in said
    made = load(out).beds[-1]
    assert (made.name, made.outline.length, made.outline.width) == ("East", 4.8, 1.2)
    assert "has its true size" in refused("take", file, str(path), "--scale", "1:50")


@pytest.mark.parametrize(
    ("name", "content", "arguments", "line"),
    [
        ("a.svg", SVG, (), "Give its scale, as --scale 1:50, or --unit"),
        ("a.svg", SVG, ("--scale", "1:x"), "'1:x' is no scale"),
        ("a.svg", SVG, ("--unit", "m", "--as", "tower"), "cannot be taken as 'tower'"),
        ("a.svg", SVG, ("--unit", "m", "--year", "2026"), "go with a table"),
        ("a.svg", "<html/>", ("--unit", "m"), "a.svg: the file is no SVG"),
        ("a.dxf", "<html/>", ("--unit", "m"), "a.dxf: the file is no DXF"),
        ("a.geojson", "{}", (), "its place on the Earth is not known"),
        ("a.geojson", "{}", ("--unit", "m"), "go with a drawing"),
        ("a.csv", TABLE, ("--scale", "50"), "--scale goes with a drawing or map"),
        ("a.csv", TABLE, ("--column", "bed"), "--column bed chooses nothing"),
        ("a.csv", TABLE, ("--column", "x=bed"), "no heading is 'x'"),
        ("a.csv", "crop\nx\n", (), "no heading means the bed"),
        ("a.csv", "bed\nNone\n", ("-o", "new.bedwright"), ""),
    ],
)
def test_what_cannot_be_taken_is_told_in_a_line(
    bedwright, file, tmp_path, monkeypatch, name, content, arguments, line
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / name).write_text(content)
    code, _, complaint = bedwright("take", file, name, *arguments)
    assert code == 2
    assert line in complaint
    assert complaint.count("\n") == 1
    assert not (tmp_path / "new.bedwright").exists()


def test_a_file_that_is_not_there(refused, file, tmp_path):
    assert "cannot be read" in refused("take", file, str(tmp_path / "none.csv"))
