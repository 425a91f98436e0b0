"""Local days, sunrise and sunset, day length and beams, against published figures."""

from __future__ import annotations

import datetime as dt
import math
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from planner.garden import Site
from planner.light.beams import LEAST_ALTITUDE, beam_at, beams
from planner.light.day_of_sun import day_of_sun
from planner.light.place import Place, PlaceError
from planner.light.sample_days import sample_days
from planner.season.spans import Span
from planner.sun import sun

MOUNTAIN, BEIJING = dt.timezone(dt.timedelta(hours=-7)), dt.timezone(dt.timedelta(hours=8))
GOLDEN = Place(39.742476, -105.1786, MOUNTAIN)

#: Day, place, sunrise, noon, sunset by the clock. Reda and Andreas 2004, table A2.1, and the calculator of
#: the same laboratory (two of its sunsets are of the evening before; left out here).
TO_THE_SECOND = [
    (dt.date(1994, 1, 2), Place(35.0), "07:08:12.8", None, "16:59:55.9"),
    (dt.date(1996, 7, 5), Place(-35.0), "07:08:15.4", "12:04:36", "17:01:04.5"),
    (dt.date(2004, 12, 4), Place(-35.0), "04:38:57.1", "11:50:22", "19:02:02.5"),
    (dt.date(2015, 1, 2), GOLDEN, "07:21:55", "12:04:45", "16:47:43"),
    (dt.date(2015, 8, 2), GOLDEN, "05:00:27", "12:06:58", None),
    (dt.date(2003, 10, 17), GOLDEN, "06:12:43", "11:46:04.8", "17:18:51"),
]
#: US Naval Observatory tables for 2015, to the minute.
USNO_WEST, USNO_EAST = Place(39.0, -105.0, MOUNTAIN), Place(39.917, 116.383, BEIJING)
TO_THE_MINUTE = [
    (USNO_WEST, dt.date(2015, 1, 2), "07:19", "16:49"),
    (USNO_WEST, dt.date(2015, 4, 2), "05:43", "18:24"),
    (USNO_WEST, dt.date(2015, 8, 2), "05:01", "19:10"),
    (USNO_WEST, dt.date(2015, 12, 2), "07:01", "16:38"),
    (USNO_EAST, dt.date(2015, 1, 2), "07:36", "17:00"),
    (USNO_EAST, dt.date(2015, 4, 2), "05:58", "18:39"),
    (USNO_EAST, dt.date(2015, 8, 2), "05:13", "19:28"),
    (USNO_EAST, dt.date(2015, 12, 2), "07:17", "16:50"),
]
#: FAO-56, annex 2, table 2.7: mean daylight hours, January to December.
DAYLIGHT = {
    0: (12.0,) * 12,
    20: (10.9, 11.3, 11.9, 12.5, 12.9, 13.2, 13.1, 12.7, 12.1, 11.5, 11.0, 10.8),
    40: (9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.6, 13.6, 12.2, 10.9, 9.7, 9.2),
    50: (8.3, 9.8, 11.6, 13.5, 15.2, 16.1, 15.7, 14.3, 12.3, 10.4, 8.7, 7.9),
    60: (6.4, 8.8, 11.4, 14.2, 16.8, 18.4, 17.7, 15.3, 12.5, 9.7, 7.1, 5.6),
}


def seconds(clock: str) -> float:
    hours, minutes, *rest = (float(part) for part in clock.split(":"))
    return hours * 3600 + minutes * 60 + (rest[0] if rest else 0.0)


def clock_of(moment: dt.datetime) -> float:
    return moment.hour * 3600 + moment.minute * 60 + moment.second + moment.microsecond * 1e-6


@pytest.mark.parametrize(("day", "place", "rise", "noon", "down"), TO_THE_SECOND)
def test_sunrise_noon_and_sunset_within_seconds(day, place, rise, noon, down):
    found = day_of_sun(place, day)
    assert clock_of(found.sunrise) == pytest.approx(seconds(rise), abs=8)
    if noon:
        assert clock_of(found.noon) == pytest.approx(seconds(noon), abs=8)
    if down:
        assert clock_of(found.sunset) == pytest.approx(seconds(down), abs=8)


@pytest.mark.parametrize(("place", "day", "rise", "down"), TO_THE_MINUTE)
def test_sunrise_and_sunset_within_the_minute_of_the_almanac(place, day, rise, down):
    found = day_of_sun(place, day)
    assert clock_of(found.sunrise) == pytest.approx(seconds(rise), abs=40)
    assert clock_of(found.sunset) == pytest.approx(seconds(down), abs=40)


