"""Reading a table of 60 years of daily weather, and keeping its years: beside the plainest loop over the same lines."""

from __future__ import annotations

import csv
import datetime as dt
import io
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from bench.figures import Measured, best, ms

from planner.garden import WeatherYears
from planner.importing.weather_table import read_tables
from planner.season.weather_years import station_weather, years_of

YEARS = 60
#: Aims. [s], [MB]
READ, KEEP, MEMORY = 0.3, 0.3, 200
_PEAK = """
import resource, sys
from pathlib import Path
from planner.importing.weather_table import read_tables
read_tables([Path(sys.argv[1])])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024)
"""


def sixty_years() -> list[tuple[dt.date, float, float, float]]:
    """Invented days: date, minimum, maximum, rain."""
    random = np.random.default_rng(3)
    first = dt.date(1960, 1, 1)
    count = (dt.date(1960 + YEARS, 1, 1) - first).days
    low = np.round(5 - 9 * np.cos(np.arange(count) / 365.25 * 2 * np.pi) + random.normal(0, 3, count), 1)
    high = np.round(low + random.uniform(2, 14, count), 1)
    rain = np.round(np.where(random.random(count) < 0.4, random.gamma(0.7, 6, count), 0), 1)
    return [
        (first + dt.timedelta(days=i), float(low[i]), float(high[i]), float(rain[i])) for i in range(count)
    ]


def tables() -> dict[str, str]:
    """The same days in three layouts."""
    days = sixty_years()
    headings = "date,tmin,tmax,rain\n" + "".join(f"{d},{a},{b},{c}\n" for d, a, b, c in days)
    station, months = [], {}
    for d, *values in days:
        for name, value in zip(("TMIN", "TMAX", "PRCP"), values, strict=True):
            tenths = round(value * 10)
            station.append(f"XX000000001,{d:%Y%m%d},{name},{tenths},,,X,\n")
            months.setdefault((d.year, d.month, name), []).append(f"{tenths:5d}  X")
        station += [f"XX000000001,{d:%Y%m%d},{name},0,,,X,\n" for name in ("SNOW", "SNWD", "TAVG")]
    fixed = [
        f"XX000000001{year}{month:02d}{name}" + "".join([*cells, *["-9999   "] * (31 - len(cells))]) + "\n"
        for (year, month, name), cells in months.items()
    ]
    return {"headings": headings, "by station": "".join(station), "fixed width": "".join(fixed)}


def plain_loop(text: str) -> int:
    """The plainest reading of a table with headings: three numbers of each row."""
    rows = csv.reader(io.StringIO(text))
    next(rows)
    found = {row[0]: (float(row[1]), float(row[2]), float(row[3])) for row in rows}
    return len(found)


def measure() -> list[Measured]:
    """Lines of the table."""
    lines = []
    texts = tables()
    baseline = best(lambda: plain_loop(texts["headings"]), 3)
    with TemporaryDirectory() as folder:
        for name, text in texts.items():
            path = Path(folder) / "table.txt"
            path.write_text(text)
            ours = best(lambda path=path: read_tables([path]), 3)
            peak = subprocess.run(
                [sys.executable, "-c", _PEAK, str(path)], capture_output=True, text=True, check=True
            )
            megabytes = int(peak.stdout)
            lines.append(
                Measured(
                    f"60 years of weather, {name}: read",
                    ms(ours),
                    ms(baseline),
                    f"{baseline / ours:.2g}",
                    ms(READ),
                    ours <= READ,
                )
            )
            lines.append(
                Measured(
                    f"60 years of weather, {name}: memory",
                    f"{megabytes} MB",
                    "",
                    "",
                    f"{MEMORY} MB",
                    megabytes <= MEMORY,
                )
            )
        weather = read_tables([path]).weather
    years = years_of(weather)
    keep, back = (
        best(lambda: years_of(weather), 3),
        best(lambda: station_weather(WeatherYears(years=years)), 3),
    )
    size = len(WeatherYears(years=years).model_dump_json()) / len(years)
    return [
        *lines,
        Measured("60 years of weather: packed", ms(keep), "", "", ms(KEEP), keep <= KEEP),
        Measured("60 years of weather: unpacked", ms(back), "", "", ms(KEEP), back <= KEEP),
        Measured("a year of weather in the file", f"{size:.0f} B", "", "", "4000 B", size <= 4_000),
    ]
