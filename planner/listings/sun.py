"""Hours of direct sun of beds and plantings, as lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from planner.light import day_of_sun
from planner.listings.reports.sun import BedSunRecord, PlantingSunRecord
from planner.plan import Plan
from planner.words import number_words, say, short_number


def sun_lines(
    plan: Plan, day: dt.date, beds: Sequence[BedSunRecord], plantings: Sequence[PlantingSunRecord]
) -> list[str]:
    """Print hours as tables, under a line with sunrise, sunset and length of the day.

    Parameters
    ----------
    plan : Plan
        For the place of the garden.
    day : date
    beds, plantings : sequence of records
        From :func:`bed_records` and :func:`planting_records`.
    """
    sun = day_of_sun(plan.place, day)
    if sun.sunrise is not None and sun.sunset is not None:
        head = say(
            "{day}: sunrise {sunrise}, sunset {sunset}, {hours} h",
            day=day,
            sunrise=f"{sun.sunrise:%H:%M}",
            sunset=f"{sun.sunset:%H:%M}",
            hours=number_words(sun.length, 1),
        )
    else:
        head = (
            say("{day}: the sun does not set", day=day)
            if sun.length > 12
            else say("{day}: the sun does not rise", day=day)
        )
    lines = [head, say("hours of direct sun")]
    of_beds = [(one.bed, one, None) for one in beds]
    of_plantings = [
        (f"{one.bed}: {one.crop_name} {one.variety}".strip(), one, one.needed_h) for one in plantings
    ]
    for title, rows in ((say("bed"), of_beds), (say("planting"), of_plantings)):
        if not rows:
            continue
        names = [name for name, _, _ in rows]
        width = max(len(title), *(len(name) for name in names))
        heads = (say("least"), say("mean"), say("most"))
        lines.append(f"{title:{width}}  {heads[0]:>5}  {heads[1]:>5}  {heads[2]:>5}")
        for name, one, need in rows:
            needs = "   " + say("needs {hours}", hours=short_number(need)) if need is not None else ""
            lines.append(
                f"{name:{width}}  {number_words(one.least_h, 1):>5}  {number_words(one.mean_h, 1):>5}  "
                f"{number_words(one.most_h, 1):>5}{needs}"
            )
    return lines
