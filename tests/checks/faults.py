"""Gardens with just one fault, and the same gardens with just none: one pair a complaint."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from making import bed, garden, planting, rectangle, ring_bed

from planner.garden import (
    Bench,
    Circle,
    Climate,
    Conflict,
    FrostDates,
    Garden,
    Lot,
    Rectangle,
    Site,
    Soil,
    Structure,
    Variety,
)
from planner.garden.records import SeenRecord

YEAR = 2026
SITE = Site(name="Test", latitude=56.0, longitude=-3.0)
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-24", risk_50="05-06", risk_90="04-18"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
    zone="8b",
)
#: The same place with warmer summers: what loves warmth ripens there.
WARM = CLIMATE.with_(
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 8.6, 12.5, 14.4, 14.2, 11.3, 7.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 17.9, 21.4, 23.1, 22.8, 19.2, 14.6, 9.0, 6.7),
)

#: The same place farther from the sea: its winters are colder, and its springs come later.
INLAND = CLIMATE.with_(
    monthly_minimum=(-6.0, -5.5, -2.0, 2.0, 6.5, 9.5, 11.5, 11.0, 8.0, 4.0, 0.0, -4.0),
    monthly_maximum=(1.0, 3.0, 8.0, 13.5, 18.0, 21.0, 23.0, 23.0, 18.0, 12.0, 6.0, 2.0),
)

#: The same place with summers of the inner continent.
HOT = CLIMATE.with_(
    monthly_minimum=(0.4, 0.4, 3.0, 7.0, 12.0, 17.5, 20.5, 19.5, 13.5, 7.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 13.0, 19.0, 24.5, 30.0, 33.0, 32.5, 27.5, 21.0, 13.0, 6.7),
)


def plot(start: float, end: float) -> dict[str, Any]:
    """A stretch."""
    return {"kind": "stretch", "start": start, "end": end}


def region(x: float, y: float, wide: float, high: float) -> dict[str, Any]:
    """A drawn rectangle."""
    return {"kind": "region", "points": [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]}


def rows(in_row: float, between: float | None = None, **more: Any) -> dict[str, Any]:
    """Rows."""
    return {"kind": "rows", "in_row_spacing": in_row, "row_spacing": between, **more}


def places(*points: tuple[float, float]) -> dict[str, Any]:
    """Given places."""
    return {"kind": "places", "points": list(points)}


def made(*things: Any, structures: tuple[Structure, ...] = (), **fields: Any) -> Garden:
    """A garden in the test's place and climate."""
    fields = {"site": SITE, "climate": CLIMATE, **fields}
    return garden(*things, structures=structures, **fields)


def day(month: int, number: int, year: int = YEAR) -> dt.date:
    """A day of the year."""
    return dt.date(year, month, number)


def beans(key: str = "p1", **fields: Any) -> Any:
    """Dwarf beans set out when it is warm: they have nothing wrong with them."""
    usual = {"crop": "dwarf_bean", "start": "raised", "first": day(6, 1), "arrangement": rows(0.15, 0.4)}
    return planting(key, **{**usual, **fields})


def beet_for_the_store(days: float, lifted: dt.date) -> Garden:
    """Beetroot of a variety that keeps so many days, lifted on a day."""
    return made(
        bed(),
        planting(
            crop="beetroot",
            variety="Own",
            start="sown",
            first=day(4, 20),
            purpose="store",
            last=lifted,
            pinned_dates={"last_harvest": lifted},
        ),
        varieties=(
            Variety(id="v1", crop="beetroot", name="Own", figures=({"field": "store_days", "value": days},)),
        ),
    )


def lettuce(key: str = "p1", **fields: Any) -> Any:
    """Lettuce set out in May."""
    usual = {"crop": "lettuce", "start": "raised", "first": day(5, 10), "arrangement": rows(0.3, 0.3)}
    return planting(key, **{**usual, **fields})


@dataclass(frozen=True)
class Case:
    """One complaint: a garden that deserves it and one that just does not."""

    name: str
    check: str
    topic: str
    severity: str
    faulty: Callable[[], Garden]
    sound: Callable[[], Garden]


CASES: list[Case] = []


def case(
    name: str, check: str, topic: str, severity: str, make: Callable[[Any], Garden], bad: Any, good: Any
) -> None:
    """Add a case whose two gardens differ in one value."""
    CASES.append(Case(name, check, topic, severity, lambda: make(bad), lambda: make(good)))


def _tree(name: str, x: float) -> Structure:
    """A tree as high as the roots of a grown walnut reach."""
    return Structure(id="s1", kind="tree", name=name, outline=Circle(radius=1, center=(x, 0.0)), height=18)


def _arch(**fields: Any) -> Structure:
    outline = Rectangle(length=fields.pop("length", 1.1), width=1.0, center=(0.0, 0.85), turn=90)
    return Structure(id="s1", kind="arch", name="bean arch", outline=outline, height=2.3, **fields)


_TWO_BEDS = (bed("b1"), bed("b2", rectangle(center=(0.0, 1.7))))

# -- outside, overlap, standing -------------------------------------------------------------------

