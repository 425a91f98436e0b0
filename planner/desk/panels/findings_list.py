"""The list of findings: under titles, those of one kind in one line that opens."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem, QTreeWidgetItemIterator
from typing_extensions import override

from planner.desk.forms.wrapped import WrappedItems
from planner.desk.theme.palette import letters
from planner.desk.theme.plain_tips import plain_tip
from planner.words import capital, join_list, say

if TYPE_CHECKING:
    from planner.checks import Finding
    from planner.checks.grouping import FindingGroup

_KEY = Qt.ItemDataRole.UserRole
_KEYS = Qt.ItemDataRole.UserRole + 1
_TEXT = Qt.ItemDataRole.UserRole + 2
_WAIVED = Qt.ItemDataRole.UserRole + 3
#: Lines of more findings than this are filled when they are opened.
FILLED_AT_ONCE = 40
_SIGNS = {"stop": "■", "mind": "▲", "note": "●"}


class FindingsList(QTreeWidget):
    """Findings by title; one or several of them may be chosen, or a line that stands for several.

    Signals
    -------
    keys_chosen : object
        Keys of the findings that are chosen, as a tuple.
    why_wanted
        The rule of what is chosen is to be explained.
    """

    keys_chosen = Signal(object)
    why_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(say("List of findings"))
        self.setHeaderHidden(True)
        self.setIndentation(14)
        self.setRootIsDecorated(False)
        self.setWordWrap(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self._delegate = WrappedItems(self)
        self.setItemDelegate(self._delegate)
        self._filling = False
        self._open: set[str] = set()
        self._closed: dict[int, tuple[QTreeWidgetItem, FindingGroup, Callable[[Finding], str]]] = {}
        self.itemExpanded.connect(lambda item: self._keep_open(item, True))
        self.itemCollapsed.connect(lambda item: self._keep_open(item, False))
        self.itemSelectionChanged.connect(self._on_selection)
        self.why = QAction(say("Why this rule"), self)
        self.why.triggered.connect(self.why_wanted)
        self.why.setEnabled(False)
        self.addAction(self.why)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def show_groups(
        self,
        titled: Iterable[tuple[str, Sequence[FindingGroup]]],
        chosen: Sequence[str],
        rule: Callable[[Finding], str],
        empty: str,
    ) -> None:
        """Show findings; those that were chosen stay chosen.

        Parameters
        ----------
        titled : iterable of (str, sequence of FindingGroup)
        chosen : sequence of str
            Keys.
        rule : callable
            The rule of a finding with its source, for its tool tip.
        empty : str
            Shown where there are no findings.
        """
        self._filling = True
        self._closed.clear()
        self.clear()
        for title, groups in titled:
            head = QTreeWidgetItem([title])
            head.setFont(0, letters(9, bold=True))
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            self.addTopLevelItem(head)
            for group in groups:
                self._add_group(head, group, chosen, rule)
            head.setExpanded(True)
        if not self.topLevelItemCount():
            self.addTopLevelItem(QTreeWidgetItem([empty]))
        self._filling = False

    def _add_group(
        self,
        head: QTreeWidgetItem,
        group: FindingGroup,
        chosen: Sequence[str],
        rule: Callable[[Finding], str],
    ) -> None:
        wanted = set(chosen)
        if group.single:
            item = self._item(group.findings[0], rule)
            head.addChild(item)
            item.setSelected(group.findings[0].key in wanted)
            return
        keys = tuple(one.key for one in group.findings)
        words = f"{_SIGNS[group.severity]} {group.text}"
        if group.about:
            words += f"\n{capital(join_list(group.about))}"
        line = QTreeWidgetItem([words])
        line.setData(0, _KEYS, keys)
        line.setData(0, _TEXT, group.text)
        line.setToolTip(0, plain_tip(rule(group.findings[0])))
        head.addChild(line)
        line.setSelected(len(wanted) > 1 and wanted == set(keys))
        opened = group.text in self._open or (any(key in wanted for key in keys) and not line.isSelected())
        self._closed[id(line)] = line, group, rule
        line.setChildIndicatorPolicy(QTreeWidgetItem.ChildIndicatorPolicy.ShowIndicator)
        if opened or len(keys) <= FILLED_AT_ONCE:
            for item in self._fill(line):
                item.setSelected(item.data(0, _KEY) in wanted and not line.isSelected())
        line.setExpanded(opened)

    def _fill(self, line: QTreeWidgetItem) -> list[QTreeWidgetItem]:
        """Put the findings of a line below it, where they are not yet: most lines are never opened."""
        _, group, rule = self._closed.pop(id(line), (None, None, None))
        if group is None or rule is None:
            return []
        items = [self._item(one, rule) for one in group.findings]
        line.addChildren(items)
        return items

    def _item(self, finding: Finding, rule: Callable[[Finding], str]) -> QTreeWidgetItem:
        item = QTreeWidgetItem([f"{_SIGNS[finding.severity]} {finding.text}"])
        item.setData(0, _KEY, finding.key)
        item.setToolTip(0, plain_tip(rule(finding)))
        if finding.waived:
            item.setData(0, _WAIVED, True)
            item.setForeground(0, self.palette().placeholderText())
            item.setText(0, f"{item.text(0)} – {finding.waived}")
        return item

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            items = QTreeWidgetItemIterator(self)
            while (item := items.value()) is not None:
                if item.data(0, _WAIVED):
                    item.setForeground(0, self.palette().placeholderText())
                items += 1

    def _keep_open(self, item: QTreeWidgetItem, is_open: bool) -> None:
        """Fill a line that is opened, and remember which are open: the list is filled anew after each edit."""
        if is_open and not self._filling:
            self._fill(item)
        if item.data(0, _KEYS) and not self._filling:
            (self._open.add if is_open else self._open.discard)(item.data(0, _TEXT))

    def _on_selection(self) -> None:
        if self._filling:
            return
        keys: list[str] = []
        for item in self.selectedItems():
            several = item.data(0, _KEYS)
            keys += several if several else [key] if (key := item.data(0, _KEY)) else []
        self.why.setEnabled(bool(keys))
        self.keys_chosen.emit(tuple(dict.fromkeys(keys)))
