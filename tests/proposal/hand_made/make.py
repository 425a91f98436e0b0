"""Twelve gardens with wishes, and for each a layout that was made by hand before any was proposed.

Run it to write ``NAME.bedwright`` (the garden and its wishes), ``NAME.by_hand.bedwright`` (the same with the layout) and
the table ``hand_made.csv``; ``--judge NAME`` prints what the checks say of a layout, and what it brings::

    PYTHONPATH=.:tests python tests/proposal/hand_made/make.py [--judge NAME]

The scenes are in ``small_gardens.py``, ``odd_gardens.py`` and ``large_gardens.py``.
"""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Callable
from pathlib import Path

from proposal.hand_made import large_gardens, odd_gardens, small_gardens
from proposal.hand_made.scene import Scene, ground_used, met_by

from planner import storage
from planner.checks import check_all
from planner.garden import Garden
from planner.plan import Plan

FOLDER = Path(__file__).parent
SCENES: tuple[Callable[[], Scene], ...] = (*small_gardens.SCENES, *odd_gardens.SCENES, *large_gardens.SCENES)
HEADINGS = ("garden", "year", "beds", "wishes", "plantings by hand", "met", "in part", "not", "midsummer %")


def files_of(scene: Scene) -> dict[str, str]:
    """The two garden files of a scene, text by file name."""
    return {
        f"{scene.name}.bedwright": storage.dump(scene.garden),
        f"{scene.name}.by_hand.bedwright": storage.dump(scene.layout()),
    }


def table_row(scene: Scene, garden: Garden) -> list[object]:
    """Line of the table for a scene and its layout."""
    verdicts = [one.verdict for one in met_by(garden, scene.year)]
    planted = len(garden.plantings) - len(scene.garden.plantings)
    counts = [verdicts.count(word) for word in ("met", "in part", "not")]
    return [
        scene.name,
        scene.year,
        len(garden.beds),
        len(verdicts),
        planted,
        *counts,
        round(100 * ground_used(garden, scene.year)),
    ]


def table() -> str:
    """The table of all scenes, as CSV."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADINGS)
    for make in SCENES:
        scene = make()
        writer.writerow(table_row(scene, scene.layout()))
    return text.getvalue()


def judge(scene: Scene) -> None:
    """Print the findings of a layout, what it brings of each wish, and when."""
    garden = scene.layout()
    plan = Plan(garden, scene.year)
    for one in check_all(plan):
        beds = ", ".join(garden.beds_by_id[key].name for key in one.beds)
        print(f"{one.severity:4} {one.check:13} {beds}: {one.text}")
    for met in met_by(garden, scene.year):
        asked = "any" if met.asked is None else f"{met.asked:g}"
        print(
            f"{met.verdict:8} {met.wish.id:4} {met.wish.crop:16} {met.brought:7.4g} of {asked} {met.wish.unit}"
        )
        for planting in garden.plantings:
            if planting.wish == met.wish.id:
                dates = plan.dates(planting)
                harvest = [str(day.day) if day else "-" for day in (dates.first_harvest, dates.last_harvest)]
                span, bed = plan.span_of(planting), garden.beds_by_id[planting.bed].name
                print(f"{'':14}{bed}: {span.first} to {span.last}, harvest {' to '.join(harvest)}")


def main(words: list[str]) -> None:
    """Write all files, or judge the scene that is named."""
    if words[:1] == ["--judge"]:
        for make in SCENES:
            if make.__name__ in words[1:]:
                judge(make())
        return
    for make in SCENES:
        for name, text in files_of(make()).items():
            (FOLDER / name).write_text(text, encoding="utf-8")
    (FOLDER / "hand_made.csv").write_text(table(), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