case(
    "plot beyond the bed",
    "outside",
    "",
    "mind",
    lambda end: made(bed(), beans(plot=plot(2.4, end))),
    5.2,
    4.8,
)
case(
    "no plant fits",
    "outside",
    "",
    "stop",
    lambda long: made(bed(outline=rectangle(long, 0.25)), beans(arrangement=rows(0.3, 0.6))),
    0.28,
    0.29,
)
case(
    "places out of the plot",
    "outside",
    "",
    "mind",
    lambda x: made(bed(), beans(arrangement=places((0.0, 0.0), (x, 0.0)))),
    2.5,
    2.4,
)
case(
    "two plots on one ground",
    "overlap",
    "plots",
    "stop",
    lambda start: made(
        bed(), beans("p1", plot=plot(0, 2.4)), lettuce("p2", first=day(6, 3), plot=plot(start, 4.8))
    ),
    2.2,
    2.4,
)
case(
    "a few days on one ground",
    "overlap",
    "plots",
    "mind",
    lambda first: made(
        bed(), lettuce("p1", last=day(7, 10)), beans("p2", first=day(*first), last=day(10, 1))
    ),
    (7, 5),
    (7, 11),
)
case(
    "two beds on one ground",
    "overlap",
    "beds",
    "mind",
    lambda y: made(bed("b1"), bed("b2", rectangle(center=(0.0, y)))),
    1.0,
    1.195,
)
case(
    "rhubarb planted over",
    "standing",
    "",
    "stop",
    lambda start: made(
        bed(),
        planting(
            "p1",
            crop="rhubarb",
            year=2022,
            start="standing",
            first=day(3, 1, 2022),
            plot=plot(0, 2),
            arrangement=rows(0.9, 0.9, rows=1),
        ),
        lettuce("p2", plot=plot(start, 4.8)),
    ),
    1.5,
    2.0,
)

# -- crowding -------------------------------------------------------------------------------------

case(
    "cabbage set too close",
    "crowding",
    "within",
    "mind",
    lambda apart: made(
        bed(),
        planting(
            crop="cabbage",
            start="raised",
            first=day(5, 8),
            covers=[{"kind": "netting"}],
            arrangement=rows(apart, 0.4),
        ),
    ),
    0.27,
    0.28,
)
case(
    "given places too close",
    "crowding",
    "within",
    "mind",
    lambda x: made(
        bed(),
        planting(
            crop="cabbage",
            start="raised",
            first=day(5, 8),
            covers=[{"kind": "netting"}],
            arrangement=places((0, 0), (x, 0)),
        ),
    ),
    0.27,
    0.28,
)
case(
    "lettuce among courgettes",
    "crowding",
    "between",
    "mind",
    lambda y: made(
        bed(),
        planting("p1", crop="courgette", start="raised", first=day(6, 1), arrangement=places((0.0, 0.0))),
        lettuce("p2", first=day(6, 20), shares_ground=True, arrangement=places((0.0, y), (1.8, 0.4))),
    ),
    0.10,
    0.35,
)

# -- frost, season, soil --------------------------------------------------------------------------

