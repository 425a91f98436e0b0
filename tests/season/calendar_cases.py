"""The published calendar cases: what the program says beside the range that each source prints."""

from __future__ import annotations

import csv
import datetime as dt
import json
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from making import bed, garden, planting

from planner.crops import Catalogue, load_catalogue
from planner.garden import Climate, FrostDates, Planting, Site
from planner.plan import Plan
from planner.season.planting_dates import Dates

REFERENCE = Path(__file__).parents[1] / "reference"
#: Questions of the cases.
EVENTS = ("first", "last", "start", "lastsow")


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
def read_places(path: Path = REFERENCE / "calendar_places.json") -> dict[str, tuple[Site, Climate]]:
    """Site and climate of each place of the cases."""
    found = {}
    for name, place in json.loads(path.read_text(encoding="utf-8")).items():
        site = Site(latitude=place["latitude"], longitude=place["longitude"], time_zone=place["time_zone"])
        climate = Climate(
            zone=place["zone"],
            last_frost=FrostDates(**place["last_frost"]),
            first_frost=FrostDates(**place["first_frost"]),
            monthly_minimum=tuple(place["monthly_minimum"]),
            monthly_maximum=tuple(place["monthly_maximum"]),
        )
        found[name] = (site, climate)
    return found


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


def shares(answers: Iterable[Answer]) -> dict[str, tuple[int, int]]:
    """Inside and all, by event."""
    inside, whole = Counter[str](), Counter[str]()
    for each in answers:
        whole[each.case.event] += 1
        inside[each.case.event] += each.inside
    return {event: (inside[event], whole[event]) for event in EVENTS}


def print_table(answers: Iterable[Answer], outside_only: bool = True) -> None:
    """The answers, one a line, and the shares."""
    told = tuple(answers)
    for each in told:
        if outside_only and each.inside:
            continue
        case = each.case
        planted = f"{case.planted:%d %b}" if case.planted else "-"
        print(
            f"{case.place[:12]:12} {case.crop:18} {case.event:7} {case.start:6} {planted:6}"
            f" {case.earliest:%d %b %y}-{case.latest:%d %b %y} -> {each.day} {each.off:+4d} "
            f"{'(memory) ' if case.seen != 'yes' else ''}{each.why[:150]}"
        )
    for name, part in (("all", told), ("seen", [a for a in told if a.case.seen == "yes"])):
        print(name, {event: f"{i}/{n} {100 * i / max(n, 1):.0f} %" for event, (i, n) in shares(part).items()})


if __name__ == "__main__":
    import sys

    wanted = sys.argv[1:]
    cases = [
        c for c in read_cases() if not wanted or c.event in wanted or c.crop in wanted or c.place in wanted
    ]
    print_table([answer(case) for case in cases])
