"""Own varieties: chosen, named, and given the figures in which they differ from their crop."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import NotesField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.crop_names import crop_title
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.desk.pages.figure_model import FigureModel
from planner.desk.pages.tables import CropChoice, plain_table
from planner.garden import Garden, Variety, edits
from planner.garden.edits import EditError

#: Widths of the columns but the last. [pixels]
_WIDTHS = (190, 150, 150)


class VarietyEditor(QWidget):
    """Chooses, names and edits the garden's own varieties.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.key = ""
        self.setAccessibleName("Own varieties")
        head, name = self._make_head(), self._make_name()
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setProperty("second", True)
        self.model = FigureModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, "Figures of the variety", whole_rows=False)
        for column, width in enumerate(_WIDTHS):
            self.table.setColumnWidth(column, width)
        self.notes = NotesField("Notes on the variety")
        self.notes.typed.connect(self._note)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 6, 0, 0)
        layout.addLayout(head)
        layout.addLayout(name)
        layout.addWidget(self.words)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.notes)
        document.garden_settled.connect(self.refresh)
        self.refresh()

    def _make_head(self) -> FlowLayout:
        """Choice of the variety, and of the crop of a new one."""
        self.choice = QComboBox()
        self.choice.setAccessibleName("Own variety")
        self.choice.setMinimumWidth(200)
        self.choice.activated.connect(lambda _index: self.show_variety(self.choice.currentData()))
        self.crop = CropChoice(self.document, "Crop of a new variety")
        self.add = QPushButton("New variety of")
        self.add.clicked.connect(lambda: self.new(self.crop.currentData()))
        head = FlowLayout()
        head.addWidget(self.choice)
        head.add_group(self.add, self.crop)
        return head

    def _make_name(self) -> QHBoxLayout:
        self.name = QLineEdit()
        self.name.setAccessibleName("Name of the variety")
        self.name.editingFinished.connect(self._rename)
        self.remove = QPushButton("Remove")
        self.remove.clicked.connect(self._remove)
        line = QHBoxLayout()
        line.addWidget(QLabel("Name"))
        line.addWidget(self.name, 1)
        line.addWidget(self.remove)
        return line

    @property
    def variety(self) -> Variety | None:
        """The variety shown."""
        return next((own for own in self.document.garden.varieties if own.id == self.key), None)

    def show_variety(self, key: str) -> None:
        """Show another variety by its id."""
        self.key = key
        self.refresh()

    def new(self, crop: str) -> None:
        """Begin a variety of a crop; it starts with the crop's figures."""
        made: list[str] = []
        taken = [own.name for own in self.document.garden.varieties if own.crop == crop]
        name = edits.fresh_name(taken, "New variety")

        def change(garden: Garden) -> Garden:
            garden, key = edits.put_variety(garden, crop=crop, name=name)
            made.append(key)
            return garden

        if self.document.edit(f"Add a variety of {crop}", change):
            self.show_variety(made[0])
            self.name.setFocus()
            self.name.selectAll()

    def _rename(self) -> None:
        variety, text = self.variety, self.name.text().strip()
        if variety is None or not text or text == variety.name:
            if variety is not None:
                self.name.setText(variety.name)
            return
        try:
            new = edits.put_variety(self.document.stable, variety.id, name=text)[0]
        except EditError as error:
            self.wrong.emit(str(error))
            self.name.setText(variety.name)
            return
        self.document.commit(f"Rename {variety.name}", new)

    def _note(self, text: str) -> None:
        variety = self.variety
        if variety is not None:
            self.document.edit(
                f"Note on {variety.name}", lambda g: edits.put_variety(g, variety.id, notes=text)[0]
            )

    def _remove(self) -> None:
        variety = self.variety
        if variety is not None:
            self.document.edit(f"Remove {variety.name}", lambda garden: edits.remove_part(garden, variety.id))

    def refresh(self) -> None:
        """Show the varieties and the chosen one as they are now."""
        garden = self.document.garden
        if self.variety is None:
            self.key = garden.varieties[0].id if garden.varieties else ""
        self.choice.clear()
        for own in garden.varieties:
            crop = self.document.catalogue.get(own.crop)
            self.choice.addItem(with_variety(crop_title(crop) if crop else own.crop, own.name), own.id)
        self.choice.setCurrentIndex(max(0, self.choice.findData(self.key)))
        variety = self.variety
        for widget in (self.choice, self.name, self.remove, self.table, self.notes):
            widget.setEnabled(variety is not None)
        crop = self.document.catalogue.get(variety.crop) if variety is not None else None
        self.model.show_variety(crop, variety)
        if not self.name.hasFocus() or variety is None or not self.name.isModified():
            self.name.setText(variety.name if variety else "")
        self.notes.show_value(variety.notes if variety else "")
        if variety is None:
            self.words.setText(
                "A variety of your own begins with its crop's figures; type only what differs."
            )
        else:
            used = sum(garden.own_variety(p) is variety for p in garden.plantings)
            self.words.setText(
                f"Used by {used} plantings of all years. An empty figure is the crop's; hover over it for its source."
            )
