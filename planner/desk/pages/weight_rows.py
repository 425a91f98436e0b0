"""What counts where a layout is proposed, as sliders of three steps."""

from __future__ import annotations

from functools import partial
from typing import get_args

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLabel, QSlider, QWidget
from typing_extensions import override

from planner.desk.model.document import Document
from planner.garden import edits
from planner.garden.wishes import Weight
from planner.listings.proposal import LIMIT_WORDS, STEP_WORDS, WEIGHT_WORDS
from planner.words import say

STEPS: tuple[Weight, ...] = get_args(Weight)
#: Width of a slider. [pixels]
_WIDTH = 96


class StepSlider(QSlider):
    """A slider of three steps; the wheel scrolls the page and not the slider."""

    def __init__(self, name: str) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self.setAccessibleName(name)
        self.setRange(0, len(STEPS) - 1)
        self.setPageStep(1)
        self.setTickPosition(QSlider.TickPosition.TicksBelow)
        self.setFixedWidth(_WIDTH)

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(_WIDTH, super().minimumSizeHint().height())


class WeightRows(QWidget):
    """A slider for each weight of the garden's layouts; each step is an edit of the garden."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("What counts"))
        self.sliders: dict[str, StepSlider] = {}
        self._steps: dict[str, QLabel] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setColumnStretch(3, 1)
        for row, field in enumerate(WEIGHT_WORDS):
            words = say(WEIGHT_WORDS[field])
            label, slider, step = QLabel(words), StepSlider(words), QLabel()
            label.setWordWrap(True)
            label.setBuddy(slider)
            slider.valueChanged.connect(partial(self._change, field))
            grid.addWidget(label, row, 0)
            grid.addWidget(slider, row, 1)
            grid.addWidget(step, row, 2)
            self.sliders[field], self._steps[field] = slider, step
        widest = max(self.fontMetrics().horizontalAdvance(say(STEP_WORDS[step])) for step in STEPS)
        grid.setColumnMinimumWidth(2, widest + 6)

        self.limits: dict[str, QCheckBox] = {}
        for row, field in enumerate(LIMIT_WORDS, start=len(WEIGHT_WORDS)):
            box = QCheckBox(say(LIMIT_WORDS[field]))
            box.clicked.connect(lambda on, field=field: self._limit(field, on))
            grid.addWidget(box, row, 0, 1, 4)
            self.limits[field] = box

    def refresh(self) -> None:
        """Show the weights as they are now."""
        weights = self.document.garden.site.layout_weights
        for field, slider in self.sliders.items():
            weight: Weight = getattr(weights, field)
            blocked = slider.blockSignals(True)
            slider.setValue(STEPS.index(weight))
            slider.blockSignals(blocked)
            self._say(field, weight)
        for field, box in self.limits.items():
            box.setChecked(getattr(weights, field))

    def _say(self, field: str, weight: Weight) -> None:
        words = say(STEP_WORDS[weight])
        self._steps[field].setText(words)
        self.sliders[field].setAccessibleDescription(words)

    def _change(self, field: str, step: int) -> None:
        weights = self.document.garden.site.layout_weights.with_(**{field: STEPS[step]})
        self.document.edit(
            say("What counts in a layout"),
            lambda garden: edits.change_site(garden, layout_weights=weights),
            merge=f"layout weight {field}",
        )
        self.refresh()

    def _limit(self, field: str, on: bool) -> None:
        weights = self.document.garden.site.layout_weights.with_(**{field: on})
        self.document.edit(
            say("What counts in a layout"), lambda garden: edits.change_site(garden, layout_weights=weights)
        )
        self.refresh()
