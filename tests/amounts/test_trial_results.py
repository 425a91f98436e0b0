"""What trials show.

Yardsticks: scipy's distributions and tests; Student's sleep data, as R prints their tests; and Darwin's maize, of which Fisher
counted all 32,768 ways in "The Design of Experiments", section 21 (314 eighths of an inch in all, 1,726 ways as far out). Both sets are
recalled; that they give the published sums, intervals and counts is asserted.
"""

from __future__ import annotations

import datetime as dt
import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import bed, garden, planting
from scipy import special, stats

from planner.amounts.trials import (
    Comparison,
    LostPlot,
    TrialResult,
    _incomplete_blocks,
    compare,
    trial_result,
    trial_results,
)
from planner.garden import Garden
from planner.garden import edits as e
from planner.garden.planting import Planting
from planner.garden.trials import Trial, TrialEntry
from planner.listings.trials import conclusions, trial_lines
from planner.plan import Plan
from planner.season.student_t import both_tails, for_both_tails, incomplete_beta

FIRST_DRUG = (0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0)
SECOND_DRUG = (1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4)
#: Crossed less self-fertilised, in eighths of an inch.
DARWIN = (49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48)


def two(one: tuple[float, ...], other: tuple[float, ...], *, blocks: bool) -> Comparison:
    """Two treatments compared."""
    found = [("one", str(n) if blocks else "", value) for n, value in enumerate(one)]
    found += [("other", str(n) if blocks else "", value) for n, value in enumerate(other)]
    _, (comparison,), _ = compare(found)
    return comparison


# -- Student's t ----------------------------------------------------------------------------------


@given(x=st.floats(0, 1), a=st.floats(0.5, 500), b=st.floats(0.5, 500))
def test_the_incomplete_beta_function_is_that_of_scipy(x: float, a: float, b: float) -> None:
    assert incomplete_beta(x, a, b) == pytest.approx(special.betainc(a, b, x), rel=1e-9, abs=1e-13)


@given(t=st.floats(-60, 60), freedom=st.floats(1, 3_000))
def test_tails_are_those_of_scipy(t: float, freedom: float) -> None:
    assert both_tails(t, freedom) == pytest.approx(2 * stats.t.sf(abs(t), freedom), rel=1e-8, abs=1e-13)


@pytest.mark.parametrize("freedom", [1, 1.5, 2, 9, 17.776, 40, 1e4])
@pytest.mark.parametrize("chance", [0.5, 0.05, 0.05 / 6, 0.0005])
def test_values_for_a_chance_are_those_of_scipy(chance: float, freedom: float) -> None:
    assert for_both_tails(chance, freedom) == pytest.approx(stats.t.isf(chance / 2, freedom), rel=1e-9)


# -- two treatments ---------------------------------------------------------------------------------


def test_students_sleep_in_pairs() -> None:
    found = two(SECOND_DRUG, FIRST_DRUG, blocks=True)
    assert (found.low, found.high) == pytest.approx((0.7001142, 2.4598858), abs=1e-6)
    assert found.by_t == pytest.approx(0.002833, abs=1e-6)
    assert (found.difference, found.method, found.ways) == (pytest.approx(1.58), "blocks", 1024)


def test_students_sleep_by_welch() -> None:
    found = two(SECOND_DRUG, FIRST_DRUG, blocks=False)
    assert (found.low, found.high) == pytest.approx((-0.2054832, 3.3654832), abs=1e-6)
    assert found.by_t == pytest.approx(0.07939414, abs=1e-7)
    assert found.method == "welch"
    assert found.ways == 0


def test_darwins_maize_as_fisher_counted_it() -> None:
    assert sum(DARWIN) == 314
    found = two(tuple(map(float, DARWIN)), (0.0,) * 15, blocks=True)
    assert found.ways == 32_768
    assert found.chance is not None
    assert round(found.chance * 32_768) == 1_726
    error = stats.sem(DARWIN)
    assert found.by_t == pytest.approx(2 * stats.t.sf(314 / 15 / error, 14))
    assert round(314 / 15 / error, 3) == 2.148


