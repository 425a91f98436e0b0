"""Readers see publications by name or number: never the keys by which the tables name them."""

from __future__ import annotations

import datetime as dt
import io
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from sample_reading import FOLDER, YEAR

from planner.amounts import amounts
from planner.amounts.work import work_between
from planner.checks import check_all
from planner.crops import load_catalogue
from planner.listings.amounts import amounts_lines
from planner.listings.calendar import calendar
from planner.listings.crops import crop_lines
from planner.listings.findings import findings_lines
from planner.listings.harvest import harvest_lines
from planner.listings.store import store_lines
from planner.listings.tasks import tasks_lines
from planner.plan import Plan
from planner.sheets.bed_sheets import write_bed_sheets
from planner.sheets.week_sheets import write_week_sheets
from planner.storage import load

SAMPLES = sorted(FOLDER.glob("*.bedwright"))


#: A word by itself, as the keys are; and anything in brackets that looks like a key.
_WORD = re.compile(r"(?<![\w/.])\w+")
_IN_BRACKETS = re.compile(r"\[(?:[a-z]\w*_\w+|practice|estimate)\]")


@cache
def _keys() -> frozenset[str]:
    """Keys of the sources that are no plain words."""
    keys = (key for key in load_catalogue().sources if "_" in key or any(sign.isdigit() for sign in key))
    return frozenset(keys)


def _keys_in(text: str) -> list[str]:
    """Keys of the sources in a text, and what in brackets looks like one."""
    return [*_IN_BRACKETS.findall(text), *(word for word in _WORD.findall(text) if word in _keys())]


def _listings(plan: Plan) -> Iterator[tuple[str, str]]:
    first, last = plan.span.first, plan.span.last
    work = work_between(plan, first, last)
    yield "amounts", "\n".join(amounts_lines(plan, amounts(plan)))
    yield "harvest", "\n".join(harvest_lines(plan))
    yield "store", "\n".join(store_lines(plan))
    yield "tasks", "\n".join(tasks_lines(plan, work, first, last))
    yield "why", "\n".join(f"{task.why} {task.material}" for task in work)
    yield "calendar", calendar(plan, work).decode()
    found = check_all(plan, lore=True, light=False)
    yield "check", "\n".join(findings_lines(plan, found))
    for one in found:
        yield one.check, f"{one.text} {one.rule} " + " ".join(f"{fix.text} {fix.gain}" for fix in one.fixes)


def _sheets(plan: Plan) -> Iterator[tuple[str, str]]:
    beds, week = io.BytesIO(), io.BytesIO()
    write_bed_sheets(plan, beds, today=dt.date(2026, 3, 1))
    write_week_sheets(plan, week, plan.span.first, plan.span.last, today=dt.date(2026, 3, 1))
    for name, stream in (("bed sheets", beds), ("week sheets", week)):
        for page in pypdfium2.PdfDocument(stream.getvalue()):
            yield name, page.get_textpage().get_text_range()


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_key_of_a_source_in_listings_and_findings(path: Path) -> None:
    found = [(where, key) for where, text in _listings(Plan(load(path), YEAR)) for key in _keys_in(text)]
    assert not found


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_no_key_of_a_source_on_sheets(path: Path) -> None:
    found = [(where, key) for where, text in _sheets(Plan(load(path), YEAR)) for key in _keys_in(text)]
    assert not found


def test_no_key_of_a_source_in_what_is_known_of_a_crop() -> None:
    catalogue = load_catalogue()
    for crop in catalogue.crops.values():
        text = "\n".join(crop_lines(catalogue, crop))
        assert _keys_in(text) == [], crop.key


def test_the_test_finds_keys() -> None:
    assert all(re.fullmatch(r"\w+", key) for key in _keys())
    assert _keys_in("thinned [ume_chart] early")
    assert _keys_in("as cga_811 says") == ["cga_811"]
    assert _keys_in("[practice]") == ["[practice]"]
    assert _keys_in("[3] common practice") == []