case(
    "shoots of potatoes out in the frost",
    "frost",
    "spring",
    "mind",
    lambda when: made(
        bed(),
        planting(
            crop="potato",
            start="tubers",
            first=day(*when),
            last=day(9, 10),
            arrangement=rows(0.4, 0.6),
        ),
        climate=WARM.with_(last_frost=FrostDates(risk_10="06-07", risk_50="06-01", risk_90="05-20")),
    ),
    (4, 1),
    (4, 20),
)
case(
    "parsnips sown in the depth of winter",
    "season",
    "early",
    "note",
    lambda when: made(
        bed(),
        planting(
            crop="parsnip",
            start="sown",
            first=day(*when),
            last=day(12, 20),
            covers=[{"kind": "netting", "first": "2026-05-01", "last": "2026-10-01"}],
            arrangement=rows(0.15, 0.3),
        ),
    ),
    (2, 20),
    (3, 28),
)
case(
    "swedes sown when summer is nearly over",
    "season",
    "late",
    "note",
    lambda when: made(
        bed(),
        planting(
            crop="swede",
            start="sown",
            first=day(*when),
            covers=[{"kind": "netting"}],
            arrangement=rows(0.2, 0.45),
        ),
    ),
    (8, 15),
    (6, 10),
)
case(
    "garlic planted when it is nearly summer",
    "season",
    "small",
    "mind",
    lambda when: made(
        bed(), planting(crop="garlic", start="cloves", first=day(*when), arrangement=rows(0.15, 0.3))
    ),
    (5, 10),
    (3, 15),
)
case(
    "tomatoes out in the frost",
    "frost",
    "spring",
    "stop",
    lambda when: made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(*when),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
    ),
    (4, 15),
    (5, 3),
)
case(
    "tomatoes a little early",
    "frost",
    "spring",
    "mind",
    lambda when: made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(*when),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
    ),
    (5, 2),
    (5, 3),
)
case(
    "under glass too early all the same",
    "frost",
    "spring",
    "mind",
    lambda when: made(
        bed(kind="under glass"),
        planting(
            crop="tomato",
            start="raised",
            first=day(*when),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
    ),
    (3, 10),
    (4, 6),
)
case(
    "lettuce out in nights that kill young plants",
    "frost",
    "spring",
    "mind",
    lambda when: made(bed(), lettuce(first=day(*when)), climate=INLAND),
    (2, 10),
    (4, 20),
)
case(
    "beans picked after the frost",
    "frost",
    "autumn",
    "note",
    lambda when: made(bed(), beans(pinned_dates={"last_harvest": day(*when)}, last=day(11, 20))),
    (11, 10),
    (10, 20),
)
case(
    "rosemary in a cold zone",
    "frost",
    "winter",
    "mind",
    lambda zone: made(
        bed(),
        planting(
            crop="rosemary",
            year=2024,
            start="standing",
            first=day(5, 1, 2024),
            arrangement=rows(1.0, 1.0, rows=1),
        ),
        climate=CLIMATE.with_(zone=zone),
    ),
    "6a",
    "8a",
)
case(
    "sweet corn too late to ripen",
    "season",
    "frost",
    "stop",
    lambda when: made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=day(*when), arrangement=rows(0.3, 0.4)),
        climate=CLIMATE.with_(zone="", monthly_minimum=None, monthly_maximum=None),
        site=SITE.with_(latitude=44.0),
    ),
    (9, 1),
    (5, 20),
)
case(
    "sweet corn in a summer too cool for it",
    "season",
    "heat",
    "mind",
    lambda when: made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=day(*when), arrangement=rows(0.3, 0.4)),
        climate=WARM,
    ),
    (7, 29),
    (6, 1),
)
case(
    "okra where no night is warm",
    "season",
    "nights",
    "mind",
    lambda night: made(
        bed(),
        planting(crop="okra", start="raised", first=day(6, 20), arrangement=rows(0.4, 0.6)),
        climate=WARM.with_(
            monthly_minimum=(0.4, 0.4, 1.5, 3.0, 8.6, 12.0, night, 12.2, 11.3, 7.6, 2.7, 0.6),
            monthly_maximum=(6.5, 7.1, 9.1, 11.8, 19.9, 26.4, 29.1, 28.8, 23.2, 14.6, 9.0, 6.7),
        ),
    ),
    13.0,
    14.5,
)
case(
    "sweet potatoes set out in cold ground",
    "soil warmth",
    "roots",
    "note",
    lambda may: made(
        bed(),
        planting(crop="sweet_potato", start="bought", first=day(5, 20), arrangement=rows(0.3, 0.9)),
        climate=CLIMATE.with_(
            first_frost=FrostDates(risk_10="10-27", risk_50="11-17", risk_90="11-30"),
            monthly_minimum=(0.4, 0.4, 1.5, 3.0, may - 6, 15.0, 16.0, 16.0, 14.0, 9.6, 2.7, 0.6),
            monthly_maximum=(6.5, 7.1, 9.1, 11.8, may + 6, 28.0, 30.0, 30.0, 26.0, 19.6, 9.0, 6.7),
        ),
    ),
    11.0,
    15.0,
)
case(
    "melons in the open of a cool place",
    "season",
    "heat",
    "stop",
    lambda kind: made(
        bed(kind=kind),
        planting(crop="melon", start="raised", first=day(6, 20), arrangement=rows(1.0, 1.2)),
    ),
    "open",
    "under glass",
)
case(
    "cleared before it can be picked",
    "season",
    "cleared",
    "stop",
    lambda when: made(bed(), beans(last=day(*when))),
    (6, 20),
    (8, 30),
)
case(
    "beans sown in cold soil",
    "soil warmth",
    "",
    "mind",
    lambda when: made(
        bed(),
        planting(
            crop="climbing_bean",
            start="sown",
            first=day(*when),
            support={"kind": "frame", "height": 2.0},
            arrangement=rows(0.2, 0.5),
        ),
    ),
    (4, 30),
    (6, 15),
)

# -- rotation, neighbours -------------------------------------------------------------------------

case(
    "the family again after a year",
    "rotation",
    "",
    "mind",
    lambda before: made(
        bed(),
        planting("p1", crop=before, year=2025, start="sown", first=day(5, 1, 2025), last=day(9, 1, 2025)),
        beans("p2"),
    ),
    "broad_bean",
    "beetroot",
)
case(
    "onions after garlic that was lifted last summer",
    "rotation",
    "",
    "mind",
    lambda planted: made(
        bed(),
        planting(
            "p1", crop="garlic", year=planted.year, start="cloves", first=planted, arrangement=rows(0.15, 0.3)
        ),
        planting("p2", crop="onion", start="sets", first=day(4, 5), arrangement=rows(0.1, 0.25)),
    ),
    day(10, 20, 2024),
    day(10, 20, 2022),
)
case(
    "celery where parsnips of the year before stood until spring",
    "rotation",
    "",
    "mind",
    lambda before: made(
        bed(),
        planting(
            "p1",
            crop=before,
            year=2025,
            start="sown",
            first=day(4, 20, 2025),
            last=day(2, 20),
            covers=[{"kind": "netting"}],
        ),
        planting("p2", crop="celery", start="raised", first=day(6, 1), arrangement=rows(0.25, 0.3)),
        climate=WARM,
    ),
    "parsnip",
    "kale",
)
case(
    "the family again too soon",
    "rotation",
    "",
    "note",
    lambda year: made(
        bed(),
        beans("p1", year=year, first=day(6, 1, year)),
        planting("p2", crop="pea", start="sown", first=day(4, 10), support={"kind": "sticks"}),
    ),
    2023,
    2022,
)
case(
    "the ground under another name",
    "rotation",
    "",
    "mind",
    lambda x: made(
        bed("b1", rectangle(center=(x, 0.0)), last_year=2025),
        bed("b2", first_year=2026),
        planting(
            "p1",
            bed="b1",
            crop="broad_bean",
            year=2025,
            start="sown",
            first=day(5, 1, 2025),
            last=day(9, 1, 2025),
        ),
        beans("p2", bed="b2"),
    ),
    4.0,
    4.5,
)
case(
    "green manure of the family",
    "rotation",
    "",
    "note",
    lambda crop: made(
        bed(),
        planting(
            "p1",
            crop=crop,
            purpose="green manure",
            year=2025,
            start="sown",
            first=day(5, 1, 2025),
            last=day(9, 1, 2025),
            arrangement={"kind": "scatter", "density": 100},
        ),
        beans("p2"),
    ),
    "field_pea",
    "phacelia",
)
case(
    "beans beside corn",
    "neighbours",
    "bad",
    "mind",
    lambda start: made(
        bed(outline=rectangle(8.0)),
        planting(
            "p1",
            crop="sweet_corn",
            start="raised",
            first=day(6, 1),
            arrangement=rows(0.3, 0.4),
            plot=plot(0, 2.4),
        ),
        beans("p2", plot=plot(start, 8.0)),
        climate=WARM,
    ),
    2.4,
    3.6,
)
case(
    "corn in a single row",
    "neighbours",
    "block",
    "note",
    lambda many_rows: made(
        bed(),
        planting(
            crop="sweet_corn",
            start="raised",
            first=day(6, 1),
            arrangement={"kind": "rows", "in_row_spacing": 0.3, "rows": many_rows},
        ),
        climate=WARM,
    ),
    1,
    2,
)
case(
    "tomatoes by a walnut of some kind",
    "neighbours",
    "s1",
    "note",
    lambda x: made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(5, 10),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
        structures=(_tree("old walnut", x),),
    ),
    12.0,
    22.0,
)
case(
    "tomatoes by a black walnut",
    "neighbours",
    "s1",
    "note",
    lambda x: made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(5, 10),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
        structures=(_tree("black walnut", x),),
    ),
    12.0,
    22.0,
)

