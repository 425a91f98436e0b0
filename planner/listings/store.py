"""What is in store as lines: where it keeps and until when, the day it runs out, its level by month, and what is eaten first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence

from planner.amounts.eating import STORED
from planner.amounts.harvest import AS_WANTED, PLOT, Harvest, dry_weight, keeping_source
from planner.amounts.larder import LotCourse
from planner.amounts.store_places import PlaceFault
from planner.amounts.supply_year import CropYear, crop_years, level_on, month_firsts
from planner.listings.harvest import LEFT_OVER, figure_words, unknown_household
from planner.listings.harvest_years import worst_year_lines
from planner.listings.household import persons_words, place_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_cell, weight_head, weight_words
from planner.plan import Plan
from planner.season.frosts import shift
from planner.words import capital, day_words, join_list, later, say
from planner.words.dates import month_words

#: Days after the beginning of the year up to which what ends is no more to be changed (practice). [days]
SOON = 14
_PLACE_WORDS = {
    PLOT: later("in the ground"),
    AS_WANTED: later("as it wants"),
    "jars": later("in jars"),
    "dried": later("dried"),
    "freezer": later("in the freezer"),
}
_FAULT_WORDS = {
    "too warm": later("too warm for it"),
    "too cold": later("too cold for it"),
    "too dry": later("too dry for it"),
    "too damp": later("too damp for it"),
}
_KEEPING_WORDS = {
    "autumn sets": later("from autumn sets"),
    "new potatoes": later("new potatoes"),
    "warm": later("stored in warm weather"),
}


def store_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print the stores of a growing year's harvest.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [say("{garden}, store of the growing year {year}", garden=plan.garden.site.name, year=plan.year)]
    if not plan.garden.household.persons:
        return [*lines, "", unknown_household()]
    years = crop_years(plan)
    kept = [(year, one, course) for year in years for one, course in year.stored if is_shown(plan, course)]
    lines += [
        "",
        say("For {persons}", persons=persons_words(plan.garden.household.persons)),
        *_place_lines(plan),
    ]
    if not kept:
        return [*lines, "", say("Nothing is kept for months.")]
    kept.sort(key=lambda one: (one[1].crop.casefold(), one[2].lot.first))
    lines += ["", say("Stores"), *_lot_table(plan, kept, room)]
    lines += ["", say("Level at the beginning of each month"), *_level_table(plan, kept, room)]
    first = [f"  {line}" for line in first_lines(plan, years)]
    if first:
        lines += ["", say("To be eaten first, or more of it"), *first]
    worst = [f"  {line}" for line in worst_year_lines(plan, years)]
    if worst:
        lines += ["", say("In the worst of the recorded years"), *worst]
    unknown = list(
        dict.fromkeys(
            one.crop for year in years if year.course is None for one in year.harvests if one.stored
        )
    )
    if unknown:
        lines += ["", say("How much is eaten is not known of {crops}.", crops=join_list(unknown))]
    return lines


def is_shown(plan: Plan, course: LotCourse) -> bool:
    """Whether a lot was still there when the growing year began."""
    gone = course.gone or course.lot.last
    return gone >= plan.span.first


def _place_lines(plan: Plan) -> list[str]:
    places = plan.garden.store_places
    if not places:
        return [
            say(
                "No places to keep a harvest are given: each crop is taken to keep as its figures want it. "
                "Give them with: bedwright kitchen FILE --place Cellar cellar"
            )
        ]
    return [place_words(plan.garden, place, plan.catalogue) for place in places]


def place_name(plan: Plan, place: str) -> str:
    """The name of where a lot is kept."""
    found = next((one.name for one in plan.garden.store_places if one.id == place), None)
    return found or say(_PLACE_WORDS[place])


def kept_words(plan: Plan, one: Harvest, course: LotCourse) -> str:
    """Where a lot is kept; of what waits in the ground also where it is kept after that."""
    place = place_name(plan, course.lot.place)
    if course.lot.place != PLOT or one.kept is None or one.kept.place is None or one.kept.days < STORED:
        return place
    return say("{place}, then {later}", place=place, later=one.kept.place.name)


def _lot_table(
    plan: Plan, kept: Sequence[tuple[CropYear, Harvest, LotCourse]], room: int | None
) -> list[str]:
    units = plan.garden.site.units
    unit = weight_head(units)
    heads = (say("crop"), say("from bed"), say("kept"), unit, say("from"), say("good until"), say("eaten a\nweek, {unit}", unit=unit), say("runs out"), say("spoils,\n{unit}", unit=unit), say("keeps less"), say("time from"))  # fmt: skip
    together: dict[tuple[str, str], list[tuple[CropYear, Harvest, LotCourse]]] = {}
    for year, one, course in kept:
        together.setdefault((one.planting.id, course.lot.place), []).append((year, one, course))
    rows = []
    for lots in together.values():
        year, one, course = lots[0]
        grams = sum(each.lot.grams for _, _, each in lots)
        gone = [each.gone for _, _, each in lots]
        out = max(day for day in gone if day is not None) if None not in gone else None
        rows.append(
            (
                f"{one.crop} {one.variety}".strip(),
                one.bed.name,
                kept_words(plan, one, course),
                weight_cell(grams, units),
                day_words(min(each.lot.first for _, _, each in lots), plan.year),
                day_words(max(each.lot.last for _, _, each in lots), plan.year),
                weight_cell(year.appetite.weekly or 0, units),
                day_words(out, plan.year) if out is not None else "",
                weight_cell(sum(each.spoilt for _, _, each in lots), units),
                short_life_words(one),
                figure_words(plan, *keeping_source(plan, one.planting)),
            )
        )
    return [*aligned(heads, rows, right=(3, 6, 8), room=room), *_dried_lines(plan, together.values())]


def _dried_lines(
    plan: Plan, together: Iterable[Sequence[tuple[CropYear, Harvest, LotCourse]]]
) -> Iterator[str]:
    """Say that what is dried is weighed fresh, and what it weighs then."""
    units = plan.garden.site.units
    for lots in together:
        _, one, _ = lots[0]
        grams = sum(course.lot.grams for _, _, course in lots)
        dry = dry_weight(plan, one.planting, grams)
        if dry is not None and dry < grams:
            yield say(
                "  {crop} from {bed} is weighed fresh: dried it is about {weight}",
                crop=capital(one.crop),
                bed=one.bed.name,
                weight=weight_words(dry, units),
            )


def short_life_words(one: Harvest) -> str:
    """Why a harvest keeps for less than its figure says; empty where it does not."""
    parts = []
    if one.keeping is not None and one.keeping.why:
        parts.append(say(_KEEPING_WORDS[one.keeping.why]))
    if one.kept is not None and one.kept.fault:
        parts.append(fault_words(one.kept.fault))
    return ", ".join(parts)


def fault_words(fault: PlaceFault) -> str:
    """What is wrong with a place for a crop; empty where nothing is."""
    return say(_FAULT_WORDS[fault]) if fault else ""


def shown_months(plan: Plan, kept: Sequence[LotCourse]) -> list[dt.date]:
    """First days of the months from the growing year's first until nothing is left."""
    end = max((one.gone or one.lot.last for one in kept), default=plan.span.last)
    return month_firsts(plan.span.first, end)