@pytest.mark.parametrize("seed", range(6))
def test_pairs_and_welch_are_those_of_scipy(seed: int) -> None:
    rng = np.random.default_rng(seed)
    one = tuple(rng.normal(3, 1, 6).tolist())
    other = tuple(rng.normal(2.5, 2, 6 if seed % 2 else 4).tolist())
    tests = {"welch": stats.ttest_ind(one, other, equal_var=False)}
    if len(one) == len(other):
        tests["blocks"] = stats.ttest_rel(one, other)
    for method, expected in tests.items():
        found = two(one, other, blocks=method == "blocks")
        sign = 1 if found.first == "one" else -1
        interval = expected.confidence_interval(0.95)
        ends = sorted((sign * interval.low, sign * interval.high))
        assert (found.low, found.high) == pytest.approx(tuple(ends))
        assert (found.method, found.by_t) == (method, pytest.approx(expected.pvalue))


@pytest.mark.parametrize("blocks", [True, False])
def test_counted_ways_are_those_of_scipy(blocks: bool) -> None:
    rng = np.random.default_rng(5)
    one, other = rng.normal(3, 1, 5), rng.normal(2, 1, 5)
    expected = stats.permutation_test(
        (one, other),
        lambda x, y: abs(np.mean(x) - np.mean(y)),
        permutation_type="samples" if blocks else "independent",
        alternative="greater",
        n_resamples=np.inf,
    )
    found = two(tuple(one), tuple(other), blocks=blocks)
    assert found.chance == pytest.approx(expected.pvalue)
    assert found.ways == (32 if blocks else 252)


def test_the_least_chance_is_that_of_the_clearest_result() -> None:
    for blocks, ways in ((True, 8), (False, 20)):
        found = two((10.0, 11.0, 12.0), (1.0, 2.0, 3.0), blocks=blocks)
        assert found.chance == found.least == pytest.approx(2 / ways)


# -- several treatments ------------------------------------------------------------------------------


def test_blocks_of_several_treatments() -> None:
    """Against a two-way table solved by least squares, which knows nothing of the closed form."""
    rng = np.random.default_rng(1)
    table = rng.normal(0, 1, (4, 3)) + np.array([0.0, 2.0, 0.5]) + np.array([[0.0], [3.0], [6.0], [9.0]])
    found = [(name, str(i), table[i, j]) for i in range(4) for j, name in enumerate("abc")]
    _, comparisons, blocks = compare(found)
    rows = [[1.0, i == 1, i == 2, i == 3, j == 1, j == 2] for i in range(4) for j in range(3)]
    design = np.array(rows, dtype=float)
    solved, rest, *_ = np.linalg.lstsq(design, table.ravel(), rcond=None)
    error = np.sqrt(rest[0] / 6 * 2 / 4)
    both = next(one for one in comparisons if {one.first, one.second} == {"a", "b"})
    assert blocks == 4
    assert both.difference == pytest.approx(abs(solved[4]))
    reach = stats.t.isf(0.05 / 3 / 2, 6) * error
    assert (both.low, both.high) == pytest.approx((both.difference - reach, both.difference + reach))


def test_chances_of_several_comparisons_are_holms_and_those_of_the_intervals_bonferronis() -> None:
    """The largest of k chances is taken as it is, the least k times; none falls below one that was less."""
    rng = np.random.default_rng(3)
    found = [
        (name, "", value + shift)
        for name, shift in zip("abcd", (0, 1, 2, 5), strict=True)
        for value in rng.normal(0, 1, 9)
    ]
    _, comparisons, _ = compare(found)
    by_name = {name: [value for one, _, value in found if one == name] for name in "abcd"}
    plain = {
        (one.first, one.second): stats.ttest_ind(
            by_name[one.first], by_name[one.second], equal_var=False
        ).pvalue
        for one in comparisons
    }
    ordered = sorted(comparisons, key=lambda one: plain[one.first, one.second])
    so_far = 0.0
    for rank, one in enumerate(ordered):
        so_far = max(so_far, min(1.0, plain[one.first, one.second] * (6 - rank)))
        assert one.ways > 0 or one.chance == pytest.approx(so_far)
        assert one.by_t == pytest.approx(min(1.0, 6 * plain[one.first, one.second]))


