"""Waiting for warm soil, as rows of the form of a planting."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import partial

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.garden import Planting, SoilRule
from planner.garden.edits import EditError, checked
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.words import later, say

#: What is shown at first: sown when the soil has so much for so many days, a rule of many gardeners (practice). [deg C, days]
USUAL_WARMTH, USUAL_DAYS = 10.0, 3
_BEFORE = later("A first day or a sowing day that you set by hand comes before this.")
_NOT_USED = later("Its day is set by hand and comes before this: empty that day to wait for warm soil.")
_DONE = later("It is begun already: this has no say any more.")


class SoilRuleRows:
    """Rows for whether a planting waits for warm soil, how warm, for how many days, and from which day on.

    Parameters
    ----------
    form : Form
        Gets the rows, in the section that it is in.
    put : callable
        Called with the rule as changed; None where it is not waited for.
    """

    def __init__(self, form: Form, put: Callable[[SoilRule | None], None]) -> None:
        self._form, self._put = form, put
        self._rule: SoilRule | None = None
        self._on_plot: dt.date | None = None
        self.waits = fields.ChoiceField(
            say("Whether it waits for warm soil"),
            ((False, say("by the calendar")), (True, say("when the soil is warm"))),
        )
        self.warmth = fields.temperature_field(say("Warmth of the soil"), lambda: form.units)
        self.days = fields.whole_field(say("Days on which the soil is so warm"))
        self.after = form.date_field(say("Earliest day of warm soil"))
        form.row(say("Begun"), self.waits)
        self._parts = (
            *(form.row(say("Soil, days"), self.warmth, self.days), self.warmth, self.days),
            *(form.row(say("Not before"), self.after), self.after),
        )
        self.words = form.words()
        self.words.setProperty("second", True)
        self.waits.chosen.connect(self._choose)
        self.warmth.typed.connect(lambda warmth: self._change(warmth=warmth))
        self.days.typed.connect(lambda days: self._change(days=days))
        self.after.typed.connect(self._change_after)

    # -- edits ------------------------------------------------------------------------------

    def _choose(self, waits: bool) -> None:
        """Wait from a day on with which it would begin on the day that it has now; or wait no more."""
        if waits == (self._rule is not None):
            return
        if not waits:
            self._put(None)
            return
        day = self._on_plot or self._form.document.plan.span.first
        self._put(SoilRule(warmth=USUAL_WARMTH, days=USUAL_DAYS, after=shift(day, 1 - USUAL_DAYS)))

    def _change_after(self, day: dt.date | None) -> None:
        if day is None:  # a rule has an earliest day: the old one is shown again
            self._form.refresh()
            return
        self._change(after=day)

    def _change(self, **changes: object) -> None:
        if self._rule is None:
            return
        try:
            rule = checked(partial(self._rule.with_, **changes), say("the warmth of the soil"))
        except EditError as error:
            self._form.refuse(str(error))
            return
        self._put(rule)

    # -- showing ----------------------------------------------------------------------------

    def show(self, planting: Planting, dates: Dates) -> None:
        """Show the rule of a planting, and whether it decides.

        Parameters
        ----------
        planting : Planting
        dates : Dates
            Of the planting.
        """
        rule = self._rule = planting.soil_rule
        begun = dates.on_plot
        self._on_plot = begun.day if begun is not None else None
        self.waits.show_value(rule is not None)
        for widget in (*self._parts, self.words):
            widget.setVisible(rule is not None)
        self.warmth.show_value(rule.warmth if rule is not None else None)
        self.days.show_value(rule.days if rule is not None else None)
        self.after.show_value(rule.after if rule is not None else None)
        by_hand = planting.first is not None or planting.pinned_dates.sow is not None
        done = begun is not None and begun.origin == "done"
        self.words.setText(say(_DONE if done else _NOT_USED if by_hand else _BEFORE))
