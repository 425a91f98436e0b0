"""The survey gives what measuring anew gives, and measures only what an edit touched."""

from __future__ import annotations

import datetime as dt

import pytest
import shapely

from planner.light.casters import Caster
from planner.light.days import Place, common_days, sample_days
from planner.light.hours import Receiver, hours_over, shade_sources
from planner.light.shading import Shading
from planner.light.survey import LightRecord, survey
from planner.season.spans import Span

PLACE = Place(52.0, 0.0)
SPAN = Span(dt.date(2026, 5, 5), dt.date(2026, 8, 20))
DAYS = sample_days(SPAN, 4)
BEDS = {f"b{i}": shapely.box(3 * i, 0, 3 * i + 1.2, 4.8) for i in range(4)}


def wall(key: str, left: float, height: float = 2.0, opacity: float = 1.0) -> Caster:
    return Caster(key, f"wall {key}", shapely.box(left, 0, left + 0.2, 4.8), 0.0, height, opacity)


WALLS = (wall("w", -0.5), wall("x", 4.6, 1.2, 0.6), wall("y", 8.4, 0.8))


def surveyed() -> dict[str, LightRecord]:
    return {key: LightRecord(Receiver(key, shape, 0.1)) for key, shape in BEDS.items()}


def means(beds: dict[str, LightRecord], casters: tuple[Caster, ...]) -> dict[str, float]:
    found = survey([(one, DAYS) for one in beds.values()], PLACE, lambda _day: casters)
    return {key: mean.hours for key, mean in found.items()}


def anew(casters: tuple[Caster, ...]) -> dict[str, float]:
    receivers = [Receiver(key, shape, 0.1) for key, shape in BEDS.items()]
    return {
        key: light.mean for key, light in hours_over(receivers, PLACE, DAYS, lambda _day: casters).items()
    }


def test_survey_gives_the_hours_of_measuring() -> None:
    assert means(surveyed(), WALLS) == pytest.approx(anew(WALLS), abs=1e-5)
    assert means(surveyed(), ()) == pytest.approx(anew(()), abs=1e-5)


@pytest.mark.parametrize(
    "changed",
    [WALLS[:2], (wall("w", -0.5, 0.6), *WALLS[1:]), (*WALLS, wall("z", 2.4, 3.0)), WALLS[::-1], ()],
)
def test_after_a_change_it_gives_what_a_new_one_gives(changed: tuple[Caster, ...]) -> None:
    beds = surveyed()
    means(beds, WALLS)
    assert means(beds, changed) == pytest.approx(anew(changed), abs=1e-5)


def test_only_ground_that_a_changed_shadow_meets_is_measured_again(monkeypatch: pytest.MonkeyPatch) -> None:
    far = {**BEDS, "far": shapely.box(200, 0, 201.2, 4.8)}
    beds = {key: LightRecord(Receiver(key, shape, 0.1)) for key, shape in far.items()}
    ask = [(one, DAYS) for one in beds.values()]
    far_wall = Caster("v", "far wall", shapely.box(198, 0, 198.2, 4.8), 0.0, 1.0)
    survey(ask, PLACE, lambda _day: (*WALLS, far_wall))
    measured: list[int] = []
    hours = Shading.hours

    def counting(self: Shading, *args: object) -> object:
        measured.append(len(self.rasters))
        return hours(self, *args)

    monkeypatch.setattr(Shading, "hours", counting)
    survey(ask, PLACE, lambda _day: (*WALLS, far_wall))
    assert measured == []
    survey(ask, PLACE, lambda _day: WALLS)
    assert measured == [], "the far bed has nothing left that could shade it, the others have what they had"
    assert survey(ask, PLACE, lambda _day: WALLS)["far"].hours == pytest.approx(
        survey(ask, PLACE, lambda _day: WALLS)["far"].unshaded
    )


def test_ground_without_days_or_shape_is_left_out() -> None:
    nothing = LightRecord(Receiver("n", shapely.Polygon()))
    assert survey([(nothing, DAYS), (surveyed()["b0"], ())], PLACE, lambda _day: WALLS) == {}


@pytest.mark.parametrize("length", [1, 5, 19, 20, 21, 60, 186])
@pytest.mark.parametrize("every", [7, 20])
def test_common_days_stand_for_all_days_of_a_span(length: int, every: int) -> None:
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


def test_takers_leave_out_what_takes_too_little_and_nothing_else() -> None:
    receiver = Receiver("b1", BEDS["b1"], 0.1)
    every = shade_sources(receiver, PLACE, DAYS, lambda _day: WALLS)
    some = shade_sources(receiver, PLACE, DAYS, lambda _day: WALLS, least=0.25)
    assert [one for one in every if one.alone >= 0.25] == list(some)
    assert all(one.hours <= one.alone + 1e-6 for one in every)
