"""Field trials lived through the weather of their stations: the day the engine gives in the trial's own year, and the band of the years.

    PYTHONPATH=.:tests .venv/bin/python tests/season/lived/lived_trials.py           # every trial, and the sums
    PYTHONPATH=.:tests .venv/bin/python tests/season/lived/lived_trials.py --write   # the sums into DEVELOPERS.md

The band is that of the odds: 10 to 90 % of the recorded years in which the planting can be followed.  It is of the weather alone;
which sort was grown, and what the model misses, is not in it.  Few stations have more than one year of days at hand.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import math
import sys
from typing import NamedTuple

import numpy as np
from season.trials import GUIDE, Trial, read_trials, read_weather

from planner.crops import load_catalogue
from planner.garden import Climate, Planting, Site
from planner.garden.planting_figures import PlantingFigures
from planner.season.daily_weather import Weather
from planner.season.date_inputs import DateInputs
from planner.season.frosts import frosts
from planner.season.lived.lived_plantings import live
from planner.season.lived.odds import odds_of
from planner.season.lived.recorded_weather import RecordedWeather, recorded_weather
from planner.season.lived.recorded_years import recorded_years
from planner.season.planting_dates import Dated
from planner.season.work_out_dates import work_out

#: First and last words of the lines in the guide.
BEGINS, ENDS = "| trials with weather of their own |", "Inside the band"


class LivedTrial(NamedTuple):
    """A trial beside what the engine says of it.

    Attributes
    ----------
    trial : Trial
    own_year : float
        Days from its start to the first picking in its own year; NaN where frost takes it then. [days]
    years : int
        Recorded years that count, with its own.
    band : (float, float) or None
        Days from its start to the picking in 10 and 90 % of the years; None of a single year. [days]
    """

    trial: Trial
    own_year: float
    years: int
    band: tuple[float, float] | None

    @property
    def off(self) -> float:
        """Days by which the engine is late in its own year; a negative number where it is early."""
        return self.own_year - self.trial.days

    @property
    def inside(self) -> bool:
        """Whether the observed day lies in the band."""
        assert self.band is not None
        return self.band[0] <= self.trial.days <= self.band[1]


@functools.cache
def station_record(station: str, latitude: float) -> RecordedWeather:
    """All days of a trial station, with the gaps between its seasons."""
    days = read_weather()[station]
    first, last = dt.date(min(days).year, 1, 1), dt.date(max(days).year, 12, 31)
    low, high = np.full((2, (last - first).days + 1), np.nan)
    for day, (least, most) in days.items():
        low[(day - first).days], high[(day - first).days] = least, most
    years = recorded_years(Weather(first, low, high), 1)
    assert years is not None
    return recorded_weather(years, latitude, latitude < 0)


def live_trial(trial: Trial) -> LivedTrial:
    """Live one trial through the years of its station."""
    site = Site(latitude=trial.latitude)
    of_year = frosts(site, Climate(), trial.started.year)
    fields = {"id": "trial", "bed": "field", "crop": trial.crop, "year": trial.started.year}
    planting = Planting.model_validate({**fields, "start": trial.start, "first": trial.started})
    inputs = DateInputs(
        planting=planting,
        figures=PlantingFigures(load_catalogue().crops[trial.crop], None),
        climate=Climate(),
        frosts=of_year,
        harvest_frosts=of_year,
        southern=trial.latitude < 0,
        latitude=trial.latitude,
    )
    over = Dated(trial.harvested, "", origin="by hand")  # so no days after the picking are needed
    dates = dataclasses.replace(work_out(inputs), last_harvest=over, clear=None)
    lived = live(inputs, dates, station_record(trial.station, trial.latitude))
    assert lived is not None
    took = lived.first - trial.started.toordinal()
    own = took[lived.years == trial.started.year]
    spread = odds_of(lived).first
    band = None
    if len(took) > 1 and spread is not None:
        band = tuple(
            float(at.toordinal() - trial.started.toordinal()) for at in (spread.tenth, spread.nine_tenths)
        )
    return LivedTrial(trial, float(own[0]) if len(own) else math.nan, len(took), band)


@functools.cache
def lived_trials() -> tuple[LivedTrial, ...]:
    """All trials that have weather."""
    return tuple(live_trial(trial) for trial in read_trials())


def binomial_interval(hits: int, tried: int, sure: float = 0.95) -> tuple[float, float]:
    """Clopper and Pearson's interval of a share.

    Examples
    --------
    >>> [round(at, 3) for at in binomial_interval(0, 10)], [round(at, 3) for at in binomial_interval(5, 10)]
    ([0.0, 0.308], [0.187, 0.813])
    """

    def at_most(most: int, share: float) -> float:
        return sum(math.comb(tried, k) * share**k * (1 - share) ** (tried - k) for k in range(most + 1))

    def solve(most: int, wanted: float) -> float:
        low, high = 0.0, 1.0
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if at_most(most, middle) > wanted else (low, middle)
        return (low + high) / 2

    tail = (1 - sure) / 2
    least = 0.0 if hits == 0 else solve(hits - 1, 1 - tail)
    most = 1.0 if hits == tried else solve(hits, tail)
    return least, most


def within(errors: list[float], share: float) -> float:
    return float(np.quantile(np.abs(errors), share, method="inverted_cdf"))


def report() -> list[str]:
    """The lines that DEVELOPERS.md holds."""
    ripe = [one for one in lived_trials() if not one.trial.lifted]
    lifted = [one for one in lived_trials() if one.trial.lifted]
    off = [one.off for one in ripe if not math.isnan(one.off)]
    banded = [one for one in ripe if one.band is not None]
    hits = sum(one.inside for one in banded)
    least, most = binomial_interval(hits, len(banded))
    early = sum(one.off <= 0 for one in lifted)
    return [
        "| trials with weather of their own | trials | median | half within | 90 % within |",
        "| --- | --- | --- | --- | --- |",
        f"| picked when ripe | {len(off)} | {np.median(off):+.0f} | {within(off, 0.5):.0f} | {within(off, 0.9):.0f} |",
        "",
        f"Potatoes lifted at the end of their season: ripe before in {early} of {len(lifted)}.",
        "",
        f"Inside the band of 10 to 90 % of the years at hand: {hits} of {len(banded)} trials of stations with two to "
        f"{max(one.years for one in banded)} years, {100 * hits / len(banded):.0f} % (95 % interval {100 * least:.0f} to {100 * most:.0f} %).",
    ]


def in_guide(lines: list[str]) -> slice:
    """Where the report stands among the lines of DEVELOPERS.md."""
    first = next(at for at, line in enumerate(lines) if line.startswith(BEGINS))
    last = next(at for at, line in enumerate(lines) if line.startswith(ENDS))
    return slice(first, last + 1)


if __name__ == "__main__":
    print("\n".join(report()))
    if "--write" in sys.argv[1:]:
        lines = GUIDE.read_text(encoding="utf-8").splitlines()
        lines[in_guide(lines)] = report()
        GUIDE.write_text("\n".join(lines) + "\n", encoding="utf-8")
    else:
        for one in lived_trials():
            print(
                one.trial.key,
                one.trial.crop,
                one.trial.place[:20],
                one.trial.started,
                one.trial.days,
                one.own_year,
                one.years,
                one.band,
            )
