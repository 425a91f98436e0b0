"""The pages of records: the line, the table with its filters, the form, the line below the sheet, the walk."""

from __future__ import annotations

import datetime as dt

import pytest
import typed_records_corpus as corpus
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent
from PySide6.QtTest import QTest

from planner.desk.model.background_jobs import JobQueue
from planner.desk.model.document import Document
from planner.desk.pages.records_page import RecordsPage
from planner.desk.pages.walk_page import WalkPage
from planner.garden import edits
from planner.garden.records import Amount

pytestmark = pytest.mark.one_window

TODAY = corpus.TODAY
ENTER, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Escape


@pytest.fixture
def window(open_hand):
    window = open_hand(corpus.plot()).window
    window.document.show_year(2026)
    window.pages.record_bar.entry.today = lambda: TODAY
    window.activateWindow()
    return window


@pytest.fixture
def document():
    document = Document(corpus.plot())
    document.show_year(2026)
    yield document
    document.end()


def shown(qtbot, page):
    """A page by itself: a whole window takes a second."""
    qtbot.addWidget(page)
    page.resize(1000, 700)
    page.show()
    page.activateWindow()
    return page


@pytest.fixture
def page(document, qtbot):
    page = shown(qtbot, RecordsPage(document))
    page.entry.today = lambda: TODAY
    yield page
    for jobs in page.findChildren(JobQueue):
        jobs.stop()


def type_line(entry, text):
    QTest.keyClicks(entry.line, text)
    QTest.keyClick(entry.line, ENTER)


def kinds(document):
    return [one.kind for one in document.garden.records]


def test_a_line_says_what_it_will_write_and_enter_writes_it(document, page):
    QTest.keyClicks(page.entry.line, "slugs on lettuce in Bed 2, half of it")
    page.entry.show_meaning()
    assert page.entry.meaning.text() == "10 Jun 2026, butterhead lettuce in Bed 2: slugs, 50 % of it"
    assert page.entry.line.accessibleDescription() == page.entry.meaning.text()
    assert not document.garden.records
    QTest.keyClick(page.entry.line, ENTER)
    (record,) = document.garden.records
    assert (record.kind, record.planting, record.share) == ("seen", "let2", 0.5)
    assert not page.entry.line.text()
    document.undo_stack.undo()
    assert not document.garden.records


def test_many_at_a_time_are_one_step(document, page):
    type_line(page.entry, "sown: beds 5 to 7 on Tuesday")
    assert kinds(document) == ["done"] * 3
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "Write down 3 records"


def test_what_is_not_clear_stays_in_the_line_with_the_reason(document, page):
    type_line(page.entry, "slugs on lettuce")
    assert page.entry.line.text() == "slugs on lettuce"
    assert "Bed 2 or South" in page.entry.meaning.text()
    assert page.entry.meaning.property("warn")
    assert not document.garden.records


def test_tab_puts_in_the_word_that_is_meant_for_a_slip_of_the_hand(document, page):
    QTest.keyClicks(page.entry.line, "slugs on lettuec in Bed 2")
    page.entry.show_meaning()
    assert "Tab puts it in" in page.entry.meaning.text()
    QTest.keyClick(page.entry.line, Qt.Key.Key_Tab)
    assert page.entry.line.text() == "slugs on lettuce in Bed 2"
    assert "Tab" not in page.entry.meaning.text()
    QTest.keyClick(page.entry.line, ENTER)
    assert page.entry.line.text() == ""


def test_tab_stays_in_a_line_that_is_not_written_down_until_it_is_pressed_again(page):
    line = page.entry.line
    line.setFocus()
    QTest.keyClicks(line, "slugs on lettuec in Bed 2")
    QTest.keyClick(line, Qt.Key.Key_Tab)  # at once, before it was read
    assert line.text() == "slugs on lettuce in Bed 2"
    QTest.keyClick(line, Qt.Key.Key_Tab)
    assert line.hasFocus()
    assert "a second Tab leaves it" in page.entry.meaning.text()
    QTest.keyClick(line, Qt.Key.Key_Tab)
    assert not line.hasFocus()
    assert line.text() == "slugs on lettuce in Bed 2"
    line.clear()
    line.setFocus()
    QTest.keyClick(line, Qt.Key.Key_Tab)  # nothing is in it
    assert not line.hasFocus()


