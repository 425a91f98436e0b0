"""In another language nothing of English is left in what commands print and sheets show, but names."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from sheets.paper_reading import Paper
from words.pseudo import pseudo_language, untranslated
from words.test_sentences import names_in

from planner import resources
from planner.cli.command_line import main
from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan import Plan
from planner.sheets.kinds import SheetKind, SheetWish, write_sheets
from planner.storage import load

FILE = resources.sample_folder() / "balcony_boxes.bedwright"
GARDEN = load(FILE)
TODAY = dt.date(2026, 6, 10)
#: So many pages are read: the last ones cite publications, in lines of their own.
PAGES = 12
PARTS = ("plants", "raising", "covers", "supports", "ground", "shopping", "harvest", "store")
COMMANDS = (
    ("tasks",), *(("amounts", "--what", part) for part in PARTS), ("check",), ("years",), ("learned",), ("trials",), ("kitchen",),
    ("records",),
)  # fmt: skip
#: Kinds of sheets; their marks are looked for in the text of the PDF.
SHEETS: tuple[SheetKind, ...] = ("bed", "week", "map", "walk", "water", "shopping", "labels")


def names_of(garden: Garden) -> frozenset[str]:
    """What stays as it is in any language: names, notes, sources, and units without a number before them."""
    plain = names_in(garden)
    notes = {
        one.notes
        for one in (*garden.beds, *garden.plantings, *garden.structures)
        if getattr(one, "notes", "")
    }
    sources = {text for one in load_catalogue().sources.values() for text in (one.in_brief, one.citation)}
    return frozenset(
        {
            *plain,
            *(name[:1].upper() + name[1:] for name in plain),
            garden.site.name,
            *(note.text for note in garden.notes),
            *notes,
            *sources,
            "kg",
        }
    )


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_commands_print_no_english_in_another_language(
    command: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    with pseudo_language():
        assert main([command[0], str(FILE), *command[1:]]) in (0, 1)
    printed = capsys.readouterr()
    assert "⟦" in printed.out
    assert printed.err == ""
    assert not left_in(printed.out)


@pytest.mark.parametrize("kind", SHEETS)
def test_sheets_show_no_english_in_another_language(kind: SheetKind) -> None:
    target = io.BytesIO()
    with pseudo_language():
        plan = Plan(GARDEN, 2026)
        write_sheets(plan, target, SheetWish(kind=kind, day=TODAY, sources="without"), TODAY)
    with Paper(target.getvalue()) as paper:
        pages = range(min(len(paper), PAGES))
        assert left_in(" ".join(paper.text(page) for page in pages)) == []


def left_in(text: str) -> list[str]:
    """Words of a text that are neither translated nor names; single letters are those of plots."""
    found = untranslated(text.replace("\u00a0", " "), names_of(GARDEN))
    return [word for word in found.split() if len(word) > 1]
