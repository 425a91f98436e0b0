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
from planner.desk.model.crop_drag import CROP_MIME, put_crops
from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.desk.panels.crop_facts import (
    FITTING,
    CropChoice,
    CropFacts,
    CropOrder,
    order_words,
    rank_of,
    years_grown,
)
from planner.garden import Garden, Variety
from planner.garden.units import show_spacing, show_spacings
from planner.words import say, say_count

Index = QModelIndex | QPersistentModelIndex

CROP_ROLE = Qt.ItemDataRole.UserRole
VARIETY_ROLE = Qt.ItemDataRole.UserRole + 1
#: What one chooses a crop by: spacing, days, whether seed is in stock.
SUMMARY_ROLE = Qt.ItemDataRole.UserRole + 2
#: Whether the crop is a favourite.
FAVOURITE_ROLE = Qt.ItemDataRole.UserRole + 3
#: Why the crop does not fit; empty where it does, or where that is not asked.
WHY_ROLE = Qt.ItemDataRole.UserRole + 4
#: Hours of sun that it needs, in words; empty where they are not known, or where it is said why it does not fit.
SUN_ROLE = Qt.ItemDataRole.UserRole + 5


class CropModel(QAbstractListModel):
    """All crops by name, each followed by its varieties in the garden: own ones, planted ones, those in stock.

    Attributes
    ----------
    rows : list of (Crop, str)
        Crop and variety of each row; the variety is empty for the crop itself.
    favourites : frozenset of str
        Keys of crops.
    order : str
        What the crops are ordered by, see :data:`planner.desk.panels.crop_facts.ORDERS`.
    facts : CropFacts
        What has been worked out of them.
    tell_fit : bool
        Whether a crop that does not fit says why.
    grown : dict of str to int
        Years in which the garden had each crop.
    """

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._own: tuple[Variety, ...] = ()
        self._named: frozenset[tuple[str, str]] = frozenset()
        self.favourites: frozenset[str] = frozenset()
        self.order: CropOrder = "name"
        self.facts = CropFacts()
        self.tell_fit = False
        self.grown = years_grown(document.garden)
        self._catalogue = document.catalogue
        self.rows: list[tuple[Crop, str]] = []
        self._summarised = (document.garden.site.units, document.garden.stock)
        self._fill()
        document.garden_settled.connect(self._follow)

    def _fill(self) -> None:
        self._own, self._catalogue = self.document.garden.varieties, self.document.catalogue
        self._named = _named_varieties(self.document.garden)
        own: dict[str, list[str]] = {}
        for key, name in self._named:
            own.setdefault(key, []).append(name)
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
        same = same and _named_varieties(garden) == self._named
        self.grown = years_grown(garden)
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
            return self._second_line(crop, variety)
        if role == SUN_ROLE:
            return "" if self.why_not(crop.key) else self._sun(crop, variety)
        if role == FAVOURITE_ROLE:
            return crop.key in self.favourites and not variety
        if role == WHY_ROLE:
            return self.why_not(crop.key)
        if role == Qt.ItemDataRole.ToolTipRole:
            return "\n".join(line for line in (self.why_not(crop.key), _tool_tip(crop)) if line)
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            star = say("favourite; ") if crop.key in self.favourites else ""
            parts = (self._second_line(crop, variety), self._sun(crop, variety))
            figures = " · ".join(part for part in parts if part)
            return f"{star}{figures}; {crop.latin}, {family_title(crop.family)}"
        return None

    def why_not(self, key: str) -> str:
        """Why a crop does not fit; empty where it does, or where that is not asked."""
        fit = self.facts.fits.get(key) if self.tell_fit else None
        return fit.why if fit is not None else ""

    def show(self, facts: CropFacts) -> None:
        """Take over what has been worked out of the crops."""
        self.facts = facts
        self.tell()

    def tell(self) -> None:
        """Every line may read otherwise now."""
        if self.rows:
            self.dataChanged.emit(self.index(0), self.index(len(self.rows) - 1))

    def mark_favourite(self, key: str, marked: bool) -> None:
        """Make a crop a favourite, or no longer."""
        self.favourites = self.favourites | {key} if marked else self.favourites - {key}
        self.tell()

    def is_in_stock(self, key: str) -> bool:
        """Whether the garden has seed or plants of a crop in stock."""
        return any(lot.crop == key for lot in self.document.garden.stock)

    def _second_line(self, crop: Crop, variety: str) -> str:
        """Why it does not fit, else what it is ordered by and what one chooses it by."""
        if why := self.why_not(crop.key):
            return why
        ordered = order_words(self.order, crop.key, self.facts, self.grown)
        summary = self._summary(crop, variety)
        return " · ".join(words for words in (ordered, summary) if words)

    def _number(self, crop: Crop, variety: str, field: str) -> float | None:
        """A figure of a crop; the variety's own one comes first."""
        own = next((v for v in self._own if v.crop == crop.key and v.name == variety), None)
        value = own.number(field) if own is not None else None
        return value if value is not None else crop.number(field)

    def _sun(self, crop: Crop, variety: str) -> str:
        """Hours of sun that it needs; empty where they are not known."""
        hours = self._number(crop, variety, "sun_hours")
        return say("sun {hours} h", hours=f"{hours:.0f}") if hours else ""

    def _summary(self, crop: Crop, variety: str) -> str:
        """Spacing, days, and whether seed is in stock."""
        units = self.document.garden.site.units
        parts = []
        in_row, between = (self._number(crop, variety, name) for name in ("in_row_spacing", "row_spacing"))
        if in_row and between:
            parts.append(show_spacings(in_row, between, units))
        elif in_row:
            parts.append(show_spacing(in_row, units))
        if days := self._number(crop, variety, "days_to_maturity"):
            parts.append(say_count("{count} day", "{count} days", round(days)))
        if self.is_in_stock(crop.key):
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
            crops = [self.rows[index.row()] for index in indexes]
            put_crops(data, crops)
            data.setText("\n".join(crop_title(crop) for crop, _ in crops))
        return data


