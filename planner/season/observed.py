"""Stages of a planting that were seen, and what they say of its harvest.

A stage that was seen on another day than was worked out moves the harvest: what grows after it still needs the same heat,
or the same number of days where no temperatures are known.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.season.date_inputs import DateContext
from planner.season.planting_dates import Dated
from planner.words import day_words, later, say, say_count

#: Participles for reasons, by the stage that was seen.
_SEEN = {
    "came up": later("Came up on this day"),
    "flowering": later("In flower on this day"),
    "last picking": later("Picked for the last time on this day"),
}


class SeenStage(NamedTuple):
    """A stage that was seen, beside the day that was worked out for it; ``coming up`` is seen by the garden's own years."""

    stage: str
    expected: dt.date
    seen: dt.date

    @property
    def reason(self) -> str:
        """How far the two are apart, in words."""
        days = (self.seen - self.expected).days
        if self.stage == "coming up":
            return say(
                "it comes up on {day} by this garden's own years, not on {published}",
                day=day_words(self.seen),
                published=day_words(self.expected),
            )
        what = say("it came up") if self.stage == "came up" else say("it flowered")
        day = day_words(self.seen)
        if days > 0:
            return say_count(
                "{what} on {day}, {count} day later than worked out",
                "{what} on {day}, {count} days later than worked out",
                days,
                what=what,
                day=day,
            )
        if days < 0:
            return say_count(
                "{what} on {day}, {count} day sooner than worked out",
                "{what} on {day}, {count} days sooner than worked out",
                -days,
                what=what,
                day=day,
            )
        return say("{what} on {day}, as worked out", what=what, day=day)


def day_seen(context: DateContext, stage: str) -> Dated | None:
    """The day on which a stage was seen; of what stays for years that of the year wanted.

    Parameters
    ----------
    context : DateContext
    stage : {"came up", "flowering", "last picking"}
    """
    days = [one.date for one in context.observed if one.stage == stage]
    if context.stays_for_years and stage != "came up":
        days = [day for day in days if context.in_year(day)]
    if not days:
        return None
    # Seedlings and flowers count from the first that is seen, a last picking is the last one.
    day = max(days) if stage == "last picking" else min(days)
    return Dated(day, say(_SEEN[stage]), "", "done")