# -- support, cover -------------------------------------------------------------------------------

_CLIMBING: dict[str, Any] = {
    "crop": "climbing_bean",
    "start": "raised",
    "first": day(6, 1),
    "arrangement": rows(0.2, 0.5),
}
case(
    "climbing beans without a support",
    "support",
    "none",
    "mind",
    lambda support: made(bed(), planting(**_CLIMBING, support=support)),
    None,
    {"kind": "frame", "height": 2.0},
)
case(
    "a support too low",
    "support",
    "low",
    "mind",
    lambda high: made(bed(), planting(**_CLIMBING, support={"kind": "net", "height": high})),
    1.4,
    1.5,
)
case(
    "peas on stakes",
    "support",
    "kind",
    "mind",
    lambda kind: made(
        bed(), planting(crop="pea", start="sown", first=day(4, 10), support={"kind": kind, "height": 1.2})
    ),
    "stake",
    "sticks",
)
case(
    "an arch too low to walk under",
    "support",
    "low s1",
    "mind",
    lambda high: made(*_TWO_BEDS, structures=(_arch(clear_height=high),)),
    1.9,
    2.03,
)
case(
    "an arch too narrow for the path",
    "support",
    "tight s1",
    "mind",
    lambda foot: made(*_TWO_BEDS, structures=(_arch(foot=foot),)),
    0.35,
    0.3,
)
case(
    "courgettes covered in flower",
    "cover",
    "flower",
    "mind",
    lambda last: made(
        bed(),
        planting(
            crop="courgette",
            start="raised",
            first=day(6, 1),
            covers=[{"kind": "fleece", "last": last}],
            arrangement=rows(0.9, 0.9),
        ),
    ),
    day(8, 10),
    day(6, 19),
)
case(
    "staked tomatoes under hoops",
    "cover",
    "height",
    "mind",
    lambda last: made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(6, 1),
            support={"kind": "stake", "height": 1.8},
            covers=[{"kind": "low tunnel", "last": last}],
            arrangement=rows(0.6, 0.6),
        ),
    ),
    day(9, 20),
    day(6, 12),
)
case(
    "cabbage never covered",
    "cover",
    "pests",
    "note",
    lambda covers: made(
        bed(),
        planting(crop="cabbage", start="raised", first=day(5, 8), covers=covers, arrangement=rows(0.4, 0.4)),
    ),
    [],
    [{"kind": "netting"}],
)
case(
    "kale netted for some weeks of many",
    "cover",
    "pests",
    "note",
    lambda until: made(
        bed(),
        planting(
            crop="kale",
            start="raised",
            first=day(5, 10),
            last=day(12, 20),
            covers=[{"kind": "netting", "first": day(5, 10), "last": until}],
            arrangement=rows(0.45, 0.5),
        ),
    ),
    day(6, 1),
    day(8, 1),
)
case(
    "film over a sown drill",
    "cover",
    "film",
    "mind",
    lambda start: made(
        bed(),
        planting(
            crop="beetroot",
            start=start,
            first=day(5, 10),
            sowing="drill" if start == "sown" else None,
            covers=[{"kind": "film"}],
        ),
    ),
    "sown",
    "raised",
)

case(
    "film over drills wide apart in the row",
    "cover",
    "film",
    "mind",
    lambda sowing: made(
        bed(),
        planting(
            crop="swede",
            start="sown",
            first=day(5, 20),
            sowing=sowing,
            arrangement=rows(0.25, 0.4),
            covers=[{"kind": "film"}, {"kind": "netting"}],
        ),
    ),
    "drill",
    "stations",
)
case(
    "kale in the open where autumn is mild",
    "cover",
    "pests",
    "note",
    lambda october: made(
        bed(),
        planting(
            crop="kale",
            start="raised",
            first=day(9, 8),
            last=day(11, 20),
            pinned_dates={"first_harvest": day(11, 1)},
            arrangement=rows(0.45, 0.5),
        ),
        climate=CLIMATE.with_(
            first_frost=FrostDates(risk_10="11-09", risk_50="11-17", risk_90="11-26"),
            monthly_maximum=(*(CLIMATE.monthly_maximum or ())[:9], october, 9.0, 6.7),
        ),
    ),
    16.0,
    12.0,
)

