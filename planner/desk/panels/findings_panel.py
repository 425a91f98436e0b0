"""Findings at the right: what the checks report, where, and what would fix it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
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

from planner.checks import Finding
from planner.desk.forms.wrapped import WrappedButton, WrappedItems
from planner.desk.model.findings_model import FindingsModel
from planner.desk.theme.palette import letters
from planner.garden import edits
from planner.listings.findings import NO_MEND
from planner.words import say

_KEY = Qt.ItemDataRole.UserRole
_TITLES = {"stop": "Stop: it fails as it stands", "mind": "Warning", "note": "Worth knowing"}
_SIGNS = {"stop": "■", "mind": "▲", "note": "●"}
_WAIVED = "Accepted"


class FindingsPanel(QWidget):
    """List of the findings, and the chosen one with its fixes.

    Signals
    -------
    chosen : object
        The finding to show on the sheet; None for none.
    said : str
        A line for the status bar.
    """

    chosen = Signal(object)
    said = Signal(str)

    def __init__(self, findings: FindingsModel) -> None:
        super().__init__()
        self.findings, self.document = findings, findings.document
        self.setAccessibleName("Findings")
        self._key = ""
        self._filling = False
        self._make_filters()
        self._make_list()
        self._make_choice()
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 8, 8)
        column.addLayout(self._filters)
        column.addWidget(self.list, 1)
        column.addWidget(self.rule)
        column.addLayout(self.fixes)
        column.addLayout(self._waiver)
        findings.changed.connect(self.refresh)
        findings.fixes_known.connect(self._on_fixes_known)
        self._show(None)

    def _make_filters(self) -> None:
        self.order = QComboBox()
        self.order.setAccessibleName("Grouped by")
        self.order.addItems(["worst first", "by bed"])
        self.order.activated.connect(lambda _i: self.refresh())
        self.lore = QCheckBox("hearsay")
        self.lore.setToolTip("Neighbour rules that are only handed down")
        self.lore.toggled.connect(lambda on: self.findings.include(lore=on))
        self.light = QCheckBox("light")
        self.light.setToolTip("Hours of direct sun: worked out beside the window, a moment later")
        self.light.setChecked(self.findings.light)
        self.light.toggled.connect(lambda on: self.findings.include(light=on))
        self._filters = QHBoxLayout()
        self._filters.addWidget(self.order, 1)
        self._filters.addWidget(self.lore)
        self._filters.addWidget(self.light)

    def _make_list(self) -> None:
        self.list = QTreeWidget()
        self.list.setAccessibleName("List of findings")
        self.list.setHeaderHidden(True)
        self.list.setIndentation(12)
        self.list.setRootIsDecorated(False)
        self.list.setWordWrap(True)
        self._delegate = WrappedItems(self.list)
        self.list.setItemDelegate(self._delegate)
        self.list.itemSelectionChanged.connect(self._choose)

    def _make_choice(self) -> None:
        self.rule = QLabel()
        self.rule.setWordWrap(True)
        self.rule.setProperty("second", True)
        self.fixes = QVBoxLayout()
        self.reason = QLineEdit()
        self.reason.setPlaceholderText("Why it may stay")
        self.reason.setAccessibleName("Reason to accept the finding")
        self.reason.returnPressed.connect(self._waive_or_reopen)
        self.aside = QPushButton("Accept")
        self.aside.clicked.connect(self._waive_or_reopen)
        self._waiver = QHBoxLayout()
        self._waiver.addWidget(self.reason, 1)
        self._waiver.addWidget(self.aside)

    # -- the list ---------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what the checks report now; the chosen finding stays chosen while it is there."""
        self._filling = True
        self.list.clear()
        for title, group in self._groups():
            head = QTreeWidgetItem([title])
            head.setFont(0, letters(9, bold=True))
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            self.list.addTopLevelItem(head)
            for finding in group:
                item = self._item(finding)
                head.addChild(item)
                if finding.key == self._key:
                    item.setSelected(True)
            head.setExpanded(True)
        if not self.findings.all:
            self.list.addTopLevelItem(QTreeWidgetItem(["The checks have nothing to say."]))
        self._filling = False
        self._show(self.findings.by_key(self._key))

    def _groups(self) -> list[tuple[str, list[Finding]]]:
        """The findings under their titles; those that were waived come last."""
        beds = self.document.garden.beds_by_id
        groups: dict[str, list[Finding]] = {}
        for finding in self.findings.all:
            if finding.waived:
                title = _WAIVED
            elif self.order.currentIndex() == 0:
                title = _TITLES[finding.severity]
            else:
                title = beds[finding.beds[0]].name if finding.beds else "The garden"
            groups.setdefault(title, []).append(finding)
        return sorted(groups.items(), key=lambda group: group[0] == _WAIVED)

    def _item(self, finding: Finding) -> QTreeWidgetItem:
        item = QTreeWidgetItem([f"{_SIGNS[finding.severity]} {finding.text}"])
        item.setData(0, _KEY, finding.key)
        item.setToolTip(0, self._rule_words(finding))
        if finding.waived:
            item.setForeground(0, self.palette().placeholderText())
            item.setText(0, f"{item.text(0)} – {finding.waived}")
        return item

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
        finding = self.findings.by_key(self._key)
        self._show(finding)
        self.chosen.emit(finding)

    # -- the chosen finding -----------------------------------------------------------------

    def _show(self, finding: Finding | None) -> None:
        self._clear_fixes()
        self.rule.setText(self._rule_words(finding) if finding is not None else "")
        self.rule.setVisible(finding is not None)
        self.reason.setVisible(finding is not None and not finding.waived)
        self.aside.setVisible(finding is not None)
        if finding is None:
            return
        self.aside.setText("Bring back" if finding.waived else "Accept")
        if not finding.waived:
            self._show_fixes(finding)

    def _clear_fixes(self) -> None:
        while (item := self.fixes.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _show_fixes(self, finding: Finding) -> None:
        if not self.findings.request_fixes(finding):
            self.fixes.addWidget(self._second_line("Looking for places with more sun …"))
            return
        for number, fix in enumerate(finding.fixes):
            button = WrappedButton(fix.text)
            button.setToolTip(fix.gain)
            button.clicked.connect(lambda _checked=False, n=number: self._apply_fix(n))
            self.fixes.addWidget(button)
            if fix.gain:
                gain = self._second_line(fix.gain)
                gain.setWordWrap(True)
                self.fixes.addWidget(gain)
            if fix.why:
                why = self._second_line(say("Nothing else would do: {reason}.", reason=fix.why))
                why.setWordWrap(True)
                self.fixes.addWidget(why)
        if not finding.fixes:
            self.fixes.addWidget(self._second_line(say(NO_MEND)))

    def _second_line(self, text: str) -> QLabel:
        label = QLabel(text)
        label.setProperty("second", True)
        return label

    def _on_fixes_known(self, key: str) -> None:
        if key == self._key:
            self._show(self.findings.by_key(key))

    def _apply_fix(self, number: int) -> None:
        finding = self.findings.by_key(self._key)
        if finding is None or not finding.fixes_cached or number >= len(finding.fixes):
            return
        fix = finding.fixes[number]
        if self.document.edit(fix.text, fix.apply):
            self.said.emit(f"Done: {fix.text}")

    def _waive_or_reopen(self) -> None:
        finding = self.findings.by_key(self._key)
        if finding is None:
            return
        if finding.waived:
            self.document.edit("Bring a finding back", lambda g: edits.unwaive(g, finding.key))
            return
        reason = self.reason.text().strip()
        if not reason:
            self.said.emit("Say why it may stay, then accept it")
            self.reason.setFocus()
            return
        if self.document.edit("Accept a finding", lambda g: edits.waive(g, finding.key, reason)):
            self.reason.clear()
