"""Findings at the right: what the checks have to say, where, and what would mend it."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from planner.checks import CHECKS, LIGHT, Finding, check_all, check_only, in_order
from planner.desk.forms.wrapped import WrappedButton, WrappedItems
from planner.desk.model.document import Document
from planner.desk.model.light_worker import LightWorker
from planner.desk.theme.palette import Look, letters
from planner.garden import edits

_KEY = Qt.ItemDataRole.UserRole
_TITLES = {"stop": "Stop: it fails as it stands", "mind": "Mind: it will suffer", "note": "Worth knowing"}
SIGNS = {"stop": "■", "mind": "▲", "note": "●"}


class Findings(QObject):
    """The findings of the plan shown, in step with it.

    Signals
    -------
    changed
    mends_known : str
        Key of a finding whose mends took a while.
    """

    changed = Signal()
    fixes_known = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.lore, self.light = False, True
        self.now: tuple[Finding, ...] = ()
        self._warm = False
        self._others: tuple[Finding, ...] = ()
        self._dark: tuple[Finding, ...] = ()
        self._worker = LightWorker(self)
        self._worker.found.connect(self._lit)
        self._worker.mended.connect(self.fixes_known)
        self._queue: list[str] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._work)
        document.garden_settled.connect(self.follow)
        document.year_changed.connect(self.restart)
        self.follow()

    def restart(self) -> None:
        """Another garden or year: the checks run one by one, so that the window stays at hand."""
        self._warm = False
        self.follow()

    def follow(self) -> None:
        """Check again, a moment later."""
        self._queue = [] if self._warm else list(CHECKS)
        self._timer.start(30 if self._warm else 250)

    def _work(self) -> None:
        if self._queue:
            check_only(self.document.plan, [self._queue.pop(0)], self.lore)
            self._timer.start(0)
            return
        self._warm = True
        plan = self.document.plan
        self._others = check_all(plan, lore=self.lore, light=False)
        if self.light:
            # What was said of the light stays until the worker says it anew, as far as it is still there.
            there = plan.garden.plantings_by_id
            self._dark = tuple(one for one in self._dark if all(key in there for key in one.plantings))
            self._worker.ask(plan)
        else:
            self._dark = ()
        self._tell()

    def _lit(self, number: int, found: tuple[Finding, ...]) -> None:
        """The light has been checked too; older answers are passed over."""
        if number == self._worker.asked and self.light and not self._timer.isActive():
            self._dark = found
            self._tell()

    def _tell(self) -> None:
        self.now = in_order((*self._others, *self._dark))
        self.changed.emit()

    def work_out_mends(self, finding: Finding) -> bool:
        """Whether a finding's mends are at hand; where they take a while they are worked out beside the window."""
        if finding.fixes_cached or finding.check not in LIGHT:
            return True
        self._worker.mend(finding)
        return False

    def stop(self) -> None:
        """The window goes."""
        self._timer.stop()
        self._worker.stop()

    def ask(self, *, lore: bool | None = None, light: bool | None = None) -> None:
        """Count lore, or check the light too."""
        self.lore = self.lore if lore is None else lore
        self.light = self.light if light is None else light
        self.restart()

    def named(self, key: str) -> Finding | None:
        """The finding of a key."""
        return next((finding for finding in self.now if finding.key == key), None)

    @property
    def open(self) -> tuple[Finding, ...]:
        """Those not waved aside."""
        return tuple(finding for finding in self.now if not finding.waived)


