"""What the command line opens is what the window shows."""

from __future__ import annotations

import datetime as dt

import pytest

from planner import resources, storage
from planner.cli import main
from planner.desk import app
from planner.desk.model.document import Document
from planner.garden import Garden, Site

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
