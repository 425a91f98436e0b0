"""The week of a grower of forty beds: ticks work off on a walk, notes slugs, finds a bed, writes the weeks' sheets."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from planner import storage

from ..forty_beds import forty_beds
from .person import person


def run(folder: Path) -> None:
    """Work through the task; pictures and files come into a folder."""
    home = folder / "home"
    home.mkdir(parents=True, exist_ok=True)
    path = home / "forty.bedwright"
    year = dt.date.today().year - 1
    storage.save(forty_beds(year), path)
    with person(folder, path, size=(1800, 1100)) as one:
        one.to_front("Bedwright")
        one.picture("forty beds")
        one.press("ctrl+shift+e")
        one.find("Day of the walk")
        one.screen.click(one.middle(one.find("Day of the walk")), times=3)
        one.type(f"15.4.{year}")
        one.press("Return")
        one.picture("the walk")
        one.click("What happened", "QLineEdit")
        one.type("1 3")
        one.press("Return")
        one.read("done")
        one.picture("two works ticked")
        one.click("Next bed", "QPushButton")
        one.read("N 2")
        one.click("What happened", "QLineEdit")
        one.type("slugs, half of it")
        one.press("Return")
        one.picture("slugs in the second bed")
        one.click("Plan", "tab")
        one.click("Contents", "tab")
        one.click("N 4", "row")
        one.picture("a bed found by its name")
        one.press("ctrl+s")
        one.waits(lambda: "*" not in one.title, "the file to be saved")
        one.click("File", "entry")
        one.picture("the menu")
        one.click("Week sheets as PDF", "entry")
        one.waits(lambda: one.look()["modal"], "the question where the sheets go")
        one.press("Return")
        one.waits(lambda: any(home.glob("*.pdf")), "the sheets of the weeks")
        one.picture("sheets written")
    garden = storage.load(path)
    assert len(garden.beds) == 40
    assert [record.kind for record in garden.records] == ["done", "done", "seen"]
