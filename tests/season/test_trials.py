"""Field trials on their own daily weather: how far the model is off, beside days to maturity alone."""

from __future__ import annotations

import numpy as np
import pytest
from trials import GUIDE, days_of, foretell, in_guide, read_trials, read_weather, report, within

from planner.crops import load_catalogue

#: What was measured: errors of the model have a median of -1 day, half of them are within 3 days and nine in ten within
#: 20; those of days to maturity alone are within 13 and 25.  Held with a margin.
MEDIAN, HALF, NINE_IN_TEN = 4, 5, 22


@pytest.fixture(scope="module")
def told():
    return [foretell(trial) for trial in read_trials()]


@pytest.fixture(scope="module")
def ripe(told):
    """Trials that were picked when ripe."""
    return [one for one in told if not one.trial.lifted]


def test_every_trial_has_the_weather_of_all_its_days():
    trials = read_trials()
    assert len(trials) == 32
    for trial in trials:
        assert trial.harvested in days_of(trial), trial.key


def test_the_weather_is_possible():
    for station, days in read_weather().items():
        low, high = np.array(list(days.values())).T
        assert (low < high).all(), station
        assert low.min() > -10, station
        assert high.max() < 45, station


def test_no_figure_that_counts_is_taken_from_the_trials():
    for crop in {trial.crop for trial in read_trials()}:
        figures = load_catalogue().crops[crop]
        for field in (
            "days_to_maturity",
            "heat_to_harvest",
            "base_temperature",
            "best_temperature",
            "ceiling_temperature",
        ):
            figure = getattr(figures, field)
            assert figure is None or figure.source != "dssat_data", (crop, field)


def test_the_model_foretells_the_harvest(ripe):
    errors = [one.off for one in ripe]
    assert abs(np.median(errors)) <= MEDIAN
    assert within(errors, 0.5) <= HALF
    assert within(errors, 0.9) <= NINE_IN_TEN


def test_the_model_is_nearer_than_days_to_maturity_alone(ripe):
    model, alone = [one.off for one in ripe], [one.days_off for one in ripe]
    for share in (0.5, 0.9):
        assert within(model, share) < within(alone, share)
    assert np.abs(model).sum() < 0.75 * np.abs(alone).sum()


def test_cabbage_of_ten_months_on_maui_takes_the_days_of_its_warmth(ripe):
    """Ten settings of one year: the printed 80 days are far too many there, whatever the month."""
    cabbage = [one for one in ripe if one.trial.station == "IBPF"]
    assert len(cabbage) == 10
    assert min(one.days_off for one in cabbage) > 0
    assert within([one.off for one in cabbage], 0.5) <= 5


def test_sweet_corn_sown_sooner_takes_longer_in_trial_and_model(ripe):
    corn = sorted((one for one in ripe if one.trial.crop == "sweet_corn"), key=lambda one: one.trial.days)
    assert len(corn) == 4
    assert [one.by_heat for one in corn] == sorted(one.by_heat for one in corn)


def test_what_is_lifted_at_the_end_of_a_season_is_ripe_by_then(told):
    lifted = [one for one in told if one.trial.lifted]
    assert len(lifted) == 13
    assert all(one.off <= 3 for one in lifted)


def test_the_guide_holds_what_the_script_prints():
    lines = GUIDE.read_text(encoding="utf-8").splitlines()
    assert lines[in_guide(lines)] == report(), "run tests/season/trials.py --write"
