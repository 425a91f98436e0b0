"""What raising takes as rows of tables: by container, and by planting."""

from __future__ import annotations

from collections.abc import Sequence

from planner.amounts.raising import Raised
from planner.amounts.trays_in_use import ContainerTotal, container_totals
from planner.desk.pages.opening_table import Row
from planner.garden.site import UnitSystem
from planner.garden.volumes import show_volume
from planner.listings.raising import SHORT_WAYS, WORK, day_cells, sort_of
from planner.plan import Plan
from planner.season.container_words import container_words
from planner.season.raising import Fill
from planner.words import capital, day_words, say, say_count, say_in_context

#: Columns of numbers of the two tables.
TOTAL_NUMBERS, EACH_NUMBERS = (4, 5, 6, 7), (3, 4, 5, 6, 7)


def total_heads() -> tuple[str, ...]:
    """Headings of the table of containers."""
    return (
        say("Container, bed"), say("Crop"), say("Work"), say("Day"), say_in_context("how many", "Number"), say("Trays at one time"), say("From"), say("Mix"),
    )  # fmt: skip


def planting_heads() -> tuple[str, ...]:
    """Headings of the table of plantings."""
    return (
        say("Bed"), say("Crop"), say("Way"), say("Days until up"), say("Growing"), say("Hardening off"),
        say("Days in all"), say("Mix"),
    )  # fmt: skip


def total_rows(plan: Plan, parts: Sequence[Raised]) -> tuple[Row, ...]:
    """A row for each container, which opens to the plantings for which it is filled.

    Parameters
    ----------
    plan : Plan
    parts : sequence of Raised
    """
    filled: dict[tuple[str, int, float], list[tuple[Raised, Fill]]] = {}
    for part in parts:
        for fill in part.fills:
            filled.setdefault(fill.container.key, []).append((part, fill))
    return tuple(
        _total_row(plan, total, filled[total.container.key]) for total in container_totals(plan, parts)
    )


def _total_row(plan: Plan, total: ContainerTotal, filled: Sequence[tuple[Raised, Fill]]) -> Row:
    units = plan.garden.site.units
    name = capital(container_words(total.container, units))
    plantings = len({part.planting.id for part, _ in filled})
    rows = sorted(
        (_fill_row(plan, part, fill) for part, fill in filled), key=lambda row: (row.sorts[3], row.cells[0])
    )
    return Row(
        cells=(
            name,
            say_count("{count} planting", "{count} plantings", plantings),
            "",
            "",
            f"{total.number:,}",
            f"{total.trays}",
            day_words(total.day, plan.year) if total.day is not None else "",
            show_volume(total.litres, units),
        ),
        key=repr(total.container.key),
        parts=tuple(rows),
        sorts=(
            repr(total.container.kind) + f"{1000 * total.container.width:06.1f}",
            float(plantings),
            "",
            "",
            float(total.number),
            float(total.trays),
            total.day.isoformat() if total.day is not None else "",
            total.litres,
        ),
    )


def _fill_row(plan: Plan, part: Raised, fill: Fill) -> Row:
    bed, crop, work = part.amount.bed.name, sort_of(part), say(WORK[fill.work])
    return Row(
        cells=(
            bed,
            crop,
            work,
            day_words(fill.day, plan.year) if fill.day is not None else "?",
            f"{fill.number:,}",
            "",
            "",
            show_volume(fill.litres, plan.garden.site.units),
        ),
        key=f"{part.planting.id} {fill.work}",
        shows=part.planting.id,
        sorts=(
            bed.casefold(),
            crop.casefold(),
            work.casefold(),
            fill.day.isoformat() if fill.day is not None else "",
            float(fill.number),
            0.0,
            "",
            fill.litres,
        ),
    )


def planting_rows(parts: Sequence[Raised], units: UnitSystem) -> tuple[Row, ...]:
    """A row for each planting, with its days on the bench.

    Parameters
    ----------
    parts : sequence of Raised
    units : {"metric", "feet_inches"}
    """
    return tuple(_planting_row(part, units) for part in parts)


def _planting_row(part: Raised, units: UnitSystem) -> Row:
    days = (part.emerge_days, part.grow_days, part.harden_days)
    known = [number for number in days if number is not None]
    total = float(sum(known)) if len(known) == len(days) else -1.0
    bed, crop, way = part.amount.bed.name, sort_of(part), say(SHORT_WAYS[part.way.way])
    return Row(
        cells=(
            bed,
            crop,
            way,
            *day_cells(part, "?"),
            "?" if total < 0 else f"{total:.0f}",
            show_volume(part.litres, units) if part.litres else "",
        ),
        key=part.planting.id,
        shows=part.planting.id,
        sorts=(
            bed.casefold(),
            crop.casefold(),
            way.casefold(),
            *(-1.0 if number is None else float(number) for number in days),
            total,
            part.litres,
        ),
    )
