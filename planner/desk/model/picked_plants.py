"""Single plants that are picked on the sheet, of one planting of single places."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from planner.desk.model.document import Document
from planner.garden import Places


class PickedPlants(QObject):
    """Which plants of the one selected planting are picked; none where another thing is selected.

    Attributes
    ----------
    key : str
        Id of the planting.
    indices : frozenset of int
        Of its places.

    Signals
    -------
    changed
    """

    changed = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.key, self.indices = "", frozenset[int]()
        document.selection_changed.connect(self._follow)
        document.garden_changed.connect(self._follow)

    @property
    def count(self) -> int:
        """Number of plants of the selected planting that can be picked."""
        places = self._places()
        return len(places.points) if places is not None else 0

    def _places(self) -> Places | None:
        selection = self._document.selection
        planting = self._document.garden.plantings_by_id.get(selection[0]) if len(selection) == 1 else None
        arrangement = planting.arrangement if planting is not None else None
        return arrangement if isinstance(arrangement, Places) else None

    def pick(self, indices: Iterable[int]) -> None:
        """Pick some plants of the selected planting."""
        count = self.count
        self.key = self._document.selection[0] if count else ""
        self.indices = frozenset(index for index in indices if 0 <= index < count)
        self.changed.emit()

    def _follow(self) -> None:
        if not self.indices:
            return
        if self._document.selection != (self.key,):
            self.pick(())
        elif any(index >= self.count for index in self.indices):
            self.pick(self.indices)
