"""The words of ``bedwright amounts --what``, each with what it prints; ``plants`` is the command's own."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from planner.listings.reports.base import Report
    from planner.plan import Plan


class AmountsPart(NamedTuple):
    """One part of the amounts of a year.

    Attributes
    ----------
    lines : callable
        From a plan and the width of a terminal, if any, to lines.
    report : callable
        From a plan to the report that is written as JSON.
    rows : callable
        From a plan to the rows of a table.
    columns : tuple of str
        Of the table.
    """

    lines: Callable[[Plan, int | None], list[str]]
    report: Callable[[Plan], Report]
    rows: Callable[[Plan], list[dict[str, object]]]
    columns: tuple[str, ...]


def _raising() -> AmountsPart:
    from planner.listings.raising import raising_lines
    from planner.listings.reports.raising import RAISING_COLUMNS, raising_report, raising_rows

    return AmountsPart(raising_lines, raising_report, raising_rows, RAISING_COLUMNS)


#: What each word prints; imported when it is asked for.
PARTS: dict[str, Callable[[], AmountsPart]] = {
    "raising": _raising,
}