# -- seed, reach, path, stock, store --------------------------------------------------------------

_SEED = {
    "purpose": "seed",
    "pinned_dates": {"first_harvest": day(8, 25), "last_harvest": day(9, 1)},
    "last": day(9, 5),
}
case(
    "too few plants for seed",
    "seed purity",
    "few",
    "mind",
    lambda length: made(bed(), lettuce(plot=plot(0, length), **_SEED)),
    0.6,
    0.9,
)
case(
    "beans for seed beside others",
    "seed purity",
    "crossing",
    "note",
    lambda x: made(
        bed("b1"),
        bed("b2", rectangle(center=(x, 0.0))),
        beans("p1", variety="Black", **_SEED),
        beans("p2", bed="b2", variety="White"),
    ),
    6.0,
    11.0,
)
case(
    "a bed too wide to reach over",
    "reach",
    "",
    "note",
    lambda wide: made(bed(outline=rectangle(4.8, wide))),
    1.5,
    1.2,
)
case(
    "a bed reached from one side",
    "reach",
    "",
    "note",
    lambda access: made(bed(access=access)),
    ("left",),
    ("left", "right"),
)
case(
    "a path too narrow",
    "path",
    "",
    "mind",
    lambda y: made(bed("b1"), bed("b2", rectangle(center=(0.0, y)))),
    1.6,
    1.66,
)
case(
    "a narrow way along a wall, at a side one stands at",
    "path",
    "",
    "note",
    lambda access: made(
        bed("b1", access=access),
        structures=(
            Structure(
                id="s1", kind="wall", name="wall", height=1.0, outline=rectangle(4.8, 0.2, center=(0.0, 1.1))
            ),
        ),
        site=SITE.with_(reach=1.3),
    ),
    ("left", "right"),
    ("right",),
)
case(
    "a keyhole too narrow",
    "path",
    "",
    "note",
    lambda half: made(
        ring_bed(
            [
                (-1.2, -1.2),
                (1.2, -1.2),
                (1.2, 1.2),
                (half, 1.2),
                (half, -0.2),
                (-half, -0.2),
                (-half, 1.2),
                (-1.2, 1.2),
            ]
        )
    ),
    0.2,
    0.23,
)
case(
    "more than half lost",
    "losses",
    "lost",
    "mind",
    lambda lost: made(
        bed(),
        lettuce(),
        records=(
            SeenRecord(
                id="r1", kind="seen", day=day(5, 20), planting="p1", harm="slugs", share=0.6, lost=lost
            ),
        ),
    ),
    0.6,
    None,
)
case(
    "too little seed",
    "stock",
    "short ",
    "note",
    lambda seeds: made(bed(), beans(), stock=(Lot(id="l1", crop="dwarf_bean", seeds=seeds, packed=2025),)),
    60,
    160,
)
case(
    "seed too old",
    "stock",
    "old ",
    "note",
    lambda packed: made(bed(), beans(), stock=(Lot(id="l1", crop="dwarf_bean", seeds=500, packed=packed),)),
    2015,
    2025,
)
case(
    "stored and soon gone",
    "store",
    "short",
    "note",
    lambda purpose: made(bed(), lettuce(purpose=purpose)),
    "store",
    "kitchen",
)
case(
    "stored too early",
    "store",
    "early",
    "note",
    lambda days: beet_for_the_store(days, day(9, 1)),
    75,
    76,
)

case(
    "a frame wider than the bed",
    "support",
    "outside",
    "mind",
    lambda wide: made(
        bed(outline=rectangle(4.8, wide)),
        planting(**{**_CLIMBING, "arrangement": rows(0.2, rows=1)}, support={"kind": "frame", "height": 2.0}),
    ),
    0.36,
    0.42,
)
case(
    "corn in a square as narrow as its row",
    "crowding",
    "rows",
    "mind",
    lambda apart: made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=day(6, 1), arrangement=rows(apart, apart)),
        climate=WARM,
    ),
    0.2,
    0.25,
)
case(
    "lettuce under the leaves of a courgette",
    "crowding",
    "between",
    "mind",
    lambda away: made(
        bed(),
        planting(
            "p1",
            crop="courgette",
            start="raised",
            first=day(6, 1),
            plot=plot(0, 0.7),
            arrangement={"kind": "places", "points": [[-1.9, 0.0]]},
        ),
        lettuce(
            "p2",
            first="2026-06-05",
            plot=plot(0.7, 4.8),
            arrangement={"kind": "places", "points": [[-1.9 + away, 0.0], [-1.5 + away, 0.0]]},
        ),
    ),
    0.28,
    0.6,
)
case(
    "courgettes of two beds that grow over the path",
    "crowding",
    "between",
    "mind",
    lambda y: made(
        bed("b1", rectangle(4.8, 0.5)),
        bed("b2", rectangle(4.8, 0.5, center=(0.0, y))),
        *(
            planting(
                key,
                bed=ground,
                crop="courgette",
                start="raised",
                first=day(6, 1),
                arrangement={"kind": "rows", "in_row_spacing": 0.9, "rows": 1},
            )
            for key, ground in (("p1", "b1"), ("p2", "b2"))
        ),
        site=SITE.with_(path_width=0.0),
    ),
    0.52,
    0.9,
)
case(
    "squashes of two beds that hang over the path between them",
    "crowding",
    "hanging",
    "note",
    lambda path: made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, 1.2 + path))),
        *(
            planting(
                key,
                bed=ground,
                crop="winter_squash",
                start="raised",
                first=day(6, 1),
                arrangement={"kind": "rows"},
            )
            for key, ground in (("p1", "b1"), ("p2", "b2"))
        ),
        climate=WARM.with_(first_frost=FrostDates(risk_10="10-27", risk_50="11-17", risk_90="11-30")),
        site=SITE.with_(path_width=0.0),
    ),
    0.4,
    0.5,
)
case(
    "rows at either side of the edge",
    "crowding",
    "between",
    "mind",
    lambda edge: made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, 1.2)), access=("start", "end", "left", "right")),
        beans("p1", arrangement=rows(0.15, 0.38, edge=edge)),
        beans("p2", bed="b2", arrangement=rows(0.15, 0.38, edge=edge)),
        site=SITE.with_(reach=1.3),
    ),
    0.02,
    0.2,
)

