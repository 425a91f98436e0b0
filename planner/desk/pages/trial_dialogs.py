"""Dialogs of trials: which plantings are compared, and a new trial laid out in a bed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QSpinBox,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.amounts.trial_places import MOST_PLOTS
from planner.desk.forms.fields import ChoiceField
from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.phrases import with_variety
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.garden.trials import Trial, TrialEntry
from planner.listings.learned import crop_name
from planner.plan import Plan
from planner.words import capital, say

_KEY = Qt.ItemDataRole.UserRole


class _TrialDialog(QDialog):
    """What both dialogs have: question, measure, and a place for what is wrong."""

    def __init__(self, parent: QWidget, title: str, question: str, measure: str) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.question, self.measure = QLineEdit(question), QLineEdit(measure)
        self.measure.setPlaceholderText(say("what is picked"))
        self.form = QFormLayout()
        self.form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        self.row(say("Question"), self.question)
        self.row(say("Measured is"), self.measure)
        self.buttons = DialogButtons(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def row(self, name: str, field: QWidget) -> None:
        """Add a field with its name."""
        field.setAccessibleName(name)
        self.form.addRow(name, field)

    @property
    def ok(self) -> Any:
        """The button that accepts."""
        return self.buttons.button(QDialogButtonBox.StandardButton.Ok)


class TrialDialog(_TrialDialog):
    """Which plantings of a growing year are compared, each with its treatment and its block.

    Parameters
    ----------
    parent : QWidget
    plan : Plan
    trial : Trial, optional
        One that is changed; its plantings of other years stay in it.
    """

    def __init__(self, parent: QWidget, plan: Plan, trial: Trial | None = None) -> None:
        super().__init__(
            parent,
            say("Compare plantings"),
            trial.question if trial is not None else "",
            trial.measure if trial is not None else "",
        )
        self.resize(640, 520)
        entries = {one.planting: one for one in trial.entries} if trial is not None else {}
        there = [plan.garden.plantings_by_id[key] for key in entries]
        there += [one for one in plan.plantings if one.id not in entries]
        self.table = QTableWidget(len(there), 4)
        self.table.setAccessibleName(say("Plantings that are compared"))
        self.table.setHorizontalHeaderLabels([say("Planting"), say("Bed"), say("Treatment"), say("Group")])
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setStretchLastSection(True)
        for row, one in enumerate(there):
            entry = entries.get(one.id)
            name = QTableWidgetItem(with_variety(capital(crop_name(plan, one.crop)), one.variety))
            name.setData(_KEY, one.id)
            name.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsSelectable
            )
            name.setCheckState(Qt.CheckState.Checked if entry is not None else Qt.CheckState.Unchecked)
            bed = QTableWidgetItem(plan.bed_of(one).name)
            bed.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            treatment = entry.treatment if entry is not None else one.variety
            block = entry.block if entry is not None else ""
            for column, item in enumerate((name, bed, QTableWidgetItem(treatment), QTableWidgetItem(block))):
                self.table.setItem(row, column, item)
        self.table.resizeColumnsToContents()
        label = QLabel(
            say(
                "Tick what is compared and say what is tried there. Plantings of one group stand under like conditions, side by side: they are "
                "compared with each other."
            )
        )
        label.setWordWrap(True)
        column_of_all = QVBoxLayout(self)
        column_of_all.addLayout(self.form)
        column_of_all.addWidget(label)
        self.lost_counts = QCheckBox(say("Plantings that were lost count as nothing picked"))
        self.lost_counts.setToolTip(
            say("Where the trial is about what keeps plants alive; else what was lost is left out")
        )
        self.lost_counts.setChecked(trial is not None and trial.lost_counts)
        column_of_all.addWidget(self.table, 1)
        column_of_all.addWidget(self.lost_counts)
        column_of_all.addWidget(self.buttons)
        self.table.itemChanged.connect(lambda _item: self._follow())
        self.question.textChanged.connect(lambda _text: self._follow())
        self._follow()

    def entries(self) -> tuple[TrialEntry, ...]:
        """The plantings that are ticked and have a treatment."""
        found = []
        for row in range(self.table.rowCount()):
            name, treatment, block = (self.table.item(row, column) for column in (0, 2, 3))
            if name is None or treatment is None or block is None:
                continue  # while the table is filled
            if name.checkState() == Qt.CheckState.Checked and treatment.text().strip():
                found.append(
                    TrialEntry(
                        planting=name.data(_KEY),
                        treatment=treatment.text().strip()[:200],
                        block=block.text().strip()[:200],
                    )
                )
        return tuple(found)

    def values(self) -> dict[str, Any]:
        """Fields of the trial."""
        return {
            "question": self.question.text().strip(),
            "measure": self.measure.text().strip(),
            "entries": self.entries(),
            "lost_counts": self.lost_counts.isChecked(),
        }

    def _follow(self) -> None:
        """A trial has a question, and treatments that differ."""
        treatments = {one.treatment for one in self.entries()}
        self.ok.setEnabled(bool(self.question.text().strip()) and len(treatments) > 1)


class LayTrialDialog(_TrialDialog):
    """A new trial of varieties, laid out at random in the free ground of a bed.

    Parameters
    ----------
    parent : QWidget
    plan : Plan
    lay : callable
        Lays the trial out; what is against it in a line, empty where it is laid out.
    """

    def __init__(self, parent: QWidget, plan: Plan, lay: Callable[[LayTrialDialog], str]) -> None:
        super().__init__(parent, say("Lay out a trial"), "", "")
        self._lay = lay
        self.resize(480, 320)
        crops = [(crop.key, crop_title(crop)) for crop in crops_by_name(plan.catalogue)]
        self.crop = ChoiceField(say("Crop"), crops)
        self.bed = ChoiceField(say("Bed"), [(bed.id, bed.name) for bed in plan.beds])
        self.varieties = QLineEdit()
        self.varieties.setPlaceholderText(say("two or more, with commas"))
        self.blocks, self.seed = QSpinBox(), QSpinBox()
        self.blocks.setRange(1, MOST_PLOTS // 2)
        self.blocks.setValue(3)
        self.seed.setRange(0, 99_999)
        self.seed.setToolTip(say("Another number shuffles the places in another way"))
        self.row(say("Crop"), self.crop)
        self.row(say("Bed"), self.bed)
        self.row(say("Varieties"), self.varieties)
        self.row(say("Each stands there so often"), self.blocks)
        self.row(say("Shuffle number"), self.seed)
        label = QLabel(
            say(
                "Plots with nearly as much sun are one group; in each, chance says which variety stands where."
            )
        )
        label.setWordWrap(True)
        column = QVBoxLayout(self)
        column.addLayout(self.form)
        self.problem = QLabel()
        self.problem.setWordWrap(True)
        self.problem.setTextFormat(Qt.TextFormat.PlainText)
        self.problem.setProperty("warn", True)
        self.problem.hide()
        column.addWidget(label)
        column.addWidget(self.problem)
        column.addStretch(1)
        column.addWidget(self.buttons)
        for field in (self.question, self.varieties):
            field.textChanged.connect(lambda _text: self._follow())
        self._follow()

    @override
    def accept(self) -> None:
        """Lay the trial out; where that is refused the form stays with what was typed, and says why."""
        why = self._lay(self)
        self.problem.setText(why)
        self.problem.setVisible(bool(why))
        if not why:
            super().accept()

    def treatments(self) -> list[str]:
        """The varieties that are typed, each once."""
        names = [name.strip() for name in self.varieties.text().split(",")]
        return list(dict.fromkeys(name for name in names if name))

    def _follow(self) -> None:
        self.ok.setEnabled(
            bool(self.question.text().strip()) and len(self.treatments()) > 1 and self.bed.count() > 0
        )
