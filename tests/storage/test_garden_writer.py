"""A writer that keeps the text of what stays writes what is written anew, and that is plain JSON of the whole garden."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest
from effort import tries
from random_edits import EDITS, random_edit

from planner import resources
from planner.garden import Garden
from planner.garden.garden import YearNote
from planner.storage import load, parse
from planner.storage.document import FORMAT, SCHEMA, GardenWriter, dump
from planner.storage.readable_json import LONGEST_LINE


def slowly(garden: Garden, more: dict[str, Any]) -> str:
    """The text of a garden, the whole of it turned into tables and written by the standard library part by part."""
    fields = garden.model_dump(mode="json", exclude_defaults=True)
    if garden.site.outline is not None:
        fields["site"]["outline"]["shape"] = garden.site.outline.shape
    for name in ("beds", "structures"):
        for thing, table in zip(getattr(garden, name), fields.get(name, ()), strict=True):
            table["outline"]["shape"] = thing.outline.shape
    for planting, table in zip(garden.plantings, fields.get("plantings", ()), strict=True):
        for name in ("plot", "arrangement"):
            if name in table:
                table[name]["kind"] = getattr(planting, name).kind

    def text(value: Any, indent: str) -> str:
        inner = indent + "  "
        if isinstance(value, dict) and value:
            lines = [
                f"{inner}{json.dumps(k, ensure_ascii=False)}: {text(value[k], inner)}" for k in sorted(value)
            ]
            return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
        plain = json.dumps(value, ensure_ascii=False)
        if not isinstance(value, list) or not value:
            return plain
        if not any(isinstance(part, (list, dict)) for part in value) and len(plain) <= LONGEST_LINE:
            return plain
        return "[\n" + ",\n".join(inner + text(part, inner) for part in value) + f"\n{indent}]"

    return text({"format": FORMAT, "schema": SCHEMA, **fields, **more}, "") + "\n"


@pytest.mark.parametrize("name", ["hollow_lane", "wattle_bank", "red_mesa"])
def test_a_writer_that_followed_edits_writes_the_whole_garden(name: str) -> None:
    chance = random.Random(name)
    garden = load(resources.sample_folder() / f"{name}.bedwright")
    writer = GardenWriter()
    done = 0
    while done < tries(30, 60):
        after = random_edit(chance, garden, chance.choice(sorted(EDITS)))
        if after is None:
            continue
        garden, done = after, done + 1
        more: dict[str, Any] = {"unsaved": {"window": str(done)}} if done % 2 else {}
        written = writer.dump(garden, more)
        assert written == slowly(garden, more) == dump(garden, more)
    assert parse(written) == garden


def test_things_that_take_one_short_line_stay_tables() -> None:
    garden = Garden(notes=(YearNote(year=2026, text="dry"),))
    text = dump(garden)
    assert text == slowly(garden, {})
    assert parse(text) == garden


def test_only_what_is_new_is_turned_into_text(monkeypatch: pytest.MonkeyPatch) -> None:
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    writer = GardenWriter()
    first = writer.dump(garden)
    bed = garden.beds[0].with_(name="Another")
    after = garden.with_(beds=(bed, *garden.beds[1:]))
    made: list[object] = []
    document = __import__("planner.storage.document", fromlist=["written"])
    written = document.written
    monkeypatch.setattr(document, "written", lambda *args: made.append(args) or written(*args))
    assert writer.dump(after) != first
    assert len(made) == 1
    parts = ("beds", "structures", "plantings", "varieties", "stock", "benches", "dressings", "shed", "store_places", "offers", "planting_stock", "notes", "trials", "wishes", "records", "waived")  # fmt: skip
    assert len(writer._texts) == sum(len(getattr(after, name)) for name in parts)
