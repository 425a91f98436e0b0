"""The work of a year as a calendar file (RFC 5545)."""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Iterable

import icalendar

from planner.garden import Garden
from planner.listings.task_details import task_details
from planner.plan import Plan
from planner.season.tasks import Task
from planner.words import say

_PRODUCT = "-//Bedwright//Garden work//EN"
_DAY = dt.timedelta(days=1)
#: Work of more days has an event for its beginning and one for its end. [days]
LONGEST = 28
#: Hour of the day at which a calendar reminds.
REMINDER_HOUR = 8
#: Part of the UID of the event on the last day.
END = "/end"
#: What a text may not hold as it is, after RFC 5545 section 3.3.11; other control characters have no place in it at all.
_ESCAPED = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}
_NOT_PLAIN = re.compile(r"[\\;,\n]|[\x00-\x08\x0b-\x1f\x7f]")


class _Text(icalendar.vText):
    """A text written as it was typed; the library takes a backslash with a capital N for a line's end."""

    def to_ical(self) -> bytes:
        return _NOT_PLAIN.sub(lambda sign: _ESCAPED.get(sign[0], ""), str(self)).encode()


def calendar(
    plan: Plan, tasks: Iterable[Task], made: dt.datetime | None = None, remind: int | None = None
) -> bytes:
    """Write a calendar file with a whole-day event for each piece of work.

    Work of more than :data:`LONGEST` days has an event on its first day and one on its last.  The same work always has the
    same UID, whatever garden, bed or variety are renamed to, and a later file a higher sequence number, so that a
    calendar which already holds it updates it instead of holding it twice.  Whole days belong to no
    time zone: they are the same day wherever the calendar is read.

    Parameters
    ----------
    plan : Plan
        For the garden's name and time zone, and for depths and spacings.
    tasks : iterable of Task
    made : datetime, optional
        Moment the file is made, with its zone; now by default.
    remind : int, optional
        So many days before work that is not done, at :data:`REMINDER_HOUR`, the calendar reminds of it; never by default.

    Returns
    -------
    bytes
        UTF-8, lines ended and folded as the standard says.
    """
    stamp = (made or dt.datetime.now(dt.UTC)).astimezone(dt.UTC).replace(microsecond=0)
    site = plan.garden.site
    file = icalendar.Calendar()
    file.add("prodid", _PRODUCT)
    file.add("version", "2.0")
    file.add("calscale", "GREGORIAN")
    file.add("method", "PUBLISH")
    file.add("x-wr-calname", site.name)
    if site.time_zone:
        file.add("x-wr-timezone", site.time_zone)
    for task in tasks:
        for event in _events(plan, task, stamp):
            if remind is not None and task.is_open:
                event.add_component(_reminder(remind, str(event["summary"])))
            file.add_component(event)
    return bytes(file.to_ical())


def _events(plan: Plan, task: Task, stamp: dt.datetime) -> list[icalendar.Event]:
    """The event of a piece of work; of work of months one for its beginning and one for its end."""
    words, of_work = task.text.rstrip("."), uid(plan.garden, task)
    if (task.until - task.date).days < LONGEST:
        return [_event(plan, task, stamp, of_work, words, (task.date, task.until))]
    end = uid(plan.garden, task, END)
    return [
        _event(plan, task, stamp, of_work, say("From today: {work}", work=words), (task.date, task.date)),
        _event(plan, task, stamp, end, say("Last day: {work}", work=words), (task.until, task.until)),
    ]


def _event(
    plan: Plan, task: Task, stamp: dt.datetime, key: str, words: str, days: tuple[dt.date, dt.date]
) -> icalendar.Event:
    event = icalendar.Event()
    event.add("uid", key)
    event.add("dtstamp", stamp)
    event.add("last-modified", stamp)
    event.add("sequence", int(stamp.timestamp()) // 60)
    event.add("dtstart", days[0])
    event.add("dtend", days[1] + _DAY)
    event.add("summary", _Text(words))
    event.add("location", _Text(task.bed_name))
    event.add("categories", [task.kind])
    about = task_details(plan, task)
    if about:
        event.add("description", _Text("\n".join(about)))
    event.add("transp", "TRANSPARENT")
    return event


def _reminder(days: int, words: str) -> icalendar.Alarm:
    """An alarm so many days before an event's first day, at an hour when one is up."""
    alarm = icalendar.Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", _Text(words))
    alarm.add("trigger", dt.timedelta(hours=REMINDER_HOUR) - days * _DAY)
    return alarm


def uid(garden: Garden, task: Task, part: str = "") -> str:
    """Identify a piece of work for ever: from the name by which calendars know the garden, the planting and the kind of work.

    Parameters
    ----------
    garden : Garden
    task : Task
    part : str
        Of work that has two events: :data:`END` for the second.
    """
    known = garden.site.known_as or garden.site.name
    name = f"bedwright:{known}/{task.key}{part}"
    return f"{uuid.uuid5(uuid.NAMESPACE_URL, name)}@bedwright"
