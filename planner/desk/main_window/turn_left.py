"""What a growing year leaves to the next one, as a page of the turn's dialog."""

from __future__ import annotations

from PySide6.QtWidgets import QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget

from planner.desk.forms.wrapped import WrappedItems
from planner.desk.main_window.turn_parts import turn_table
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.turn_tables import SeedModel
from planner.desk.theme.palette import letters
from planner.listings.turn import crop_in_bed, lesson_words, seed_parts, standing_parts
from planner.plan import Plan
from planner.proposal.turn import Turn
from planner.words import capital, say

_SEED_WIDTHS = (260, 120)
#: Height of the table of own seed. [pixels]
_SEED_HEIGHT = 110


class LeftPage(QWidget):
    """What stays, what is at the end of its years, seed that was used and saved, and lessons.

    Parameters
    ----------
    seed : SeedModel
        Own seed, whose grams are typed here.

    Attributes
    ----------
    lines : QTreeWidget
    seed_table : PlainTable
    """

    def __init__(self, seed: SeedModel) -> None:
        super().__init__()
        self._seed = seed
        self._parts: tuple[tuple[str, list[str]], ...] = ()
        self.lines = QTreeWidget()
        self.lines.setAccessibleName(say("What the year leaves"))
        self.lines.setHeaderHidden(True)
        self.lines.setRootIsDecorated(False)
        self.lines.setWordWrap(True)
        self.lines.setIndentation(12)
        self._items = WrappedItems(self.lines)
        self.lines.setItemDelegate(self._items)
        self.seed_table = turn_table(seed, say("Own seed"), _SEED_WIDTHS)
        self.seed_table.setMaximumHeight(_SEED_HEIGHT)
        self.seed_hint = wrapped_label(second=True)
        self.seed_hint.setText(
            say("Own seed becomes packets in the stock; type how many grams of it there are.")
        )
        column = QVBoxLayout(self)
        column.addWidget(self.lines, 1)
        column.addWidget(self.seed_hint)
        column.addWidget(self.seed_table)

    def show_turn(self, plan: Plan, turn: Turn) -> None:
        """Show what the year of a plan leaves, whatever is repeated.

        Parameters
        ----------
        plan : Plan
            Of the growing year that ends.
        turn : Turn
        """
        self._seed.show_seed(plan, turn.saved)
        for widget in (self.seed_hint, self.seed_table):
            widget.setVisible(bool(turn.saved))
        parts = (
            *standing_parts(plan, turn, crop_in_bed),
            *seed_parts(plan, turn),
            (say("Lessons"), [lesson_words(plan, one) for one in turn.lessons]),
        )
        if parts == self._parts:
            return  # it may be scrolled
        self._parts = parts
        self.lines.clear()
        for head, found in parts:
            if found:
                item = QTreeWidgetItem([head])
                item.setFont(0, letters(10, bold=True))
                item.addChildren([QTreeWidgetItem([capital(line)]) for line in found])
                self.lines.addTopLevelItem(item)
                item.setExpanded(True)
        if not self.lines.topLevelItemCount():
            self.lines.addTopLevelItem(
                QTreeWidgetItem([say("Nothing stays or stands on, and no seed was used.")])
            )
