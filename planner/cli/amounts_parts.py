"""Parts of the amounts that ``bedwright amounts --what WORD`` lists: covers, supports, ground."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from planner.listings.reports.base import GardenReport
    from planner.plan import Plan


class Part(NamedTuple):
    """One part of a plan's amounts, worked out.

    Attributes
    ----------
    lines : callable
        From the width of the terminal, or None, to lines.
    report : callable
        What is written as JSON.
    rows : callable
        What is written as a table.
    columns : sequence of str
        Of that table.
    """

    lines: Callable[[int | None], list[str]]
    report: Callable[[], GardenReport]
    rows: Callable[[], list[dict[str, Any]]]
    columns: Sequence[str]


def _covers(plan: Plan) -> Part:
    from planner.amounts.covers import covers
    from planner.listings.covers import covers_lines
    from planner.listings.reports.materials import COVER_COLUMNS, covers_report

    found = covers(plan)
    report = covers_report(plan, found)
    return Part(
        lambda room: covers_lines(plan, found, room),
        lambda: report,
        lambda: [one.row() for one in report.covers],
        COVER_COLUMNS,
    )


def _supports(plan: Plan) -> Part:
    from planner.amounts.supports import supports
    from planner.listings.reports.materials import SUPPORT_COLUMNS, supports_report
    from planner.listings.supports import supports_lines

    found = supports(plan)
    report = supports_report(plan, found)
    return Part(
        lambda room: supports_lines(plan, found, room),
        lambda: report,
        lambda: [one.row() for one in report.supports],
        SUPPORT_COLUMNS,
    )


def _ground(plan: Plan) -> Part:
    from planner.amounts.spread import spreads
    from planner.listings.reports.materials import SPREAD_COLUMNS, ground_report
    from planner.listings.spread import spread_lines

    parts = spreads(plan)
    report = ground_report(plan, parts)
    return Part(
        lambda room: spread_lines(plan, parts, room),
        lambda: report,
        lambda: [one.row() for one in report.spread],
        SPREAD_COLUMNS,
    )


#: How each part is worked out, by the word that is typed.
PARTS: dict[str, Callable[[Plan], Part]] = {"covers": _covers, "supports": _supports, "ground": _ground}
