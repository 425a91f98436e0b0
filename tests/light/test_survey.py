"""A survey with a cache gives what one without gives, and measures only what an edit touched."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import pytest
import shapely

from planner.light.casters import Caster
from planner.light.hours import hours_over
from planner.light.place import Place
from planner.light.raster import CELL
from planner.light.receiver import Receiver
from planner.light.sample_days import common_days, sample_days
from planner.light.shade_sources import shade_sources
from planner.light.shading import Shading
from planner.light.survey import (
    DayLight,
    GroundOnDay,
    GroundOverDays,
    LightOf,
    cells_of,
    light_on_days,
    survey,
)
from planner.plan.cache import FactCache
from planner.plan.light import light_on_day
from planner.season.spans import Span

PLACE = Place(52.0, 0.0)
SPAN = Span(dt.date(2026, 5, 5), dt.date(2026, 8, 20))
DAYS = sample_days(SPAN, 4)
BEDS = {f"b{i}": shapely.box(3 * i, 0, 3 * i + 1.2, 4.8) for i in range(4)}


def wall(key: str, left: float, height: float = 2.0, opacity: float = 1.0) -> Caster:
    return Caster(key, f"wall {key}", shapely.box(left, 0, left + 0.2, 4.8), 0.0, height, opacity)


WALLS = (wall("w", -0.5), wall("x", 4.6, 1.2, 0.6), wall("y", 8.4, 0.8))


CELLS = {key: cells_of(shape, CELL) for key, shape in BEDS.items()}


def ground_over(key: str, shape: shapely.Polygon) -> GroundOverDays:
    return GroundOverDays(Receiver(key, shape, 0.1), CELLS.get(key) or cells_of(shape, CELL), DAYS)


def means(casters: tuple[Caster, ...], cache: FactCache | None = None) -> dict[str, float]:
    found = survey(
        [ground_over(key, shape) for key, shape in BEDS.items()],
        PLACE,
        lambda _day, _rasters: casters,
        **kept_in(cache),
    )
    return {key: mean.hours for key, mean in found.items()}


def kept_in(cache: FactCache | None) -> dict[str, LightOf]:
    """The light of each piece of ground from a cache."""
    if cache is None:
        return {}

    def light_of(items: Sequence[tuple[str, GroundOnDay]]) -> Sequence[DayLight]:
        return cache.get_many(light_on_day, [((key, ground.day), ground) for key, ground in items])

    return {"light_of": light_of}


def measured_without_cache(casters: tuple[Caster, ...]) -> dict[str, float]:
    receivers = [Receiver(key, shape, 0.1) for key, shape in BEDS.items()]
    return {
        key: light.mean for key, light in hours_over(receivers, PLACE, DAYS, lambda _day: casters).items()
    }


def test_survey_gives_the_hours_of_measuring() -> None:
    assert means(WALLS) == pytest.approx(measured_without_cache(WALLS), abs=1e-5)
    assert means(()) == pytest.approx(measured_without_cache(()), abs=1e-5)


@pytest.mark.parametrize(
    "changed",
    [WALLS[:2], (wall("w", -0.5, 0.6), *WALLS[1:]), (*WALLS, wall("z", 2.4, 3.0)), WALLS[::-1], ()],
)
def test_after_a_change_the_cache_gives_what_a_fresh_survey_gives(changed: tuple[Caster, ...]) -> None:
    cache = FactCache()
    means(WALLS, cache)
    assert means(changed, cache) == pytest.approx(measured_without_cache(changed), abs=1e-5)


def test_only_ground_that_a_changed_shadow_meets_is_measured_again(monkeypatch: pytest.MonkeyPatch) -> None:
    far = {**BEDS, "far": shapely.box(200, 0, 201.2, 4.8)}
    grounds = [ground_over(key, shape) for key, shape in far.items()]
    far_cells = next(ground.cells for ground in grounds if ground.receiver.key == "far")
    cache = FactCache()

    def hours(casters: tuple[Caster, ...]) -> dict[str, float]:
        fixed = [ground._replace(cells=CELLS.get(ground.receiver.key) or far_cells) for ground in grounds]
        found = survey(fixed, PLACE, lambda _day, _rasters: casters, **kept_in(cache))
        return {key: mean.hours - mean.unshaded for key, mean in found.items()}

    far_wall = Caster("v", "far wall", shapely.box(198, 0, 198.2, 4.8), 0.0, 1.0)
    first = hours((*WALLS, far_wall))
    assert first["far"] < -0.1
    measured: list[int] = []
    sums = Shading.sums

    def counting(self: Shading, *args: object) -> object:
        measured.append(len(self.rasters))
        return sums(self, *args)

    monkeypatch.setattr(Shading, "sums", counting)
    assert hours((*WALLS, far_wall)) == first
    assert measured == []
    assert hours(WALLS)["far"] == pytest.approx(0)
    assert measured == [], "the far bed has nothing left that could shade it, the others have what they had"
    assert hours((*WALLS, wall("z", 2.4, 3.0)))["b1"] < first["b1"]
    assert measured, "a new wall is measured"


def test_ground_without_days_is_left_out() -> None:
    assert (
        survey([ground_over("b0", BEDS["b0"])._replace(days=())], PLACE, lambda _day, _rasters: WALLS) == {}
    )


def test_light_of_several_days_in_one_call_is_that_of_each() -> None:
    grounds = [
        GroundOnDay(CELLS[key], 0.1, PLACE, day, 10, casters)
        for key, casters in (("b0", WALLS[:1]), ("b1", WALLS), ("b3", ()))
        for day in (dt.date(2026, 5, 5), dt.date(2026, 8, 1))
    ]
    alone = [light_on_days([ground])[0].hours for ground in grounds]
    assert [light.hours for light in light_on_days(grounds)] == pytest.approx(alone, abs=1e-5)


@pytest.mark.parametrize("length", [1, 5, 19, 20, 21, 60, 186])
@pytest.mark.parametrize("every", [7, 20])
def test_common_days_represent_all_days_of_a_span(length: int, every: int) -> None:
    first = dt.date(2026, 3, 24)
    span = Span(first, first + dt.timedelta(days=length - 1))
    days = common_days(span, every)
    assert sum(share for _, share in days) == pytest.approx(1.0)
    assert all(span.holds(day) for day, _ in days)
    for day, share in days:
        nearest = sum(
            1
            for n in range(length)
            if abs((span.first - day).days + n)
            == min(abs((span.first - other).days + n) for other, _ in days)
        )
        assert share * length == pytest.approx(nearest, abs=1.0)
    longer = common_days(Span(first, span.last + dt.timedelta(days=3 * every)), every)
    if len(days) > 1:
        assert {day for day, _ in days} <= {day for day, _ in longer}


def test_shade_sources_leave_out_only_those_below_the_least_loss() -> None:
    receiver = Receiver("b1", BEDS["b1"], 0.1)
    every = shade_sources(receiver, PLACE, DAYS, lambda _day: WALLS)
    some = shade_sources(receiver, PLACE, DAYS, lambda _day: WALLS, least=0.25)
    assert [one for one in every if one.alone >= 0.25] == list(some)
    assert all(one.hours <= one.alone + 1e-6 for one in every)
