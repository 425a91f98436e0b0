"""Places that are proposed for a trial.

Yardstick: the definition of a randomised block, held over seeds: each treatment once in each block, the plots of a block side by
side, and each treatment in each place of a block as often as the others (scipy's chi-square).
"""

from __future__ import annotations

import itertools
from collections import Counter

import pytest
from making import bed, garden, planting, rectangle
from scipy import stats

from planner.amounts.trial_places import TrialPlacesError, TrialPlot, propose_places
from planner.garden import Garden, Site, Structure
from planner.garden import edits as e
from planner.plan import Plan

BED = bed("b1", rectangle(9.6, 1.2), name="North")
#: A wall at the western end of the bed, which shades that end in the afternoon.
WALL = Structure(
    id="s1", kind="wall", name="Wall", height=3.0, outline=rectangle(0.3, 4.0, center=(-5.5, 0.0))
)
SHADED = Garden(site=Site(latitude=56.0, longitude=0.0), beds=(BED,), structures=(WALL,))


def proposed(of: Garden, treatments: str = "abc", blocks: int = 4, seed: int = 0) -> tuple[TrialPlot, ...]:
    return propose_places(Plan(of, 2026), of.beds[0], tuple(treatments), blocks, seed)


def test_each_treatment_stands_once_in_each_block() -> None:
    places = proposed(SHADED)
    assert Counter((one.treatment, one.block) for one in places) == {
        (name, str(block)): 1 for name in "abc" for block in (1, 2, 3, 4)
    }
    ends = [(one.plot.start, one.plot.end) for one in places]
    assert ends[0][0] == 0
    assert ends[-1][1] == 9.6
    assert all(a[1] == b[0] for a, b in itertools.pairwise(ends))


def test_a_block_is_plots_beside_each_other_and_the_light_changes_between_blocks() -> None:
    """A wall in the middle of the bed shades its middle: plots of like light lie apart, plots of a block never do."""
    places = proposed(SHADED)
    hours = [one.hours for one in places if one.hours is not None]
    assert hours[-1] - hours[0] > 1
    middle = WALL.with_(outline=rectangle(1.0, 0.3, center=(0.0, -0.9)))
    for of in (SHADED, SHADED.with_(structures=(middle,))):
        by_block: dict[str, list[TrialPlot]] = {}
        for one in proposed(of):
            by_block.setdefault(one.block, []).append(one)
        for there in by_block.values():
            assert max(one.plot.end for one in there) - min(one.plot.start for one in there) == pytest.approx(
                sum(one.plot.end - one.plot.start for one in there)
            )
    spreads = [
        max(lights) - min(lights) for lights in ([hours[n] for n in range(b, b + 3)] for b in (0, 3, 6, 9))
    ]
    assert max(spreads) < hours[-1] - hours[0]


def test_without_light_neighbours_are_a_block() -> None:
    places = proposed(garden(BED))
    assert [one.block for one in places] == [str(n // 3 + 1) for n in range(12)]
    assert {one.hours for one in places} == {None}


def test_chance_lays_them_out() -> None:
    of = garden(BED)
    assert proposed(of, seed=5) == proposed(of, seed=5)
    counts = Counter(
        (one.treatment, n % 3)
        for seed in range(120)
        for n, one in enumerate(proposed(of, blocks=1, seed=seed))
    )
    assert stats.chisquare([counts[name, place] for name in "abc" for place in range(3)]).pvalue > 0.001


def test_only_free_ground_is_taken() -> None:
    taken = planting("p1", crop="carrot", plot={"kind": "stretch", "start": 0, "end": 4.0})
    places = proposed(garden(BED, taken), "ab", 2)
    assert places[0].plot.start == pytest.approx(4.0, abs=0.02)


@pytest.mark.parametrize(
    ("treatments", "blocks", "words"),
    [
        ("a", 2, "at least two"),
        ("aa", 2, "at least two"),
        ("ab", 0, "at least once"),
        ("ab", 40, "do not fit"),
        ("ab", 4000, "at most"),
    ],
)
def test_what_cannot_be_laid_out_says_why(treatments: str, blocks: int, words: str) -> None:
    with pytest.raises(TrialPlacesError, match=words):
        proposed(garden(BED), treatments, blocks)


def test_a_trial_is_planted_in_one_edit() -> None:
    of = garden(BED)
    places = [(one.treatment, one.block, one.plot) for one in proposed(of, "ab", 2)]
    after, key = e.lay_trial(of, "b1", "carrot", 2026, "Which is earlier?", places, measure="days")
    (trial,) = after.trials
    assert (trial.id, trial.measure, len(after.plantings)) == (key, "days", 4)
    for entry, (treatment, block, plot) in zip(trial.entries, places, strict=True):
        one = after.plantings_by_id[entry.planting]
        assert (one.variety, one.plot, one.purpose, entry.block) == (treatment, plot, "trial", block)
    covered, _ = e.lay_trial(
        of, "b1", "carrot", 2026, "Is it sown later?", places, {"b": {"timing": "autumn"}}
    )
    assert [one.timing for one in covered.plantings if one.variety == ""] == ["autumn", "autumn"]