@pytest.mark.parametrize("latitude", DAYLIGHT)
def test_day_length_as_the_irrigation_paper_has_it(latitude):
    # Rounded to 0.1 h there; and its formula for the declination is off by up to 1.2 degrees (October).
    close = 0.06 + 0.16 * math.tan(math.radians(latitude))
    for month, hours in enumerate(DAYLIGHT[latitude], start=1):
        north = day_of_sun(Place(float(latitude)), dt.date(2026, month, 15), horizon=0.0).length
        assert north == pytest.approx(hours, abs=close)
        south = day_of_sun(Place(-float(latitude)), dt.date(2026, month, 15), horizon=0.0).length
        assert north + south == pytest.approx(24.0, abs=0.06)  # what one half has more the other has less


def test_the_paper_s_worked_example_of_daylight():
    """FAO-56, example 9: 20 degrees south, 3 September: 11.7 h."""
    assert day_of_sun(Place(-20.0), dt.date(2026, 9, 3), horizon=0.0).length == pytest.approx(11.67, abs=0.05)


def test_polar_night_and_polar_day():
    tromso = Place(69.65, 18.96, ZoneInfo("Europe/Oslo"))
    dark, bright = day_of_sun(tromso, dt.date(2026, 12, 21)), day_of_sun(tromso, dt.date(2026, 6, 21))
    assert (dark.sunrise, dark.sunset, dark.length) == (None, None, 0.0)
    assert (bright.sunrise, bright.sunset, bright.length) == (None, None, 24.0)
    assert dark.noon_altitude < 0 < bright.noon_altitude
    assert beams(tromso, dt.date(2026, 12, 21)).total == 0.0
    assert len(beams(tromso, dt.date(2026, 12, 21)).hours) == 0
    never_low = beams(Place(80.0, 15.0, ZoneInfo("Arctic/Longyearbyen")), dt.date(2026, 6, 21))
    assert never_low.total == pytest.approx(24.0, abs=1e-6)


def test_the_day_the_clocks_change_is_shorter_or_longer():
    london = Place(51.5, 0.0, ZoneInfo("Europe/London"))
    hour = np.timedelta64(1, "h")
    for day, hours in ((dt.date(2026, 3, 29), 23), (dt.date(2026, 10, 25), 25), (dt.date(2026, 6, 1), 24)):
        first, last = london.ends_of(day)
        assert (last - first) / hour == hours
    before, after = (day_of_sun(london, dt.date(2026, 3, day)).sunrise for day in (28, 29))
    assert clock_of(after) - clock_of(before) == pytest.approx(3600 - 130, abs=60)


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        ("America/Sao_Paulo", dt.date(2018, 11, 4), 23),  # clocks put forward at midnight
        ("America/Sao_Paulo", dt.date(2018, 2, 17), 25),  # put back at midnight
        ("Atlantic/Azores", dt.date(2026, 10, 25), 25),  # put back from one to midnight
        ("America/Asuncion", dt.date(2024, 10, 6), 23),
        ("Australia/Lord_Howe", dt.date(2026, 4, 5), 24.5),
    ],
)
def test_clocks_changed_at_midnight_leave_no_gap(zone, day, hours):
    place = Place(-25.0, 0.0, ZoneInfo(zone))
    first, last = place.ends_of(day)
    assert (last - first) / np.timedelta64(1, "h") == hours
    assert place.ends_of(day + dt.timedelta(days=1))[0] == last
    assert place.ends_of(day - dt.timedelta(days=1))[1] == first


def test_a_time_of_the_clock_becomes_the_right_instant_and_back():
    auckland = Place(-36.8, 174.8, ZoneInfo("Pacific/Auckland"))
    assert auckland.utc(dt.datetime(2026, 1, 5, 12, 0)) == np.datetime64("2026-01-04T23:00")
    assert auckland.utc(dt.datetime(2026, 7, 5, 12, 0)) == np.datetime64("2026-07-05T00:00")
    moment = auckland.local(np.datetime64("2026-01-04T23:00"))
    assert (moment.day, moment.hour, moment.utcoffset()) == (5, 12, dt.timedelta(hours=13))


@pytest.mark.parametrize("step", [1, 10, 30, 60])
@pytest.mark.parametrize(("latitude", "day"), [(56.0, dt.date(2026, 12, 21)), (56.0, dt.date(2026, 6, 21)), (-41.0, dt.date(2026, 4, 3)), (0.0, dt.date(2026, 3, 20))])  # fmt: skip
def test_beams_last_the_day_less_the_time_under_three_degrees(latitude, day, step):
    place = Place(latitude)
    minute = np.arange(*place.ends_of(day), np.timedelta64(6, "s"))
    above = sun(minute, latitude, 0.0).apparent >= LEAST_ALTITUDE
    assert beams(place, day, step).total == pytest.approx(above.mean() * 24, abs=0.02 if step < 60 else 0.06)


