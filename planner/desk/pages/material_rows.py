"""What covers, supports and dressings take, as rows of a table: totals, and the plantings and beds they come from."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable

from planner.amounts.drip import drip_names, drip_plantings
from planner.amounts.materials import Material
from planner.amounts.materials_year import MaterialsOfYear
from planner.amounts.sharing import Pile, Use, most_at_once, most_in_use
from planner.amounts.spread import Spread, SpreadTotal, spread_totals, spreads
from planner.desk.pages.opening_table import Row
from planner.garden.materials import MaterialKind
from planner.garden.units import show_area, show_length
from planner.listings.covers import over_words
from planner.listings.materials import crop_words, material_words, size_words
from planner.listings.phrases import days_in_short
from planner.listings.spread import bags_words, both_words, in_all_words, measure_words, where_words
from planner.plan import Plan
from planner.words import day_words, key_words, later, say

MATERIAL_HEADS = (
    later("Material"),
    later("Size"),
    later("How many"),
    later("In the shed"),
    later("In use"),
    later("To buy"),
    later("Days"),
)
SPREAD_HEADS = (
    later("What"),
    later("How much"),
    later("In all"),
    later("Barrows"),
    later("In the shed"),
    later("To buy"),
    later("Bags"),
    later("Area"),
    later("Days"),
)
_ORIGINS = ("shed", "lying", "new")


def job_names(plan: Plan, year: MaterialsOfYear) -> dict[str, str]:
    """What each job of covers and supports is, by its key: ``carrot in West 3``.

    Parameters
    ----------
    plan : Plan
    year : MaterialsOfYear
        Of that plan.
    """
    names = {one.key: over_words(plan, one) for one in year.laid}
    for one in year.put_up:
        names[one.key] = crop_words(plan, one.planting.crop, one.planting.variety, [one.bed.name])
    return names | drip_names(plan)


class _Names:
    """What a job is, and the planting that it is shown by, by the job's key."""

    def __init__(self, plan: Plan, year: MaterialsOfYear) -> None:
        self.words = job_names(plan, year)
        self.plantings = {one.key: one.parts[0].planting.id for one in year.laid}
        self.plantings |= {one.key: one.planting.id for one in year.put_up}
        self.plantings |= {key: ids[0] for key, ids in drip_plantings(plan).items()}


def material_rows(plan: Plan, year: MaterialsOfYear) -> tuple[Row, ...]:
    """A row for each material of one sort; it opens to the covers and supports that use it.

    Parameters
    ----------
    plan : Plan
    year : MaterialsOfYear
        Of that plan.
    """
    names = _Names(plan, year)
    rows = [
        _material_row(plan, names, one.kind, sort, piles)
        for one in year.materials
        for sort, piles in _by_sort(one)
    ]
    return (*rows, *_string_rows(plan, names, year))


def _by_sort(material: Material) -> list[tuple[object, list[Pile]]]:
    """Piles of one sort together."""
    found: dict[object, list[Pile]] = {}
    for pile in material.piles:
        found.setdefault(pile.sort, []).append(pile)
    return list(found.items())


def _material_row(plan: Plan, names: _Names, kind: MaterialKind, sort: object, piles: list[Pile]) -> Row:
    numbers = {
        origin: sum(most_in_use(pile) for pile in piles if pile.origin == origin) for origin in _ORIGINS
    }
    uses = [(use, pile) for pile in piles for use in pile.uses]
    uses.sort(key=lambda one: (one[0].job.first, one[0].job.key))
    first, last = min(use.job.first for use, _ in uses), max(use.job.last for use, _ in uses)
    number = most_at_once(use.job._replace(number=use.number) for use, _ in uses)
    return Row(
        (
            material_words(kind, sort, plan.garden.site.units),
            "",
            f"{number}",
            *(_count(numbers[origin]) for origin in _ORIGINS),
            _days(plan, first, last),
        ),
        key=f"{kind} {sort}",
        parts=tuple(_use_row(plan, names, use, pile) for use, pile in uses),
        sorts=(kind, 0.0, float(number), *(float(numbers[origin]) for origin in _ORIGINS), first.toordinal()),
    )


