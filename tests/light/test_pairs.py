"""Shading by the casters near each raster gives what every caster over every raster gives."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely

from planner.light import shading as shading_module
from planner.light.beams import beams
from planner.light.casters import Caster
from planner.light.place import Place
from planner.light.raster import Raster
from planner.light.receiver import Receiver, pairs_apart
from planner.light.shading import Shading
from planner.light.shading_arrays import pairs_of

PLACES = (Place(52.0), Place(-33.0, bearing_up=40.0), Place(2.0))
DAYS = (dt.date(2026, 3, 30), dt.date(2026, 6, 20), dt.date(2026, 11, 2))


def scene(seed: int) -> tuple[list[Caster], list[Raster]]:
    """Casters and rasters strewn over 120 m, so that most of them have nothing to do with each other."""
    chance = np.random.default_rng(seed)
    casters, rasters = [], []
    for number in range(60):
        x, y, turn = chance.uniform(0, 120), chance.uniform(0, 120), chance.uniform(0, 180)
        shape = shapely.affinity.rotate(shapely.box(x, y, x + chance.uniform(0.2, 4), y + 1), turn)
        base = float(chance.choice([0.0, 0.0, 1.2]))
        top = base + float(chance.choice([0.0, 0.3, 2.0, 6.0]))
        casters.append(Caster(str(number % 40), "", shape, base, top, float(chance.choice([1.0, 0.85, 0.0]))))
    for _ in range(50):
        x, y = chance.uniform(0, 120, 2)
        rows, columns = (int(n) for n in chance.integers(1, 9, 2))
        rasters.append(Raster(x, y, 0.3, rows, columns, float(chance.choice([0.0, 0.4, 2.5]))))
    return casters, rasters


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("day", DAYS)
def test_casters_near_give_what_all_casters_give(
    seed: int, day: dt.date, monkeypatch: pytest.MonkeyPatch
) -> None:
    casters, rasters = scene(seed)
    light = beams(PLACES[seed % 3], day, 30)
    every = pairs_of(np.ones((len(rasters), len(casters)), dtype=bool))
    dense = Shading(casters, rasters, every)
    monkeypatch.setattr(shading_module, "_PAIRS_TRIED", 0)
    near = Shading(casters, rasters)
    assert near.meeting_each(light) == dense.meeting_each(light)
    for mine, theirs in zip(near.hours(light) or [], dense.hours(light) or [], strict=True):
        np.testing.assert_array_equal(mine, theirs)
    shaded = [hours for hours in dense.hours(light) or [] if hours.min() < light.total - 0.1]
    assert shaded


@pytest.mark.parametrize("tried", [0, 20_000])
def test_casters_apart_do_not_count(tried: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shading_module, "_PAIRS_TRIED", tried)
    casters, rasters = scene(9)
    ground = shapely.box(0, 0, 1, 1)
    receivers = [
        Receiver(str(n), ground, leaving_out=frozenset({str(n), str((3 * n) % 40), "unknown"}))
        for n in range(len(rasters))
    ]
    light = beams(PLACES[0], DAYS[1], 30)
    found = Shading(casters, rasters, apart=pairs_apart(casters, receivers))
    each = found.meeting_each(light)
    together = found.hours(light) or []
    lost = 0
    for raster, receiver, met, hours in zip(rasters, receivers, each, together, strict=True):
        left = [one for one in casters if one.key not in receiver.leaving_out]
        alone = Shading(left, [raster])
        assert [casters[n] for n in met] == [left[n] for n in alone.meeting_each(light)[0]]
        np.testing.assert_allclose(hours, (alone.hours(light) or [])[0], atol=1e-5)
        lost += len(Shading(casters, [raster]).meeting_each(light)[0]) - len(met)
    assert lost > 0