@pytest.mark.parametrize("seed", range(40))
def test_interval_and_chance_never_contradict(seed: int) -> None:
    """Of random trials: the interval leaves out 0 where and only where its chance is 5 % or less, and so does the sentence."""
    rng = random.Random(seed)
    blocks, shift = rng.randint(2, 7), rng.choice([0.0, 0.5, 1.5, 4.0])
    names = "ab" if seed % 2 else "abc"
    found = [
        (name, str(n) if seed % 3 else "", rng.gauss(5 + shift * (name == "b"), 1))
        for n in range(blocks)
        for name in names
    ]
    treatments, comparisons, number = compare(found)
    trial = Trial(id="x1", question="Which?", measure="Height")
    result = TrialResult(trial, "cm", treatments, comparisons, number, ())
    for one, words in zip(comparisons, conclusions(result, "metric"), strict=False):
        assert one.low is not None
        assert one.high is not None
        assert one.by_t is not None
        assert one.chance is not None
        out = not one.low <= 0 <= one.high
        assert out == (one.by_t <= 0.05)
        assert ("most likely more than chance" in words) == (out and one.chance <= 0.05)
        assert ("does not show which has more" in words) == (not out)
        assert ("cannot prove it" in words) == (out and one.chance > 0.05)
        assert ". " not in words  # one sentence


def test_chance_alone_is_rarely_taken_for_more() -> None:
    """Of trials in which nothing differs, an interval leaves out 0 in about one of twenty."""
    rng = random.Random(7)
    missed = 0
    for _ in range(300):
        values = [tuple(rng.gauss(5, 1) for _ in range(4)) for _ in range(2)]
        found = two(*values, blocks=False)
        missed += found.low is not None and found.low > 0
    assert 3 <= missed <= 28


# -- from the garden --------------------------------------------------------------------------------


def tried(number: int, treatments: str = "ab", **fields: object) -> Garden:
    """A garden with a trial of so many plantings of each treatment, one block each."""
    beds = [bed(f"b{n}{t}", name=f"{n}{t}") for n in range(number) for t in treatments]
    plantings: list[Planting] = [planting(f"p{n}{t}", f"b{n}{t}") for n in range(number) for t in treatments]
    of = garden(*beds, *plantings)
    entries = tuple(
        TrialEntry(planting=f"p{n}{t}", treatment=t, block=str(n)) for n in range(number) for t in treatments
    )
    return e.put_trial(of, question="Which yields more?", entries=entries, **fields)[0]


def picked(key: str, grams: float) -> dict[str, object]:
    return {
        "kind": "picked",
        "planting": key,
        "day": dt.date(2026, 8, 1),
        "amount": {"value": grams, "unit": "g"},
    }


def test_what_was_picked_counts_over_its_ground() -> None:
    of = tried(2)
    area = Plan(of, 2026).placed(of.plantings[0]).area
    records = [
        picked("p0a", 500),
        picked("p0a", 700),
        picked("p0b", 900),
        picked("p1a", 800),
        picked("p1b", 650),
    ]
    of, _ = e.add_records(of, records)
    (found,) = trial_results(Plan(of, 2026))
    means = {one.name: one.mean for one in found.treatments}
    assert means == pytest.approx({"a": 1000 / area, "b": 775 / area})
    assert (found.unit, found.blocks, found.unmeasured) == ("g/m2", 2, ())