def _named_varieties(garden: Garden) -> frozenset[tuple[str, str]]:
    """Crop and name of every variety that the garden knows, has planted, or has in stock."""
    own = {(one.crop, one.name) for one in garden.varieties}
    planted = {(one.crop, one.variety) for one in garden.plantings if one.variety}
    return frozenset(own | planted | {(lot.crop, lot.variety) for lot in garden.stock if lot.variety})


def _tool_tip(crop: Crop) -> str:
    lines = [f"{crop_title(crop)} ({crop.latin}; {family_title(crop.family)})"]
    if crop.also:
        lines.append(say("Also called {names}", names=", ".join(crop.also)))
    return "\n".join([*lines, say("Drag it onto a bed, or press Enter")])


class CropFilter(QSortFilterProxyModel):
    """Lets through the crops that typed words and a choice fit, in an order; varieties stay under their crop.

    Crops that do not fit into free ground come after those that do, each with its reason.
    """

    def __init__(self, model: CropModel) -> None:
        super().__init__()
        self._model = model
        self._ranks: dict[str, int] | None = None
        self._words = ""
        self.choice: CropChoice = "all"
        self.setSourceModel(model)
        self.sort(0)

    def look_for(self, words: str) -> None:
        """Show only what fits some words; everything for none."""
        found = rank(self._model.document.catalogue, words) if words.strip() else None
        self._ranks = {key: place for place, key in enumerate(found)} if found is not None else None
        self._words = words.strip().casefold()
        self.arrange()

    def arrange(self) -> None:
        """Filter and order anew."""
        self.invalidate()
        self.sort(0)

    @override
    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        crop, variety = self._model.rows[row]
        if self.choice == "favourites" and crop.key not in self._model.favourites:
            return False
        if self.choice in ("stock", "fits_stock") and not self._model.is_in_stock(crop.key):
            return False
        if self._ranks is None:
            return True
        return crop.key in self._ranks or bool(variety and self._words in variety.casefold())

    @override
    def lessThan(self, left: Index, right: Index) -> bool:
        return self._place(left.row()) < self._place(right.row())

    def _place(self, row: int) -> tuple[object, ...]:
        model = self._model
        key = model.rows[row][0].key
        unfit = self.choice in FITTING and bool(model.why_not(key))
        found = self._ranks.get(key, len(self._ranks)) if self._ranks is not None else 0
        # Crops lie by name: the row keeps varieties under their crop, and orders what is equal.
        return found, unfit, rank_of(model.order, key, model.facts, model.grown), row
