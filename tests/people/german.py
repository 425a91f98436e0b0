"""A grower who reads German, at 200 per cent and in the dark: every page and form is German, and nothing is cut off."""

from __future__ import annotations

import re
from pathlib import Path

from babel.messages.pofile import read_po

from planner import resources

from .person import Person, person

#: So many pages has the window, at least.
PAGES = 8


def english_sentences() -> frozenset[str]:
    """Sentences that are said otherwise in German, without those with parts to be filled in."""
    path = resources.resource("languages", "de", "LC_MESSAGES", "bedwright.po")
    with path.open("rb") as file:
        entries = [entry for entry in read_po(file, locale="de") if isinstance(entry.id, str)]
    german = {entry.string for entry in entries}
    return frozenset(
        plain(entry.id)
        for entry in entries
        if entry.id and entry.string != entry.id and entry.id not in german and "{" not in entry.id
    )


def plain(text: str) -> str:
    return re.sub("<[^>]*>", "", text).replace("&", "").strip()


def run(folder: Path) -> None:
    """Work through the task; pictures and files come into a folder."""
    english = english_sentences()
    assert "Undo" in english
    faults: list[str] = []
    with person(
        folder,
        "--sample",
        "hollow_lane",
        size=(2560, 1600),
        settings=["look=dark"],
        env={"BEDWRIGHT_LANGUAGE": "de", "QT_SCALE_FACTOR": "2"},
    ) as one:

        def examine(name: str) -> None:
            one.picture(name)
            faults.extend(f"{name}: {fault}" for fault in one.cut_off())
            faults.extend(
                f"{name}: English: {w['text']}" for w in one.look()["widgets"] if plain(w["text"]) in english
            )

        one.to_front("Bedwright")
        examine("Plan")
        assert one.screen.pixels().mean() < 90  # dark
        pages = _tabs(one, "Plan", "Druck")
        assert len(pages) >= PAGES
        for page in pages[1:]:
            one.click(page, "tab")
            examine(page)
        one.click("Plan", "tab")
        one.click("Befunde", "tab")
        examine("Befunde")
        one.click("Inhalt", "tab")
        examine("Inhalt")
        one.click("Einzelheiten", "tab")
        one.screen.click(one.on_plan(1.0, 8.7))
        one.read("Pflanzung")
        examine("Pflanzung")
        one.click("Datei", "entry")
        examine("Menü Datei")
        one.press("Escape")
        one.press("ctrl+F9")
        one.read("Aussehen")
        examine("Einstellungen")
        one.press("Escape")
    assert faults == [], "\n".join(faults)


def _tabs(one: Person, first: str, last: str) -> list[str]:
    names = [w["name"] for w in one.look()["widgets"] if w["kind"] == "tab"]
    return names[names.index(first) : names.index(last) + 1]