case(
    "peppers out as soon as the frost is over",
    "frost",
    "spring",
    "mind",
    lambda when: made(
        bed(),
        planting(
            crop="sweet_pepper",
            start="raised",
            first=day(*when),
            support={"kind": "stake", "height": 0.8},
            arrangement=rows(0.45, 0.5),
        ),
        climate=WARM.with_(
            first_frost=FrostDates(risk_10="10-27", risk_50="11-17", risk_90="11-30"),
            last_frost=FrostDates(risk_10="05-26", risk_50="05-16", risk_90="05-06"),
        ),
    ),
    (5, 16),
    (5, 20),
)
case(
    "beans started in the autumn frost",
    "season",
    "frost",
    "stop",
    lambda when: made(bed(), beans(first=day(*when))),
    (10, 25),
    (7, 5),
)
case(
    "lettuce staggered too close",
    "crowding",
    "within",
    "mind",
    lambda apart: made(
        bed(), lettuce(arrangement={"kind": "staggered", "in_row_spacing": apart, "row_spacing": apart})
    ),
    0.12,
    0.15,
)

# -- thresholds found by gardens of others --------------------------------------------------------

case(
    "potatoes of a given last day, lifted too young for the store",
    "store",
    "short",
    "note",
    lambda last: made(
        bed(),
        planting(
            crop="potato",
            start="tubers",
            first=day(4, 12),
            last=last,
            pinned_dates={"first_harvest": day(7, 22)},
            purpose="store",
            arrangement=rows(0.35, 0.6),
        ),
    ),
    day(7, 29),
    day(9, 5),
)
case(
    "new potatoes for the store",
    "store",
    "short",
    "note",
    lambda last: made(
        bed(),
        planting(
            crop="potato",
            start="tubers",
            first=day(4, 12),
            last=last,
            pinned_dates={"first_harvest": last, "last_harvest": last},
            purpose="store",
            arrangement=rows(0.35, 0.6),
        ),
    ),
    day(7, 20),
    day(9, 5),
)
case(
    "summer beet for a winter store",
    "store",
    "early",
    "note",
    lambda days: beet_for_the_store(days, day(8, 1)),
    270,
    276,
)
case(
    "autumn onion sets for the store",
    "store",
    "early",
    "note",
    lambda crop: made(
        bed(),
        planting(
            crop=crop,
            start="sets",
            first="2026-10-05",
            last="2027-06-25",
            pinned_dates={"first_harvest": "2027-06-18"},
            purpose="store",
            arrangement=rows(0.1, 0.3),
        ),
        bed("b2", rectangle(center=(0.0, 3.0))),
    ),
    "onion",
    "shallot",
)
case(
    "a bed beyond the edge of the garden",
    "outside",
    "site",
    "mind",
    lambda along: made(
        bed("b1", rectangle(center=(along, 0.0))), site=SITE.with_(outline=Rectangle(length=20.0, width=10.0))
    ),
    7.8,
    7.6,
)
case(
    "basil left standing for nothing",
    "frost",
    "autumn",
    "note",
    lambda last: made(
        bed(),
        planting(crop="basil", start="raised", first=day(6, 5), last=day(*last), arrangement=rows(0.3, 0.3)),
        climate=WARM,
    ),
    (11, 9),
    (11, 6),
)
case(
    "strawberries netted from April on",
    "cover",
    "flower",
    "mind",
    lambda first: made(
        bed(),
        planting(
            crop="strawberry",
            year=2024,
            start="crowns",
            first="2024-09-01",
            covers=({"kind": "netting", "first": day(*first), "last": day(7, 20)},),
            arrangement=rows(0.45, 0.6),
        ),
    ),
    (4, 15),
    (6, 10),
)
case(
    "a tomato on a short stake",
    "support",
    "low",
    "note",
    lambda high: made(
        bed(),
        planting(
            crop="tomato",
            variety="Own",
            start="raised",
            first=day(6, 5),
            support={"kind": "stake", "height": high},
            arrangement=rows(0.6, 0.6),
        ),
        varieties=(
            Variety(id="v1", crop="tomato", name="Own", figures=({"field": "height", "value": 1.5},)),
        ),
    ),
    0.85,
    0.9,
)
case(
    "asparagus dug in its third year",
    "standing",
    "dug",
    "note",
    lambda year: made(
        bed(),
        planting(
            crop="asparagus",
            year=year,
            start="crowns",
            first=f"{year}-04-15",
            last=day(9, 30),
            arrangement=rows(0.45, 1.2),
        ),
    ),
    2023,
    2021,
)
case(
    "potatoes hard by tomatoes",
    "neighbours",
    "bad",
    "note",
    lambda apart: made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, apart))),
        planting(
            "p1",
            bed="b1",
            crop="potato",
            start="tubers",
            first=day(5, 1),
            arrangement=rows(0.35, 0.7, rows=1),
        ),
        planting(
            "p2",
            bed="b2",
            crop="tomato",
            start="raised",
            first=day(6, 5),
            support={"kind": "stake", "height": 1.8},
            arrangement=rows(0.6, 0.6, rows=1),
        ),
        site=SITE.with_(reach=1.3),
    ),
    2.3,
    2.6,
)
case(
    "corn ripe as the frost comes",
    "season",
    "barely",
    "mind",
    lambda when: made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=day(*when), arrangement=rows(0.3, 0.4)),
        climate=WARM,
    ),
    (7, 17),
    (6, 10),
)

