"""Waivers in a garden file written before the checks had their present names in the code.

``plot_17_of_2026.bedwright`` was written by that version, with its keys of findings: the name of the
check, the planting or bed, and a digest of the facts.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from making import catalogue_of, crop

from planner.checks import Finding, check_all
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import dump, load
from planner.storage.document import SCHEMA

FILE = Path(__file__).parent / "plot_17_of_2026.bedwright"
#: Figures of the time, so that new ones in the catalogue change no fact.
CROPS = catalogue_of(
    crop(
        "rhubarb",
        starts={"value": ["crowns", "standing"], "source": "practice"},
        in_row_spacing=0.9,
        row_spacing=0.9,
        height=0.8,
        spread=0.9,
        harvest_days=60,
    ).model_copy(update={"life_cycle": "perennial"}),
    crop(
        "lettuce",
        in_row_spacing={"value": 0.3, "low": 0.25, "source": "estimate"},
        row_spacing=0.3,
        height=0.25,
        spread=0.25,
        days_to_maturity=60,
        harvest_days=20,
        germination=0.8,
        store_days=14,
    ),
)
KEYS = [
    "standing/p2/26490bce7c01",
    "season/p4/f59774f77994",
    "outside/p4/15f0670b0110",
    "overlap/p5/143f360902b0",
    "crowding/p3/54e03f5bcaa7",
    "path/b1/fc1eb6fdca30",
    "reach/b2/7627255c6def",
    "stock/p2/21081f6a77dd",
    "store/p5/d32c224dd2c4",
]


def findings(garden: Garden) -> tuple[Finding, ...]:
    return check_all(Plan(garden, 2026, CROPS), light=False)


def test_every_old_waiver_still_belongs_to_its_finding():
    garden = load(FILE)
    assert [waiver.finding for waiver in garden.waived] == KEYS
    assert [(one.key, one.waived) for one in findings(garden)] == [
        (key, f"Tried before: {key.split('/')[0]}") for key in KEYS
    ]


@pytest.mark.parametrize("key", KEYS)
def test_without_its_waiver_a_finding_is_open_again(key):
    found = {one.key: one.waived for one in findings(e.unwaive(load(FILE), key))}
    assert found[key] == ""
    assert all(reason for other, reason in found.items() if other != key)


def test_the_file_is_written_as_it_was_but_for_the_number_of_its_schema():
    assert dump(load(FILE)) == FILE.read_text("utf-8").replace('"schema": 1', f'"schema": {SCHEMA}')
