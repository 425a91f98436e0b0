"""Gardens in which something shades a planting."""

from __future__ import annotations

from typing import Any

from checks.faults import SITE, WARM, day, made, rows
from checks.thresholds import own
from making import bed, planting, rectangle

from planner.garden import Garden, Rectangle, Structure


def shading(height: float = 2.4, barn: float = 4.5, **fields: Any) -> Garden:
    """Four beds side by side east of a barn: peppers, beans on a net, and two that are free."""
    beds = [bed(f"b{i}", Rectangle(length=6.0, width=1.2, center=(1.7 * i, 0.0), turn=90)) for i in range(4)]
    on_net = planting(
        "p1",
        bed="b1",
        crop="climbing_bean",
        start="raised",
        first="2026-05-25",
        support={"kind": "net", "height": height},
        arrangement=rows(0.15, 0.5),
    )
    peppers = planting(
        "p2",
        bed="b0",
        crop="sweet_pepper",
        start="raised",
        first="2026-06-05",
        support={"kind": "stake", "height": 0.8},
        arrangement=rows(0.45, 0.5),
    )
    shed = Structure(
        id="s1",
        kind="shed",
        name="barn",
        outline=Rectangle(length=16, width=3, center=(-3.5, 0), turn=90),
        height=barn,
    )
    fields = {"site": SITE.with_(reach=1.3), "climate": WARM, **fields}
    return made(*beds, on_net, peppers, structures=(shed,), **fields)


def in_a_yard(need: float, height: float = 6.0, **fields: Any) -> Garden:
    """Beetroot of a variety that needs so many hours, with walls so high to the south and the east."""
    south, east = (
        rectangle(30.0, 0.3, center=(0.0, -1.5)),
        rectangle(30.0, 0.3, center=(4.0, 0.0), turn=90),
    )
    walls = tuple(
        Structure(id=key, kind="wall", name=name, height=height, outline=outline)
        for key, name, outline in (("s1", "south wall", south), ("s2", "east wall", east))
    )
    usual = {"start": "sown", "first": day(5, 10), "last": day(9, 20), "arrangement": rows(0.1, 0.3)}
    beet = planting(crop="beetroot", variety="Own", **{**usual, **fields})
    return made(bed(), beet, structures=walls, **own("beetroot", sun_hours=need))
