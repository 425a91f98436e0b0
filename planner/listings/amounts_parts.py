"""What ``bedwright amounts --what WORD`` prints, by word."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from planner.listings.reports.base import Report
    from planner.plan import Plan


class Part(NamedTuple):
    """One word's output.

    Attributes
    ----------
    lines : callable
        Lines of a plan, in tables of a width; any where that is None. [columns]
    report : callable
        The report of a plan.
    rows : callable
        Its table.
    columns : tuple of str
        Of the table.
    """

    lines: Callable[[Plan, int | None], list[str]]
    report: Callable[[Plan], Report]
    rows: Callable[[Plan], list[dict[str, object]]]
    columns: tuple[str, ...]


def _raising() -> Part:
    from planner.listings.raising import raising_lines
    from planner.listings.reports.raising import RAISING_COLUMNS, raising_report, raising_rows

    return Part(raising_lines, raising_report, raising_rows, RAISING_COLUMNS)


def _covers() -> Part:
    from planner.listings.covers import covers_lines
    from planner.listings.reports.materials import COVER_COLUMNS, cover_rows, covers_report

    return Part(covers_lines, covers_report, cover_rows, COVER_COLUMNS)


def _supports() -> Part:
    from planner.listings.reports.materials import SUPPORT_COLUMNS, support_rows, supports_report
    from planner.listings.supports import supports_lines

    return Part(supports_lines, supports_report, support_rows, SUPPORT_COLUMNS)


def _ground() -> Part:
    from planner.listings.reports.materials import SPREAD_COLUMNS, ground_report, spread_rows
    from planner.listings.spread import spread_lines

    return Part(spread_lines, ground_report, spread_rows, SPREAD_COLUMNS)


def _shopping() -> Part:
    from planner.listings.reports.shopping import SHOPPING_COLUMNS, shopping_report, shopping_rows
    from planner.listings.shopping import shopping_lines

    return Part(shopping_lines, shopping_report, shopping_rows, SHOPPING_COLUMNS)


def _harvest() -> Part:
    from planner.listings.harvest import harvest_lines
    from planner.listings.reports.harvest import HARVEST_COLUMNS, harvest_report, harvest_rows

    return Part(harvest_lines, harvest_report, harvest_rows, HARVEST_COLUMNS)


def _store() -> Part:
    from planner.listings.reports.harvest import STORE_COLUMNS, store_report, store_rows
    from planner.listings.store import store_lines

    return Part(store_lines, store_report, store_rows, STORE_COLUMNS)


#: Each word and what makes its part; they take long to import.
PARTS: dict[str, Callable[[], Part]] = {
    "raising": _raising,
    "covers": _covers,
    "supports": _supports,
    "ground": _ground,
    "shopping": _shopping,
    "harvest": _harvest,
    "store": _store,
}
