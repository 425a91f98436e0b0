"""Field trials with dates and daily weather of their own: what the model says beside what happened.

    .venv/bin/python tests/season/trials.py            # the table of DEVELOPERS.md
    .venv/bin/python tests/season/trials.py --all      # and every trial
    .venv/bin/python tests/season/trials.py --write    # the table into DEVELOPERS.md

Each trial runs on the minimum and maximum of its own days, with the catalogue's figures for the usual sort of the crop.
Nothing is fitted to the trials.  Beside it stands what days to maturity alone say: the printed number, whatever the weather.
"""

from __future__ import annotations

import csv
import datetime as dt
import sys
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import numpy as np

from planner.crops import load_catalogue
from planner.garden import Climate, Planting, Site
from planner.garden.planting_figures import PlantingFigures
from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.development import need_of
from planner.season.frosts import frosts
from planner.season.temperatures import day_of_year_index
from planner.season.thermal_time import degree_days
from planner.season.usual_weather import sun_of_year

REFERENCE = Path(__file__).parents[1] / "reference"
GUIDE = Path(__file__).parents[2] / "DEVELOPERS.md"
#: First and last words of the lines in the guide.
BEGINS, ENDS = "| crop | trials |", "Potatoes lifted"
#: How a trial of the table starts, in the words of a planting.
STARTS = {"set out": "raised", "sown": "sown", "planted": "tubers"}


class Trial(NamedTuple):
    """A crop sown, planted or set out on a day and picked on another.

    Attributes
    ----------
    key, crop, station, place : str
        Key of the trial, of the crop and of the station of its weather.
    latitude : float
        [degrees north]
    start : str
        How it starts.
    started, harvested : date
    lifted : bool
        Harvested at the end of its season, when it was ripe or later; else when it was ripe.
    """

    key: str
    crop: str
    station: str
    place: str
    latitude: float
    start: str
    started: dt.date
    harvested: dt.date
    lifted: bool

    @property
    def days(self) -> int:
        """Days that it took."""
        return (self.harvested - self.started).days


class Foretold(NamedTuple):
    """Days from start to harvest of a trial: by its weather, and by days to maturity alone; None beyond its weather."""

    trial: Trial
    by_heat: int | None
    by_days: int

    @property
    def off(self) -> int:
        """Days by which the model is late; a negative number where it is early."""
        assert self.by_heat is not None
        return self.by_heat - self.trial.days

    @property
    def days_off(self) -> int:
        """The same of days to maturity alone."""
        return self.by_days - self.trial.days


@lru_cache
def read_trials() -> tuple[Trial, ...]:
    """The trials of the table that have weather and a harvest like one of the catalogue."""
    with (REFERENCE / "growing_season_trials.csv").open(encoding="utf-8", newline="") as file:
        return tuple(
            Trial(
                key=row["id"],
                crop=row["figures"],
                station=row["weather"],
                place=row["place"],
                latitude=float(row["lat"]),
                start=STARTS[row["start_kind"]],
                started=dt.date.fromisoformat(row["started"]),
                harvested=dt.date.fromisoformat(row["first_harvest"]),
                lifted=row["harvest"] == "lifted",
            )
            for row in csv.DictReader(file)
            if not row["left_out"]
        )


