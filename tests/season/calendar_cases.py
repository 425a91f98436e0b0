"""The published calendar cases: what the program says beside the range that each source prints.

    PYTHONPATH=.:tests .venv/bin/python tests/season/calendar_cases.py            # the cases outside, and all shares
    PYTHONPATH=.:tests .venv/bin/python tests/season/calendar_cases.py WORD ...   # only places, crops or events so named

A case is *seen* where its source was read, else it was recalled (``memory``).  No figure of the catalogue and no rule is
fitted to a case.
"""

from __future__ import annotations

import csv
import datetime as dt
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from calendar_places import REFERENCE, read_places
from making import bed, garden, planting

from planner.crops import Catalogue, load_catalogue
from planner.garden import Planting
from planner.plan import Plan
from planner.season.planting_dates import Dates

#: Questions of the cases.
EVENTS = ("first", "last", "start", "lastsow")
#: Kinds of crops of the cases.
GROUPS = {
    "fruiting warm crops": [
        "aubergine",
        "courgette",
        "cucumber",
        "melon",
        "okra",
        "pumpkin",
        "sweet_corn",
        "sweet_pepper",
        "tomato",
        "winter_squash",
    ],
    "brassicas": [
        "broccoli",
        "brussels_sprouts",
        "cabbage",
        "cauliflower",
        "collards",
        "kale",
        "kohlrabi",
        "pak_choi",
        "sprouting_broccoli",
    ],
    "legumes": ["broad_bean", "climbing_bean", "dwarf_bean", "lima_bean", "pea", "runner_bean"],
    "roots": [
        "beetroot",
        "carrot",
        "celeriac",
        "early_potato",
        "parsnip",
        "potato",
        "radish",
        "swede",
        "sweet_potato",
        "turnip",
    ],
    "alliums": ["garlic", "leek", "onion"],
    "leaves": ["basil", "chard", "endive", "florence_fennel", "lettuce", "spinach"],
}


@dataclass(frozen=True)
class Case:
    """One published range of days."""

    place: str
    crop: str
    event: str
    earliest: dt.date
    latest: dt.date
    source: str
    seen: str
    start: str
    planted: dt.date | None
    under_glass: bool
    note: str


@dataclass(frozen=True)
class Answer:
    """What the program says to a case."""

    case: Case
    day: dt.date | None
    why: str

    @property
    def inside(self) -> bool:
        """Whether the day lies in the published range."""
        return self.day is not None and self.case.earliest <= self.day <= self.case.latest

    @property
    def off(self) -> int:
        """Days before (negative) or after the range; a year where there is no day at all."""
        if self.day is None:
            return 365
        return min((self.day - self.case.earliest).days, 0) + max((self.day - self.case.latest).days, 0)


def read_cases(path: Path = REFERENCE / "calendar_cases.csv") -> tuple[Case, ...]:
    """The cases of a table."""
    with path.open(encoding="utf-8", newline="") as file:
        return tuple(
            Case(
                place=row["place"],
                crop=row["crop"],
                event=row["event"],
                earliest=dt.date.fromisoformat(row["from"]),
                latest=dt.date.fromisoformat(row["to"]),
                source=row["source"],
                seen=row["seen"],
                start=row["start"],
                planted=dt.date.fromisoformat(row["planted"]) if row["planted"] else None,
                under_glass=row["bed"] == "under glass",
                note=row["note"],
            )
            for row in csv.DictReader(file)
        )


@lru_cache
def _shelf() -> Catalogue:
    return load_catalogue()


def dates_of(case: Case) -> tuple[Planting, Dates]:
    """The planting that a case tells of, and its dates."""
    site, climate = read_places()[case.place]
    begun = case.planted or case.earliest
    year = begun.year - (begun.month < site.year_begins)
    one = planting(
        crop=case.crop,
        start=case.start,
        year=year,
        first=case.planted,
        timing="count back" if case.event == "lastsow" else None,
    )
    ground = bed(kind="under glass") if case.under_glass else bed()
    return one, Plan(garden(ground, one, site=site, climate=climate), year, _shelf()).dates(one)


def answer(case: Case) -> Answer:
    """What the program says to a case."""
    _, dates = dates_of(case)
    asked = {
        "first": dates.first_harvest,
        "last": dates.last_harvest,
        "start": dates.on_plot,
        "lastsow": dates.on_plot,
    }[case.event]
    return Answer(case, asked.day if asked else None, asked.why if asked else "; ".join(dates.missing))


class Share(NamedTuple):
    """Cases inside their ranges, of all."""

    inside: int
    whole: int

    def __str__(self) -> str:
        return f"{self.inside}/{self.whole} {100 * self.inside / max(self.whole, 1):.0f} %"

    @property
    def share(self) -> float:
        """From 0 to 1; 0 where there is none."""
        return self.inside / self.whole if self.whole else 0.0


def share_of(answers: Iterable[Answer]) -> Share:
    """How many of some answers are inside."""
    told = tuple(answers)
    return Share(sum(each.inside for each in told), len(told))


def by_event(case: Case) -> str:
    """Its question."""
    return case.event


def by_place(case: Case) -> str:
    """Its place."""
    return case.place


def by_group(case: Case) -> str:
    """Its kind of crop, one of :data:`GROUPS`."""
    (found,) = (name for name, crops in GROUPS.items() if case.crop in crops)
    return found


def shares(answers: Iterable[Answer], kind: Callable[[Case], str]) -> dict[str, Share]:
    """Shares by event, place or group."""
    parts: dict[str, list[Answer]] = {}
    for each in answers:
        parts.setdefault(kind(each.case), []).append(each)
    return {name: share_of(part) for name, part in parts.items()}


@lru_cache
def answers() -> tuple[Answer, ...]:
    """What the program says to all cases."""
    return tuple(answer(case) for case in read_cases())


def seen(told: Iterable[Answer]) -> tuple[Answer, ...]:
    """Those whose source was read."""
    return tuple(each for each in told if each.case.seen == "yes")


def line(each: Answer) -> str:
    """An answer in a line."""
    case = each.case
    planted = f"{case.planted:%d %b}" if case.planted else "-"
    return (
        f"{case.place[:12]:12} {case.crop:18} {case.event:7} {case.start:6} {planted:6}"
        f" {case.earliest:%d %b %y}-{case.latest:%d %b %y} -> {each.day} {each.off:+4d} "
        f"{'(memory) ' if case.seen != 'yes' else ''}{each.why[:150]}"
    )


def lines_of_shares(told: Iterable[Answer]) -> list[str]:
    """Shares of all rows and of those seen, by event, place and group."""
    whole = tuple(told)
    read = seen(whole)
    lines = [f"{'':20} {'all':>14} {'seen':>14}"]
    for kind in (by_event, by_place, by_group):
        of_read = shares(read, kind)
        for name, share in shares(whole, kind).items():
            lines.append(f"{name:20} {share!s:>14} {of_read.get(name, Share(0, 0))!s:>14}")
    return lines


def print_outside(wanted: Collection[str] = ()) -> None:
    """The cases outside their ranges, one a line, and the shares.

    Parameters
    ----------
    wanted : collection of str
        Events, crops, places and groups; all cases where it is empty.
    """
    told = [
        each
        for each in answers()
        if not wanted or {each.case.event, each.case.crop, each.case.place, by_group(each.case)} & {*wanted}
    ]
    for text in (*(line(each) for each in told if not each.inside), *lines_of_shares(told)):
        print(text)


if __name__ == "__main__":
    import sys

    print_outside(sys.argv[1:])
