"""Own varieties and own crops: chosen, named, and given what they say of themselves."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from planner.crops import Crop
from planner.desk.forms.fields import NotesField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.crop_names import crop_title
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.desk.pages.figure_model import FigureModel
from planner.desk.pages.own_crop_rows import OwnCropRows
from planner.desk.pages.own_plants_dialogs import TableDialog, TakeDialog
from planner.desk.pages.tables import CropChoice, plain_table, set_widths
from planner.desk.theme.choice_names import name_choice
from planner.errors import BedwrightError
from planner.garden import Garden, OwnCrop, Variety, edits
from planner.garden.edits import EditError
from planner.importing import table_text, variety_table
from planner.plain_file import open_plain
from planner.storage import load
from planner.words import say, say_count

#: Widest choice of a crop beside the buttons that it belongs to. [pixels]
CHOICE_WIDTH = 140
#: Widths of the columns but the last. [pixels]
_WIDTHS = (190, 140, 210, 150)


class OwnPlantsPage(QWidget):
    """Chooses, names and edits the garden's own varieties and crops.

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
        self.setAccessibleName(say("Own varieties and crops"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addLayout(self._make_head())
        layout.addLayout(self._make_name())
        self.about = OwnCropRows(document, self._change_crop)
        layout.addWidget(self.about)
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setProperty("second", True)
        self.model = FigureModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, say("Figures"), whole_rows=False)
        set_widths(self.table, _WIDTHS)
        self.notes = NotesField(say("Notes"))
        self.notes.typed.connect(lambda text: self._put(say("Change a note"), notes=text))
        layout.addWidget(self.words)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.notes)
        document.garden_settled.connect(self.refresh)
        self.refresh()

    def _make_head(self) -> FlowLayout:
        """Choice of the variety or crop, and what makes new ones."""
        self.choice = QComboBox()
        name_choice(self.choice, say("Own variety or crop"))
        self.choice.setMinimumWidth(200)
        self.choice.activated.connect(lambda _index: self.show_own(self.choice.currentData()))
        self.crop = CropChoice(self.document, say("Crop that a new one goes by"))
        self.crop.setMaximumWidth(CHOICE_WIDTH)
        variety, crop = QPushButton(say("New variety of")), QPushButton(say("New crop like"))
        variety.clicked.connect(lambda: self.new(self.crop.currentData()))
        crop.clicked.connect(lambda: self.new_crop(self.crop.currentData()))
        take, table = QPushButton(say("Take from a garden…")), QPushButton(say("Import a table…"))
        take.clicked.connect(self._choose_garden)
        table.clicked.connect(self._choose_table)
        head = FlowLayout()
        head.addWidget(self.choice)
        head.add_group(variety, crop, self.crop)
        for button in (take, table):
            head.addWidget(button)
        return head

    def _make_name(self) -> QHBoxLayout:
        self.name = QLineEdit()
        self.name.setAccessibleName(say("Its name"))
        self.name.editingFinished.connect(self._rename)
        self.remove = QPushButton(say("Remove"))
        self.remove.clicked.connect(self._remove)
        line = QHBoxLayout()
        line.addWidget(QLabel(say("Name")))
        line.addWidget(self.name, 1)
        line.addWidget(self.remove)
        return line

    # -- what is shown ----------------------------------------------------------------------

    @property
    def thing(self) -> Variety | OwnCrop | None:
        """The variety or own crop shown."""
        garden = self.document.garden
        found = next((own for own in garden.varieties if own.id == self.key), None)
        return found or next((own for own in garden.crops if own.key == self.key), None)

    @property
    def variety(self) -> Variety | None:
        """The variety shown; None while an own crop is shown."""
        thing = self.thing
        return thing if isinstance(thing, Variety) else None

    def _goes_by(self, thing: Variety | OwnCrop | None) -> Crop | None:
        """The crop whose figures stand beside its own."""
        if thing is None:
            return None
        return self.document.catalogue.get(thing.crop if isinstance(thing, Variety) else thing.like)

    def show_own(self, key: str) -> None:
        """Show another variety, by its id, or own crop, by its key."""
        self.key = key
        self.refresh()

    def refresh(self) -> None:
        """Show the varieties and crops, and the chosen one, as they are now."""
        garden = self.document.garden
        if self.thing is None:
            keys = [*(own.key for own in garden.crops), *(own.id for own in garden.varieties)]
            self.key = keys[0] if keys else ""
        self.choice.clear()
        for crop in garden.crops:
            self.choice.addItem(say("{crop} (own crop)", crop=crop.name), crop.key)
        for own in garden.varieties:
            known = self.document.catalogue.get(own.crop)
            self.choice.addItem(with_variety(crop_title(known) if known else own.crop, own.name), own.id)
        self.choice.setCurrentIndex(max(0, self.choice.findData(self.key)))
        thing = self.thing
        for widget in (self.choice, self.name, self.remove, self.table, self.notes):
            widget.setEnabled(thing is not None)
        self.about.setVisible(isinstance(thing, OwnCrop))
        if isinstance(thing, OwnCrop):
            self.about.show_crop(thing)
        self.model.show_thing(self._goes_by(thing), thing)
        if not self.name.hasFocus() or thing is None or not self.name.isModified():
            self.name.setText(thing.name if thing else "")
        self.notes.show_value(thing.notes if thing else "")
        self.words.setText(self._words(thing))

    def _words(self, thing: Variety | OwnCrop | None) -> str:
        if thing is None:
            return say(
                "A variety of your own begins with its crop's figures, an own crop with those of one it is like; type only "
                "what differs, as 45 or 40 to 50."
            )
        plantings = self.document.garden.plantings
        if isinstance(thing, Variety):
            used = sum(self.document.garden.own_variety(one) is thing for one in plantings)
        else:
            used = sum(one.crop == thing.key for one in plantings)
        return say_count(
            "Used by {count} planting of all years. An empty figure is the crop's; hover over it for its source.",
            "Used by {count} plantings of all years. An empty figure is the crop's; hover over it for its source.",
            used,
        )

    # -- changes ----------------------------------------------------------------------------

    def new(self, crop: str) -> None:
        """Begin a variety of a crop; it starts with the crop's figures."""
        taken = [own.name for own in self.document.garden.varieties if own.crop == crop]
        name = edits.fresh_name(taken, say("New variety"))
        self._add(
            say("Add a variety of {crop}", crop=self.document.catalogue.name_of(crop)),
            lambda garden: edits.put_variety(garden, crop=crop, name=name),
        )

    def new_crop(self, like: str) -> None:
        """Begin a crop of one's own; it starts with the figures of another."""
        other = self.document.catalogue.get(like)
        about: dict[str, Any] = {}
        if other is not None:
            about = {name: getattr(other, name) for name in ("latin", "family", "life_cycle", "growth_form")}
        name = edits.fresh_name([own.name for own in self.document.garden.crops], say("New crop"))
        self._add(say("Add a crop"), lambda garden: edits.put_crop(garden, name=name, like=like, **about))

    def _add(self, words: str, make: Any) -> None:
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, key = make(garden)
            made.append(key)
            return garden

        if self.document.edit(words, change):
            self.show_own(made[-1])
            self.name.setFocus()
            self.name.selectAll()

    def _put(self, words: str, **fields: Any) -> bool:
        thing = self.thing
        if thing is None:
            return False
        return self.document.edit(words, lambda garden: _changed(garden, thing, fields))

    def _change_crop(self, **fields: Any) -> None:
        self._put(say("Change an own crop"), **fields)

    def _rename(self) -> None:
        thing, text = self.thing, self.name.text().strip()
        if thing is None or not text or text == thing.name:
            if thing is not None:
                self.name.setText(thing.name)
            return
        try:
            new = _changed(self.document.stable, thing, {"name": text})
        except EditError as error:
            self.wrong.emit(str(error))
            self.name.setText(thing.name)
            return
        self.document.commit(say("Rename {name}", name=thing.name), new)

    def _remove(self) -> None:
        thing = self.thing
        if isinstance(thing, Variety):
            self.document.edit(
                say("Remove {name}", name=thing.name), lambda garden: edits.remove_part(garden, thing.id)
            )
        elif thing is not None:
            try:
                new = edits.remove_own(self.document.stable, thing.key)
            except EditError as error:
                self.wrong.emit(str(error))
                return
            self.document.commit(say("Remove {name}", name=thing.name), new)

    # -- from elsewhere ---------------------------------------------------------------------

    def _choose_garden(self) -> None:
        path = QFileDialog.getOpenFileName(
            self,
            say("Take crops and varieties from a garden"),
            "",
            say("Gardens (*.bedwright);;All files (*)"),
        )[0]
        if path:
            self.take_from(Path(path))

    def take_from(self, path: Path) -> None:
        """Offer the own crops and varieties of another garden."""
        try:
            other = load(path)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return
        if not other.crops and not other.varieties:
            self.wrong.emit(say("{garden} has no crops or varieties of its own.", garden=path.name))
            return
        dialog = TakeDialog(self, other, self.document.garden, self.document.catalogue)
        dialog.accepted.connect(lambda: self.take(other, *dialog.chosen()))
        dialog.open()

    def take(self, other: Garden, crops: list[str], varieties: list[str]) -> bool:
        """Take own crops and varieties of another garden over, as one step."""
        number = len(crops) + len(varieties)
        return self.document.edit(
            say_count("Take over {count} crop or variety", "Take over {count} crops and varieties", number),
            lambda garden: edits.take_own(garden, other, crops, varieties),
        )

    def _choose_table(self) -> None:
        path = QFileDialog.getOpenFileName(
            self, say("Import a table of varieties"), "", say("Tables (*.csv *.tsv *.txt);;All files (*)")
        )[0]
        if path:
            self.import_table(Path(path))

    def import_table(self, path: Path) -> None:
        """Show what a table of varieties holds, row by row, before anything of it is added."""
        try:
            with open_plain(path) as file:
                data = file.read(table_text.MOST_BYTES + 1)
            found = variety_table.preview(data, self.document.catalogue, self.document.garden)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return
        except OSError as error:
            self.wrong.emit(
                say(
                    "{path} cannot be read: {reason}. Check the name and the folder.",
                    path=path,
                    reason=error.strerror or error,
                )
            )
            return
        dialog = TableDialog(self, found, self.document.catalogue, self.document.garden.site.units)
        dialog.accepted.connect(lambda: self.add_varieties(found))
        dialog.open()

    def add_varieties(self, found: variety_table.Preview) -> bool:
        """Add the rows of a preview that could be read, as one step."""
        words = say_count("Import {count} variety", "Import {count} varieties", found.number)
        return self.document.edit(words, lambda garden: variety_table.import_varieties(garden, found))


def _changed(garden: Garden, thing: Variety | OwnCrop, fields: dict[str, Any]) -> Garden:
    if isinstance(thing, Variety):
        return edits.put_variety(garden, thing.id, **fields)[0]
    return edits.put_crop(garden, thing.key, **fields)[0]