def test_weighed_hours_are_worth_the_sine_of_the_altitude():
    light = beams(Place(52.0), dt.date(2026, 5, 5))
    worth = light.weighed.hours / light.hours / np.sin(np.radians(light.altitude))
    assert worth == pytest.approx(np.full(len(worth), worth[0]))
    assert light.weighed.total == pytest.approx(light.total)
    assert light.weighed.hours[0] < light.hours[0]


def test_a_step_that_does_not_divide_the_day_loses_nothing():
    place = Place(56.0)
    assert beams(place, dt.date(2026, 6, 21), 7).total == pytest.approx(beams(place, dt.date(2026, 6, 21), 1).total, abs=2e-3)  # fmt: skip


def test_beams_point_to_the_sun():
    light = beams(Place(50.0), dt.date(2026, 9, 1))
    assert (np.diff(np.degrees(np.arctan2(light.toward[:, 0], light.toward[:, 1])) % 360) > 0).all()
    run = np.hypot(light.toward[:, 0], light.toward[:, 1])
    np.testing.assert_allclose(run, 1 / np.tan(np.radians(light.altitude)))
    noon = np.argmax(light.altitude)
    assert light.toward[noon, 1] < 0  # plan-up is north, the sun south
    assert abs(light.toward[noon, 0]) < 0.05
    turned = beams(Place(50.0, bearing_up=90.0), dt.date(2026, 9, 1))  # plan-up is east: south is right
    np.testing.assert_allclose(
        turned.toward, np.column_stack([-light.toward[:, 1], light.toward[:, 0]]), atol=1e-9
    )


def test_the_beam_of_a_moment():
    place = Place(50.0, 0.0, ZoneInfo("Europe/London"))
    beam = beam_at(place, dt.datetime(2026, 6, 21, 13, 2))  # summer time
    assert float(beam.altitude[0]) == pytest.approx(90 - 50 + 23.44, abs=0.03)
    assert len(beam_at(place, dt.datetime(2026, 6, 21, 1, 0)).hours) == 0


# -- where the garden lies ----------------------------------------------------------------------


def test_the_error_without_a_latitude_says_where_to_type_it():
    with pytest.raises(PlaceError) as raised:
        Place.of(Site(name="Hollow", longitude=-3.0))
    assert str(raised.value) == (
        "Hollow: where the sun stands is not known without the garden's latitude. Type latitude and longitude in "
        "the garden's details, in degrees (north and east are positive)."
    )


def test_an_unknown_time_zone_is_refused_with_a_suggestion():
    with pytest.raises(PlaceError) as raised:
        Place.of(Site(name="Hollow", latitude=56.0, time_zone="Europe/Londn"))
    assert str(raised.value) == "Hollow: there is no time zone 'Europe/Londn'; did you mean Europe/London?"
    for bad in ("../../etc/passwd", "nowhere at all", "/etc"):
        with pytest.raises(PlaceError):
            Place.of(Site(latitude=56.0, time_zone=bad))


def test_without_a_time_zone_the_clocks_show_solar_time():
    place = Place.of(Site(latitude=40.0, longitude=-105.0))
    assert not place.has_time_zone
    assert clock_of(day_of_sun(place, dt.date(2026, 4, 15)).noon) == pytest.approx(12 * 3600, abs=60)
    bare = Place.of(Site(latitude=40.0))
    day = dt.date(2026, 4, 15)
    assert day_of_sun(bare, day).length == pytest.approx(day_of_sun(place, day).length, abs=0.02)


def test_without_a_longitude_the_zone_s_meridian_is_used():
    assert Place.of(Site(latitude=40.0, time_zone="America/Denver")).longitude == -105.0
    assert Place.of(Site(latitude=-41.0, time_zone="Pacific/Auckland")).longitude == 180.0


def test_sample_days_represent_their_span():
    year = Span(dt.date(2026, 1, 1), dt.date(2026, 12, 31))
    days = sample_days(year)
    assert len(days) == 12
    assert math.fsum(share for _, share in days) == pytest.approx(1.0)
    assert [day.month for day, _ in days] == list(range(1, 13))
    week = Span(dt.date(2026, 5, 1), dt.date(2026, 5, 7))
    assert [day for day, _ in sample_days(week)] == [dt.date(2026, 5, day) for day in range(1, 8)]
    assert sample_days(Span(week.first, week.first)) == ((week.first, 1.0),)
