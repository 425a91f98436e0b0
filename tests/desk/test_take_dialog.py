"""Bringing beds, plantings and outlines from a file in the window."""

from __future__ import annotations

from collections.abc import Iterator

import ezdxf
import openpyxl
import pytest
from hand import LIMIT
from making import bed, garden, rectangle
from PySide6.QtWidgets import QWidget

from planner.desk.main_window.take_dialog import TakeDialog
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Site

pytestmark = pytest.mark.one_window

TABLE = "bed;length;width;crop;colour\nNew;4,8;1,2;carrot;red\nNorth;;;pea;\nNowhere;;;pea;\n"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" viewBox="0 0 100 100">'
    '<rect id="Box" width="40" height="20"/>\n<line/></svg>'
)


GARDEN = garden(bed("b1", rectangle(4.8, 1.2), name="North"))


@pytest.fixture
def document() -> Iterator[Document]:
    made = Document(GARDEN)
    yield made
    made.end()


@pytest.fixture
def bring(document, qtbot, tmp_path):
    """Write a file, show it in the dialog, and wait until it is read."""
    window, look = QWidget(), LookSwitch()
    qtbot.addWidget(window)

    def bring_in(name: str, content: str | bytes | None) -> TakeDialog:
        path = tmp_path / name
        if content is not None:
            path.write_bytes(content.encode() if isinstance(content, str) else content)
        dialog = TakeDialog(window, document, look, str(path))
        dialog.open()
        read(qtbot, dialog)
        return dialog

    return bring_in


def read(qtbot, dialog: TakeDialog) -> None:
    qtbot.waitUntil(lambda: "being read" not in dialog.head.text(), timeout=LIMIT)


def choose(dialog: TakeDialog, field, value: object) -> None:
    """Choose as a person does."""
    field.show_value(value)
    field.chosen.emit(value)


def lines(dialog: TakeDialog) -> list[str]:
    return dialog.rows.toPlainText().splitlines()


def test_a_table_comes_in_as_one_step(open_hand, qtbot, tmp_path):
    hand, path = open_hand(GARDEN), tmp_path / "beds.csv"
    path.write_text(TABLE)
    document, prompts = hand.window.document, hand.window.prompts
    prompts.answers["open"] = ""
    hand.window.action("bring in").trigger()
    assert not hand.window.findChildren(TakeDialog), "no file was chosen"
    prompts.answers["open"] = str(path)
    hand.window.action("bring in").trigger()
    (dialog,) = hand.window.findChildren(TakeDialog)
    read(qtbot, dialog)
    before = document.garden
    assert dialog.head.text() == "1 bed and 2 plantings can be brought in. 1 could not be read."
    assert lines(dialog) == [
        "✗ line 4: there is no bed 'Nowhere'. Write its length and width too, or draw it first.",
        "✓ line 2: bed New, 4.80 m by 1.20 m and carrot in New",
        "✓ line 3: pea in North",
    ]
    assert document.garden is before, "nothing is taken before it is accepted"
    dialog.accept()
    assert [one.name for one in document.garden.beds] == ["North", "New"]
    assert [one.crop for one in document.garden.plantings] == ["carrot", "pea"]
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "Bring in 1 bed and 2 plantings"
    assert document.selection == (document.garden.beds[1].id,)
    document.undo_stack.undo()
    assert document.garden == before


def test_columns_are_guessed_and_can_be_chosen(bring, qtbot):
    dialog = bring("odd.csv", "Kiste;Lang (cm);Width;Crop\nA;480;1,2;carrot\n")
    assert dialog.head.text().startswith("No heading means the bed.")
    assert not dialog.ok.isEnabled()
    assert [choice.value for choice in dialog.choices.values()] == ["", "", "width", "crop"]
    assert dialog.columns.item(1, 2).text() == "480", "the first cell below helps to tell"
    choose(dialog, dialog.choices["Kiste"], "bed")
    read(qtbot, dialog)
    assert "needs a length and a width" in lines(dialog)[0]
    choose(dialog, dialog.choices["Lang (cm)"], "length")
    read(qtbot, dialog)
    assert lines(dialog) == ["✓ line 2: bed A, 4.80 m by 1.20 m and carrot in A"]
    choose(dialog, dialog.choices["Crop"], "width")
    read(qtbot, dialog)
    assert "mean the same" in dialog.head.text()
    assert not dialog.ok.isEnabled()
    dialog.reject()


def test_the_year_of_plantings_is_asked_for(document, bring, qtbot):
    dialog = bring("beds.csv", TABLE)
    assert dialog.year.value() == document.year
    dialog.year.setValue(2031)
    read(qtbot, dialog)
    dialog.accept()
    assert {one.year for one in document.garden.plantings} == {2031}