class FindingsPanel(QWidget):
    """List of the findings, and the chosen one with its mends.

    Signals
    -------
    chosen : object
        The finding to show on the sheet; None for none.
    said : str
    """

    chosen = Signal(object)
    said = Signal(str)

    def __init__(self, findings: Findings) -> None:
        super().__init__()
        self.findings, self.document = findings, findings.document
        self.setAccessibleName("Findings")
        self.order = QComboBox()
        self.order.setAccessibleName("Grouped by")
        self.order.addItems(["by gravity", "by bed"])
        self.order.activated.connect(lambda _i: self.refresh())
        self.lore = QCheckBox("lore")
        self.lore.setToolTip("Neighbour rules that are only handed down")
        self.lore.toggled.connect(lambda on: findings.ask(lore=on))
        self.light = QCheckBox("light")
        self.light.setToolTip("Hours of direct sun: worked out beside the window, a moment later")
        self.light.setChecked(findings.light)
        self.light.toggled.connect(lambda on: findings.ask(light=on))
        head = QHBoxLayout()
        head.addWidget(self.order, 1)
        head.addWidget(self.lore)
        head.addWidget(self.light)
        self.list = QTreeWidget()
        self.list.setAccessibleName("List of findings")
        self.list.setHeaderHidden(True)
        self.list.setIndentation(12)
        self.list.setRootIsDecorated(False)
        self.list.setWordWrap(True)
        self._delegate = WrappedItems(self.list)
        self.list.setItemDelegate(self._delegate)
        self.list.itemSelectionChanged.connect(self._choose)
        self.rule = QLabel()
        self.rule.setWordWrap(True)
        self.rule.setProperty("second", True)
        self.fixes = QVBoxLayout()
        self.reason = QLineEdit()
        self.reason.setPlaceholderText("Why it may stay")
        self.reason.setAccessibleName("Reason to wave the finding aside")
        self.aside = QPushButton("Wave aside")
        self.aside.clicked.connect(self._wave)
        self.reason.returnPressed.connect(self._wave)
        foot = QHBoxLayout()
        foot.addWidget(self.reason, 1)
        foot.addWidget(self.aside)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 8, 8)
        column.addLayout(head)
        column.addWidget(self.list, 1)
        column.addWidget(self.rule)
        column.addLayout(self.fixes)
        column.addLayout(foot)
        self._key = ""
        self._filling = False
        findings.changed.connect(self.refresh)
        findings.fixes_known.connect(self._mends_known)
        self._show(None)

    def refresh(self) -> None:
        """Show what the checks say now; the chosen one stays chosen while it holds."""
        self._filling = True
        self.list.clear()
        groups: dict[str, list[Finding]] = {}
        garden = self.document.garden
        for finding in self.findings.now:
            if finding.waived:
                title = "Waved aside"
            elif self.order.currentIndex() == 0:
                title = _TITLES[finding.severity]
            else:
                title = garden.beds_by_id[finding.beds[0]].name if finding.beds else "The garden"
            groups.setdefault(title, []).append(finding)
        titles = sorted(groups, key=lambda t: (t == "Waved aside", list(groups).index(t)))
        for title in titles:
            head = QTreeWidgetItem([title])
            head.setFont(0, letters(9, bold=True))
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            self.list.addTopLevelItem(head)
            for finding in groups[title]:
                item = QTreeWidgetItem([f"{SIGNS[finding.severity]} {finding.text}"])
                item.setData(0, _KEY, finding.key)
                item.setToolTip(0, self._rule_words(finding))
                if finding.waived:
                    item.setForeground(0, self.palette().placeholderText())
                    item.setText(0, f"{item.text(0)} – {finding.waived}")
                head.addChild(item)
                if finding.key == self._key:
                    item.setSelected(True)
            head.setExpanded(True)
        if not self.findings.now:
            self.list.addTopLevelItem(QTreeWidgetItem(["The checks have nothing to say."]))
        self._filling = False
        self._show(self.findings.named(self._key))

    def _rule_words(self, finding: Finding) -> str:
        catalogue = self.document.catalogue
        source = (
            catalogue.source_line(finding.source) if finding.source in catalogue.sources else finding.source
        )
        return f"{finding.rule}. {source}."

    def _choose(self) -> None:
        if self._filling:
            return
        keys = [key for item in self.list.selectedItems() if (key := item.data(0, _KEY))]
        self._key = keys[0] if keys else ""
        finding = self.findings.named(self._key)
        self._show(finding)
        self.chosen.emit(finding)

    def _show(self, finding: Finding | None) -> None:
        while self.fixes.count():
            widget = self.fixes.takeAt(0).widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.rule.setText(self._rule_words(finding) if finding is not None else "")
        self.rule.setVisible(finding is not None)
        self.reason.setVisible(finding is not None and not finding.waived)
        self.aside.setVisible(finding is not None)
        if finding is None:
            return
        self.aside.setText("Take it up again" if finding.waived else "Wave aside")
        if finding.waived:
            return
        if not self.findings.work_out_mends(finding):
            waiting = QLabel("Looking for places with more sun …")
            waiting.setProperty("second", True)
            self.fixes.addWidget(waiting)
            return
        for number, mend in enumerate(finding.fixes):
            button = WrappedButton(mend.text)
            button.setToolTip(mend.gain)
            button.clicked.connect(lambda _c=False, n=number: self._mend(n))
            self.fixes.addWidget(button)
            if mend.gain:
                gain = QLabel(mend.gain)
                gain.setWordWrap(True)
                gain.setProperty("second", True)
                self.fixes.addWidget(gain)

    def _mends_known(self, key: str) -> None:
        if key == self._key:
            self._show(self.findings.named(key))

    def _mend(self, number: int) -> None:
        finding = self.findings.named(self._key)
        if finding is None or not finding.fixes_cached or number >= len(finding.fixes):
            return
        mend = finding.fixes[number]
        if self.document.edit(mend.text, mend.apply):
            self.said.emit(f"Done: {mend.text}")

    def _wave(self) -> None:
        finding = self.findings.named(self._key)
        if finding is None:
            return
        if finding.waived:
            self.document.edit("Take a finding up again", lambda g: edits.unwaive(g, finding.key))
            return
        reason = self.reason.text().strip()
        if not reason:
            self.said.emit("Say why it may stay, then wave it aside")
            self.reason.setFocus()
            return
        if self.document.edit("Wave a finding aside", lambda g: edits.waive(g, finding.key, reason)):
            self.reason.clear()


