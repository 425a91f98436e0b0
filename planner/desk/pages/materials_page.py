"""What the covers, supports and dressings of a year take, how it is cut, and what is in the shed."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QLabel,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from planner.amounts.materials_year import materials_of_year
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.cut_drawing import CutDrawing, cut_blocks
from planner.desk.pages.material_rows import MATERIAL_HEADS, job_names, material_rows
from planner.desk.pages.opening_table import OpeningTable
from planner.desk.pages.shed_view import ShedView
from planner.desk.pages.spread_view import SpreadView
from planner.desk.theme.palette import LookSwitch, letters
from planner.words import say


class MaterialsPage(QWidget):
    """Three views: what covers and supports take with its cut list, what is spread, and the shed.

    Signals
    -------
    planting_wanted : str
        Id of a planting or bed to show on the sheet.
    wrong : str
        Something is not possible; one line says why.
    """

    planting_wanted = Signal(str)
    wrong = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName(say("Materials"))
        self.taken = _TakenView(document, look)
        self.taken.table.shown.connect(self.planting_wanted)
        self.spread = SpreadView(document)
        self.spread.shown.connect(self.planting_wanted)
        self.spread.wrong.connect(self.wrong)
        self.shed = ShedView(document)
        self.shed.wrong.connect(self.wrong)
        self.stack = QStackedWidget()
        self.buttons = QButtonGroup(self)
        head = FlowLayout()
        for number, (title, view) in enumerate(
            (
                (say("Covers and supports"), self.taken),
                (say("Spread on the beds"), self.spread),
                (say("The shed"), self.shed),
            )
        ):
            self.stack.addWidget(view)
            button = QToolButton()
            button.setText(title)
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            self.buttons.addButton(button, number)
            head.addWidget(button)
        for view, refresh in (
            (self.taken, self.taken.refresh),
            (self.spread, self.spread.refresh),
            (self.shed, self.shed.refresh),
        ):
            follow = WhenSeen(view, refresh)
            follow.follow()
            document.garden_settled.connect(follow.follow)
            document.year_changed.connect(follow.follow)
        self.buttons.button(0).setChecked(True)
        self.buttons.idClicked.connect(self.stack.setCurrentIndex)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 12)
        column.addLayout(head)
        column.addWidget(self.stack, 1)

    def show_view(self, view: QWidget) -> None:
        """Bring one of the views to the front."""
        self.stack.setCurrentWidget(view)
        self.buttons.button(self.stack.currentIndex()).setChecked(True)


class _TakenView(QWidget):
    """The table of what is taken, above the cut list."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.table = OpeningTable(
            [say(MATERIAL_HEADS[n]) for n in range(len(MATERIAL_HEADS))],
            say("Materials of covers and supports"),
            range(1, 6),
        )
        self.table.sort_rows()
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setProperty("second", True)
        self.drawing = CutDrawing(look)
        area = QScrollArea()
        area.setAccessibleName(say("Part of the page that scrolls"))
        area.setWidget(self.drawing)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        title = QLabel(say("Cut list"))
        title.setFont(letters(10, bold=True))
        self.below = QWidget()
        column = QVBoxLayout(self.below)
        column.setContentsMargins(0, 6, 0, 0)
        column.addWidget(title)
        column.addWidget(area, 1)
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.table)
        split.addWidget(self.below)
        split.setChildrenCollapsible(False)
        split.setSizes([280, 320])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 6, 0, 0)
        whole.addWidget(self.words)
        whole.addWidget(split, 1)

    def refresh(self) -> None:
        """Show what is taken as it is now."""
        plan = self.document.plan
        year = materials_of_year(plan)
        self.table.show_rows(material_rows(plan, year))
        blocks = cut_blocks(plan, year.materials, job_names(plan, year))
        self.drawing.show_blocks(blocks, plan.garden.site.units)
        self.below.setVisible(bool(self.drawing.blocks))
        self.words.setText(
            say(
                "Covers and supports of {year}. Open a line for the plantings it serves; a double click on one shows it on the sheet.",
                year=plan.year,
            )
            if self.table.rows
            else say(
                "Nothing is covered or supported in {year}. Covers and supports are given in the details of a planting.",
                year=plan.year,
            )
        )
