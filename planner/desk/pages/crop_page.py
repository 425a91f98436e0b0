"""Everything known of a crop on one page: figures with their sources, its year, its neighbours."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import QCursor, QDesktopServices, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QTextBrowser,
    QToolTip,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.crops import Crop
from planner.crops.cautions import cautions_of
from planner.crops.families import family_title
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.crop_names import crop_title
from planner.desk.model.document import Document
from planner.desk.pages.crop_text import CropText
from planner.desk.pages.plots import GerminationPlot, YearBar
from planner.desk.pages.portrait import Portrait
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plant_symbols import crop_picture
from planner.plan.following import Follower, followers
from planner.words import key_words, say, spoken_language, table_words

#: Side of the crop's picture, and greatest width of the page. [pixels]
PICTURE, WIDEST = 44, 1040


class _TextBrowser(QTextBrowser):
    """Rich text that is as high as what it says."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QTextBrowser.Shape.NoFrame)
        self.setOpenLinks(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.document().contentsChanged.connect(self._fit)

    def _fit(self) -> None:
        self.setFixedHeight(round(self.document().size().height()) + 6)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()


class CropPage(QScrollArea):
    """The page of one crop.

    Signals
    -------
    variety_wanted : str, str
        Crop key and what to edit: the id of an own variety, the key of an own crop; empty for a new variety.
    plant_wanted : object
        The crop, to be held over the sheet.
    """

    variety_wanted = Signal(str, str)
    plant_wanted = Signal(object)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.crop: Crop | None = None
        self.lore = False
        self._jobs = JobQueue(self)
        # What can follow a crop, by its key, as it was last worked out.
        self._found: tuple[str, tuple[Follower, ...]] | None = None
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setAccessibleName(say("Crop"))
        page = QWidget()
        page.setMaximumWidth(WIDEST)
        column = QVBoxLayout(page)
        column.setContentsMargins(26, 18, 26, 26)
        column.setSpacing(8)
        column.addLayout(self._make_head())
        self._make_body()
        body: tuple[QWidget, ...] = (
            self.under,
            self.cautions,
            self.portrait,
            self.year,
            self.plot,
            self.text,
        )
        for widget in body:
            column.addWidget(widget)
        column.addStretch(1)
        self.setWidget(page)
        for hidden in (self.picture, self.plant, self.own, self.change, *body[1:]):
            hidden.hide()
        document.garden_settled.connect(self._refresh)
        look.changed.connect(self._refresh)

    def _make_head(self) -> QVBoxLayout:
        self.picture = QLabel()
        self.name = QLabel(say("Choose a crop at the left"))
        self.name.setFont(letters(20, bold=True))
        self.name.setWordWrap(True)
        self.plant = QPushButton(say("Plant it…"))
        self.plant.clicked.connect(self._plant)
        self.own = QPushButton(say("New variety of it…"))
        self.own.clicked.connect(self._begin_variety)
        self.change = QPushButton(say("Change this own crop…"))
        self.change.clicked.connect(self._change_own)
        name, head = QHBoxLayout(), QVBoxLayout()
        name.addWidget(self.picture)
        name.addWidget(self.name, 1)
        buttons = FlowLayout()
        buttons.addWidget(self.plant)
        buttons.addWidget(self.own)
        buttons.addWidget(self.change)
        head.addLayout(name)
        head.addLayout(buttons)
        return head

    def _make_body(self) -> None:
        self.under = QLabel(
            say(
                "Click one in the list, or press Ctrl+F and type its name. Its figures with their sources, its year and "
                "what goes well beside it are then told here."
            )
        )
        self.under.setTextFormat(Qt.TextFormat.PlainText)
        self.under.setProperty("second", True)
        self.under.setWordWrap(True)
        self.cautions = QLabel()
        self.cautions.setTextFormat(Qt.TextFormat.PlainText)
        self.cautions.setWordWrap(True)
        self.cautions.setProperty("warn", True)
        self.portrait = Portrait(self.look)
        self.year = YearBar(self.document, self.look)
        self.plot = GerminationPlot(self.look)
        self.text = _TextBrowser()
        self.text.setAccessibleName(say("Figures with their sources"))
        self.text.anchorClicked.connect(self._follow_link)

    def _plant(self) -> None:
        if self.crop is not None:
            self.plant_wanted.emit(self.crop)

    def _begin_variety(self) -> None:
        if self.crop is not None:
            self.variety_wanted.emit(self.crop.key, "")

    def _change_own(self) -> None:
        if self.crop is not None:
            self.variety_wanted.emit(self.crop.key, self.crop.key)

    def show_crop(self, crop: Crop) -> None:
        """Show another crop."""
        if crop is not self.crop:
            self.crop = crop
            self.verticalScrollBar().setValue(0)
            self._refresh()

    def _refresh(self) -> None:
        if self.crop is None or not self.isVisible():
            return
        crop = self.crop = self.document.catalogue.get(self.crop.key) or self.crop  # in the garden's English
        for widget in (self.picture, self.plant, self.own, self.year, self.text):
            widget.show()
        self.change.setVisible(any(own.key == crop.key for own in self.document.garden.crops))
        look, catalogue, garden = self.look.now, self.document.catalogue, self.document.garden
        self.picture.setPixmap(crop_picture(crop, PICTURE, look.dark, self.devicePixelRatioF()))
        self.name.setText(crop_title(crop))
        words = f"{crop.latin}, {family_title(crop.family)}, {key_words(crop.life_cycle)}"
        if crop.also:
            names = ", ".join(crop.also)
            words = (
                say("{crop}. Also called {names}.", crop=words, names=names)
                if spoken_language() == "en"
                else say("{crop}. In English: {names}.", crop=words, names=names)
            )
        else:
            words = say("{sentence}.", sentence=words)
        self.under.setText(words)
        self.year.show_crop(crop)
        self.portrait.setVisible(self.portrait.show_crop(crop, garden.site.units))
        self.plot.setVisible(self.plot.show_crop(crop, celsius=garden.site.units == "metric"))
        cautions = [table_words(caution.text) for caution in cautions_of(catalogue, crop)]
        self.cautions.setText("\n".join(f"⚠ {text}" for text in cautions))
        self.cautions.setVisible(bool(cautions))
        self._show_text()
        plan = self.document.plan

        def work(_cancelled: Cancelled) -> Iterator[tuple[Follower, ...]]:
            yield followers(plan, crop)  # asks the windows of all crops: half a second

        self._jobs.start(work, lambda found: self._show_followers(crop.key, found))

    def _show_followers(self, key: str, found: tuple[Follower, ...]) -> None:
        before, self._found = self._found, (key, found)
        if self._found != before and self.isVisible():
            self._show_text()

    def _show_text(self) -> None:
        if self.crop is None:
            return
        found = self._found[1] if self._found is not None and self._found[0] == self.crop.key else None
        text = CropText(
            self.crop, self.document.plan, self.look.now, self._latest_days(), lore=self.lore, found=found
        )
        self.text.setHtml(text.html())

    def _latest_days(self) -> dict[str, str]:
        """By field, the last day to begin the crop in this garden, where only the autumn frost sets it."""
        days = {field: self.year.latest_day(field) for field in ("sow_until", "set_out_until")}
        return {field: day for field, day in days.items() if day is not None}

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._refresh()

    def _follow_link(self, url: QUrl) -> None:
        kind, _, rest = url.toString().partition(":")
        if kind == "source":
            source = self.document.catalogue.sources.get(rest)
            if source is not None:
                QToolTip.showText(QCursor.pos(), source.citation, self.text)
        elif kind == "variety" and self.crop is not None:
            self.variety_wanted.emit(self.crop.key, rest)
        elif kind == "lore":
            self.lore = not self.lore
            self._refresh()
        elif kind in ("http", "https"):
            QDesktopServices.openUrl(url)
