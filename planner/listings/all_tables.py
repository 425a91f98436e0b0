"""All tables of a growing year: what ``amounts``, ``tasks``, ``check`` and ``records`` write, by the names of their parts."""

from __future__ import annotations

from collections.abc import Callable

from planner.listings.amounts_parts import PARTS
from planner.listings.workbook import Table
from planner.plan import Plan


def _plants(plan: Plan) -> Table:
    from planner.amounts import amounts
    from planner.listings.reports.amounts import AMOUNT_COLUMNS, amount_rows

    return Table("plants", AMOUNT_COLUMNS, amount_rows(amounts(plan)))


def _tasks(plan: Plan) -> Table:
    from planner.amounts.work import work_between
    from planner.listings.reports.tasks import TASK_COLUMNS, task_record

    rows = [task_record(plan, task).table_row() for task in work_between(plan)]
    return Table("tasks", TASK_COLUMNS, rows)


def _findings(plan: Plan) -> Table:
    from planner.checks import check_all
    from planner.listings.reports.check import FINDING_COLUMNS, finding_record

    rows = [finding_record(plan, one).model_dump() for one in check_all(plan)]
    return Table("findings", FINDING_COLUMNS, rows)


def _records(plan: Plan) -> Table:
    from planner.listings.record_texts import RecordChoice
    from planner.listings.records import chosen_records
    from planner.listings.reports.records import RECORD_COLUMNS, happened_record

    found = chosen_records(plan, RecordChoice(days=plan.span))
    return Table("records", RECORD_COLUMNS, [happened_record(plan, one).table_row() for one in found])


#: What makes each table that is no part of ``amounts --what``.
_OTHERS: dict[str, Callable[[Plan], Table]] = {
    "plants": _plants,
    "tasks": _tasks,
    "findings": _findings,
    "records": _records,
}
#: Names of all tables.
TABLES = (*_OTHERS, *PARTS)


def table_of(plan: Plan, name: str) -> Table:
    """One table of a plan.

    Parameters
    ----------
    plan : Plan
    name : str
        One of :data:`TABLES`.
    """
    if name in _OTHERS:
        return _OTHERS[name](plan)
    part = PARTS[name]()
    return Table(name, part.columns, part.rows(plan))
