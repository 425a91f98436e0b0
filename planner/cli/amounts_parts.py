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
    "harvest": _harvest,
    "store": _store,
}