def _level_table(
    plan: Plan, kept: Sequence[tuple[CropYear, Harvest, LotCourse]], room: int | None
) -> list[str]:
    units = plan.garden.site.units
    months = shown_months(plan, [course for _, _, course in kept])
    crops: dict[str, list[LotCourse]] = {}
    for _, one, course in kept:
        crops.setdefault(one.crop, []).append(course)
    unit = weight_head(units)
    heads = (say("month"), *(f"{crop}\n{unit}" for crop in crops))
    begins = min(course.lot.first for _, _, course in kept)
    rows = []
    for month in months:
        if shift(month, 31) < begins:
            continue  # nothing is there yet
        name = say("{month} {year}", month=month_words(month.month, short=True), year=month.year)
        levels = [sum(level_on(course, month) for course in courses) for courses in crops.values()]
        rows.append((name, *(weight_cell(level, units) for level in levels)))
    return aligned(heads, rows, right=range(1, len(heads)), room=room)


def first_lines(plan: Plan, years: Sequence[CropYear]) -> Iterator[str]:
    """Say which stores do not last, the one that ends soonest first, and how much a week would finish them.

    Parameters
    ----------
    plan : Plan
    years : sequence of CropYear
    """
    units = plan.garden.site.units
    found: dict[tuple[str, str], tuple[CropYear, Harvest, list[LotCourse]]] = {}
    for year in years:
        for one, course in year.stored:
            soon = course.lot.last < shift(plan.span.first, SOON)
            if soon or course.lot.first < shift(plan.span.first, -365):
                continue
            found.setdefault((one.planting.id, course.lot.place), (year, one, []))[2].append(course)
    told = [row for row in found.values() if _is_left_of(row[2])]
    for year, one, courses in sorted(told, key=lambda row: max(course.lot.last for course in row[2])):
        yield say(
            "{crop} ({place}): good until {day}; at {weekly} a week {weight} of {whole} spoil: {more} a week would finish it",
            crop=capital(one.crop),
            place=place_name(plan, courses[0].lot.place),
            day=day_words(max(course.lot.last for course in courses), plan.year),
            weekly=weight_words(year.appetite.weekly or 0, units),
            weight=weight_words(sum(course.spoilt for course in courses), units),
            whole=weight_words(sum(course.lot.grams for course in courses), units),
            more=weight_words(year.finishes(courses), units),
        )


def _is_left_of(courses: Sequence[LotCourse]) -> bool:
    """Whether so much of a planting's lots spoils that it is worth telling."""
    return sum(course.spoilt for course in courses) > LEFT_OVER * sum(course.lot.grams for course in courses)
