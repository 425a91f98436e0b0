"""A grower without a mouse: the card, a bed by its size, a crop into it, the bed's sheet, the file; keys alone."""

from __future__ import annotations

from pathlib import Path

from planner import storage

from .person import person


def run(folder: Path) -> None:
    """Work through the task; pictures and files come into a folder."""
    path = folder / "home" / "keys.bedwright"
    with person(folder) as one:
        one.to_front("Bedwright")
        one.find("Where", "QLineEdit")
        one.press("Escape")
        one.waits(lambda: not one.all_seen("Begin with this", "QPushButton"), "the card to go")
        one.press("ctrl+b")
        one.waits(lambda: one.look()["modal"], "the dialog of new beds")
        one.picture("new beds")
        one.press("Return")
        one.waits(lambda: not one.look()["modal"], "the beds")
        one.picture("beds made")
        one.press("ctrl+f")
        one.waits(lambda: one.focus and one.focus["name"] == "Find a crop", "the search to have the keys")
        one.type("carrot")
        one.press("Return")
        one.picture("carrot found")
        one.press("ctrl+Return")
        one.picture("carrot before it is planted")
        one.press("Return")
        one.picture("planted")
        one.press("ctrl+s")
        one.waits(lambda: one.look()["modal"], "the question where to save")
        one.press("ctrl+a")
        one.type("keys")
        one.press("Return")
        one.waits(path.is_file, "the file")
        one.picture("saved")
        one.press("ctrl+shift+p")
        one.waits(lambda: one.look()["modal"], "the question where the sheets go")
        one.press("Return")
        one.waits(lambda: any(folder.rglob("*.pdf")), "the sheets")
        one.picture("sheets written")
    garden = storage.load(path)
    assert garden.beds
    assert [planting.crop for planting in garden.plantings] == ["carrot"]
