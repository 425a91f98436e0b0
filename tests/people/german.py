"""A grower who reads German, at 200 per cent and in the dark: every page, the forms, a crop planted, the work ticked."""

from __future__ import annotations

from pathlib import Path

from .person import person

#: Tabs of the window, and words that are read on each.
PAGES = (
    ("Plan", "Familien"),
    ("Jahr", ""),
    ("Aufzeichnungen", ""),
    ("Diese Kultur", ""),
    ("Mengen", ""),
    ("Ernte", ""),
    ("Saatgut", ""),
    ("Drucken", ""),
)


def run(folder: Path) -> None:
    """Work through the task; pictures and files come into a folder."""
    faults: list[str] = []
    with person(
        folder,
        "--sample",
        "hollow_lane",
        size=(2560, 1600),
        settings=["look=dark"],
        env={"BEDWRIGHT_LANGUAGE": "de", "QT_SCALE_FACTOR": "2"},
    ) as one:
        one.to_front("Bedwright")
        one.picture("plan")
        tabs = [w for w in one.look()["widgets"] if w["kind"] == "tab"]
        print([t["name"] for t in tabs])
        for w in one.look()["widgets"]:
            print(w["kind"], repr(w["name"]), w["cut"])
