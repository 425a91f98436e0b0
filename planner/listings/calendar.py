"""The work of a year as a calendar file (RFC 5545)."""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Iterable

import icalendar

from planner.garden import Garden
from planner.season.tasks import Task

_PRODUCT = "-//Bedwright//Garden work//EN"
_DAY = dt.timedelta(days=1)
#: What a text may not hold as it is, after RFC 5545 section 3.3.11; other control characters have no place in it at all.
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}
_NOT_PLAIN = re.compile(r"[\\;,\n]|[\x00-\x08\x0b-\x1f\x7f]")


class _Text(icalendar.vText):
    """A text written as it was typed; the library takes a backslash with a capital N for a line's end."""

    def to_ical(self) -> bytes:
        return _NOT_PLAIN.sub(lambda sign: _ESCAPED.get(sign[0], ""), str(self)).encode()


def calendar(garden: Garden, tasks: Iterable[Task], made: dt.datetime | None = None) -> bytes:
    """Write a calendar file with a whole-day event for each piece of work.

    The same work always has the same UID, and a later file a higher sequence number, so that a
    calendar which already holds it updates it instead of holding it twice.  Whole days belong to no
    time zone: they are the same day wherever the calendar is read.

    Parameters
    ----------
    garden : Garden
        For its name and time zone.
    tasks : iterable of Task
    made : datetime, optional
        Moment the file is made, with its zone; now by default.

    Returns
    -------
    bytes
        UTF-8, lines ended and folded as the standard says.
    """
    stamp = (made or dt.datetime.now(dt.UTC)).astimezone(dt.UTC).replace(microsecond=0)
    file = icalendar.Calendar()
    file.add("prodid", _PRODUCT)
    file.add("version", "2.0")
    file.add("calscale", "GREGORIAN")
    file.add("method", "PUBLISH")
    file.add("x-wr-calname", garden.site.name)
    if garden.site.time_zone:
        file.add("x-wr-timezone", garden.site.time_zone)
    for task in tasks:
        file.add_component(_event(garden, task, stamp))
    return bytes(file.to_ical())


def _event(garden: Garden, task: Task, stamp: dt.datetime) -> icalendar.Event:
    event = icalendar.Event()
    event.add("uid", uid(garden, task))
    event.add("dtstamp", stamp)
    event.add("last-modified", stamp)
    event.add("sequence", int(stamp.timestamp()) // 60)
    event.add("dtstart", task.date)
    event.add("dtend", task.until + _DAY)
    event.add("summary", _Text(task.text.rstrip(".")))
    event.add("location", _Text(task.bed_name))
    event.add("categories", [task.kind])
    about = [task.why] if task.why else []
    if task.origin == "by hand":
        about.append("The date was set by hand")
    if task.done is not None:
        about.append(f"Done on {task.done:%Y-%m-%d}")
    if about:
        event.add("description", _Text("\n".join(about)))
    event.add("transp", "TRANSPARENT")
    return event


def uid(garden: Garden, task: Task) -> str:
    """Identify a piece of work for ever: from the garden's name, the planting and the kind of work.

    Parameters
    ----------
    garden : Garden
    task : Task
    """
    return f"{uuid.uuid5(uuid.NAMESPACE_URL, f'bedwright:{garden.site.name}/{task.key}')}@bedwright"