def test_a_sheet_of_a_workbook_is_chosen(bring, qtbot, tmp_path):
    book = openpyxl.Workbook()
    book.create_sheet("Plan").append(["Bed", "Length", "Width"])
    book["Plan"].append(["Low", 4.8, 1.2])
    book.save(tmp_path / "made.xlsx")
    dialog = bring("beds.xlsx", (tmp_path / "made.xlsx").read_bytes())
    assert dialog.head.text() == "The sheet is empty. Choose another sheet."
    choose(dialog, dialog.sheet, "Plan")
    read(qtbot, dialog)
    assert lines(dialog) == ["✓ line 2: bed Low, 4.80 m by 1.20 m"]
    dialog.reject()


def test_scale_and_kind_of_a_drawing_are_asked_for(document, bring, qtbot):
    dialog = bring("plan.svg", SVG)
    assert "Give its scale, or the unit" in dialog.head.text()
    assert not dialog.ok.isEnabled()
    choose(dialog, dialog.drawn_size, "scale")
    choose(dialog, dialog.kind, "shed")
    read(qtbot, dialog)
    assert lines(dialog) == ["✗ line 2: a line encloses no ground.", "✓ line 1: shed Box, 2.00 m by 1.00 m"]
    dialog.scale.setText("1:x")
    dialog.scale.editingFinished.emit()
    assert "'1:x' is no scale" in dialog.head.text()
    assert not dialog.ok.isEnabled()
    dialog.scale.setText("1:100")
    dialog.scale.editingFinished.emit()
    read(qtbot, dialog)
    assert len(dialog.picture.new) == 1
    dialog.accept()
    (shed,) = document.garden.structures
    assert (shed.kind, shed.outline.length, shed.outline.width) == ("shed", 4.0, 2.0)


@pytest.mark.parametrize(
    ("unit", "words"), [(4, "as the file says: its numbers are millimetres"), (0, "choose")]
)
def test_a_dxf_says_its_unit_or_it_is_asked_for(document, bring, qtbot, tmp_path, unit, words):
    drawn = ezdxf.new(units=unit)
    drawn.modelspace().add_circle((0, 0), 1000, dxfattribs={"layer": "Round"})
    drawn.saveas(tmp_path / "made.dxf")
    dialog = bring("plan.dxf", (tmp_path / "made.dxf").read_bytes())
    assert dialog.drawn_size.currentText() == words
    if not unit:
        assert "Give the unit of its numbers" in dialog.head.text()
        choose(dialog, dialog.drawn_size, "mm")
        read(qtbot, dialog)
    assert lines(dialog) == ["✓ layer Round: CIRCLE: bed Round, 2.00 m by 2.00 m"]
    dialog.accept()
    assert document.garden.beds[-1].name == "Round"


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("a.csv", "", "The file is empty"),
        ("a.xlsx", b"PK\x03\x04", "The file is no workbook"),
        ("a.dxf", "<html/>", "The file is no DXF"),
        ("a.svg", "<html/>", "The file is no SVG"),
        ("a.csv", None, "cannot be read"),
        ("a.geojson", "{}", "its place on the Earth is not known"),
    ],
)
def test_files_that_cannot_be_read_are_told_of_in_the_dialog(bring, name, content, words):
    dialog = bring(name, content)
    assert words.casefold() in dialog.head.text().casefold()
    assert not dialog.ok.isEnabled()
    dialog.accept()
    assert dialog.isVisible(), "nothing is there to be taken"
    dialog.reject()


def test_a_garden_that_is_only_shown_says_so(document, bring):
    dialog = bring("beds.csv", TABLE)
    document.only_shown = "This garden is open in another window."
    dialog.accept()
    assert dialog.isVisible()
    assert dialog.head.text() == document.only_shown
    assert document.garden is GARDEN
    dialog.reject()


def test_a_garden_that_changed_meanwhile_is_compared_anew(document, bring, qtbot):
    dialog = bring("beds.csv", TABLE)
    document.edit("Name", lambda one: one.with_(site=Site(name="Other")))
    dialog.accept()
    assert dialog.isVisible()
    read(qtbot, dialog)
    dialog.accept()
    assert len(document.garden.beds) == 2
    assert document.garden.site.name == "Other"


def test_plantings_of_a_large_table_are_placed_after_it_was_brought(open_hand, qtbot, tmp_path, monkeypatch):
    monkeypatch.setattr("planner.desk.model.document.PLACED_AT_ONCE", 10)
    hand, path = open_hand(GARDEN), tmp_path / "many.csv"
    path.write_text("bed,length,width,crop\n" + "".join(f"B{n},4.8,1.2,lettuce\n" for n in range(20)))
    dialog, document = hand.window.commands.file.bring_in_path(str(path)), hand.window.document
    read(qtbot, dialog)
    settled = []
    document.garden_settled.connect(lambda: settled.append(len(document.unplaced)))
    dialog.accept()
    assert len(document.unplaced) == 20
    qtbot.waitUntil(lambda: bool(settled) and not document.unplaced, timeout=LIMIT)
    beds = hand.window.view.sheet.beds
    assert all(beds[one.id].painted for one in document.garden.beds[1:])
    document.undo_stack.undo()
    assert set(beds) == {"b1"}