case(
    "dry beans ripe as the frost comes",
    "season",
    "barely",
    "mind",
    lambda when: made(
        bed(),
        planting(crop="dry_bean", start="sown", first=day(*when), arrangement=rows(0.1, 0.5)),
        climate=HOT,
    ),
    (7, 22),
    (6, 1),
)

# -- soil too hot, bolting -------------------------------------------------------------------------


def spinach(first: dt.date, **fields: Any) -> Garden:
    """Spinach sown on a day."""
    fields = {"climate": CLIMATE, **fields}
    return made(
        bed(), planting(crop="spinach", start="sown", first=first, arrangement=rows(0.1, 0.3)), **fields
    )


case(
    "spinach sown into hot soil",
    "soil warmth",
    "hot",
    "mind",
    lambda when: spinach(day(*when), climate=HOT),
    (7, 20),
    (9, 20),
)
case(
    "spinach sown at midsummer",
    "bolting",
    "",
    "mind",
    lambda when: spinach(day(*when)),
    (6, 1),
    (8, 10),
)
case(
    "lettuce set out into the heat",
    "bolting",
    "",
    "mind",
    lambda when: made(bed(), lettuce(first=day(*when)), climate=HOT),
    (6, 20),
    (4, 20),
)
case(
    "Chinese cabbage set out while it is cold",
    "bolting",
    "chilled",
    "mind",
    lambda when: made(
        bed(),
        planting(
            crop="chinese_cabbage",
            start="raised",
            first=day(*when),
            covers=[{"kind": "netting"}],
            arrangement=rows(0.35, 0.4),
        ),
    ),
    (4, 28),
    (6, 1),
)
case(
    "leeks left until they flower",
    "bolting",
    "left",
    "note",
    lambda last: made(
        bed(),
        planting(
            crop="leek",
            start="raised",
            first=day(5, 20),
            last=day(*last, YEAR + 1),
            arrangement=rows(0.15, 0.3),
        ),
        climate=WARM,
    ),
    (6, 30),
    (4, 1),
)
case(
    "artichokes in a winter that freezes their roots",
    "frost",
    "winter",
    "mind",
    lambda zone: made(
        bed(),
        planting(
            crop="globe_artichoke",
            year=2024,
            start="standing",
            first=day(5, 1, 2024),
            arrangement=rows(1.0, 1.0, rows=1),
        ),
        climate=CLIMATE.with_(zone=zone),
    ),
    "4a",
    "7a",
)
case(
    "bulbs in the ground of too cold a zone",
    "frost",
    "winter",
    "mind",
    lambda zone: made(
        bed(),
        planting(crop="elephant_garlic", start="cloves", first=day(10, 10), arrangement=rows(0.2, 0.3)),
        climate=CLIMATE.with_(zone=zone),
    ),
    "5b",
    "8a",
)
case(
    "what is picked after a winter that kills it",
    "season",
    "cold",
    "stop",
    lambda climate: made(
        bed(),
        planting(
            crop="winter_cauliflower",
            start="raised",
            first=day(7, 1),
            arrangement=rows(0.6, 0.6),
            covers=[{"kind": "netting"}],
        ),
        climate=climate,
    ),
    INLAND.with_(zone="5b"),
    CLIMATE,
)
case(
    "a variety that two people changed",
    "join",
    "plantings",
    "mind",
    lambda variety: made(
        bed(),
        beans(variety="Sort 1"),
        conflicts=(Conflict(part="plantings", key="p1", other=f'{{"variety": "{variety}"}}'),),
    ),
    "Sort 2",
    "Sort 1",
)

# -- popcorn beside sweet corn, troughs, vines ------------------------------------------------------