def _use_row(plan: Plan, names: _Names, use: Use, pile: Pile) -> Row:
    job = use.job
    return Row(
        (
            names.words[job.key],
            size_words(job.size, plan.garden.site.units),
            f"{use.number}",
            *(_count(use.number if pile.origin == origin else 0) for origin in _ORIGINS),
            _days(plan, job.first, job.last),
        ),
        shows=names.plantings[job.key],
        sorts=(
            names.words[job.key].casefold(),
            math.prod(job.size) if job.size else 0.0,
            float(use.number),
            *(float(use.number if pile.origin == origin else 0) for origin in _ORIGINS),
            job.first.toordinal(),
        ),
    )


def _string_rows(plan: Plan, names: _Names, year: MaterialsOfYear) -> Iterable[Row]:
    """String is used up: its lengths stand where others have their numbers."""
    if not year.string:
        return
    units = plan.garden.site.units
    used = [one for one in year.put_up if one.string and one.first >= plan.span.first]
    there = min(year.string, year.string_in_shed)
    rest = year.string - there
    yield Row(
        (
            say("string"),
            show_length(year.string, units),
            "",
            show_length(there, units) if there else "",
            "",
            show_length(rest, units) if rest else "",
            _days(plan, used[0].first, used[-1].first),
        ),
        key="string",
        parts=tuple(
            Row(
                (
                    names.words[one.key],
                    show_length(one.string, units),
                    "",
                    "",
                    "",
                    "",
                    _days(plan, one.first, one.first),
                ),
                shows=one.planting.id,
                sorts=(
                    names.words[one.key].casefold(),
                    one.string,
                    0.0,
                    0.0,
                    0.0,
                    0.0,
                    one.first.toordinal(),
                ),
            )
            for one in used
        ),
        sorts=("string", year.string, 0.0, there, 0.0, rest, used[0].first.toordinal()),
    )


def _count(number: int) -> str:
    return f"{number}" if number else ""


def _filled(words: str) -> str:
    """Words of a cell; empty instead of the stroke of printed tables."""
    return "" if words == "-" else words


def _days(plan: Plan, first: dt.date, last: dt.date) -> str:
    """Days with their years where these are not the growing year's; without an end where that lies years ahead."""
    if last > plan.span.last + dt.timedelta(days=366):
        return say("from {day}", day=day_words(first, plan.year))
    words = days_in_short(first, last)
    inside = first.year == plan.year == last.year
    return words if inside or words.endswith(f"{last.year}") else f"{words} {last.year}"


def spread_rows(plan: Plan) -> tuple[Row, ...]:
    """A row for each kind of what is spread; it opens to the beds and plantings that get it.

    Parameters
    ----------
    plan : Plan
    """
    parts = spreads(plan)
    return tuple(
        _total_row(plan, total, [one for one in parts if one.kind == total.kind])
        for total in spread_totals(plan, parts)
    )


def _total_row(plan: Plan, total: SpreadTotal, parts: list[Spread]) -> Row:
    units = plan.garden.site.units
    area = math.fsum(one.area for one in parts)
    amount = total.litres or total.grams
    return Row(
        (
            key_words(total.kind),
            "",
            both_words(total.litres, total.grams, units),
            _count(total.barrows),
            _filled(both_words(total.litres_in_shed, total.grams_in_shed, units)),
            _filled(both_words(total.litres_to_buy, total.grams_to_buy, units)),
            _filled(bags_words(total, units)),
            show_area(area, units),
            _days(plan, parts[0].day, max(one.until for one in parts)),
        ),
        parts=tuple(_spread_row(plan, one) for one in parts),
        sorts=(
            total.kind,
            0.0,
            amount,
            float(total.barrows),
            total.litres_in_shed or total.grams_in_shed,
            total.litres_to_buy or total.grams_to_buy,
            float(total.bags),
            area,
            parts[0].day.toordinal(),
        ),
    )


def _spread_row(plan: Plan, one: Spread) -> Row:
    units = plan.garden.site.units
    where = where_words(plan, one)
    return Row(
        (
            where,
            measure_words(one, units),
            in_all_words(one.litres, one.grams, units),
            "",
            "",
            "",
            "",
            show_area(one.area, units),
            _days(plan, one.day, one.until),
        ),
        shows=one.planting.id if one.planting is not None else one.bed.id,
        sorts=(
            where.casefold(),
            one.depth or one.rate or 0.0,
            one.litres or one.grams or 0.0,
            0.0,
            0.0,
            0.0,
            0.0,
            one.area,
            one.day.toordinal(),
        ),
    )
