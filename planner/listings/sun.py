"""Hours of direct sun of beds and plantings: as rows for JSON and as lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from planner.garden import Bed
from planner.light import day_of_sun, hours_over, on_day, sample_days
from planner.plan import Plan
from planner.season.spans import Span

Row = dict[str, object]
#: Days on which the hours of a span are worked out.
DAYS_OF_SPAN = 6


def bed_rows(plan: Plan, beds: Iterable[Bed], day: dt.date) -> list[Row]:
    """Least, mean and most hours of direct sun on a day, one row a bed.

    A bed's own plants do not shade it; everything else that casts a shadow on that day does.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
    day : date

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
    """The same for plantings, one row each, over the days of a span on which they are on their plots.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
        Beds whose plantings are listed.
    first, last : date
        First and last day of the span.

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    rows: list[Row] = []
    for bed in beds:
        for planting in plan.garden_in_bed(bed.id):
            span = plan.span_of(planting)
            begin, end = max(span.first, first), min(span.last, last)
            if begin > end:
                continue
            receiver = plan.ground_of(planting)
            days = sample_days(Span(begin, end), DAYS_OF_SPAN)
            light = hours_over([receiver], plan.place, days, plan.casters).get(planting.id)
            if light is None:
                continue
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
                    "hours_needed": plan.figures_of(planting).number("sun_hours"),
                }
            )
    return rows


def sun_lines(plan: Plan, day: dt.date, beds: list[Row], plantings: list[Row]) -> list[str]:
    """Print rows of hours as tables, under a line with sunrise, sunset and length of the day.

    Parameters
    ----------
    plan : Plan
        For the place of the garden.
    day : date
    beds, plantings : list of Row
        From :func:`bed_rows` and :func:`planting_rows`.
    """
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
