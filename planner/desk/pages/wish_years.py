"""The growing year whose wishes are shown and met: one for the pages of wishes and of the proposed layout."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from planner.desk.forms.fields import ChoiceField
from planner.desk.model.document import Document
from planner.words import say


class WishYear(QObject):
    """The year that is chosen on either page; else the one shown on the plan where it has wishes, else the next one.

    Another year on the plan ends the choice.

    Signals
    -------
    changed
        Another year is chosen, or none.

    Attributes
    ----------
    is_held : callable
        Whether the choice stays even so: while a layout of it is searched for.
    """

    changed = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.is_held: Callable[[], bool] = lambda: False
        self._chosen: int | None = None
        document.year_changed.connect(self._follow)
        document.opened.connect(self._forget)

    @property
    def year(self) -> int:
        """The year whose wishes are shown."""
        if self._chosen is not None:
            return self._chosen
        now = self.document.year
        return now if any(one.year == now for one in self.document.garden.wishes) else now + 1

    def choose(self, year: object) -> None:
        """Show another year."""
        if self._chosen != int(str(year)):
            self._chosen = int(str(year))
            self.changed.emit()

    def _follow(self) -> None:
        if not self.is_held() and self.document.year != self._chosen:
            self._forget()

    def _forget(self) -> None:
        self._chosen = None
        self.changed.emit()

    def offer(self, field: ChoiceField) -> None:
        """Offer the year shown on the plan, the next one, and the one that is chosen, in words that say which is which.

        Parameters
        ----------
        field : ChoiceField
        """
        now = self.document.year
        words = {
            year: say("{year} (shown)", year=str(year))
            if year == now
            else say("{year} (next)", year=str(year))
            if year == now + 1
            else str(year)
            for year in sorted({now, now + 1, self.year})
        }
        if [field.itemText(number) for number in range(field.count())] != list(words.values()):
            field.offer(list(words.items()))
        field.show_value(self.year)
