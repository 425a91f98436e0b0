"""The crops as a list model: each with what one chooses by, filtered and ranked by typed words."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
)
from typing_extensions import override

from planner.crops import Crop
from planner.crops.families import family_title
from planner.crops.search import rank
from planner.desk.model.crop_drag import CROP_MIME, put_crop
from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.garden import Variety
from planner.garden.units import show_spacing, show_spacings
from planner.words import say, say_count

Index = QModelIndex | QPersistentModelIndex

CROP_ROLE = Qt.ItemDataRole.UserRole
VARIETY_ROLE = Qt.ItemDataRole.UserRole + 1
#: What one chooses a crop by: spacing, days, sun, whether seed is in stock.
SUMMARY_ROLE = Qt.ItemDataRole.UserRole + 2


class CropModel(QAbstractListModel):
    """All crops by name, each followed by the garden's own varieties of it.

    Attributes
    ----------
    rows : list of (Crop, str)
        Crop and variety of each row; the variety is empty for the crop itself.
    """

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._own: tuple[Variety, ...] = ()
        self._catalogue = document.catalogue
        self.rows: list[tuple[Crop, str]] = []
        self._summarised = (document.garden.site.units, document.garden.stock)
        self._fill()
        document.garden_settled.connect(self._follow)

    def _fill(self) -> None:
        self._own, self._catalogue = self.document.garden.varieties, self.document.catalogue
        own: dict[str, list[str]] = {}
        for variety in self._own:
            own.setdefault(variety.crop, []).append(variety.name)
        self.rows = []
        for crop in crops_by_name(self.document.catalogue):
            self.rows.append((crop, ""))
            self.rows += [(crop, name) for name in sorted(own.get(crop.key, ()))]

    def _follow(self) -> None:
        garden = self.document.garden
        summarised = (garden.site.units, garden.stock)
        if summarised != self._summarised:
            self._summarised = summarised
            self.dataChanged.emit(self.index(0), self.index(len(self.rows) - 1))
        own = garden.varieties
        same = len(own) == len(self._own) and all(a is b for a, b in zip(own, self._own, strict=True))
        if not same or self.document.catalogue is not self._catalogue:
            self.beginResetModel()
            self._fill()
            self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        crop, variety = self.rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return with_variety(crop_title(crop), variety)
        if role == CROP_ROLE:
            return crop
        if role == VARIETY_ROLE:
            return variety
        if role == SUMMARY_ROLE:
            return self._summary(crop, variety)
        if role == Qt.ItemDataRole.ToolTipRole:
            return _tool_tip(crop)
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return f"{self._summary(crop, variety)}; {crop.latin}, {family_title(crop.family)}"
        return None

    def _summary(self, crop: Crop, variety: str) -> str:
        """Spacing, days, sun, and whether seed is in stock; the variety's own figures come first."""
        own = next((v for v in self._own if v.crop == crop.key and v.name == variety), None)

        def number(field: str) -> float | None:
            value = own.number(field) if own is not None else None
            return value if value is not None else crop.number(field)

        units = self.document.garden.site.units
        parts = []
        in_row, between = number("in_row_spacing"), number("row_spacing")
        if in_row and between:
            parts.append(show_spacings(in_row, between, units))
        elif in_row:
            parts.append(show_spacing(in_row, units))
        if days := number("days_to_maturity"):
            parts.append(say_count("{count} day", "{count} days", round(days)))
        if hours := number("sun_hours"):
            parts.append(say("sun {hours} h", hours=f"{hours:.0f}"))
        if any(lot.crop == crop.key for lot in self.document.garden.stock):
            parts.append(say("in stock"))
        return " · ".join(parts)

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        base = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return base | Qt.ItemFlag.ItemIsDragEnabled if index.isValid() else Qt.ItemFlag.NoItemFlags

    @override
    def mimeTypes(self) -> list[str]:
        return [CROP_MIME, "text/plain"]

    @override
    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        data = QMimeData()
        if indexes:
            crop, variety = self.rows[indexes[0].row()]
            put_crop(data, crop, variety)
            data.setText(crop_title(crop))
        return data


def _tool_tip(crop: Crop) -> str:
    lines = [f"{crop_title(crop)} ({crop.latin}; {family_title(crop.family)})"]
    if crop.also:
        lines.append(say("Also called {names}", names=", ".join(crop.also)))
    return "\n".join([*lines, say("Drag it onto a bed, or press Enter")])


class CropFilter(QSortFilterProxyModel):
    """Lets through the crops that typed words fit, the best first."""

    def __init__(self, model: CropModel) -> None:
        super().__init__()
        self._model = model
        self._ranks: dict[str, int] | None = None
        self._words = ""
        self.setSourceModel(model)
        self.sort(0)

    def look_for(self, words: str) -> None:
        """Show only what fits some words; everything for none."""
        found = rank(self._model.document.catalogue, words) if words.strip() else None
        self._ranks = {key: place for place, key in enumerate(found)} if found is not None else None
        self._words = words.strip().casefold()
        self.invalidate()
        self.sort(0)

    @override
    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        if self._ranks is None:
            return True
        crop, variety = self._model.rows[row]
        return crop.key in self._ranks or bool(variety and self._words in variety.casefold())

    @override
    def lessThan(self, left: Index, right: Index) -> bool:
        if self._ranks is None:
            return left.row() < right.row()
        rows, last = self._model.rows, len(self._ranks)
        before = (self._ranks.get(rows[left.row()][0].key, last), left.row())
        return before < (self._ranks.get(rows[right.row()][0].key, last), right.row())
