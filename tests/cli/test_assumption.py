"""``--warmer`` and ``--years-of``: odds as if it were otherwise, marked as an assumption."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner.plan import Plan
from planner.resources import sample_folder
from planner.season.lived.assumed import Assumed
from planner.storage import save
from tests.recorded_gardens import recorded


@pytest.fixture
def mesa(tmp_path) -> Path:
    path = tmp_path / "mesa.bedwright"
    save(recorded("red_mesa"), path)
    return path


def test_check_as_if_it_were_warmer_says_so_first(bedwright, mesa):
    _, plain, _ = bedwright("check", str(mesa), "--no-light", "--year", "2026")
    _, warm, _ = bedwright("check", str(mesa), "--no-light", "--year", "2026", "--warmer", "1")
    first = warm.splitlines()[0]
    assert first == "An assumption: all that comes from the recorded years is as if 1.8 °F warmer."
    assert "An assumption" not in plain
    assert plain.count("frost takes it in") > warm.count("frost takes it in") > 0
    assert warm.count("as if 1.8 °F warmer, ") == warm.count("frost takes it in")


def test_the_report_of_the_harvest_names_what_is_assumed(bedwright, mesa):
    found = {}
    for degrees in ("0", "-1,5"):
        code, out, _ = bedwright(
            "amounts", str(mesa), "--what", "harvest", "--year", "2026", f"--warmer={degrees}", "--json"
        )
        assert code == 0
        found[degrees] = json.loads(out)["over_years"]
    assert found["0"]["assumed"] == ""
    assert found["-1,5"]["assumed"] == "as if 2.7 °F colder"
    assert found["-1,5"]["middle_g"] < found["0"]["middle_g"]
    for one in found.values():
        assert one["worst_g"] <= one["low_g"] <= one["middle_g"] <= one["high_g"]
        assert all(week["low_g"] <= week["middle_g"] <= week["high_g"] for week in one["weeks"])


def test_years_of_another_garden_stand_in(bedwright, mesa):
    lane = sample_folder() / "hollow_lane.bedwright"
    code, out, _ = bedwright(
        "amounts", str(lane), "--what", "harvest", "--year", "2026", "--years-of", str(mesa)
    )
    assert code == 0
    assert out.startswith(
        "An assumption: all that comes from the recorded years is as if with the years of Invented."
    )
    assert "With the weather of" in out


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--warmer", "2"), "keeps no recorded years of weather, so nothing can be assumed"),
        (
            ("--years-of", str(sample_folder() / "balcony_boxes.bedwright")),
            "keeps no recorded years of weather",
        ),
        (("--warmer", "much"), "'much' is no number of degrees"),
    ],
)
def test_what_cannot_be_assumed_is_one_line(bedwright, more, words):
    code, _, err = bedwright("check", str(sample_folder() / "hollow_lane.bedwright"), *more)
    assert code == 2
    assert words in err
    assert len(err.splitlines()) == 1


def test_too_much_is_refused(bedwright, mesa):
    code, _, err = bedwright("check", str(mesa), "--warmer", "99")
    assert code == 2
    assert "give a number from" in err


def test_a_shift_is_that_of_every_day(mesa):
    plan = Plan(recorded("red_mesa"), 2026)
    warm = plan.assuming(Assumed(warmer=1.5))
    assert plan.recorded is not None
    assert warm.recorded is not None
    for name in ("low", "high", "night", "mean"):
        assert getattr(warm.recorded, name) == pytest.approx(getattr(plan.recorded, name) + 1.5, nan_ok=True)
    assert warm.dates(plan.plantings[0]) is plan.dates(plan.plantings[0])
