"""Hours of direct sun of beds and plantings, as rows and as text."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from planner.garden import Bed
from planner.light import day_of_sun, hours_over, on_day, sample_days
from planner.plan import Plan
from planner.season.spans import Span

Row = dict[str, object]


def bed_rows(plan: Plan, beds: Iterable[Bed], day: dt.date) -> list[Row]:
    """Least, mean and most hours on a day, one row a bed.

    What stands in a bed does not count against it; everything else that casts on that day does.

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    chosen = list(beds)
    found = hours_over([plan.ground_of(bed) for bed in chosen], plan.place, on_day(day), plan.casters)
    return [
        {
            "bed": bed.name,
            "bed_id": bed.id,
            "date": day.isoformat(),
            "hours_min": round(found[bed.id].least, 2),
            "hours_mean": round(found[bed.id].mean, 2),
            "hours_max": round(found[bed.id].best, 2),
            "hours_unshaded": round(found[bed.id].unshaded, 2),
        }
        for bed in chosen
        if bed.id in found
    ]


def planting_rows(plan: Plan, beds: Iterable[Bed], first: dt.date, last: dt.date) -> list[Row]:
    """The same over a span, one row a planting, over the days of the span on which it stands."""
    rows: list[Row] = []
    for bed in beds:
        for planting in plan.garden_in_bed(bed.id):
            span = plan.span_of(planting)
            begin, end = max(span.first, first), min(span.last, last)
            if begin > end:
                continue
            receiver = plan.ground_of(planting)
            days = sample_days(Span(begin, end), 6)
            light = hours_over([receiver], plan.place, days, plan.casters).get(planting.id)
            if light is None:
                continue
            facts = plan.figures_of(planting)
            rows.append(
                {
                    "bed": bed.name,
                    "bed_id": bed.id,
                    "planting_id": planting.id,
                    "crop": planting.crop,
                    "variety": planting.variety,
                    "from": begin.isoformat(),
                    "until": end.isoformat(),
                    "hours_min": round(light.least, 2),
                    "hours_mean": round(light.mean, 2),
                    "hours_max": round(light.best, 2),
                    "hours_unshaded": round(light.unshaded, 2),
                    "hours_needed": facts.number("sun_hours"),
                }
            )
    return rows


def sun_lines(plan: Plan, day: dt.date, beds: list[Row], plantings: list[Row]) -> list[str]:
    """The rows as an aligned table, under a line that says when the sun rises and sets."""
    sun = day_of_sun(plan.place, day)
    if sun.sunrise is not None and sun.sunset is not None:
        head = f"{day}: sunrise {sun.sunrise:%H:%M}, sunset {sun.sunset:%H:%M}, {sun.length:.1f} h"
    else:
        head = f"{day}: the sun does not {'set' if sun.length > 12 else 'rise'}"
    lines = [head, "hours of direct sun"]
    for title, rows in (("bed", beds), ("planting", plantings)):
        if not rows:
            continue
        names = [_name(row) for row in rows]
        width = max(len(title), *(len(name) for name in names))
        lines.append(f"{title:{width}}  least   mean   most")
        for name, row in zip(names, rows, strict=True):
            need = row.get("hours_needed")
            wants = f"   wants {need:g}" if isinstance(need, float) else ""
            lines.append(
                f"{name:{width}}  {row['hours_min']:5.1f}  {row['hours_mean']:5.1f}  {row['hours_max']:5.1f}{wants}"
            )
    return lines


def _name(row: Row) -> str:
    if "crop" not in row:
        return str(row["bed"])
    return f"{row['bed']}: {row['crop']} {row['variety']}".strip()
