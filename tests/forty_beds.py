"""A made garden of forty narrow beds with three plantings each, upright and level, some of them turned."""

from __future__ import annotations

import datetime as dt

from planner.garden import Bed, Garden, Planting, Rectangle, Stretch

_CROPS = (
    ("carrot", "Nantes 2"),
    ("lettuce", ""),
    ("onion", ""),
    ("beetroot", "Detroit"),
    ("spinach", ""),
    ("leek", "Blauwgroene Winter"),
    ("cabbage", ""),
    ("pea", ""),
    ("garlic", ""),
    ("chard", ""),
    ("parsnip", ""),
    ("dwarf_bean", "Saxa"),
)


def forty_beds(year: int = 2026) -> Garden:
    """Four rows of ten beds, 0.75 m wide and 4 m long: two rows upright, one level, one a little turned."""
    beds = []
    for number in range(40):
        row, column = divmod(number, 10)
        across = 4.6 if row > 1 else 1.2
        down = {0: 14.0, 1: 9.4, 2: 5.5 - (column % 2) * 1.2, 3: 1.5 - (column % 2) * 1.2}[row]
        turn = {0: 90.0, 1: 90.0, 2: 0.0, 3: 6.0}[row]
        x = column * across if row < 2 else column // 2 * across
        outline = Rectangle(length=4.0, width=0.75, center=(x, down), turn=turn)
        beds.append(Bed(id=f"b{number}", name=f"{'NSEW'[row]} {column + 1}", outline=outline))
    plantings = []
    for number, bed in enumerate(beds):
        for place, (start, end) in enumerate(((0.0, 1.6), (1.6, 3.4), (3.4, 4.0))):
            crop, variety = _CROPS[(3 * number + place) % len(_CROPS)]
            plantings.append(
                Planting(
                    id=f"p{number}.{place}",
                    bed=bed.id,
                    crop=crop,
                    variety=variety,
                    plot=Stretch(start=start, end=end),
                    year=year,
                    first=dt.date(year, 4, 15),
                    last=dt.date(year, 9, 15),
                )
            )
    return Garden(beds=tuple(beds), plantings=tuple(plantings))
