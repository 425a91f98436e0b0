"""A picture under the plan: read within limits, placed, scaled by two points, faded, locked, hidden; its file stays as it is."""

from __future__ import annotations

import hashlib
import io
from pathlib import Path

import pytest
from hand import Hand, near
from making import bed, garden, rectangle
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner import storage
from planner.desk.model.underlay_picture import read_underlay
from planner.errors import BedwrightError
from planner.garden import Garden, edits

SVG = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><rect width="20" height="20" fill="red"/></svg>'
RED = (255, 0, 0)


def picture(path: Path, size: tuple[int, int] = (400, 200)) -> Path:
    """Red on its left half, blue on its right."""
    made = Image.new("RGB", size, RED)
    made.paste((0, 0, 255), (size[0] // 2, 0, *size))
    made.save(path)
    return path


def document(path: Path) -> Path:
    from reportlab.pdfgen.canvas import Canvas

    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(200, 100))
    for color in ((0, 0, 1), (1, 0, 0)):
        canvas.setFillColorRGB(*color)
        canvas.rect(0, 0, 200, 100, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    path.write_bytes(stream.getvalue())
    return path


@pytest.fixture
def hand(open_hand, tmp_path: Path) -> Hand:
    file = tmp_path / "a.bedwright"
    storage.save(garden(bed("b1", rectangle(0.5, 0.5))), file)
    hand = open_hand()
    assert hand.window.files.open_path(file)
    hand.view.scale_to(60.0)
    return hand


def lay(hand: Hand, qtbot, file: Path, **fields) -> None:
    hand.window.commands.draw.lay_file_under(file)
    if fields:
        hand.document.edit("Place", lambda made: edits.change_underlay(made, **fields))
    qtbot.waitUntil(lambda: bool(hand.view.underlay._levels or hand.view.underlay.words))


def color_at(hand: Hand, place: tuple[float, float]) -> tuple[int, int, int]:
    color = hand.view.viewport().grab().toImage().pixelColor(hand.at(place).toPoint())
    return color.red(), color.green(), color.blue()


def test_a_picture_lies_beneath_the_beds_true_to_its_place_and_is_faded_and_hidden(
    hand, qtbot, tmp_path
) -> None:
    file = picture(tmp_path / "map.png")
    before = hashlib.sha256(file.read_bytes()).hexdigest()
    hand.view.grid_shown = False
    lay(hand, qtbot, file, center=(0.0, 0.0), width=8.0, strength=1.0)
    assert hand.garden.underlay.path == "map.png"
    assert hand.garden.underlay.sha256 == before
    assert color_at(hand, (-1.1, 1.8)) == RED
    assert color_at(hand, (1.1, -1.3)) == (0, 0, 255)
    assert color_at(hand, (1.1, 2.3)) not in (RED, (0, 0, 255))  # it is 4 m high
    form = hand.window.docks.details.underlay
    hand.type(form.turn, "90")
    assert color_at(hand, (1.1, -1.8)) == RED  # its left is below now
    form.strength.setValue(40)
    assert color_at(hand, (1.1, -1.8))[1] > 100
    hand.do("hide underlay")
    assert color_at(hand, (1.1, -1.8))[1] > 200
    assert hashlib.sha256(file.read_bytes()).hexdigest() == before
    stored = storage.parse(storage.dump(hand.garden), "a file")
    assert stored == hand.garden
    assert "underlay" not in storage.dump(Garden())


def test_it_is_scaled_by_two_points_moved_and_locked(hand, qtbot, tmp_path) -> None:
    lay(hand, qtbot, picture(tmp_path / "map.png"), center=(0.0, 0.0), width=4.0)
    hand.do("select none")
    form = hand.window.docks.details.underlay
    form.scale_button.click()
    hand.click((-1.0, 0.0))
    hand.click((1.0, 0.0))
    QTest.keyClicks(hand.view, "3m")
    hand.key(Qt.Key.Key_Return)
    underlay = hand.garden.underlay
    assert near((underlay.width, *underlay.center), (6.0, 0.5, 0.0), 0.02)
    form.move_button.click()
    hand.drag((0.0, 0.0), (0.5, 0.5))
    assert near(hand.garden.underlay.center, (1.0, 0.5), 0.03)
    hand.window.commands.draw.show_underlay()
    form.locked.click()
    steps = hand.steps
    hand.view.take_tool("underlay-move")
    hand.drag((0.0, 0.0), (0.5, 0.5))
    assert (hand.steps, "locked" in hand.said[-1]) == (steps, True)


def test_a_missing_or_changed_file_is_said_in_one_line(hand, qtbot, tmp_path) -> None:
    file = picture(tmp_path / "map.png")
    lay(hand, qtbot, file)
    form = hand.window.docks.details.underlay
    assert form.problem.text() == ""
    picture(file, (300, 100))
    hand.document.edit("Page", lambda made: edits.change_underlay(made, page=2))  # read anew
    qtbot.waitUntil(lambda: "changed since" in form.problem.text())
    file.unlink()
    hand.document.edit("Page", lambda made: edits.change_underlay(made, page=3))
    qtbot.waitUntil(lambda: "map.png is missing" in form.problem.text())
    hand.window.commands.draw.lay_file_under(tmp_path.parent / "elsewhere.png")
    assert "not in the garden file" in hand.message()


def test_drawings_and_pages_are_read_and_what_is_wrong_is_refused(tmp_path: Path, qapp) -> None:
    drawing, pages = tmp_path / "plan.svg", document(tmp_path / "plan.pdf")
    drawing.write_bytes(SVG)
    image = read_underlay(drawing, 1)
    assert (image.width(), image.height(), image.pixelColor(100, 100).red()) == (4000, 2000, 255)
    assert image.pixelColor(3000, 100).alpha() == 0
    first, second = (read_underlay(pages, page).pixelColor(5, 5) for page in (1, 2))
    assert (first.blue(), second.red()) == (255, 255)
    with pytest.raises(BedwrightError, match="has no page 3"):
        read_underlay(pages, 3)
    drawing.write_bytes(SVG.replace(b"<rect", b'<image href="other.png"/><rect'))
    with pytest.raises(BedwrightError, match="other files"):
        read_underlay(drawing, 1)
    for name in ("a.svg", "a.pdf", "a.png"):
        (tmp_path / name).write_bytes(b"nothing of the kind")
        with pytest.raises(BedwrightError, match=name):
            read_underlay(tmp_path / name, 1)
