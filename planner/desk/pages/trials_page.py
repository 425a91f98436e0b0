"""What the trials of a garden show."""

from __future__ import annotations

from collections import Counter

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from planner.amounts.trial_places import propose_places
from planner.amounts.trials import TrialResult, trial_results
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import LEAST_TABLE, wrapped_label
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.pages.trial_dialogs import LayTrialDialog, TrialDialog
from planner.garden import Garden, edits
from planner.garden.site import UnitSystem
from planner.listings.trials import conclusions, lost_lines, value_words
from planner.plan import Plan
from planner.words import join_list, say, say_in_context

#: Columns that are set to the right.
_NUMBERS = (1, 2, 3)


def trial_heads() -> tuple[str, ...]:
    """Headings of the table."""
    return (
        say("Question, treatment"),
        say("Plantings"),
        say("Mean"),
        say_in_context("of several values", "Spread"),
        say("Compared by"),
    )


class TrialsPage(QWidget):
    """Trials with their treatments, and what may be concluded of the one that is chosen.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    """

    planting_wanted = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Trials"))
        self._results: dict[str, TrialResult] = {}
        self.words = wrapped_label()
        self.table = OpeningTable(trial_heads(), say("Trials and their treatments"), _NUMBERS)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.table.shown.connect(self.planting_wanted)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.shows = wrapped_label()
        self.new = QPushButton(say("Compare plantings…"))
        self.lay = QPushButton(say("Lay out a trial…"))
        self.change = QPushButton(say("Change it…"))
        self.remove = QPushButton(say("Remove it"))
        self.new.clicked.connect(lambda: self.open_dialog())
        self.lay.clicked.connect(self.open_lay_dialog)
        self.change.clicked.connect(lambda: self.open_dialog(self._chosen()))
        self.remove.clicked.connect(self._remove)
        head = FlowLayout()
        for button in (self.new, self.lay, self.change, self.remove):
            head.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.words)
        column.addWidget(self.table, 1000)
        column.addWidget(self.shows)
        column.addStretch(1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)

    def refresh(self) -> None:
        """Show the trials as they are now."""
        plan = self.document.plan
        self._results = {one.trial.id: one for one in trial_results(plan)}
        units = plan.garden.site.units
        self.table.show_rows([_row(one, units) for one in self._results.values()])
        self.table.setVisible(bool(self._results))
        self.words.setText(
            say("Choose a trial to read what it shows.") if self._results else say("The garden has no trial.")
        )
        self._follow_choice()

    def _chosen(self) -> str:
        """Id of the trial that is chosen; empty for none."""
        keys = self.table.selected_keys()
        return keys[0] if keys and keys[0] in self._results else ""

    def open_dialog(self, key: str = "") -> TrialDialog:
        """Open the dialog of which plantings are compared.

        Parameters
        ----------
        key : str
            Id of a trial that is changed; empty for a new one.
        """
        trial = self._results[key].trial if key else None
        dialog = TrialDialog(self, self.document.plan, trial)
        dialog.accepted.connect(lambda: self._put(key, dialog))
        dialog.open()
        return dialog

    def _put(self, key: str, dialog: TrialDialog) -> None:
        values = dialog.values()
        words = say("Change a trial") if key else say("Compare plantings")
        self.document.edit(words, lambda garden: edits.put_trial(garden, key or None, **values)[0])

    def open_lay_dialog(self) -> LayTrialDialog:
        """Open the dialog of a new trial that is laid out."""
        dialog = LayTrialDialog(self, self.document.plan, self._lay)
        dialog.open()
        return dialog

    def _lay(self, dialog: LayTrialDialog) -> str:
        """Lay a trial out and choose it; what is against it, empty where nothing is."""
        plan = self.document.plan
        crop, bed = str(dialog.crop.value), plan.garden.beds_by_id[str(dialog.bed.value)]
        treatments, blocks, seed = dialog.treatments(), dialog.blocks.value(), dialog.seed.value()
        question, measure = dialog.question.text().strip(), dialog.measure.text().strip()

        def change(garden: Garden) -> Garden:
            places = propose_places(plan, bed, treatments, blocks, seed)
            laid = [(one.treatment, one.block, one.plot) for one in places]
            return edits.lay_trial(garden, bed.id, crop, plan.year, question, laid, measure=measure)[0]

        refused: list[str] = []
        connection = self.document.edit_refused.connect(refused.append)
        done = self.document.edit(say("Lay out a trial"), change)
        self.document.edit_refused.disconnect(connection)
        if not done:
            return refused[0] if refused else say("Nothing was laid out")
        self.refresh()
        self.table.choose(self.document.garden.trials[-1].id)
        return ""

    def _remove(self) -> None:
        key = self._chosen()
        if key:
            self.document.edit(say("Remove a trial"), lambda garden: edits.remove_trials(garden, (key,)))

    def _follow_choice(self) -> None:
        key = self._chosen()
        for button in (self.change, self.remove):
            button.setEnabled(bool(key))
        result = self._results.get(key)
        self.shows.setText("\n".join(_shown(self.document.plan, result)) if result is not None else "")


def _shown(plan: Plan, result: TrialResult) -> list[str]:
    if result.units_differ:
        return [
            say(
                "It was measured in {units}, so nothing can be compared: write it down in one unit.",
                units=join_list(result.units_differ),
            )
        ]
    return [*conclusions(result, plan.garden.site.units), *lost_lines(plan, result)]


def _row(result: TrialResult, units: UnitSystem) -> Row:
    trial = result.trial
    stand = Counter(entry.treatment for entry in trial.entries)
    measured = sum(len(one.values) for one in result.treatments)
    by = trial.measure or say("what was picked from the same area")
    if measured < len(trial.entries):
        by = say("{by}; {count} of {all} measured", by=by, count=measured, all=len(trial.entries))
    parts = tuple(
        Row(
            (
                one.name,
                str(stand[one.name]),
                value_words(result, one.mean, units),
                value_words(result, one.deviation, units) if one.deviation is not None else "",
                "",
            ),
            f"{trial.id} {one.name}",
            next((entry.planting for entry in trial.entries if entry.treatment == one.name), ""),
        )
        for one in result.treatments
    )
    known = {one.name for one in result.treatments}
    parts += tuple(
        Row(
            (name, str(count), "", "", ""),
            f"{trial.id} {name}",
            next(entry.planting for entry in trial.entries if entry.treatment == name),
        )
        for name, count in stand.items()
        if name not in known
    )
    return Row((trial.question, str(len(trial.entries)), "", "", by), trial.id, parts=parts)
