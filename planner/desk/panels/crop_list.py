"""The crops at the left: a searchable list to drag from."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRect,
    QSize,
    QSortFilterProxyModel,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QLineEdit,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.crops import Catalogue, Crop
from planner.crops.search import rank
from planner.desk.model.crop_drag import CROP_MIME, put_crop
from planner.desk.model.document import Document
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import LookSwitch, letters
from planner.garden import Variety
from planner.garden.units import show_spacing, show_spacings

Index = QModelIndex | QPersistentModelIndex

CROP_ROLE = Qt.ItemDataRole.UserRole
VARIETY_ROLE = Qt.ItemDataRole.UserRole + 1
FACTS_ROLE = Qt.ItemDataRole.UserRole + 2


def name_of(crop: Crop) -> str:
    """A crop's name with a capital letter."""
    return crop.name[0].upper() + crop.name[1:]


def crops_by_name(catalogue: Catalogue) -> list[Crop]:
    """All crops in the order of their names."""
    return sorted(catalogue.crops.values(), key=lambda crop: crop.name.casefold())


class CropModel(QAbstractListModel):
    """All crops by name, each followed by the garden's own varieties of it."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._own: tuple[Variety, ...] = ()
        self.rows: list[tuple[Crop, str]] = []
        self._facts_of = (document.garden.site.units, document.garden.stock)
        self._fill()
        document.garden_settled.connect(self._follow)

    def _fill(self) -> None:
        self._own = self.document.garden.varieties
        own: dict[str, list[str]] = {}
        for variety in self._own:
            own.setdefault(variety.crop, []).append(variety.name)
        self.rows = []
        for crop in crops_by_name(self.document.catalogue):
            self.rows.append((crop, ""))
            self.rows += [(crop, name) for name in sorted(own.get(crop.key, ()))]

    def _follow(self) -> None:
        garden = self.document.garden
        shown = (garden.site.units, garden.stock)
        if shown != self._facts_of:
            self._facts_of = shown
            self.dataChanged.emit(self.index(0), self.index(len(self.rows) - 1))
        own = garden.varieties
        if len(own) != len(self._own) or any(a is not b for a, b in zip(own, self._own, strict=True)):
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
            return f"{name_of(crop)} ‘{variety}’" if variety else name_of(crop)
        if role == CROP_ROLE:
            return crop
        if role == VARIETY_ROLE:
            return variety
        if role == FACTS_ROLE:
            return self._facts(crop, variety)
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._tip(crop)
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return f"{self._facts(crop, variety)}; {crop.latin}, {crop.family}"
        return None

    def _facts(self, crop: Crop, variety: str) -> str:
        """What one chooses by: spacing, sun, days, whether seed is in stock."""
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
        if number("days_to_maturity"):
            parts.append(f"{number('days_to_maturity'):.0f} days")
        if number("sun_hours"):
            parts.append(f"sun {number('sun_hours'):.0f} h")
        if any(lot.crop == crop.key for lot in self.document.garden.stock):
            parts.append("in stock")
        return " · ".join(parts)

    def _tip(self, crop: Crop) -> str:
        also = f"\nAlso called {', '.join(crop.also)}" if crop.also else ""
        return f"{name_of(crop)} ({crop.latin}, {crop.family}){also}\nDrag it onto a bed, or press Enter"

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
            data.setText(name_of(crop))
        return data


class _Filter(QSortFilterProxyModel):
    """Keeps what the words fit, best first."""

    def __init__(self, model: CropModel) -> None:
        super().__init__()
        self.setSourceModel(model)
        self._ranks: dict[str, int] | None = None
        self.sort(0)

    def look_for(self, words: str) -> None:
        """Show only what fits some words; everything for none."""
        model = self.sourceModel()
        crops = model.document.catalogue  # type: ignore[attr-defined]
        self._ranks = {key: place for place, key in enumerate(rank(crops, words))} if words.strip() else None
        self._words = words.strip().casefold()
        self.invalidate()
        self.sort(0)

    @override
    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        if self._ranks is None:
            return True
        crop, variety = self.sourceModel().rows[row]  # type: ignore[attr-defined]
        return crop.key in self._ranks or bool(variety and self._words in variety.casefold())

    @override
    def lessThan(self, left: Index, right: Index) -> bool:
        if self._ranks is None:
            return left.row() < right.row()
        rows = self.sourceModel().rows  # type: ignore[attr-defined]
        last = len(self._ranks)
        a = (self._ranks.get(rows[left.row()][0].key, last), left.row())
        return a < (self._ranks.get(rows[right.row()][0].key, last), right.row())


class _Painter(QStyledItemDelegate):
    """Draws a crop: its mark, its name, what one chooses by."""

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        name, facts = QFontMetricsF(letters(10)), QFontMetricsF(letters(9))
        return QSize(160, round(name.height() + facts.height() + 9))

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        look = self.look.now
        crop: Crop = index.data(CROP_ROLE)
        rect = option.rect
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if chosen:
            painter.fillRect(rect, look.accent)
        indent = 14 if index.data(VARIETY_ROLE) else 0
        ratio = painter.device().devicePixelRatioF()
        picture = crop_picture(crop, 24, look.dark, ratio)
        painter.drawPixmap(QPoint(rect.left() + 7 + indent, rect.center().y() - 12), picture)
        left = rect.left() + 40 + indent
        width = rect.right() - left - 6
        ink = option.palette.highlightedText().color() if chosen else look.panel_ink
        metrics = QFontMetricsF(letters(10))
        painter.setFont(letters(10))
        painter.setPen(ink)
        text = metrics.elidedText(index.data(), Qt.TextElideMode.ElideRight, width)
        painter.drawText(QRect(left, rect.top() + 3, width, round(metrics.height())), 0, text)
        facts = index.data(FACTS_ROLE)
        small = QFontMetricsF(letters(9))
        painter.setFont(letters(9))
        painter.setPen(ink if chosen else look.pencil)
        painter.drawText(
            QRect(left, rect.top() + 3 + round(metrics.height()), width, round(small.height())),
            0,
            small.elidedText(facts, Qt.TextElideMode.ElideRight, width),
        )
        painter.restore()


def crop_picture(crop: Crop, side: int, dark: bool, ratio: float = 1.0) -> QPixmap:
    """A crop's mark on a disc of its family's tint."""
    picture = QPixmap(round(side * ratio), round(side * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    ink = plant_symbols.family_ink(crop.family, dark=dark)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(plant_symbols.colour(ink.line_rgb, 0.7), 1))
    painter.setBrush(plant_symbols.colour(ink.tint_rgb))
    middle = QPoint(side // 2, side // 2)
    painter.drawEllipse(middle, side // 2 - 1, side // 2 - 1)
    plant_symbols.draw_mark(
        painter, middle, crop.growth_form, side / 2 - 3, plant_symbols.colour(ink.line_rgb)
    )
    painter.end()
    return picture


class _List(QListView):
    """The list; Enter takes a crop in hand."""

    taken = Signal()

    @override
    def event(self, event: QEvent) -> bool:
        # A letter goes to the crop that begins with it, not to the tool whose key it is.
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and event.text().strip()
            and event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
        ):
            event.accept()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
            return
        super().keyPressEvent(event)

    @override
    def startDrag(self, actions: Qt.DropAction) -> None:
        from PySide6.QtGui import QDrag

        indexes = self.selectedIndexes()
        if not indexes:
            return
        drag = QDrag(self)
        drag.setMimeData(self.model().mimeData(indexes))
        crop: Crop = indexes[0].data(CROP_ROLE)
        dark = self.palette().window().color().lightnessF() < 0.5
        drag.setPixmap(crop_picture(crop, 26, dark, self.devicePixelRatioF()))
        drag.setHotSpot(QPoint(13, 13))
        drag.exec(Qt.DropAction.CopyAction)


class CropList(QWidget):
    """Search field and list.

    Signals
    -------
    crop_taken : object, str, bool
        Crop, variety, and whether it was taken with the keyboard.
    crop_shown : object
        The crop under the list's cursor changed.
    """

    crop_taken = Signal(object, str, bool)
    crop_shown = Signal(object)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.model = CropModel(document)
        self._filter = _Filter(self.model)
        self.search = QLineEdit()
        self.search.setPlaceholderText("Find a crop")
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName("Find a crop")
        self.search.textChanged.connect(self._look_for)
        self.search.returnPressed.connect(lambda: self.take(by_key=True))
        self.search.installEventFilter(self)
        self.list = _List()
        self.list.setAccessibleName("Crops")
        self.list.setModel(self._filter)
        self._delegate = _Painter(look)
        self.list.setItemDelegate(self._delegate)
        self.list.setUniformItemSizes(True)
        self.list.setDragEnabled(True)
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.doubleClicked.connect(lambda _index: self.take(by_key=False))
        self.list.taken.connect(lambda: self.take(by_key=True))
        self.list.selectionModel().currentChanged.connect(self._shown)
        self.none = QLabel("No crop fits these words.")
        self.none.setWordWrap(True)
        self.none.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.search)
        layout.addWidget(self.none)
        layout.addWidget(self.list)
        look.changed.connect(self.list.viewport().update)

    @override
    def eventFilter(self, watched: object, event: object) -> bool:
        if (
            watched is self.search
            and isinstance(event, QKeyEvent)
            and event.type() == QKeyEvent.Type.KeyPress
        ):
            if event.key() == Qt.Key.Key_Down:
                self.list.setFocus(Qt.FocusReason.TabFocusReason)
                if not self.list.currentIndex().isValid():
                    self.list.setCurrentIndex(self._filter.index(0, 0))
                return True
            if event.key() == Qt.Key.Key_Escape and self.search.text():
                self.search.clear()
                return True
        return super().eventFilter(watched, event)  # type: ignore[arg-type]

    def _look_for(self, words: str) -> None:
        self._filter.look_for(words)
        empty = self._filter.rowCount() == 0
        self.none.setVisible(empty)
        if not empty:
            self.list.setCurrentIndex(self._filter.index(0, 0))
            self.list.scrollToTop()

    def _shown(self, index: QModelIndex, _before: QModelIndex) -> None:
        if index.isValid():
            self.crop_shown.emit(index.data(CROP_ROLE))

    def take(self, *, by_key: bool) -> None:
        index = self.list.currentIndex()
        if not index.isValid() and self._filter.rowCount():
            index = self._filter.index(0, 0)
        if index.isValid():
            self.crop_taken.emit(index.data(CROP_ROLE), index.data(VARIETY_ROLE), by_key)
