"""Invented daily weather of a sample garden: thirty plausible years, from its own monthly means.

Nothing of it was measured.  Departures of maximum and minimum from their daily means follow a first-order process
over both (form of Richardson 1981, Water Resources Research 17:182-190), on top of a departure of each month; days are
wet after a Markov chain, with gamma amounts.  Spread, share of wet days and rain of a month are invented for each
garden, and set so that the frosts of the years come as the garden says (``test_invented_weather.py``).

``python -m tests.invented_weather hollow_lane -o FILE.csv`` writes the table.
"""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.resources import sample_folder
from planner.season.daily_weather import Weather
from planner.season.temperatures import by_day
from planner.storage import load

Numbers = NDArray[np.float64]

#: First and last year that is invented.
FIRST, LAST = 1995, 2024


@dataclass(frozen=True)
class Spread:
    """How the weather of a place departs from its means.

    Attributes
    ----------
    low : tuple of float
        Standard deviation of a day's minimum in spring and in autumn, less that of the month. [deg C]
    high : float
        The same of a day's maximum. [deg C]
    month : float
        Standard deviation of a month's mean. [deg C]
    clear : float
        How much colder the minimum of a dry day is, and warmer its maximum. [deg C]
    wet : tuple of float
        Share of wet days by month.
    rain : tuple of float
        Mean precipitation of a month. [mm]
    seed : int
    """

    low: tuple[float, float]
    high: float
    month: float
    clear: float
    wet: tuple[float, ...]
    rain: tuple[float, ...]
    seed: int


SPREADS = {
    "hollow_lane": Spread(
        low=(2.4, 3.2),
        high=2.4,
        month=1.1,
        clear=1.5,
        wet=(0.52, 0.46, 0.45, 0.40, 0.40, 0.41, 0.41, 0.43, 0.43, 0.49, 0.51, 0.51),
        rain=(72, 55, 53, 44, 52, 62, 66, 72, 60, 80, 73, 70),
        seed=7,
    ),
    "red_mesa": Spread(
        low=(3.6, 3.6),
        high=3.4,
        month=1.0,
        clear=1.5,
        wet=(0.14, 0.13, 0.14, 0.11, 0.12, 0.13, 0.33, 0.36, 0.22, 0.15, 0.11, 0.13),
        rain=(14, 13, 18, 15, 20, 25, 60, 66, 40, 30, 18, 16),
        seed=41,
    ),
}
#: A day's departure after that of the day before: rows are maximum and minimum (Richardson 1981, from memory).
_AFTER = np.array([[0.567, 0.086], [0.253, 0.504]])
#: What comes new each day.
_NEW = np.array([[0.781, 0.0], [0.328, 0.637]])
#: A wet day is so much likelier after a wet one than after a dry one.
_STAYS_WET = 0.3
#: Shape of the amounts of wet days.
_SHAPE = 0.75


def invented(garden: str) -> Weather:
    """Thirty invented years of a sample garden, in tenths.

    Parameters
    ----------
    garden : str
        A key of :data:`SPREADS`.
    """
    climate = load(sample_folder() / f"{garden}.bedwright").climate
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        raise ValueError(f"{garden} has no monthly means")
    spread = SPREADS[garden]
    random = np.random.default_rng(spread.seed)
    first, last = dt.date(FIRST, 1, 1), dt.date(LAST, 12, 31)
    dates = [first + dt.timedelta(days=at) for at in range((last - first).days + 1)]
    at = np.array([(dt.date(2000, one.month, one.day) - dt.date(2000, 1, 1)).days for one in dates])
    month = np.array([one.month - 1 for one in dates])
    months = np.array([(one.year - FIRST) * 12 + one.month - 1 for one in dates])
    wet = _wet_days(np.array(spread.wet)[month], random)
    departures = _departures(len(dates), random)
    of_month = random.normal(0, spread.month, months[-1] + 1)[months]
    share = np.array(spread.wet)[month]
    clear = np.where(wet, -(1 - share), share) * spread.clear  # its mean over wet and dry days is none
    autumn = (1 - np.sin(at / 366 * 2 * np.pi)) / 2
    of_low = spread.low[0] + autumn * (spread.low[1] - spread.low[0])
    low = by_day(climate.monthly_minimum)[at] + of_month + departures[:, 1] * of_low - clear
    high = by_day(climate.monthly_maximum)[at] + of_month + departures[:, 0] * spread.high + clear
    high = np.maximum(high, low + 0.8)
    days = np.array([31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    mean = (np.array(spread.rain) / (days * np.array(spread.wet)))[month]
    rain = np.where(wet, np.maximum(random.gamma(_SHAPE, mean / _SHAPE), 0.1), 0.0)
    return Weather(first, np.round(low, 1), np.round(high, 1), rain=np.round(rain, 1))


def _wet_days(share: Numbers, random: np.random.Generator) -> NDArray[np.bool_]:
    """Wet and dry days, a wet one likelier after a wet one."""
    drawn = random.random(len(share))
    wet = np.zeros(len(share), dtype=bool)
    before = False
    for at, usual in enumerate(share):
        before = bool(drawn[at] < usual * (1 - _STAYS_WET) + (_STAYS_WET if before else 0.0))
        wet[at] = before
    return wet


def _departures(days: int, random: np.random.Generator) -> Numbers:
    """Departures of maximum and minimum, each of variance 1, shape (days, 2)."""
    found, before = np.zeros((days, 2)), np.zeros(2)
    for at, new in enumerate(random.normal(size=(days, 2)) @ _NEW.T):
        before = _AFTER @ before + new
        found[at] = before
    return found


def table(weather: Weather) -> str:
    """A table of daily weather as text: day, minimum, maximum and rain."""
    rain = weather.rain if weather.rain is not None else np.zeros(len(weather.low))
    lines = ["date,minimum C,maximum C,rain mm"]
    for at, (low, high, wet) in enumerate(zip(weather.low, weather.high, rain, strict=True)):
        lines.append(f"{weather.first + dt.timedelta(days=at)},{low:.1f},{high:.1f},{wet:.1f}")
    return "\n".join(lines) + "\n"


def main(words: list[str]) -> int:
    """Write the table of a garden."""
    parser = argparse.ArgumentParser(prog="python -m tests.invented_weather")
    parser.add_argument("garden", choices=sorted(SPREADS))
    parser.add_argument("-o", "--output", required=True)
    args = parser.parse_args(words)
    Path(args.output).write_text(table(invented(args.garden)), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