def test_undo_right_after_a_line_takes_the_record_back(window):
    window.document.select([])
    window.commands.navigation.write_record()
    entry = window.pages.record_bar.entry
    QTest.keyClicks(entry.line, "slugs on lettuce in Bed 2")
    QTest.keyClick(entry.line, ENTER)
    steps = window.document.undo_stack.count()
    assert steps == 1
    QTest.keyClick(entry.line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert entry.line.text() == ""
    assert window.document.undo_stack.index() == 0


def test_a_part_of_no_known_size_is_asked_back_and_ends_nothing(document, page):
    type_line(page.entry, "some carrots in Bed 4 died")
    assert "how much of it?" in page.entry.meaning.text()
    assert page.entry.line.text() == "some carrots in Bed 4 died"
    assert not document.garden.records


def test_a_slip_of_the_pen_is_warned_of_and_written_by_a_second_enter(document, page):
    QTest.keyClicks(page.entry.line, "picked 600 kg carrots in Bed 4")
    page.entry.show_meaning()
    assert "times what is expected of it: a slip of the pen?" in page.entry.meaning.text()
    assert page.entry.meaning.property("warn")
    QTest.keyClick(page.entry.line, ENTER)
    assert not document.garden.records
    assert "Press Enter once more" in page.entry.meaning.text()
    QTest.keyClick(page.entry.line, ENTER)
    assert [one.kind for one in document.garden.records] == ["picked"]
    assert not page.entry.meaning.property("warn")


def test_what_the_garden_refuses_is_said_while_it_is_typed(document, page):
    type_line(page.entry, "Bed 4 carrot sown on 10 April")
    QTest.keyClicks(page.entry.line, "thinned carrot in Bed 4 on 1 April")
    page.entry.show_meaning()
    assert "before" in page.entry.meaning.text()


def test_the_table_shows_the_newest_first_and_filters(document, page, qtmodeltester):
    for line in (
        "carrot up in Bed 4 on 3 May",
        "slugs in Bed 2 on 2 June",
        "picked 900 g carrot in Bed 4",
        "note North: soil very dry",
    ):
        type_line(page.entry, line)
    qtmodeltester.check(page.model)
    assert [one.kind for one in page.model.records] == ["note", "picked", "seen", "came up"]
    page.search.setText("DRY soil")
    QTest.keyClick(page.search, ENTER)
    assert [one.kind for one in page.model.records] == ["note"]
    assert page.count.text() == "1 of 4 records"
    page.search.clear()
    for box, data, wanted in (
        (page.bed, "b4", ["picked", "came up"]),
        (page.crop, "carrot", ["picked", "came up"]),
        (page.kind, "seen", ["seen"]),
        (page.year, 2026, ["note", "picked", "seen", "came up"]),
    ):
        box.setCurrentIndex(box.findData(data))
        box.activated.emit(box.currentIndex())
        assert [one.kind for one in page.model.records] == wanted
        box.setCurrentIndex(0)


def test_cells_are_edited_in_place(document, page):
    type_line(page.entry, "note North: soil very dry")
    model = page.model
    assert model.setData(model.index(0, 0), "3 June 2026")
    assert model.setData(model.index(0, 4), "dry on top only")
    (record,) = document.garden.records
    assert (record.day, record.words) == (dt.date(2026, 6, 3), "dry on top only")
    told = []
    page.wrong.connect(told.append)
    assert not model.setData(model.index(0, 0), "soon")
    assert told
    heads = [model.headerData(column, Qt.Orientation.Horizontal) for column in range(model.columnCount())]
    editable = [
        name
        for column, name in enumerate(heads)
        if model.flags(model.index(0, column)) & Qt.ItemFlag.ItemIsEditable
    ]
    assert editable == ["Day", "Words", "By"]


def test_what_is_shown_is_summed_by_crop_and_one_button_shows_all(document, page):
    for line in ("picked 900 g carrot in Bed 4", "picked 1.2 kg tomato in North", "picked 300 g in Bed 4"):
        type_line(page.entry, line)
    assert page.sums.text() == "Picked: 2.4 kg; carrot 1.2 kg and tomato 1.2 kg"
    assert not page.all_button.isEnabled()
    page.crop.setCurrentIndex(page.crop.findData("carrot"))
    page.crop.activated.emit(page.crop.currentIndex())
    page.search.setText("300")
    page._search()
    assert page.sums.text() == "Picked: carrot 300 g"
    page.all_button.click()
    assert len(page.model.records) == 3
    assert (page.search.text(), page.crop.currentIndex()) == ("", 0)


def test_how_much_is_in_sight_in_a_table_as_narrow_as_a_small_screen_leaves(page):
    """At 1360 pixels the table has some 470 of them."""
    heads = [page.model.headerData(n, Qt.Orientation.Horizontal) for n in range(page.model.columnCount())]
    at = heads.index("How much")
    assert page.table.columnViewportPosition(at) + page.table.columnWidth(at) < 450


def test_delete_takes_the_chosen_records_back_in_one_step(document, page):
    type_line(page.entry, "watered beds 1 to 3")
    page.table.selectAll()
    steps = document.undo_stack.count()
    QTest.keyClick(page.table, Qt.Key.Key_Delete)
    assert not document.garden.records
    assert document.undo_stack.count() == steps + 1
    assert document.garden.beds


def test_the_form_shows_only_the_fields_of_a_kind(page):
    wanted = {
        "seen": {"harm", "share", "lost", "cause", "response", "look_again"},
        "came up": {"share", "count", "sown"},
        "picked": {"amount", "picked_for"},
        "note": set(),
        "ended": {"why"},
        "measured": {"measure", "value", "unit"},
        "lesson": {"crop", "family"},
    }
    for kind, names in wanted.items():
        page.form.kind.chosen.emit(kind)
        shown = {name for name, (_label, field) in page.form._rows_of.items() if not field.isHidden()}
        assert shown == names, kind


def test_a_new_record_is_written_by_the_form(document, page):
    form = page.form
    form.kind.chosen.emit("picked")
    form.day.typed.emit(TODAY)
    form.bed.chosen.emit("b4")
    form.planting.chosen.emit("car")
    form.write()
    assert "amount" in form.problem.text()
    assert not document.garden.records
    form._rows_of["amount"][1].typed.emit({"value": 1200.0, "unit": "g"})
    form.write()
    (record,) = document.garden.records
    assert (record.planting, record.day, record.amount) == ("car", TODAY, Amount(value=1200, unit="g"))


def test_a_loss_is_chosen_or_typed_and_its_harvest_said_before_it_is_written(document, page):
    form = page.form
    form.kind.chosen.emit("seen")
    form.day.typed.emit(TODAY)
    form.bed.chosen.emit("b4")
    form.planting.chosen.emit("car")
    lost = form._rows_of["lost"][1]
    assert [one.text() for one in lost.shares.actions() if one.text()] == [
        "a quarter",
        "a third",
        "half",
        "three quarters",
        "all",
        "not said",
    ]
    for text, share in (("half", 0.5), ("9 of 28", 9 / 28), ("30 %", 0.3), ("a third", 1 / 3), ("20", 0.2)):
        lost.setText(text)
        lost.setModified(True)
        QTest.keyClick(lost, ENTER)
        assert form.draft["lost"] == pytest.approx(share)
    lost.shares.actions()[2].trigger()
    assert form.draft["lost"] == 0.5
    assert "plants are left then" in form.effect.text()
    assert "less is picked" in form.effect.text()
    assert not document.garden.records
    form.write()
    (record,) = document.garden.records
    assert (record.planting, record.lost, record.share) == ("car", 0.5, None)
    form.kind.chosen.emit("seen")
    form._rows_of["share"][1].typed.emit(0.5)
    assert form.effect.text() == "What is only damaged is written down; it does not lessen the harvest."
    lost.setText("many")
    lost.setModified(True)
    QTest.keyClick(lost, ENTER)
    assert lost.is_wrong


def test_a_chosen_record_is_changed_field_by_field(document, page):
    type_line(page.entry, "slugs on lettuce in Bed 2, half of it")
    page.table.selectRow(0)
    field = page.form._rows_of["share"][1]
    field.setText("20")
    field.setModified(True)
    QTest.keyClick(field, ENTER)
    page.form._rows_of["harm"][1].chosen.emit("birds")
    (record,) = document.garden.records
    assert (record.share, record.harm) == (0.2, "birds")
    assert document.undo_stack.count() == 3


def test_one_key_on_the_sheet_opens_the_line_for_what_is_selected(window):
    window.pages.show_sheet()
    window.view.setFocus()
    window.document.select(("b5", "b6"))
    QTest.keyClick(window.view, Qt.Key.Key_E)
    bar = window.pages.record_bar
    assert bar.isVisible()
    assert bar.about.text() == "What happened to Bed 5 and Bed 6?"
    assert bar.entry.line.hasFocus()
    type_line(bar.entry, "sown yesterday")
    assert [one.planting for one in window.document.garden.records] == ["beet", "turnip"]
    QTest.keyClick(bar.entry.line, ESCAPE)
    assert not bar.isVisible()
    assert window.view.hasFocus()
    QTest.keyClick(window.view, Qt.Key.Key_E)
    QTest.keyClicks(window.pages.record_bar.entry.line, "vrpom")
    assert window.pages.record_bar.entry.line.text() == "vrpom"
    assert window.view.tool == "select"


def test_a_walk_of_ten_beds_with_the_keyboard_alone(document, qtbot):
    """Ten beds, a line for most: counted keys; a slow typist has 200 a minute."""
    walk = shown(qtbot, WalkPage(document))
    walk.day.show_day(TODAY)
    walk.refresh()
    names = [stop.bed.name for stop in walk.stops]
    lines = dict.fromkeys(names, ())
    lines |= {
        "North": ("picked 800 g", "a fed"),
        "South": ("b slugs half",),
        "Bed 1": ("a sown", "b sown"),
        "Bed 2": ("slugs",),
        "Bed 4": ("a up 60 %",),
        "Bed 5": ("1",),
        "West 1": ("blight",),
        "Bed 3": ("note: hoed",),
    }
    keys = 0
    for name in names[:10]:
        assert walk.stop is not None
        assert walk.stop.bed.name == name
        for line in (*lines[name], ""):
            QTest.keyClicks(walk.entry.line, line)
            QTest.keyClick(walk.entry.line, ENTER)
            keys += len(line) + 1
            assert walk.entry.line.text() == "", (name, line, walk.entry.meaning.text())
    typed = sum(len(lines[name]) for name in names[:10])
    assert len(document.garden.records) == typed
    assert document.undo_stack.count() == typed
    assert keys <= 120
    assert {one.day for one in document.garden.records} == {TODAY}
    QTest.keyClick(walk.entry.line, ENTER, Qt.KeyboardModifier.ShiftModifier)
    assert walk.stop.bed.name == names[9]


def test_lessons_and_notes_on_the_year_are_shown_where_they_are_pinned(window):
    garden, _ = edits.add_records(
        window.document.garden,
        [
            {"kind": "lesson", "day": TODAY, "crop": "carrot", "words": "sow thinner"},
            {"kind": "lesson", "day": TODAY, "bed": "b5", "words": "wet in spring"},
            {"kind": "lesson", "day": TODAY, "words": "order seed in January"},
        ],
    )
    window.document.commit("Lessons", garden)
    details = window.docks.details
    window.document.select(("car",))
    assert details.planting.lessons.text() == "Remember: sow thinner (2026)"
    window.document.select(("b5",))
    assert "wet in spring" in details.bed.records.text()
    window.document.select(())
    assert details.garden.lessons.text() == "Remember: order seed in January (2026)"
    window.document.select(("herb",))
    window.view.place_crop(window.document.catalogue.get("carrot"), by_key=True)
    QTest.keyClick(window.view, ENTER)
    assert len(window.document.garden.plantings) == len(garden.plantings) + 1
    assert window.status.message.text().endswith(" · Remember: sow thinner (2026)")
    window.view.cancel_gesture()
    window.document.select(())
    window.docks.details.garden.notes.typed.emit("a dry spring")
    assert [(one.year, one.text) for one in window.document.garden.notes] == [(2026, "a dry spring")]


def test_the_walk_and_a_record_are_begun_from_menu_and_year_page(window):
    window.commands.navigation.enter_walk()
    assert window.pages.walk.entry.line.hasFocus()
    window.document.select(("car",))
    window.pages.bring(window.pages.year)
    window.pages.year.record_button.click()
    form = window.pages.records.form
    assert window.pages.records.isVisible()
    assert form.draft["planting"] == "car"
    assert form.planting.value == "car"


def test_photographs_dropped_become_notes_of_their_days(document, page, tmp_path, qtbot):
    from PIL import Image

    paths = []
    for number, taken in enumerate(("2026:06:09 10:00:00", "2026:06:09 11:00:00", "2025:06:08 09:00:00")):
        exif = Image.Exif()
        exif.get_ifd(0x8769)[0x9003] = taken
        paths.append(tmp_path / f"{number}.jpg")
        Image.new("RGB", (40, 30), (number * 50, 90, 60)).save(paths[-1], exif=exif)
    before = [path.read_bytes() for path in paths]
    told = []
    page.said.connect(told.append)
    page.add_photographs(paths)
    assert "Save the garden first" in told[-1]
    document.path = tmp_path / "garden.bedwright"
    page.bed.setCurrentIndex(page.bed.findData("b4"))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    event = QDragEnterEvent(
        QPointF(5, 5).toPoint(),
        Qt.DropAction.LinkAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    page.dragEnterEvent(event)
    assert event.isAccepted()
    page.add_photographs([*paths, tmp_path / "gone.jpg"])
    qtbot.waitUntil(lambda: len(document.garden.records) == 2)
    assert "gone.jpg" in told[-1]
    records = {one.day: one for one in document.garden.records}
    assert [one.path for one in records[dt.date(2026, 6, 9)].photographs] == ["0.jpg", "1.jpg"]
    assert {one.bed for one in records.values()} == {"b4"}
    assert document.undo_stack.count() == 1
    page.show_record(records[dt.date(2026, 6, 9)].id)
    strip = page.strip
    assert [strip.here.count(), strip.other.count()] == [2, 1]
    qtbot.waitUntil(lambda: len(list((tmp_path / "thumbnails").glob("*.jpg"))) == 3)
    assert [path.read_bytes() for path in paths] == before
    strip.here.item(0).setSelected(True)
    strip.here.delete_pressed.emit()
    assert [len(one.photographs) for one in document.garden.records if one.day.year == 2026] == [1]
    assert paths[0].exists()


def test_what_is_lost_altogether_by_the_form_is_over(document, page):
    form = page.form
    form.kind.chosen.emit("seen")
    form.day.typed.emit(TODAY)
    form.bed.chosen.emit("b4")
    form.planting.chosen.emit("car")
    form._rows_of["harm"][1].chosen.emit("slugs")
    form._rows_of["lost"][1].typed.emit(1.0)
    form.write()
    planting = document.garden.plantings_by_id["car"]
    outcome = document.garden.outcome(planting)
    assert outcome is not None
    assert (outcome.why, outcome.day) == ("eaten", TODAY)
    assert [one.kind for one in document.garden.records] == ["seen", "ended"]
    document.undo_stack.undo()
    assert not document.garden.records
