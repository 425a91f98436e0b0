"""Findings at the right: what the checks report, where, and what would fix it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import shapely
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.findings_model import FindingsModel
from planner.desk.model.when_seen import WhenSeen
from planner.desk.panels.findings_list import FindingsList
from planner.desk.theme.choice_names import name_choice
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Garden, edits
from planner.words import later, percent, say, say_count, say_in_context

if TYPE_CHECKING:
    from planner.checks import Finding
    from planner.checks.grouping import FindingGroup, GroupMend

#: Most findings whose common mends are looked for as soon as they are chosen.
AT_ONCE = 200
_TITLES = {
    "stop": later("Stop: it fails as it stands"),
    "mind": later("Warning"),
    "note": later("Worth knowing"),
}


class FindingsPanel(QWidget):
    """List of the findings, and the chosen one with its fixes.

    Signals
    -------
    chosen : object
        The finding to show on the sheet; None for none.
    said : str
        A line for the status bar.
    why_wanted : object
        The manual is to tell by which rule this finding is judged.
    """

    chosen = Signal(object)
    said = Signal(str)
    why_wanted = Signal(object)

    def __init__(self, findings: FindingsModel) -> None:
        super().__init__()
        self.findings, self.document = findings, findings.document
        self.setAccessibleName(say("Findings"))
        self._keys: tuple[str, ...] = ()
        self._asked_for: tuple[str, ...] = ()
        self._group_mends: tuple[GroupMend, ...] = ()
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
        self._when_seen = WhenSeen(self, self.refresh)
        findings.changed.connect(self._when_seen.follow)
        findings.fixes_known.connect(self._on_fixes_known)
        findings.light_progressed.connect(self._show_progress)
        self._show()

    def _make_filters(self) -> None:
        self.order = QComboBox()
        name_choice(self.order, say("Grouped by"))
        self.order.addItems([say("worst first"), say("by bed")])
        self.order.activated.connect(lambda _i: self.refresh())
        self.lore = QCheckBox(say("folklore"))
        self.lore.setToolTip(say("Neighbour rules that are only handed down"))
        self.lore.toggled.connect(lambda on: self.findings.include(lore=on))
        self.light = QCheckBox(say_in_context("of the sun", "light"))
        self.light.setToolTip(say("Hours of direct sun: worked out beside the window, a moment later"))
        self.light.setChecked(self.findings.light)
        self.light.toggled.connect(lambda on: self.findings.include(light=on))
        self._filters = QHBoxLayout()
        self._filters.addWidget(self.order, 1)
        self._filters.addWidget(self.lore)
        self._filters.addWidget(self.light)

    def _make_list(self) -> None:
        self.list = FindingsList()
        self.list.keys_chosen.connect(self._choose)
        self.list.why_wanted.connect(self._want_why)

    def _make_choice(self) -> None:
        self.rule = QLabel()
        self.rule.setTextFormat(Qt.TextFormat.PlainText)
        self.rule.setWordWrap(True)
        self.rule.setProperty("second", True)
        self.fixes = QVBoxLayout()
        self.reason = QLineEdit()
        self.reason.setPlaceholderText(say("Why it may stay"))
        self.reason.setAccessibleName(say("Reason to accept the finding"))
        self.reason.returnPressed.connect(self._waive_or_reopen)
        self.aside = QPushButton(say("Accept"))
        self.aside.clicked.connect(self._waive_or_reopen)
        self._waiver = QHBoxLayout()
        self._waiver.addWidget(self.reason, 1)
        self._waiver.addWidget(self.aside)

    # -- the list ---------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what the checks report now; the chosen findings stay chosen while they are there."""
        there = {finding.key for finding in self.findings.all}
        self._keys = tuple(key for key in self._keys if key in there)
        self.list.show_groups(
            self._groups(), self._keys, self._rule_words, say("The checks have nothing to say.")
        )
        self._show()

    def _show_progress(self, share: float) -> None:
        """Say beside the choice of light how much of the garden has been looked at."""
        words = say_in_context("of the sun", "light")
        self.light.setText(say("light, {share} looked at", share=percent(share)) if share < 1 else words)

    def _groups(self) -> list[tuple[str, list[FindingGroup]]]:
        """The findings under their titles; those that were waived come last.

        Under the titles of gravity, those of one kind are one line.
        """
        from planner.checks.grouping import FindingGroup, grouped

        beds = self.document.garden.beds_by_id
        by_bed = self.order.currentIndex() == 1
        if by_bed:
            lines = [FindingGroup((finding,), finding.text) for finding in self.findings.all]
        else:
            lines = list(grouped(self.document.plan, self._of_this_garden()))
        groups: dict[str, list[FindingGroup]] = {}
        waived = say("Accepted")
        for line in lines:
            first = line.findings[0]
            if first.waived:
                title = waived
            elif not by_bed:
                title = say(_TITLES[line.severity])
            else:
                title = beds[first.beds[0]].name if first.beds else say("The garden")
            groups.setdefault(title, []).append(line)
        return sorted(groups.items(), key=lambda group: group[0] == waived)

    def _of_this_garden(self) -> list[Finding]:
        """The findings whose plantings are in the garden shown: a check may lag an edit behind."""
        there = self.document.garden.plantings_by_id
        return [finding for finding in self.findings.all if all(key in there for key in finding.plantings)]

    def _rule_words(self, finding: Finding) -> str:
        catalogue = self.document.catalogue
        source = (
            catalogue.source_line(finding.source) if finding.source in catalogue.sources else finding.source
        )
        return say("{rule}. {source}.", rule=finding.rule, source=source)

    def _want_why(self) -> None:
        chosen = self._chosen()
        if chosen:
            self.why_wanted.emit(chosen[0])

    def _choose(self, keys: tuple[str, ...]) -> None:
        self._keys = keys
        self._show()
        self.chosen.emit(self.shown_as_one())

    def shown_as_one(self) -> Finding | None:
        """What is chosen as it is shown on the sheet, several findings as one; None where nothing is chosen."""
        chosen = self._chosen()
        return _as_one(chosen) if chosen else None

    def _chosen(self) -> list[Finding]:
        """The findings that are chosen, in the order of the list."""
        return [finding for key in self._keys if (finding := self.findings.by_key(key)) is not None]

    # -- the chosen findings ----------------------------------------------------------------

    def _show(self) -> None:
        """Show the rule and the mends of what is chosen."""
        chosen = self._chosen()
        self._clear_fixes()
        self.rule.setText(self._rule_words(chosen[0]) if chosen else "")
        self.rule.setVisible(bool(chosen))
        waived = bool(chosen) and all(finding.waived for finding in chosen)
        self.reason.setVisible(bool(chosen) and not waived)
        self.aside.setVisible(bool(chosen))
        self.aside.setText(say("Bring back") if waived else say("Accept"))
        if waived:
            return
        if len(chosen) == 1:
            self._show_fixes(chosen[0])
        elif chosen:
            self._show_group_mends(chosen)

    def _clear_fixes(self) -> None:
        while (item := self.fixes.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _show_fixes(self, finding: Finding) -> None:
        if not self.findings.request_fixes(finding):
            self.fixes.addWidget(self._second_line(say("Looking for places with more sun …")))
            return
        for number, fix in enumerate(finding.fixes):
            button = WrappedButton(fix.text)
            button.setToolTip(plain_tip(fix.gain))
            button.clicked.connect(lambda _checked=False, n=number: self._apply_fix(n))
            self.fixes.addWidget(button)
            if fix.gain:
                gain = self._second_line(fix.gain)
                gain.setWordWrap(True)
                self.fixes.addWidget(gain)
            if fix.why:
                why = self._second_line(
                    say("Nothing else that was tried would do: {reason}.", reason=fix.why)
                )
                why.setWordWrap(True)
                self.fixes.addWidget(why)
        if not finding.fixes:
            self.fixes.addWidget(self._second_line(say("No edit that was tried mends this.")))

    def _show_group_mends(self, chosen: list[Finding]) -> None:
        """Show what mends several findings in one step; of very many only when asked, since trying takes seconds."""
        from planner.checks.grouping import group_mends

        if len(chosen) > AT_ONCE and self._asked_for != self._keys:
            words = say("Look for what mends these {count} at once", count=len(chosen))
            button = WrappedButton(words)
            button.clicked.connect(self._ask_for_group_mends)
            self.fixes.addWidget(button)
            return
        self._group_mends = group_mends(self.document.plan, chosen, self.findings.run)
        for number, mend in enumerate(self._group_mends):
            button = WrappedButton(mend.text)
            button.clicked.connect(lambda _checked=False, n=number: self._apply_group_mend(n))
            self.fixes.addWidget(button)
        if not self._group_mends:
            none = say("No one edit mends several of them; open the line and take them one by one.")
            line = self._second_line(none)
            line.setWordWrap(True)
            self.fixes.addWidget(line)

    def _ask_for_group_mends(self) -> None:
        self._asked_for = self._keys
        self._show()

    def _apply_group_mend(self, number: int) -> None:
        if number < len(self._group_mends):
            mend = self._group_mends[number]
            if self.document.edit(mend.text, mend.apply):
                self.said.emit(say("Done: {mend}", mend=mend.text))

    def _second_line(self, text: str) -> QLabel:
        label = QLabel(text)
        label.setProperty("second", True)
        return label

    def _on_fixes_known(self, key: str) -> None:
        if self._keys == (key,):
            self._show()

    def _apply_fix(self, number: int) -> None:
        chosen = self._chosen()
        if len(chosen) != 1 or not chosen[0].fixes_cached or number >= len(chosen[0].fixes):
            return
        finding = chosen[0]
        fix = finding.fixes[number]
        if self.document.edit(fix.text, fix.apply):
            self.said.emit(say("Done: {mend}", mend=fix.text))

    def _waive_or_reopen(self) -> None:
        chosen = self._chosen()
        if not chosen:
            return
        if all(finding.waived for finding in chosen):
            self._edit_each(chosen, say("Bring a finding back"), lambda g, key: edits.unwaive(g, key))
            return
        reason = self.reason.text().strip()
        if not reason:
            self.said.emit(say("Say why it may stay, then accept it"))
            self.reason.setFocus()
            return
        left = [finding for finding in chosen if not finding.waived]
        if self._edit_each(left, say("Accept a finding"), lambda g, key: edits.waive(g, key, reason)):
            self.reason.clear()

    def _edit_each(self, findings: list[Finding], words: str, edit: Callable[[Garden, str], Garden]) -> bool:
        """Do an edit for each of some findings, as one step."""

        def change(garden: Garden) -> Garden:
            for finding in findings:
                garden = edit(garden, finding.key)
            return garden

        if len(findings) > 1:
            words = say_count("{edit}, {count} time", "{edit}, {count} times", len(findings), edit=words)
        return self.document.edit(words, change)


def _as_one(findings: list[Finding]) -> Finding:
    """Findings of one kind as one, to be shown on the sheet: the first, about the things and places of all."""
    first = findings[0]
    if len(findings) == 1:
        return first
    return replace(
        first,
        plantings=tuple(dict.fromkeys(key for one in findings for key in one.plantings)),
        beds=tuple(dict.fromkeys(key for one in findings for key in one.beds)),
        place=shapely.union_all([one.place for one in findings]),
    )
