"""``bedwright turn``."""

from __future__ import annotations

import datetime as dt

from planner import resources
from planner.storage import load


def test_the_next_year_is_written_and_told(bedwright, file, tmp_path):
    new = str(tmp_path / "next.bedwright")
    before = load(file)
    code, out, _ = bedwright("turn", file, "-o", new, "--year", "2025", "--repeat", "all")
    assert code == 0
    assert out.endswith(f"{new}: 2026 begins\n")
    assert "Wishes for 2026" in out
    assert load(file) == before
    after = load(new)
    assert after.plantings[: len(before.plantings)] == before.plantings
    assert after.wishes
    assert {one.year for one in after.wishes} == {2026}


def test_answers_are_taken(bedwright, file, tmp_path):
    new = str(tmp_path / "next.bedwright")
    key = next(one.id for one in load(file).plantings if one.year == 2025)
    code, out, _ = bedwright(
        "turn",
        file,
        "-o",
        new,
        "--year",
        "2025",
        "--ended",
        f"{key}=eaten:2025-06-20",
        "--as-planned",
        "--no-wishes",
    )
    assert code == 0
    assert "Not ticked off" not in out
    after = load(new)
    outcome = after.outcome(after.plantings_by_id[key])
    assert outcome is not None
    assert (outcome.why, outcome.day) == ("eaten", dt.date(2025, 6, 20))
    assert after.wishes == ()


def test_one_planting_is_answered_for_and_a_second_turn_repeats_nothing_twice(bedwright, tmp_path):
    boxes = str(resources.sample_folder() / "balcony_boxes.bedwright")
    new, newer = str(tmp_path / "next.bedwright"), str(tmp_path / "newer.bedwright")
    arguments = ("--year", "2026", "--done", "p2", "--repeat", "all")
    code, out, _ = bedwright("turn", boxes, "-o", new, *arguments)
    assert code == 0
    assert "(p3)" in out
    assert "(p2)" not in out
    assert "Answer for open work with --done ID" in out
    assert {(one.planting, one.task) for one in load(new).records} == {("p2", "sow"), ("p2", "clear")}
    code, out, _ = bedwright("turn", new, "-o", newer, *arguments)
    assert code == 0
    assert "radish in Box left: is planned for 2027 already, in Box left" in out
    assert load(newer) == load(new)


def test_what_cannot_be_is_refused(refused, file, tmp_path):
    new = str(tmp_path / "next.bedwright")
    assert "no planting 'p99'" in refused("turn", file, "-o", new, "--ended", "p99=eaten")
    key = load(file).plantings[0].id
    assert "no planting 'p99'" in refused("turn", file, "-o", new, "--done", "p99")
    assert "no way to end" in refused("turn", file, "-o", new, "--ended", f"{key}=stolen")
    assert "'quince'" in refused("turn", file, "-o", new, "--repeat", "quince")
    assert "no planting 'p99'" in refused("turn", file, "-o", new, "--not-begun", "p99")
    assert "is there already" in refused("turn", file, "-o", file)
