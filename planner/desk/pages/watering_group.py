"""The watering of a week among its work in the window."""

from __future__ import annotations

import datetime as dt

from PySide6.QtWidgets import QTreeWidgetItem

from planner.amounts.watering import listed_waterings
from planner.desk.theme.palette import letters
from planner.desk.theme.plain_tips import plain_tip
from planner.listings.water import rain_words, watering_words
from planner.plan import Plan
from planner.words import say


def watering_group(plan: Plan, first: dt.date, last: dt.date, bed: str = "") -> QTreeWidgetItem | None:
    """What is watered in a week, a line a bed, which is not ticked off; None where nothing is listed.

    Parameters
    ----------
    plan : Plan
    first, last : date
        Days of the week.
    bed : str
        Name of the bed that is shown; all by default.
    """
    units = plan.garden.site.units
    found = [
        one
        for of_week in listed_waterings(plan, first, last).values()
        for one in of_week
        if bed in ("", one.bed.name)
    ]
    if not found:
        return None
    head = QTreeWidgetItem([say("Water")])
    head.setFont(0, letters(9, bold=True))
    for one in found:
        item = QTreeWidgetItem([say("{bed}: {water}", bed=one.bed.name, water=watering_words(one, units))])
        item.setToolTip(0, plain_tip(rain_words(plan, [one])))
        head.addChild(item)
    return head
