"""A newcomer's first sheet: the card, one crop dragged into a bed, the sheet as PDF; nothing is read before."""

from __future__ import annotations

from pathlib import Path

from .person import person

#: Most keys that the first sheet may take.
MOST_KEYS = 25
#: Middle of the second of the boxes that the card proposes. [m]
BOX_2 = (1.8, -0.2)


def run(folder: Path) -> None:
    """Work through the task; pictures and files come into a folder."""
    with person(folder) as one:
        one.to_front("Bedwright")
        one.find("Where", "QLineEdit")
        one.picture("the card")
        one.type("52 n")
        one.press("Tab", "Tab")
        one.type("15.5")
        one.press("Tab")
        one.type("10.10")
        one.picture("answered")
        one.press("Return")
        one.waits(lambda: not one.all_seen("Begin", "QPushButton"), "the card to go")
        one.picture("three boxes")
        one.screen.drag(one.middle(one.find("Beetroot", "row")), one.on_plan(*BOX_2))
        one.read("plants")
        one.waits(lambda: one.all_seen("Beetroot", "QLabel"), "the form of the planting")
        one.picture("planted")
        one.press("ctrl+shift+p")
        one.waits(lambda: one.look()["modal"], "the question where to save")
        one.picture("where to")
        one.press("Return")
        one.waits(lambda: [p for p in folder.rglob("*.pdf") if p.stat().st_size > 1000], "the sheet")
        one.picture("the sheet is written")
        (sheet,) = folder.rglob("*.pdf")
        assert sheet.read_bytes().startswith(b"%PDF")
        assert one.keys <= MOST_KEYS, one.keys
        assert one.cut_off() == []
