"""Latitudes and longitudes as people type them."""

from __future__ import annotations

import pytest

from planner.garden.coordinates import (
    CoordinateError,
    parse_latitude,
    parse_longitude,
    parse_place,
    show_latitude,
    show_longitude,
)
from planner.garden.site import Site

LATITUDES = [
    ("52 N", 52), ("52N", 52), ("N 52", 52), ("52° N", 52), ("52 north", 52), ("52", 52), ("52°", 52),
    ("52° 12' N", 52.2), ("52°12′N", 52.2), ("52 12 N", 52.2), ("52:12", 52.2), ("52 deg 12 min", 52.2),
    ("52°12'30\"N", 52.2083333), ("52° 12’ 30” N", 52.2083333), ("52°12'30''N", 52.2083333), ("52° 12.5' N", 52.2083333),
    ("-33.9", -33.9), ("−33,9", -33.9), ("33.9 S", -33.9), ("33.9° s", -33.9), ("S 33° 54'", -33.9), ("+52.2", 52.2),
    ("52,2", 52.2), ("0", 0), ("-0", 0), ("90 S", -90),
]  # fmt: skip

LONGITUDES = [
    ("0.12", 0.12), ("2.6 W", -2.6), ("2° 36' W", -2.6), ("2°36′0″W", -2.6), ("W 2 36", -2.6), ("-2.6°", -2.6),
    ("174° 48' E", 174.8), ("174,8", 174.8), ("180 W", -180), ("7' ", None), ("123 west", -123),
]  # fmt: skip

#: Of ISO 6709: forms of its first edition, 2.1 and 2.2, with places that it and its readers give as examples.
ISO_6709 = [
    ("+48.8577+002.295/", (48.8577, 2.295)),  # the Eiffel Tower
    ("+4852+00220/", (48 + 52 / 60, 2 + 20 / 60)),  # Paris
    ("+27.5916+086.5640+8850/", (27.5916, 86.564)),  # Mount Everest
    ("+275916+0865640+8850/", (27 + 59 / 60 + 16 / 3600, 86 + 56 / 60 + 40 / 3600)),
    ("+27.5916+086.5640+8850CRSWGS_84/", (27.5916, 86.564)),
    ("+40.6894-074.0447/", (40.6894, -74.0447)),  # the Statue of Liberty
    ("-90+000+2800/", (-90, 0)),  # the South Pole
    ("+00-160/", (0, -160)),  # the Pacific Ocean
    (
        "50°40′46,461″N 95°48′26,533″W",
        (50 + 40 / 60 + 46.461 / 3600, -(95 + 48 / 60 + 26.533 / 3600)),
    ),  # Annex D
]


@pytest.mark.parametrize(("text", "degrees"), LATITUDES)
def test_latitudes(text, degrees):
    assert parse_latitude(text) == pytest.approx(degrees, abs=1e-7)


@pytest.mark.parametrize(("text", "degrees"), [pair for pair in LONGITUDES if pair[1] is not None])
def test_longitudes(text, degrees):
    assert parse_longitude(text) == pytest.approx(degrees, abs=1e-7)


@pytest.mark.parametrize(("text", "place"), ISO_6709)
def test_examples_of_iso_6709(text, place):
    assert parse_place(text) == pytest.approx(place, abs=1e-7)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [("+4852", 48 + 52 / 60), ("+485130", 48.8583333), ("-3354.5", -33.9083333), ("5212N", 52.2)],
)
def test_compact_latitudes(text, degrees):
    assert parse_latitude(text) == pytest.approx(degrees, abs=1e-7)


@pytest.mark.parametrize(
    "text",
    [
        "52.2, 0.12",
        "52.2;0.12",
        "52,2; 0,12",
        "52.2,0.12",
        "52.2 N 0.12 E",
        "N52.2 E0.12",
        "52° 12' N, 0° 7.2' E",
    ],
)
def test_a_place_as_maps_write_it(text):
    assert parse_place(text) == pytest.approx((52.2, 0.12), abs=1e-7)


@pytest.mark.parametrize(
    "text", ["52.2", "52 12", "52 N", "152.2, 0.12", "52,2", "x" * 100_000, "N" + "1 " * 40]
)
def test_what_is_no_place(text):
    assert parse_place(text) is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "is no latitude"), ("north", "is no latitude"), ("52 60 N", "is no latitude"), ("52.5 12", "is no latitude"),
        ("52 12 30 1", "is no latitude"), ("1e1", "is no latitude"), ("nan", "is no latitude"), ("N 52 N", "is no latitude"),
        ("95", "end at the poles"), ("5212", "end at the poles"), ("90.01 S", "end at the poles"),
        ("52 E", "is a longitude"), ("W 52", "is a longitude"), ("-33 S", "a minus and a letter"),
        ("9" * 5_000, "end at the poles"), ("52 12' N 0 7 E", "is a longitude"),
    ],
)  # fmt: skip
def test_what_is_no_latitude_is_told(text, words):
    with pytest.raises(CoordinateError, match=words):
        parse_latitude(text)


@pytest.mark.parametrize(
    ("text", "words"), [("52 N", "is a latitude"), ("181", "end at 180"), ("7'", "is no longitude")]
)
def test_what_is_no_longitude_is_told(text, words):
    with pytest.raises(CoordinateError, match=words):
        parse_longitude(text)


@pytest.mark.parametrize("degrees", [52.2, -33.9, 0.0, 48.8577, -36.84846, 90.0, -0.00001])
def test_what_is_shown_is_read_again(degrees):
    assert parse_latitude(show_latitude(degrees)) == pytest.approx(degrees, abs=1e-7)
    assert parse_longitude(show_longitude(degrees)) == pytest.approx(degrees, abs=1e-7)


def test_every_latitude_read_is_one_of_a_site():
    assert Site(latitude=parse_latitude("90 S"), longitude=parse_longitude("180 W")).southern