def test_what_was_lost_is_named_and_left_out_unless_the_trial_counts_it() -> None:
    of = tried(2)
    lost = {"kind": "ended", "planting": "p1b", "day": dt.date(2026, 8, 1), "why": "eaten"}
    voles = {"kind": "seen", "planting": "p1b", "day": dt.date(2026, 7, 30), "harm": "voles"}
    of, _ = e.add_records(of, [picked("p0a", 500), picked("p1a", 500), voles, lost])
    found = trial_result(Plan(of, 2026), of.trials[0])
    assert [one.name for one in found.treatments] == ["a"]
    assert found.unmeasured == ("p0b",)
    assert found.lost == (LostPlot("p1b", "voles", dt.date(2026, 8, 1)),)
    assert any(
        "1b, lost on 1 Aug (voles)" in line and "left out" in line
        for line in trial_lines(Plan(of, 2026), found)
    )
    counted, _ = e.put_trial(of, of.trials[0].id, lost_counts=True)
    found = trial_result(Plan(counted, 2026), counted.trials[0])
    assert next(one for one in found.treatments if one.name == "b").values == (0.0,)
    assert any("counts as nothing" in line for line in trial_lines(Plan(counted, 2026), found))


def test_measures_are_those_of_the_trials_name_and_one_unit() -> None:
    of = tried(2, measure="Height")
    heights = [("p0a", 30.0), ("p0a", 34.0), ("p0b", 20.0), ("p1a", 28.0), ("p1b", 25.0)]
    measured = {"kind": "measured", "day": dt.date(2026, 8, 1), "measure": "height", "unit": "cm"}
    of, _ = e.add_records(of, [{**measured, "planting": key, "value": value} for key, value in heights])
    of, _ = e.add_records(of, [{**measured, "measure": "fruit", "planting": "p0a", "value": 99.0}])
    found = trial_result(Plan(of, 2026), of.trials[0])
    assert {one.name: one.values for one in found.treatments} == {"a": (32.0, 28.0), "b": (20.0, 25.0)}
    assert found.unit == "cm"
    of, _ = e.add_records(of, [{**measured, "unit": "m", "planting": "p0a", "value": 0.3}])
    found = trial_result(Plan(of, 2026), of.trials[0])
    assert found.units_differ == ("cm", "m")
    assert not found.comparisons


def test_one_of_each_has_a_difference_and_no_interval() -> None:
    of, _ = e.add_records(tried(1), [picked("p0a", 500), picked("p0b", 400)])
    (comparison,) = trial_result(Plan(of, 2026), of.trials[0]).comparisons
    assert comparison.method == "one each"
    assert comparison.low is comparison.chance is None
    assert comparison.difference > 0


def test_a_trial_of_nothing_shows_nothing() -> None:
    found = trial_result(Plan(tried(2), 2026), tried(2).trials[0])
    assert found.treatments == found.comparisons == ()
    assert len(found.unmeasured) == 4


def test_a_block_without_all_treatments_is_named_and_not_compared() -> None:
    """By hand: in the two whole blocks b has 2 and 4 more, 3 in the mean; block 3 counts in the mean of b alone."""
    found = [("a", "1", 5.0), ("b", "1", 7.0), ("a", "2", 6.0), ("b", "2", 10.0), ("b", "3", 1.0)]
    treatments, comparisons, blocks = compare(found)
    assert _incomplete_blocks(found, ["a", "b"]) == ("3",)
    trial = Trial(id="x1", question="Which?", measure="Height")
    result = TrialResult(trial, "cm", treatments, comparisons, blocks, (), incomplete=("3",))
    assert [(one.name, one.mean) for one in treatments] == [("b", 6.0), ("a", 5.5)]
    comparison, note = conclusions(result, "metric")
    assert "b has 3.00 cm more than a in 2 blocks" in comparison
    assert "what stands in block 3 counts in the means of the table alone" in note


def test_the_one_that_has_more_in_blocks_comes_first_though_its_mean_of_all_is_smaller() -> None:
    found = [("a", "1", 5.0), ("b", "1", 7.0), ("a", "2", 6.0), ("b", "2", 10.0), ("a", "3", 90.0)]
    (one,) = compare(found)[1]
    assert (one.first, one.second, one.difference) == ("b", "a", 3.0)
