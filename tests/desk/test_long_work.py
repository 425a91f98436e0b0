"""Long work on files shows its progress after half a second, and can be stopped."""

from __future__ import annotations

import time

import pytest
from making import bed, garden
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QProgressDialog, QWidget

from planner.desk.main_window import long_work
from planner.desk.main_window.long_work import LongWork, StoppedError


@pytest.fixture
def window(qtbot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


def test_quick_work_shows_nothing_and_faults_come_through(window, monkeypatch) -> None:
    work = LongWork(window)
    done = []
    work.run("Write", lambda progress: done.append(progress(1, 2)))
    assert done == [None]
    assert window.findChild(QProgressDialog) is None

    def fail(_progress) -> None:
        raise OSError("no room")

    with pytest.raises(OSError, match="no room"):
        work.run("Write", fail)
    assert not work.busy
    work._jobs.stop()


def test_long_work_is_stopped_while_the_window_goes_on(window, monkeypatch) -> None:
    monkeypatch.setattr(long_work, "UNSEEN", 30)
    work, ticks, steps = LongWork(window), [], []

    def count(progress) -> None:
        for step in range(1000):
            steps.append(step)
            progress(step, 1000)
            time.sleep(0.01)

    ticking = QTimer()
    ticking.timeout.connect(lambda: ticks.append(time.monotonic()))
    ticking.start(10)

    def stop() -> None:
        dialog = window.findChild(QProgressDialog)
        assert dialog.maximum() == 1000
        dialog.canceled.emit()

    QTimer.singleShot(200, stop)
    with pytest.raises(StoppedError):
        work.run("Write", count)
    ticking.stop()
    assert 3 < len(steps) < 500
    assert len(ticks) > 5
    work._jobs.stop()


def test_a_folder_that_is_stopped_is_not_written(open_hand, tmp_path, monkeypatch) -> None:
    hand = open_hand(garden(bed("b1")))
    exports = hand.window.commands.exports

    def stop(*_arguments: object) -> None:
        raise StoppedError

    monkeypatch.setattr("planner.sheets.folder.write_sheets", stop)
    monkeypatch.setattr(hand.window.prompts, "folder", lambda *_: str(tmp_path / "all"), raising=False)
    assert exports.everything() is False
    assert not (tmp_path / "all").exists()
    assert "Stopped" in hand.window.status.message.text()