case(
    "popcorn in silk with sweet corn",
    "seed purity",
    "ears",
    "mind",
    lambda popcorn: made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, 12.0))),
        planting("p1", crop="sweet_corn", start="sown", first=day(5, 20), arrangement=rows(0.3, 0.4)),
        planting(
            "p2", bed="b2", crop="popcorn", start="sown", first=day(*popcorn), arrangement=rows(0.3, 0.4)
        ),
        climate=HOT,
    ),
    (5, 14),
    (6, 12),
)
case(
    "flour corn in silk with sweet corn",
    "seed purity",
    "ears",
    "mind",
    lambda flour: made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, 12.0))),
        planting("p1", crop="sweet_corn", start="sown", first=day(5, 20), arrangement=rows(0.3, 0.4)),
        planting(
            "p2", bed="b2", crop="flour_corn", start="sown", first=day(*flour), arrangement=rows(0.3, 0.4)
        ),
        climate=HOT,
    ),
    (5, 14),
    (6, 12),
)
case(
    "squash beside carrots",
    "crowding",
    "vines",
    "note",
    lambda crop: made(
        bed(outline=rectangle(6.0)),
        planting(
            "p1",
            crop="winter_squash",
            start="raised",
            first=day(6, 1),
            plot=plot(0, 1.2),
            arrangement=rows(1.0, 1.2, rows=1),
        ),
        planting(
            "p2",
            crop=crop,
            start="sown" if crop == "carrot" else "raised",
            first=day(6, 10) if crop == "carrot" else day(6, 1),
            plot=plot(1.2, 6.0),
            covers=[{"kind": "netting"}] if crop == "carrot" else [],
            arrangement=rows(0.05, 0.25) if crop == "carrot" else rows(0.3, 0.4),
        ),
        climate=HOT,
    ),
    "carrot",
    "sweet_corn",
)
case(
    "parsnips in a shallow trough",
    "depth",
    "",
    "mind",
    lambda deep: made(
        bed(kind="container", depth=deep, height=0.5),
        planting(crop="parsnip", start="sown", first=day(4, 20), arrangement=rows(0.1, 0.3)),
    ),
    0.15,
    0.45,
)
case(
    "parsnips over rock",
    "depth",
    "",
    "mind",
    lambda deep: made(
        bed(soil=Soil(depth=deep)),
        planting(crop="parsnip", start="sown", first=day(4, 20), arrangement=rows(0.1, 0.3)),
    ),
    0.15,
    0.6,
)
case(
    "blueberries in soil with lime",
    "acidity",
    "lime",
    "mind",
    lambda ph: made(
        bed(soil=Soil(ph=ph, tested=dt.date(2025, 11, 3))),
        planting(crop="blueberry", start="bought", first=day(4, 1), arrangement=rows(1.2, 1.2)),
    ),
    7.2,
    4.9,
)
case(
    "asparagus in very acid soil",
    "acidity",
    "acid",
    "note",
    lambda ph: made(
        bed(),
        planting(crop="asparagus", start="crowns", first=day(4, 10), arrangement=rows(0.46, 1.2)),
        site=SITE.with_(soil=Soil(ph=ph)),
    ),
    5.4,
    6.8,
)
case(
    "strawberries in flower in the frost",
    "frost",
    "blossom",
    "note",
    lambda frost: made(
        bed(),
        planting(
            crop="strawberry",
            year=2024,
            start="crowns",
            first="2024-09-01",
            pinned_dates={"first_harvest": day(6, 12)},
            covers=[{"kind": "netting", "first": day(6, 10), "last": day(7, 20)}],
            arrangement=rows(0.45, 0.6),
        ),
        climate=INLAND.with_(last_frost=FrostDates(risk_10="06-28", risk_50=frost, risk_90="04-10")),
    ),
    "06-19",
    "04-25",
)

# -- benches ------------------------------------------------------------------------------------------

case(
    "beans on a bench that is too small",
    "bench",
    "t1",
    "mind",
    lambda length: made(
        bed(),
        beans(plot=plot(0, 1.8)),
        benches=(Bench(id="t1", name="Sill", kind="cool", length=length, width=0.6),),
    ),
    0.3,
    0.6,
)
case(
    "two sowings of lettuce on a bench at once",
    "bench",
    "t1",
    "mind",
    lambda first: made(
        bed(),
        bed("b2", rectangle(4.8, 1.2, center=(0, 4))),
        lettuce(raising={"way": "cells", "cells": 36}),
        lettuce("p2", bed="b2", first=day(*first), raising={"way": "cells", "cells": 36}),
        benches=(Bench(id="t1", name="Table", kind="cool", length=1.12, width=0.6),),
    ),
    (5, 24),
    (5, 31),
)

# -- water --------------------------------------------------------------------------------------------


def strawberries(**fields: Any) -> Any:
    """Strawberries: their shallow roots want water every other day in a hot summer."""
    usual = {"crop": "strawberry", "start": "bought", "first": day(4, 5), "arrangement": rows(0.35, 0.6)}
    return planting(**{**usual, **fields})


case(
    "strawberries far from the tap",
    "water",
    "far",
    "note",
    lambda far: made(
        bed(),
        strawberries(),
        climate=HOT,
        structures=(
            Structure(id="t1", kind="tap", outline=Circle(center=(far, 0.0), radius=0.1), height=0.8),
        ),
    ),
    45.0,
    25.0,
)
case(
    "strawberries at the foot of a wall",
    "water",
    "dry",
    "note",
    lambda away: made(
        bed(outline=rectangle(4.8, 0.55)),
        strawberries(),
        climate=HOT,
        structures=(
            Structure(
                id="w1", kind="wall", outline=rectangle(4.8, 0.2, center=(0.0, 0.375 + away)), height=2.0
            ),
        ),
    ),
    0.0,
    0.6,
)
case(
    "lettuce on the drip lines of beetroot",
    "water",
    "unlike",
    "note",
    lambda other: made(
        bed(drip_lines=True),
        lettuce(plot=plot(0, 2.4)),
        planting(
            "p2", crop=other, start="sown", first=day(5, 1), plot=plot(2.4, 4.8), arrangement=rows(0.1, 0.3)
        ),
        climate=HOT,
    ),
    "beetroot",
    "spring_onion",
)
