"""All tables of a growing year: what ``amounts``, ``tasks``, ``check`` and ``records`` write, by the names of their parts."""

from __future__ import annotations

from collections.abc import Callable

from planner.listings.amounts_parts import PARTS
from planner.listings.workbook import Table
from planner.plan import Plan


def _plants(plan: Plan, _step: Callable[[], None]) -> Table:
    from planner.amounts import amounts
    from planner.listings.reports.amounts import AMOUNT_COLUMNS, amount_rows

    return Table("plants", AMOUNT_COLUMNS, amount_rows(amounts(plan)))


def _tasks(plan: Plan, _step: Callable[[], None]) -> Table:
    from planner.amounts.work import work_between
    from planner.listings.reports.tasks import TASK_COLUMNS, task_record

    rows = [task_record(plan, task).table_row() for task in work_between(plan)]
    return Table("tasks", TASK_COLUMNS, rows)


def _findings(plan: Plan, step: Callable[[], None]) -> Table:
    from planner.checks import check_all
    from planner.listings.reports.check import FINDING_COLUMNS, finding_record

    rows = []
    for one in check_all(plan):
        step()  # its fixes are tried out
        rows.append(finding_record(plan, one).model_dump())
    return Table("findings", FINDING_COLUMNS, rows)


def _records(plan: Plan, _step: Callable[[], None]) -> Table:
    from planner.listings.record_texts import RecordChoice
    from planner.listings.records import chosen_records
    from planner.listings.reports.records import RECORD_COLUMNS, happened_record

    found = chosen_records(plan, RecordChoice(days=plan.span))
    return Table("records", RECORD_COLUMNS, [happened_record(plan, one).table_row() for one in found])


#: What makes each table that is no part of ``amounts --what``.
_OTHERS: dict[str, Callable[[Plan, Callable[[], None]], Table]] = {
    "plants": _plants,
    "tasks": _tasks,
    "findings": _findings,
    "records": _records,
}
#: Names of all tables.
TABLES = (*_OTHERS, *PARTS)


def table_of(plan: Plan, name: str, step: Callable[[], None] | None = None) -> Table:
    """One table of a plan.

    Parameters
    ----------
    plan : Plan
    name : str
        One of :data:`TABLES`.
    step : callable, optional
        Called now and then; may raise to stop the work.
    """
    if name in _OTHERS:
        return _OTHERS[name](plan, step or _go_on)
    part = PARTS[name]()
    return Table(name, part.columns, part.rows(plan))


def columns_of(name: str) -> tuple[str, ...]:
    """Columns of a table, without working it out.

    Parameters
    ----------
    name : str
        One of :data:`TABLES`.
    """
    if name == "plants":
        from planner.listings.reports.amounts import AMOUNT_COLUMNS

        return AMOUNT_COLUMNS
    if name == "tasks":
        from planner.listings.reports.tasks import TASK_COLUMNS

        return TASK_COLUMNS
    if name == "findings":
        from planner.listings.reports.check import FINDING_COLUMNS

        return FINDING_COLUMNS
    if name == "records":
        from planner.listings.reports.records import RECORD_COLUMNS

        return RECORD_COLUMNS
    return PARTS[name]().columns


def _go_on() -> None:
    """Nothing stops the work."""
