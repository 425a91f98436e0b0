"""What the command line opens is what the window shows."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import stand
from making import bed, garden, rectangle
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from planner import resources, storage
from planner.cli import main
from planner.desk import app
from planner.desk.main_window.tool_bar import YearChoice
from planner.desk.model.document import Document
from planner.garden import Garden, Site, edits
from planner.plan.fullest_day import fullest_day

SAMPLES = sorted(path.stem for path in resources.sample_folder().glob("*.bedwright"))


@pytest.fixture
def shown(monkeypatch, tmp_path, settings):
    """Runs the desk without its event loop; gives back what it shows."""
    windows = []

    class _Still:
        def exec(self) -> int:
            return 0

    real = app.Window

    def window(*arguments):
        windows.append(real(*arguments))
        return windows[-1]

    monkeypatch.setattr(app, "Window", window)
    monkeypatch.setattr(app, "application", lambda: _Still())
    monkeypatch.setattr(app, "speak", lambda *_: None)  # the tests go on in the language they have
    monkeypatch.setattr(app, "settings", lambda: settings)
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    yield windows
    for each in windows:
        each.close()
        each.deleteLater()


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_is_shown_without_a_file_of_its_own(shown, name):
    assert main(["open", "--sample", name]) == 0
    (window,) = shown
    assert window.document.garden == storage.load(resources.sample_folder() / f"{name}.bedwright")
    assert window.document.path is None
    assert not window.document.changed


def test_a_file_is_shown_and_is_the_documents_own(shown, tmp_path):
    file = tmp_path / "plot.bedwright"
    storage.save(storage.load(resources.sample_folder() / "balcony_boxes.bedwright"), file)
    assert main(["open", str(file)]) == 0
    (window,) = shown
    assert window.document.path == file
    assert len(window.document.garden.beds) == 3


def test_without_a_name_an_empty_garden_is_shown(shown):
    assert main([]) == 0
    (window,) = shown
    assert window.document.garden.beds == ()


@pytest.mark.parametrize("first_month", range(1, 13))
def test_an_empty_garden_opens_in_the_current_growing_year(first_month):
    today = dt.date.today()
    document = Document(Garden(site=Site(first_month=first_month)))
    assert document.year == today.year - (today.month < first_month)
    assert document.plan.span.holds(today)


def test_a_file_opens_in_the_year_that_was_shown_last(shown, tmp_path):
    file, other = tmp_path / "plot.bedwright", tmp_path / "other.bedwright"
    for path in (file, other):
        storage.save(storage.load(resources.sample_folder() / "hollow_lane.bedwright"), path)
    before = file.read_bytes()
    assert main(["open", str(file)]) == 0
    usual = shown[0].document.year
    shown[0].document.show_year(usual - 2)
    shown[0].close()
    assert main(["open", str(file)]) == 0
    assert shown[1].document.year == usual - 2
    assert not shown[1].document.changed
    assert file.read_bytes() == before  # the year is no part of the garden
    assert shown[1].files.open_path(other)
    assert shown[1].document.year == usual
    assert shown[1].files.open_path(file)
    assert shown[1].document.year == usual - 2


def test_a_garden_saved_under_another_name_opens_there_in_its_year(shown, tmp_path):
    file = tmp_path / "plot.bedwright"
    storage.save(storage.load(resources.sample_folder() / "hollow_lane.bedwright"), file)
    assert main(["open", str(file)]) == 0
    (window,) = shown
    year = window.document.year - 1
    window.document.show_year(year)
    window.files._write(tmp_path / "copy.bedwright")
    window.document.show_year(year + 1)
    assert window.files.open_path(file)
    assert window.document.year == year
    assert window.files.open_path(tmp_path / "copy.bedwright")
    assert window.document.year == year + 1


@pytest.mark.parametrize("value", ["rubbish", "x y", "2026", ["99999 /a", "", "-3 /b", "2024 /c d"]])
def test_rubbish_in_the_settings_opens_the_usual_year(shown, tmp_path, settings, value):
    settings.setValue("years", value)
    file = tmp_path / "plot.bedwright"
    storage.save(storage.load(resources.sample_folder() / "hollow_lane.bedwright"), file)
    assert main(["open", str(file)]) == 0
    assert shown[0].document.plan.plantings


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_opens_on_the_day_of_its_fullest_sheet(shown, name):
    assert main(["open", "--sample", name]) == 0
    document = shown[0].document
    assert document.day == fullest_day(document.plan)
    assert sum(len(item.painted) for item in shown[0].view.sheet.beds.values()) > 4


def fitted(view) -> bool:
    """Whether everything drawn can be seen, and fills the window in one direction."""
    rect = view.viewportTransform().mapRect(view.sheet.content_rect())
    inside = view.area.contains(rect)
    return inside and max(rect.width() / view.area.width(), rect.height() / view.area.height()) > 0.6


def test_the_sheet_is_fitted_again_after_a_resize_until_the_hand_moves_the_view(shown, qapp):
    assert main(["open", "--sample", "hollow_lane"]) == 0
    (window,) = shown
    qapp.processEvents()
    for size in ((1360, 860), (1000, 640), (1800, 1100)):
        window.resize(*size)
        qapp.processEvents()
        assert fitted(window.view)
        assert window.view.labels.right_end() <= window.view.area.right()
    window.view.zoom_by(1.5)
    zoom = window.view.pixels_per_metre
    window.resize(1000, 640)
    qapp.processEvents()
    assert window.view.pixels_per_metre == zoom
    window.commands.view.show_all()
    window.resize(1360, 860)
    qapp.processEvents()
    assert fitted(window.view)


def test_a_low_window_shows_the_garden_as_large_as_it_has_room_above_the_scale_bar(open_hand, qapp):
    view = open_hand(storage.load(resources.sample_folder() / "red_mesa.bedwright")).view
    view.setMinimumSize(0, 0)
    view.resize(430, 180)
    view.show_all()
    rect = view.viewportTransform().mapRect(view.sheet.content_rect())
    height = view.viewport().height()
    assert rect.bottom() <= height - 40, "the scale bar covers nothing"
    assert rect.height() > 0.45 * height or rect.width() > 0.6 * view.viewport().width()


@pytest.mark.parametrize("how", ["wheel", "scroll bar", "middle button", "selection"])
def test_a_view_that_the_hand_moved_stays_as_it_is(open_hand, qtbot, qapp, how):
    hand = open_hand(storage.load(resources.sample_folder() / "hollow_lane.bedwright"))
    view = hand.view
    view.show_all()
    if how == "wheel":
        point = QPointF(200, 200)
        event = QWheelEvent(
            point, point, QPoint(), QPoint(0, 120), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        QApplication.sendEvent(view.viewport(), event)
    elif how == "scroll bar":
        view.horizontalScrollBar().triggerAction(view.horizontalScrollBar().SliderAction.SliderSingleStepAdd)
    elif how == "middle button":
        qtbot.mousePress(view.viewport(), Qt.MouseButton.MiddleButton, pos=QPoint(200, 200))
        qtbot.mouseMove(view.viewport(), QPoint(260, 200))
        qtbot.mouseRelease(view.viewport(), Qt.MouseButton.MiddleButton, pos=QPoint(260, 200))
    else:
        hand.document.select([hand.garden.beds[0].id])
        view.show_selection()
    zoom = view.pixels_per_metre
    hand.window.resize(900, 640)
    qapp.processEvents()
    assert view.pixels_per_metre == zoom


def test_the_present_growing_year_can_always_be_chosen(open_hand) -> None:
    present = dt.date.today().year
    made, _ = edits.add_planting(garden(bed("b1", rectangle())), "b1", "carrot", present + 3)
    hand = open_hand(made)
    hand.document.show_year(present + 3)
    choice = hand.window.findChild(YearChoice)
    offered = [choice.itemData(index) for index in range(choice.count())]
    assert offered == [present, present + 1, present + 3, present + 4]


def test_the_crop_of_the_selected_planting_is_the_one_told_about(open_hand) -> None:
    made, key = stand(garden(bed("b1", rectangle())), "b1", "carrot")
    hand = open_hand(made)
    hand.document.select([key])
    hand.window.pages.setCurrentWidget(hand.window.pages.crop)
    assert hand.window.pages.crop.crop.key == "carrot"


def test_the_garden_comes_first_again_after_something_was_selected(open_hand) -> None:
    made, key = stand(garden(bed("b1", rectangle())), "b1", "carrot")
    hand = open_hand(made)
    details = hand.window.docks.details
    details.show_climate(True)
    assert details.stack.currentWidget() is details.climate
    hand.document.select([key])
    hand.document.select([])
    assert details.stack.currentWidget() is details.garden