def paint_marks(painter: QPainter, view, findings: Findings, chosen: Finding | None, look: Look) -> None:
    """Signs where findings lie: a square stops, a triangle minds; the chosen one's place is hatched."""
    if chosen is not None and not chosen.place.is_empty:
        path = view.view_path(chosen.place.buffer(0.02))
        wash = QColor(look.warn)
        wash.setAlphaF(0.9)
        painter.fillPath(path, Qt.BrushStyle.BDiagPattern)
        painter.strokePath(path, QPen(wash, 2.2))
    for finding in findings.open:
        if finding.severity == "note" or finding.place.is_empty:
            continue
        at = view.to_view(tuple(finding.place.representative_point().coords[0]))
        painter.setPen(QPen(look.sheet, 1.5))
        painter.setBrush(look.warn)
        if finding.severity == "stop":
            painter.drawRect(round(at.x()) - 6, round(at.y()) - 6, 12, 12)
        else:
            corners = (QPointF(0, -8), QPointF(8, 6), QPointF(-8, 6))
            painter.drawPolygon(QPolygonF([at + corner for corner in corners]))
        painter.setPen(look.sheet)
        painter.setFont(letters(9, bold=True))
        painter.drawText(QPointF(at.x() - 1.5, at.y() + 5), "!")


class FindingsTab(QObject):
    """Keeps the number of open findings on a tab."""

    def __init__(self, findings: Findings, tabs, index: int) -> None:
        super().__init__(tabs)
        self.findings, self.tabs, self.index = findings, tabs, index
        findings.changed.connect(self.count)

    def count(self) -> None:
        """Write the number."""
        number = len(self.findings.open)
        self.tabs.setTabText(self.index, f"Findings ({number})" if number else "Findings")
