"""One bench over the year: its picture, a week of it in words, and where it is too small."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from planner.checks import Finding
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.desk.pages.bench_stacks import BenchStack
from planner.desk.pages.stacked_weeks import StackedWeeks
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.listings.bench_weeks import week_words
from planner.listings.findings import NO_MEND
from planner.listings.phrases import days_in_short
from planner.season.frosts import shift
from planner.words import say


def words_label(property_name: str = "") -> QLabel:
    """A label of plain words over several lines.

    Parameters
    ----------
    property_name : str
        ``warn`` or ``second`` to colour it so.
    """
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if property_name:
        label.setProperty(property_name, True)
    return label


class BenchPicture(QWidget):
    """The picture of one bench.

    Attributes
    ----------
    weeks : StackedWeeks
    week : QLabel
        What stands there in the marked week, else in the fullest.
    """

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self._shown: BenchStack | None = None
        self._findings: tuple[Finding, ...] = ()
        self._opened: set[str] = set()
        self.title = words_label()
        self.title.setFont(letters(10, bold=True))
        self.weeks = StackedWeeks(look, say("Trays on a bench over the year"), self._words)
        self.weeks.week_marked.connect(lambda _week: self._show_week())
        self.week = words_label()
        self._mends = QVBoxLayout()
        self._mends.setSpacing(4)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 8)
        column.setSpacing(4)
        column.addWidget(self.title)
        column.addWidget(self.weeks, 1)
        column.addWidget(self.week)
        column.addLayout(self._mends)

    def show_bench(self, shown: BenchStack) -> None:
        """Show a bench as it is now."""
        self._shown = shown
        self.title.setText(shown.title)
        self.weeks.setAccessibleName(shown.title)
        self.weeks.show_stack(shown.stack)
        self._show_week()

    def _show_week(self) -> None:
        shown = self._shown
        if shown is None:
            return
        if self.weeks.marked >= 0:
            self.week.setText(self._words(self.weeks.marked))
        elif shown.fullest >= 0:
            self.week.setText(say("Fullest week, {week}", week=self._words(shown.fullest)))
        else:
            self.week.setText(say("Nothing stands there in this year."))

    def _words(self, number: int) -> str:
        """A week in words."""
        shown = self._shown
        if shown is None or number >= len(shown.weeks):
            return ""
        week = shown.weeks[number]
        if week is None:
            first = shown.stack.mondays[number]
            return say("{days}: nothing stands there.", days=days_in_short(first, shift(first, 6)))
        return week_words(self.document.plan, shown.year, week, entered=shown.entered)

    # -- where it is too small --------------------------------------------------------------

    def show_findings(self, findings: Sequence[Finding]) -> None:
        """Say where it is too small, with what mends that."""
        if tuple(findings) == self._findings:
            return
        self._findings = tuple(findings)
        self._opened &= {finding.key for finding in findings}
        self._show_mends()

    def _show_mends(self) -> None:
        while (item := self._mends.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        for finding in self._findings:
            line = words_label("warn")
            line.setText(say("{sentence}.", sentence=finding.text))
            self._mends.addWidget(line)
            if finding.key in self._opened:
                self._add_fixes(finding)
            else:
                button = QPushButton(say("Look for what makes room"))
                button.clicked.connect(lambda _on=False, key=finding.key: self._open(key))
                self._mends.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)

    def _open(self, key: str) -> None:
        """Work out the mends of a finding: some of them are tried first, which takes a moment."""
        self._opened.add(key)
        self._show_mends()

    def _add_fixes(self, finding: Finding) -> None:
        for fix in finding.fixes:
            button = WrappedButton(fix.text)
            button.setToolTip(plain_tip(fix.gain))
            button.clicked.connect(lambda _on=False, fix=fix: self.document.edit(fix.text, fix.apply))
            self._mends.addWidget(button)
        if not finding.fixes:
            line = words_label("second")
            line.setText(say(NO_MEND))
            self._mends.addWidget(line)
