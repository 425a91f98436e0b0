"""Saving, opening and leaving from the window; what goes wrong and is told."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hand import Hand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt

from planner import resources, storage
from planner.desk.main_window.prompts import Prompts
from planner.garden import edits
from planner.storage import FileError, files


@pytest.fixture
def drawn(hand: Hand) -> Hand:
    """A window with a drawn bed that is not saved."""
    hand.do("tool rectangle")
    hand.drag((-2.0, 1.0), (2.0, 0.0))
    hand.do("tool select")
    return hand


def saved(path: Path, name: str = "Kept"):
    made = garden(bed("b1", rectangle(), name=name))
    storage.save(made, path)
    return made


def test_saving_asks_for_a_name_once(drawn: Hand, tmp_path: Path) -> None:
    goal = tmp_path / "plot.bedwright"
    assert "*" in drawn.window.windowTitle()
    drawn.prompts.answers["save"] = str(goal.with_suffix(""))
    drawn.shortcut("Ctrl+S")
    assert storage.load(goal) == drawn.garden
    assert not drawn.document.changed
    assert drawn.window.windowTitle() == "plot – Bedwright"
    drawn.click((0.0, 0.5))
    drawn.key(Qt.Key.Key_Right)
    assert drawn.window.windowTitle() == "plot* – Bedwright"
    drawn.shortcut("Ctrl+S")
    assert storage.load(goal) == drawn.garden
    assert len([asked for asked in drawn.prompts.questions if asked.startswith("save")]) == 1


def test_a_save_is_said_and_announced_with_its_place(drawn: Hand, tmp_path: Path, qtbot) -> None:
    drawn.prompts.answers["save"] = str(tmp_path / "plot")
    drawn.do("save")
    words = f"Saved as plot.bedwright in {tmp_path.resolve()}."
    assert drawn.window.status.message.text() == words
    qtbot.waitUntil(lambda: drawn.window.announcer.last == words)
    drawn.do("undo")
    assert drawn.window.status.message.text() == ""
    drawn.do("save")  # without a question it is said as well
    assert drawn.window.status.message.text() == words


def test_save_as_leaves_the_first_file_alone(drawn: Hand, tmp_path: Path) -> None:
    first, second = tmp_path / "a.bedwright", tmp_path / "b.bedwright"
    drawn.prompts.answers["save"] = str(first)
    drawn.do("save")
    before = first.read_bytes()
    drawn.click((0.0, 0.5))
    drawn.key(Qt.Key.Key_Right)
    drawn.prompts.answers["save"] = str(second)
    drawn.do("save as")
    assert first.read_bytes() == before
    assert storage.load(second) == drawn.garden
    assert drawn.document.path == second


def test_saving_nowhere_keeps_the_garden_changed(drawn: Hand) -> None:
    drawn.do("save")
    assert drawn.document.changed
    assert drawn.prompts.errors == []


def test_a_failed_save_is_told_and_the_garden_stays_changed(drawn: Hand, tmp_path: Path, monkeypatch) -> None:
    goal = tmp_path / "plot.bedwright"
    saved(goal)
    before = goal.read_bytes()

    def full(*_args) -> None:
        raise FileError("could not be saved: no space left on device", str(goal), "Save it elsewhere")

    monkeypatch.setattr(storage, "save", full)
    drawn.prompts.answers["save"] = str(goal)
    made = drawn.garden
    drawn.do("save")
    (told,) = drawn.prompts.errors
    assert "no space left" in told
    assert "Nothing is lost" in told
    assert drawn.document.changed
    assert drawn.garden is made
    assert drawn.document.path is None
    assert goal.read_bytes() == before
    assert drawn.window.files.recent() == []


def test_a_save_into_a_folder_that_is_not_there_is_told(drawn: Hand, tmp_path: Path) -> None:
    drawn.prompts.answers["save"] = str(tmp_path / "none" / "plot.bedwright")
    drawn.do("save")
    assert "folder is not there" in drawn.prompts.errors[0]
    assert drawn.document.changed


def test_closing_after_a_failed_save_stays_open(drawn: Hand, monkeypatch) -> None:
    def full(*_args) -> None:
        raise FileError("could not be saved", "x", "")

    monkeypatch.setattr(storage, "save", full)
    drawn.prompts.answers.update(leave="save", save="/x.bedwright")
    assert not drawn.window.close()
    assert drawn.window.isVisible()


@pytest.mark.parametrize(("answer", "closes"), [("stay", False), ("leave", True), ("save", True)])
def test_closing_a_changed_garden_asks(drawn: Hand, tmp_path: Path, answer: str, closes: bool) -> None:
    goal = tmp_path / "plot.bedwright"
    drawn.prompts.answers.update(leave=answer, save=str(goal))
    assert drawn.window.close() is closes
    assert drawn.prompts.questions[0] == "leave Untitled"
    assert goal.exists() is (answer == "save")
    assert drawn.window.isVisible() is not closes


def test_closing_an_unchanged_garden_asks_nothing(hand: Hand) -> None:
    assert hand.window.close()
    assert hand.prompts.questions == []


def test_saving_while_a_bed_is_dragged_saves_what_stands(drawn: Hand, tmp_path: Path) -> None:
    goal = tmp_path / "plot.bedwright"
    stands = drawn.garden
    drawn.carry((0.0, 0.5), (1.0, 1.5))
    drawn.prompts.answers["save"] = str(goal)
    drawn.do("save")
    assert storage.load(goal) == stands


def test_opening_shows_the_whole_garden(hand: Hand, tmp_path: Path) -> None:
    made = garden(bed("b1", rectangle(center=(300.0, 200.0)), name="Far"))
    storage.save(made, tmp_path / "far.bedwright")
    hand.prompts.answers["open"] = str(tmp_path / "far.bedwright")
    hand.shortcut("Ctrl+O")
    assert hand.garden == made
    hand.at((300.0, 200.0))
    assert not hand.document.undo_stack.canUndo()
    assert hand.window.windowTitle() == "far – Bedwright"


@pytest.mark.parametrize("answer", ["stay", "leave"])
@pytest.mark.parametrize("name", ["new", "open", "sample balcony_boxes"])
def test_another_garden_asks_about_the_changed_one_first(drawn: Hand, tmp_path: Path, name, answer) -> None:
    saved(tmp_path / "kept.bedwright")
    before = drawn.garden
    drawn.prompts.answers.update(open=str(tmp_path / "kept.bedwright"), leave=answer)
    drawn.do(name)
    assert (drawn.garden is before) is (answer == "stay")
    assert drawn.document.changed is (answer == "stay")


BROKEN = {
    "empty": "",
    "cut": '{"schema": 1, "garden"',
    "list": "[1, 2]",
    "newer": None,
    "no size": None,
    "crossing": None,
}


@pytest.mark.parametrize("kind", BROKEN)
def test_a_broken_file_keeps_the_garden_at_hand(drawn: Hand, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "broken.bedwright"
    text = BROKEN[kind]
    if text is None:
        saved(path)
        data = json.loads(path.read_text("utf-8"))
        whole = data.get("garden", data)
        if kind == "newer":
            data[next(key for key in data if "schema" in key)] = 9_999
        elif kind == "no size":
            whole["beds"][0]["outline"]["length"] = 0
        else:
            whole["beds"][0]["outline"] = {"shape": "polygon", "points": [[0, 0], [1, 1], [1, 0], [0, 1]]}
        text = json.dumps(data)
    path.write_text(text, "utf-8")
    before, steps = drawn.garden, drawn.steps
    drawn.prompts.answers["open"] = str(path)
    drawn.do("open")
    assert drawn.garden is before
    assert drawn.steps == steps
    assert drawn.document.changed
    (told,) = drawn.prompts.errors
    assert "broken.bedwright" in told
    assert path.read_text("utf-8") == text


def test_a_missing_file_is_told(hand: Hand, tmp_path: Path) -> None:
    assert not hand.window.commands.file.open_path(tmp_path / "gone.bedwright")
    assert "no such file" in hand.prompts.errors[0]


def test_files_used_last_are_offered_the_newest_first(hand: Hand, tmp_path: Path) -> None:
    names = ["a & b", "c", "ش garden 🌱"]
    for name in names:
        saved(tmp_path / f"{name}.bedwright", name)
        hand.window.commands.file.open_path(tmp_path / f"{name}.bedwright")
    offered = hand.window.menu("recent").actions()
    assert [Path(action.text().replace("&&", "&")).stem for action in offered] == names[::-1]
    offered[2].trigger()
    assert hand.garden.beds[0].name == "a & b"
    assert Path(hand.window.files.recent()[0]).stem == "a & b"
    assert len(hand.window.files.recent()) == 3


def test_a_bed_of_almost_no_size_is_drawn_and_selected(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(0.02, 0.02), name="Speck")))
    hand.click((0.0, 0.0))
    hand.window.grab()
    hand.do("show selection")
    hand.window.grab()
    assert hand.drop("carrot", [(0.0, 0.0)], let_go=False) in (True, False)


@pytest.mark.parametrize("name", sorted(path.stem for path in resources.sample_folder().glob("*.bedwright")))
def test_every_sample_opens_is_drawn_and_asks_for_a_name(hand: Hand, name: str) -> None:
    hand.do(f"sample {name}")
    assert hand.garden.beds
    assert hand.document.path is None
    hand.window.grab()
    hand.do("save")
    assert hand.prompts.questions[-1].endswith(f"{name}.bedwright")


def test_the_questions_take_names_as_plain_text(hand: Hand, qtbot) -> None:
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication, QMessageBox

    seen: list[str] = []

    def answer() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        assert box.textFormat() == Qt.TextFormat.PlainText
        seen.append(box.text())
        box.buttons()[0].click()

    QTimer.singleShot(0, answer)
    assert Prompts().keep_changes(hand.window, "<b>x</b>") in ("save", "leave", "stay")
    QTimer.singleShot(0, answer)
    Prompts().show_error(hand.window, "<i>y</i> & z")
    assert seen == ["<b>x</b> has changes that are not saved.", "<i>y</i> & z"]


def test_window_place_and_look_are_remembered(open_hand) -> None:
    first = open_hand()
    first.do("look dark")
    first.window.resize(1100, 700)
    first.window.close()
    assert open_hand().window.look.wish == "dark"


# -- a file that another program changes while it is open -----------------------------------------


@pytest.fixture
def shared(hand: Hand, tmp_path: Path) -> tuple[Hand, Path]:
    """A window with an opened file, and an edit of its own."""
    path = tmp_path / "shared.bedwright"
    saved(path, "Read")
    hand.window.commands.file.open_path(path)
    hand.click((0.0, 0.0))
    hand.key(Qt.Key.Key_Right)
    assert hand.document.changed
    return hand, path


def refused(hand: Hand, path: Path) -> None:
    """Check that the file holds the other's work, and that this window's is at hand and in its journal."""
    asked = hand.prompts.questions[-1]
    assert "changed by another program" in asked
    assert "Yours, since it was read: 1 bed changed. Theirs: 1 bed changed." in asked
    assert storage.load(path).beds[0].name == "Theirs"
    assert hand.document.changed
    journal = hand.window.files.recovery.written  # after a crash it is offered, though their file is newer
    assert journal is not None
    assert storage.load(journal) == hand.garden


def test_a_file_changed_by_another_program_is_not_written_over(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.shortcut("Ctrl+S")
    refused(hand, path)


def test_save_as_onto_a_file_changed_by_another_program_is_refused_too(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.prompts.answers["save"] = str(path)
    hand.do("save as")
    refused(hand, path)


def test_saving_on_leaving_is_refused_and_the_window_stays(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.prompts.answers["leave"] = "save"
    assert not hand.window.close()
    refused(hand, path)
    assert hand.window.isVisible()


def test_the_way_out_keeps_both(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.do("save")
    mine = hand.garden
    hand.prompts.answers["save"] = str(path.with_name("mine.bedwright"))
    hand.do("save as")
    assert storage.load(path.with_name("mine.bedwright")) == mine
    assert storage.load(path).beds[0].name == "Theirs"
    hand.prompts.answers["save"] = str(path)  # the file it was read from is still known
    hand.do("save as")
    assert storage.load(path).beds[0].name == "Theirs"


def test_opening_it_again_goes_on_with_theirs(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.do("save")
    hand.prompts.errors.clear()
    hand.window.commands.file.open_path(path)
    assert hand.garden.beds[0].name == "Theirs"
    hand.click((0.0, 0.0))
    hand.key(Qt.Key.Key_Right)
    hand.do("save")
    assert hand.prompts.errors == []
    assert storage.load(path) == hand.garden


def test_an_untouched_file_is_saved_again_and_again(shared) -> None:
    hand, path = shared
    for _ in range(3):
        path.touch()
        hand.do("save")
        hand.key(Qt.Key.Key_Right)
    assert hand.prompts.errors == []


def test_a_file_deleted_meanwhile_is_written_anew(shared) -> None:
    hand, path = shared
    path.unlink()
    hand.do("save")
    assert hand.prompts.errors == []
    assert storage.load(path) == hand.garden


def test_what_another_program_wrote_is_joined_with_mine(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.prompts.answers["changed"] = "join"
    place = hand.bed("Read").outline.center
    hand.do("save")
    assert hand.bed("Theirs").outline.center == place
    assert hand.step == "Join with the changed file"
    assert storage.load(path).beds[0].outline.center != place  # merging is never silent: it is saved by hand
    hand.do("save")
    assert storage.load(path) == hand.garden


def test_taking_theirs_is_undone_into_mine(shared) -> None:
    hand, path = shared
    mine = hand.garden
    saved(path, "Theirs")
    hand.prompts.answers["changed"] = "theirs"
    hand.do("save")
    assert hand.garden == storage.load(path)
    assert not hand.document.changed
    hand.do("undo")
    assert hand.garden == mine
    hand.do("save")
    assert storage.load(path) == mine


def test_keeping_both_asks_for_another_name(shared) -> None:
    hand, path = shared
    saved(path, "Theirs")
    hand.prompts.answers.update(changed="both", save=str(path.with_name("mine.bedwright")))
    hand.do("save")
    assert storage.load(path.with_name("mine.bedwright")) == hand.garden
    assert storage.load(path).beds[0].name == "Theirs"


def test_a_file_that_became_unreadable_is_not_written_over(shared) -> None:
    hand, path = shared
    path.write_text("{ half")
    hand.do("save")
    assert "line 1" in hand.prompts.errors.pop()
    assert path.read_text() == "{ half"
    assert hand.document.changed


def test_a_file_is_read_once_when_it_is_opened_and_its_versions_kept_of_that(
    hand: Hand, tmp_path: Path, monkeypatch
) -> None:
    path = tmp_path / "plot.bedwright"
    saved(path)
    first = path.read_bytes()
    read: list[Path] = []
    read_content = files.read_content

    def counting(file: Path) -> bytes:
        read.append(Path(file))
        return read_content(file)

    monkeypatch.setattr(files, "read_content", counting)
    monkeypatch.setattr(storage, "read_content", counting)
    assert hand.window.files.open_path(path)
    assert read.count(path) == 1
    hand.document.edit("Rename", lambda g: edits.change_bed(g, "b1", name="Another"))
    assert hand.window.files.save()
    assert read.count(path) == 1
    second = path.read_bytes()
    assert [one.path.read_bytes() for one in hand.window.files.versions()] == [second, first]
    assert all(known.content == b"" for known in hand.window.files._known), "it is not kept in memory"
