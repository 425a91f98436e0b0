"""What may be taken of another garden's own crops and varieties, and what a table of varieties holds."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from planner.crops import Catalogue
from planner.desk.model.phrases import with_variety
from planner.desk.pages.figure_model import own_figure_words
from planner.desk.pages.import_preview import ImportPreview
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.garden import Garden, OwnFigure, OwnWord
from planner.garden.own_catalogue import own_catalogue
from planner.garden.site import UnitSystem
from planner.importing import variety_table
from planner.listings.figure_words import field_words
from planner.words import join_list, say, say_count, uncapital

_KEY = Qt.ItemDataRole.UserRole


class TakeDialog(QDialog):
    """Own crops and varieties of another garden, each with a box to tick."""

    def __init__(self, parent: QWidget, other: Garden, garden: Garden, catalogue: Catalogue) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(say("Take from a garden"))
        self.resize(520, 420)
        self.list = QListWidget()
        self.list.setAccessibleName(say("Own crops and varieties of the other garden"))
        names = own_catalogue(catalogue, other.with_(site=garden.site))  # named as in this garden
        crops, known = (
            {own.key for own in garden.crops},
            {(v.crop, v.name.casefold()) for v in garden.varieties},
        )
        for crop in other.crops:
            words = say("{crop} (own crop)", crop=crop.name)
            self._add(words, ("crop", crop.key), here=crop.key in crops)
        for own in other.varieties:
            words = with_variety(names.name_of(own.crop), own.name)
            self._add(words, ("variety", own.id), here=(own.crop, own.name.casefold()) in known)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        take = buttons.button(QDialogButtonBox.StandardButton.Ok)
        take.setText(say("Take over"))
        take.setEnabled(any(self.chosen()))
        self.list.itemChanged.connect(lambda _item: take.setEnabled(any(self.chosen())))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        label = QLabel(say("Those that are ticked come into this garden, with the sources that they name."))
        label.setWordWrap(True)
        column.addWidget(label)
        column.addWidget(self.list, 1)
        column.addWidget(buttons)

    def _add(self, words: str, key: tuple[str, str], *, here: bool) -> None:
        """Add a line; what the garden has already cannot be ticked."""
        item = QListWidgetItem(say("{name}: in this garden already", name=words) if here else words)
        item.setData(_KEY, key)
        if here:
            item.setFlags(Qt.ItemFlag.NoItemFlags)
        else:
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Checked)
        self.list.addItem(item)

    def chosen(self) -> tuple[list[str], list[str]]:
        """Keys of the crops and ids of the varieties that are ticked."""
        items = [self.list.item(row) for row in range(self.list.count())]
        keys = [
            tuple(item.data(_KEY))
            for item in items
            if item.flags() & Qt.ItemFlag.ItemIsUserCheckable and item.checkState() == Qt.CheckState.Checked
        ]
        return [key for kind, key in keys if kind == "crop"], [key for kind, key in keys if kind == "variety"]


class TableDialog(ImportPreview):
    """What a table of varieties would bring, row by row, and what of it cannot be read."""

    def __init__(
        self, parent: QWidget, found: variety_table.Preview, catalogue: Catalogue, units: UnitSystem
    ) -> None:
        super().__init__(parent, say("Import a table of varieties"), say("Rows of the table"))
        good, bad = len(found.good), len(found.rows) - len(found.good)
        lines = [say_count("{count} row can be taken over.", "{count} rows can be taken over.", good)]
        if bad:
            lines.append(say_count("{count} row cannot.", "{count} rows cannot.", bad))
        if found.passed_over:
            lines.append(say("Columns passed over: {columns}.", columns=join_list(list(found.passed_over))))
        self.show_file(
            " ".join(lines),
            (row_words(row, catalogue, units) for row in found.rows),
            say_count("Import {count} variety", "Import {count} varieties", found.number),
            can_be_taken=bool(good),
        )


def row_words(row: variety_table.Row, catalogue: Catalogue, units: UnitSystem) -> str:
    """What a row would become, or what is wrong with it."""
    if row.fields is None:
        return say("✗ line {line}: {fault}. {mend}.", line=row.line, fault=row.error, mend=row.mend)
    name = with_variety(catalogue.name_of(row.fields["crop"]), row.fields["name"])
    told = [_told(own, units) for own in (*row.fields["figures"], *row.fields["words"])]
    words = say(
        "✓ line {line}: {name}: {figures}",
        line=row.line,
        name=name,
        figures="; ".join(told) or say("no figures"),
    )
    return say("{row} ({notes})", row=words, notes="; ".join(row.notes)) if row.notes else words


def _told(own: OwnFigure | OwnWord, units: UnitSystem) -> str:
    """A figure or word of a row, with its field, so that a wrong unit is seen."""
    value = own_figure_words(own, units) if isinstance(own, OwnFigure) else ", ".join(own.words)
    return say("{field} {value}", field=uncapital(field_words(own.field)), value=value)
