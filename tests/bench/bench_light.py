"""Hours of light over a garden, against shadows united with shapely; and positions of the sun."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

import numpy as np
import shapely

from planner.light.beams import beams
from planner.light.casters import Caster
from planner.light.map import light_maps
from planner.light.place import Place
from planner.light.raster import raster_over
from planner.light.receiver import Receiver
from planner.light.sample_days import sample_days
from planner.light.shading import Shading
from planner.light.shadow import shadow, shadows
from planner.season.spans import Span
from planner.sun import sun

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.figures import Measured, best, ms

WIDTH, HEIGHT, CELL, STEP = 30.0, 40.0, 0.10, 10
PLACE = Place(56.0, -3.0)
DAYS = sample_days(Span(dt.date(2026, 4, 1), dt.date(2026, 10, 31)), 12)


def garden_casters(count: int = 60, translucent: int = 20) -> list[Caster]:
    """Walls, sheds, trees and plots of tall plants, turned anyhow; the last ones let light through."""
    rng = np.random.default_rng(5)
    found = []
    for number in range(count):
        x, y = rng.uniform(0, WIDTH), rng.uniform(0, HEIGHT)
        length, width = rng.uniform(1, 6), rng.uniform(0.2, 1.5)
        shape = shapely.box(x - length / 2, y - width / 2, x + length / 2, y + width / 2)
        if number % 6 == 0:
            shape = shapely.Point(x, y).buffer(rng.uniform(0.5, 2), 12)
        elif number % 6 == 1:  # an L
            shape = shapely.union(shape, shapely.box(x - length / 2, y, x - length / 2 + 0.4, y + 2.5))
        shape = shapely.affinity.rotate(shape, rng.uniform(0, 180))
        clear = number >= count - translucent
        found.append(Caster(str(number), "", shape, 0.0, rng.uniform(0.5, 3.5), 0.7 if clear else 1.0))
    return found


def united_step(casters: list[Caster], toward: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """One step the plain way: all opaque shadows united, the others one by one, cells asked."""
    solid = shapely.union_all([shadow(one, toward) for one in casters if one.opacity == 1.0])
    shapely.prepare(solid)
    clear = np.where(shapely.contains_xy(solid, x, y), 0.0, 1.0)
    for one in casters:
        if one.opacity < 1.0:
            outline = shadow(one, toward)
            shapely.prepare(outline)
            clear[shapely.contains_xy(outline, x, y)] *= 1 - one.opacity
    return clear


def _map_lines() -> list[Measured]:
    lines = []
    raster = raster_over((0, 0, WIDTH, HEIGHT), CELL)
    x, y = (axis.ravel() for axis in np.meshgrid(*raster.middles))
    light = beams(PLACE, dt.date(2026, 6, 21), STEP)
    for name, translucent in (("opaque", 0), ("a third translucent", 20)):
        casters = garden_casters(translucent=translucent)
        shading = Shading(casters, [raster])
        ours = best(lambda s=shading: s.hours(light)) / len(light.hours)
        some = range(0, len(light.hours), 9)
        plain = best(
            lambda c=casters, s=some: [united_step(c, light.toward[i], x, y) for i in s], times=2
        ) / len(some)
        lines.append(Measured(f"a step of light, 60 casters, {name}", ms(ours), f"{ms(plain)} shapely", f"{plain / ours:.0f}", "30 x the baseline", plain / ours >= 30))  # fmt: skip
    casters = garden_casters()
    extent = (0.0, 0.0, WIDTH, HEIGHT)

    def whole() -> object:
        return list(light_maps(extent, PLACE, DAYS, lambda _day: casters))

    def first() -> object:
        return next(light_maps(extent, PLACE, DAYS, lambda _day: casters))

    beams.cache_clear()
    rough, fine = best(first, times=5), best(whole, times=3)
    lines.append(Measured("the first rough map", ms(rough), "", "", "100 ms", rough <= 0.1))
    lines.append(Measured("12 days of light, rough and finished", ms(fine), "", "", "1.2 s", fine <= 1.2))
    beds = [Receiver(str(n), shapely.box(2 + 5 * (n % 5), 1 + 4.5 * (n // 5), 6 + 5 * (n % 5), 2.2 + 4.5 * (n // 5)), 0.1 * (n % 9)) for n in range(40)]  # fmt: skip
    high = best(lambda: list(light_maps(extent, PLACE, DAYS, lambda _day: casters, beds)), times=2)
    lines.append(Measured("the same, 40 beds at their own heights", ms(high), "", "", "2 s", high <= 2.0))
    return lines


def _shadow_line() -> Measured:
    casters = garden_casters(40, 0)
    light = beams(PLACE, dt.date(2026, 6, 21), 60)
    ours = best(lambda: [shadows(casters, _one(light, i)) for i in range(len(light.hours))]) / len(
        light.hours
    )
    return Measured("outlines of 40 shadows at an hour", ms(ours), "", "", "33 ms", ours <= 1 / 30)


def _one(light, number):
    return type(light)(*(part[number : number + 1] for part in (light.instants, light.hours, light.toward, light.altitude)))  # fmt: skip


def _sun_line() -> Measured:
    year = np.arange(np.datetime64("2026-01-01"), np.datetime64("2027-01-01"), np.timedelta64(10, "m"))
    ours = best(lambda: sun(year, 56.0, -3.0))
    try:
        import pandas
        from pvlib.solarposition import spa_python
    except ImportError:
        return Measured(
            "sun, a year at 10 minutes",
            ms(ours),
            "0.31 s pvlib, recorded",
            "",
            "within 1.5 x of pvlib",
            ours <= 0.46,
        )
    index = pandas.DatetimeIndex(year).tz_localize("UTC")
    theirs = best(lambda: spa_python(index, 56.0, -3.0), times=3)
    return Measured("sun, a year at 10 minutes", ms(ours), f"{ms(theirs)} pvlib", f"{theirs / ours:.1f}", "within 1.5 x of pvlib", ours <= 1.5 * theirs)  # fmt: skip


def measure() -> list[Measured]:
    """The map a step and as a whole, the moving shadow, and the sun."""
    return [*_map_lines(), _shadow_line(), _sun_line()]


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
