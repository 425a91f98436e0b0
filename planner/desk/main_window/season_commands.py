"""Commands about the course of the seasons: plantings end or are sown anew, and the year turns."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from planner.desk.model.document import Document
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, edits
from planner.garden.edits.common import fresh_id, put
from planner.words import capital, say, say_count

if TYPE_CHECKING:
    from planner.desk.main_window.copy_year_dialog import CopyYearDialog
    from planner.desk.main_window.end_dialog import EndDialog
    from planner.desk.main_window.fill_dialog import FillDialog
    from planner.desk.main_window.turn_dialog import TurnDialog
    from planner.proposal.filling import Filling
    from planner.proposal.turn import Turn


class SeasonCommands:
    """What became of plantings, and the turn of the year.

    Parameters
    ----------
    window : QWidget
        For dialogs.
    document : Document
    tell : callable
        Shows a line in the status bar.
    """

    def __init__(self, window: QWidget, document: Document, tell: Callable[[str], None]) -> None:
        self._window, self._document, self._tell = window, document, tell
        self._turning: TurnDialog | None = None
        self._filling: FillDialog | None = None

    # -- the turn of the year ---------------------------------------------------------------

    def turn_year(self) -> TurnDialog:
        """Show the dialog of the turn of the growing year that is shown."""
        from planner.desk.main_window.turn_dialog import TurnDialog

        if self._turning is None:
            self._turning = TurnDialog(self._window, self._document, self._take)
        self._turning.begin()
        return self._turning

    def _take(self, turn: Turn) -> bool:
        """Put a turn into the garden as one step, and show the year that begins."""
        document = self._document
        changes = turn.garden != document.garden
        words = say("Turn the year: {year} begins", year=turn.year)
        if changes and not document.commit(words, turn.garden, year=turn.year):
            return False
        document.show_year(turn.year)
        self._tell(
            say("{year} begins.", year=turn.year)
            if changes
            else say("{year} begins; there was nothing to write down.", year=turn.year)
        )
        return True

    def copy_year(self) -> CopyYearDialog:
        """Show the dialog that copies a growing year's plantings to another."""
        from planner.desk.main_window.copy_year_dialog import CopyYearDialog

        dialog = CopyYearDialog(self._window, self._document, self._take_copies)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()
        return dialog

    def _take_copies(self, garden: Garden, copies: int, year: int) -> None:
        """Put copied plantings into the garden as one step, and show their year."""
        words = say_count(
            "Copy {count} planting to {year}", "Copy {count} plantings to {year}", copies, year=year
        )
        if self._document.commit(words, garden):
            self._document.show_year(year)
            self._tell(words)

    def close(self) -> None:
        """The window closes."""
        for dialog in (self._turning, self._filling):
            if dialog is not None:
                dialog.close()

    # -- free ground ------------------------------------------------------------------------

    def fill_ground(self, bed: str = "") -> FillDialog | None:
        """Show what could still go into a bed, by its id, or into the bed that is selected, from the day shown on."""
        from planner.desk.main_window.fill_dialog import FillDialog

        document = self._document
        beds = [bed] if bed else list(document.selected_beds)
        beds += [document.garden.plantings_by_id[key].bed for key in document.selected_plantings if not bed]
        beds += [one.id for one in document.plan.beds[:1]]
        if not beds:
            self._tell(say("Draw a bed first: there is no ground to plant."))
            return None
        if self._filling is None:
            self._filling = FillDialog(self._window, document, self._plant)
        self._filling.begin(beds[0], document.day or document.plan.span.first)
        return self._filling

    def _plant(self, filling: Filling) -> bool:
        """Plant what was chosen, as one step, and show it."""
        document, one = self._document, filling.planting
        name = filling.crop.name
        key = fresh_id(document.stable, "p")
        words = say("Plant {crop} in {bed}", crop=name, bed=document.garden.beds_by_id[one.bed].name)
        done = document.edit(
            words,
            lambda garden: put(garden, plantings=(*garden.plantings, one.with_(id=key))),
        )
        if done:
            self._tell(
                say(
                    "{crop} planted in {bed}.",
                    crop=capital(name),
                    bed=document.garden.beds_by_id[one.bed].name,
                )
            )
            document.show_growing((key,))
            document.select((key,))
        return done

    # -- the end of plantings ---------------------------------------------------------------

    def end_selected(self) -> EndDialog | None:
        """Ask why and when the selected plantings ended."""
        from planner.desk.main_window.end_dialog import EndDialog

        keys = self._still_standing()
        if not keys:
            return None
        plan, name = self._document.plan, name_of(self._document.plan, keys)
        dialog = EndDialog(
            self._window,
            say("The end of {plantings}", plantings=name),
            say("Its ground is free from that day on, and what it yields is reckoned to that day."),
            plan,
            self._usual_day(keys),
            asks_why=True,
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self._end(keys, dialog))
        dialog.open()
        return dialog

    def _end(self, keys: Sequence[str], dialog: EndDialog) -> None:
        day, why = dialog.day.day, dialog.why.value
        new = [{"kind": "ended", "planting": key, "day": day, "why": why} for key in keys]
        words = say("The end of {plantings}", plantings=name_of(self._document.plan, keys))
        self._document.edit(words, lambda garden: edits.add_records(garden, new)[0])

    def sow_anew(self) -> EndDialog | None:
        """Ask when the selected planting, which failed, is sown or planted anew."""
        from planner.desk.main_window.end_dialog import EndDialog

        keys = self._still_standing()
        if len(keys) != 1:
            self._tell(say("Select one planting that has not ended yet."))
            return None
        plan, name = self._document.plan, name_of(self._document.plan, keys)
        dialog = EndDialog(
            self._window,
            say("Sow {planting} anew", planting=name),
            say("It failed and ends on that day, and one like it begins on the same plot."),
            plan,
            self._usual_day(keys),
            asks_why=False,
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self._sow_anew(keys[0], dialog.day.day))
        dialog.open()
        return dialog

    def _sow_anew(self, key: str, day: dt.date) -> None:
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, new = edits.sow_anew(garden, key, day)
            made.append(new)
            return garden

        words = say("Sow {planting} anew", planting=name_of(self._document.plan, (key,)))
        if self._document.edit(words, change):
            self._document.show_growing(made)
            self._document.select(made)

    def _still_standing(self) -> tuple[str, ...]:
        garden = self._document.garden
        keys = tuple(
            key
            for key in self._document.selected_plantings
            if garden.outcome(garden.plantings_by_id[key]) is None
        )
        if not keys:
            self._tell(say("Select a planting that has not ended yet."))
        return keys

    def _usual_day(self, keys: Sequence[str]) -> dt.date:
        """Today where the plantings stand then, else the day shown, else the last of those days on which one stands."""
        plan = self._document.plan
        spans = [plan.span_of(plan.garden.plantings_by_id[key]) for key in keys]
        for day in (dt.date.today(), self._document.day):
            if day is not None and plan.span.holds(day) and all(span.holds(day) for span in spans):
                return day
        return min(max(span.last for span in spans), plan.span.last)