@lru_cache
def read_weather() -> dict[str, dict[dt.date, tuple[float, float]]]:
    """Minimum and maximum of each day by station. [deg C]"""
    found: dict[str, dict[dt.date, tuple[float, float]]] = {}
    with (REFERENCE / "trial_weather.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            day = dt.date.fromisoformat(row["day"])
            found.setdefault(row["station"], {})[day] = (float(row["minimum"]), float(row["maximum"]))
    return found


def days_of(trial: Trial) -> list[dt.date]:
    """The days of its weather, from its start on without a gap."""
    weather, day, found = read_weather()[trial.station], trial.started, []
    while day in weather:
        found.append(day)
        day += dt.timedelta(days=1)
    return found


def context_at(trial: Trial) -> DateContext:
    """What the rules of dates know of a trial's planting."""
    site, climate = Site(latitude=trial.latitude), Climate()
    fields = {
        "id": "trial",
        "bed": "field",
        "crop": trial.crop,
        "year": trial.started.year,
        "start": trial.start,
    }
    of_year = frosts(site, climate, trial.started.year)
    return context_of(
        DateInputs(
            planting=Planting.model_validate(fields),
            figures=PlantingFigures(load_catalogue().crops[trial.crop], None),
            climate=climate,
            frosts=of_year,
            harvest_frosts=of_year,
            southern=trial.latitude < 0,
            latitude=trial.latitude,
        )
    )


def foretell(trial: Trial) -> Foretold:
    """What the model says of a trial."""
    need = need_of(context_at(trial))
    assert need is not None
    days = days_of(trial)
    low, high = np.array([read_weather()[trial.station][day] for day in days]).T
    daily = degree_days(low, high, need.response)
    if need.slows:
        daily = daily * sun_of_year(trial.latitude).light[[day_of_year_index(day) for day in days]]
    summed = np.cumsum(daily)
    reached = int(np.searchsorted(summed, need.heat - 1e-9)) + 1
    return Foretold(trial, reached if reached <= len(days) else None, round(need.days))


def within(errors: Iterable[int], share: float) -> int:
    """Size of error that a share of all does not exceed. [days]"""
    return int(np.quantile(np.abs(list(errors)), share, method="inverted_cdf"))


def table(told: Iterable[Foretold]) -> list[str]:
    """The trials that were picked when ripe, by crop and together, as lines of a table."""
    ripe = [one for one in told if not one.trial.lifted]
    crops = list(dict.fromkeys(one.trial.crop for one in ripe))
    lines = [
        "| crop | trials | days | heat: median | half within | 90 % within | days alone: median | half within | 90 % within |",
        "| --- | --- | --- | --- | --- | --- | --- | --- | --- |",
    ]
    catalogue = load_catalogue()
    for name, part in [
        *((catalogue.name_of(crop), [one for one in ripe if one.trial.crop == crop]) for crop in crops),
        ("all", ripe),
    ]:
        took = [one.trial.days for one in part]
        span = f"{min(took)}" if min(took) == max(took) else f"{min(took)} to {max(took)}"
        cells = [name, f"{len(part)}", span]
        for errors in ([one.off for one in part], [one.days_off for one in part]):
            middle = float(np.median(errors))
            cells += [f"{middle:+.0f}", f"{within(errors, 0.5)}", f"{within(errors, 0.9)}"]
        lines.append(f"| {' | '.join(cells)} |")
    return lines


def lifted_line(told: Iterable[Foretold]) -> str:
    """What the model says of crops that were lifted at the end of their season."""
    lifted = [one for one in told if one.trial.lifted]
    in_time = [one for one in lifted if one.by_heat is not None and one.off <= 0]
    alone = [one for one in lifted if one.days_off <= 0]
    before = int(np.median([-one.off for one in in_time]))
    return (
        f"Potatoes lifted at the end of their season, {len(lifted)} fields: ripe by heat before they were lifted in "
        f"{len(in_time)}, {before} days in the median; by days alone in {len(alone)}."
    )


def report() -> list[str]:
    """The lines that DEVELOPERS.md holds."""
    told = [foretell(trial) for trial in read_trials()]
    return [*table(told), "", lifted_line(told)]


def in_guide(lines: list[str]) -> slice:
    """Where the report stands among the lines of DEVELOPERS.md."""
    first = next(at for at, line in enumerate(lines) if line.startswith(BEGINS))
    last = next(at for at, line in enumerate(lines) if line.startswith(ENDS))
    return slice(first, last + 1)


def write_guide() -> None:
    """Put the report into DEVELOPERS.md."""
    lines = GUIDE.read_text(encoding="utf-8").splitlines()
    lines[in_guide(lines)] = report()
    GUIDE.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    print("\n".join(report()))
    if "--write" in sys.argv[1:]:
        write_guide()
    if "--all" in sys.argv[1:]:
        for one in map(foretell, read_trials()):
            trial = one.trial
            print(
                f"{trial.key} {trial.crop:12} {trial.place[:24]:24} {trial.started} took {trial.days:3}"
                f"  by heat {one.by_heat}  by days {one.by_days}"
            )
