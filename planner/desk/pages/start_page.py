"""What is seen when the program is started without a file: four answers, samples, and the gardens used last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QKeyEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QToolButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.pages.first_answers import FirstAnswers
from planner.desk.pages.garden_drawings import HIGH, WIDE, GardenDrawing, draw_gardens
from planner.desk.pages.start_picture import StartPicture
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.garden.site import UnitSystem
from planner.storage.photographs import cache_folder
from planner.words import say

#: Widest card, and width of the answers. [pixels]
CARD_WIDTH, ANSWERS_WIDTH = 1_120, 440
#: In a window narrower than this the picture stands below the answers. [pixels]
NARROW = 760
#: From one line of the paper's grid to the next. [pixels]
_GRID = 24


class GardenTile(QToolButton):
    """A garden to open: its drawing, its name and what is in it."""

    def __init__(self, path: Path, name: str) -> None:
        super().__init__()
        self.path, self.name = path, name
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
        self.setIconSize(QSize(WIDE, HIGH))
        self.setFixedWidth(WIDE + 18)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._say("")

    def show_drawing(self, drawing: GardenDrawing, look: LookSwitch) -> None:
        """Show what is in it; in place of a picture nothing, where it cannot be read."""
        pixmap = (
            QPixmap.fromImage(drawing.image)
            if drawing.image is not None
            else _nothing(look, self.devicePixelRatio())
        )
        self.setIcon(QIcon(pixmap))
        self._say(drawing.words)

    def _say(self, words: str) -> None:
        metrics = self.fontMetrics()
        lines = [metrics.elidedText(line, Qt.TextElideMode.ElideMiddle, WIDE) for line in (self.name, words)]
        self.setText("\n".join(line.replace("&", "&&") for line in lines))
        self.setAccessibleName(say("{name}: {words}", name=self.name, words=words) if words else self.name)
        self.setToolTip(plain_tip(f"{self.path}\n{words}"))


def _nothing(look: LookSwitch, ratio: float) -> QPixmap:
    """An empty sheet, crossed out."""
    pixmap = QPixmap(round(WIDE * ratio), round(HIGH * ratio))
    pixmap.fill(look.now.panel)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(look.now.pencil, 1.2 * ratio, Qt.PenStyle.DashLine))
    box = pixmap.rect().adjusted(8, 8, -8, -8)
    painter.drawRect(box)
    painter.drawLine(box.topLeft(), box.bottomRight())
    painter.end()
    return pixmap


class _Paper(QWidget):
    """The paper of the sheet, on which the card lies."""

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self._look = look

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        look = self._look.now
        painter.fillRect(self.rect(), look.sheet)
        painter.setPen(QPen(look.grid, 1))
        for x in range(0, self.width(), _GRID):
            painter.drawLine(x, 0, x, self.height())
        for y in range(0, self.height(), _GRID):
            painter.drawLine(0, y, self.width(), y)


class StartPage(QWidget):
    """One card over the sheet.

    Signals
    -------
    begun : object
        A garden is to begin with these answers, a :class:`planner.garden.edits.Beginning`.
    sample_wanted : str
    file_wanted : Path
    open_wanted
        A file is to be chosen.
    left
        An empty sheet is wanted.
    """

    begun = Signal(object)
    sample_wanted = Signal(str)
    file_wanted = Signal(object)
    open_wanted = Signal()
    left = Signal()

    def __init__(
        self,
        parent: QWidget,
        look: LookSwitch,
        samples: Sequence[Path],
        recent: Sequence[Path],
        units: UnitSystem | None = None,
    ) -> None:
        super().__init__(parent)
        self._look = look
        self.setAccessibleName(say("Begin"))
        self.jobs = JobQueue(self)
        self._drawing_jobs = JobQueue(self)
        self.answers = FirstAnswers(self.jobs, units)
        self.picture = StartPicture(look)
        self.begin = QPushButton(say("&Begin with this"))
        self.empty = QPushButton(say("&Empty sheet"))
        self.open = QPushButton(say("&Open a file…"))
        self.samples = [GardenTile(path, path.stem.replace("_", " ").capitalize()) for path in samples]
        self.recent = [GardenTile(path, path.stem) for path in recent]
        self._lay_out()
        self.answers.changed.connect(self._follow)
        self.begin.clicked.connect(self._begin)
        self.empty.clicked.connect(self.left)
        self.open.clicked.connect(self.open_wanted)
        for tile in self.samples:
            tile.clicked.connect(partial(self._want_sample, tile.path.stem))
        for tile in self.recent:
            tile.clicked.connect(partial(self._want_file, tile.path))
        look.changed.connect(self._draw_gardens)
        self._follow()

    def _lay_out(self) -> None:
        card = QFrame()
        card.setObjectName("card")
        card.setMaximumWidth(CARD_WIDTH)
        column = QVBoxLayout(card)
        column.setContentsMargins(24, 18, 24, 18)
        column.setSpacing(8)
        if self.recent:
            column.addWidget(self._heading(say("Gardens used last")))
            column.addWidget(_flow(self.recent))
        column.addWidget(self._heading(say("Begin a garden")))
        words = QLabel(say("Four answers, of which each may wait. Escape leads to an empty sheet."))
        words.setWordWrap(True)
        words.setProperty("second", True)
        column.addWidget(words)
        self.answers.setMaximumWidth(ANSWERS_WIDTH)
        self._both = QHBoxLayout()
        self._both.setSpacing(24)
        self._both.addWidget(self.answers, 1)
        self._both.addWidget(self.picture, 1)
        column.addLayout(self._both)
        self.begin.setDefault(True)
        column.addWidget(_flow([self.begin, self.empty, self.open]))
        column.addWidget(self._heading(say("Or look at a sample")))
        column.addWidget(_flow(self.samples))
        middle = _Paper(self._look)
        row = QHBoxLayout(middle)
        row.setContentsMargins(14, 14, 14, 14)
        row.addStretch(1)
        row.addWidget(card, 100, Qt.AlignmentFlag.AlignTop)
        row.addStretch(1)
        self.around = QScrollArea()
        self.around.setWidgetResizable(True)
        self.around.setFrameShape(QFrame.Shape.NoFrame)
        self.around.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.around.setWidget(middle)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self.around)
        self.answers.where.lay_list_into(card)
        self._card = card

    @staticmethod
    def _heading(words: str) -> QLabel:
        label = QLabel(words)
        label.setFont(letters(13.5, bold=True))
        return label

    # -- showing ----------------------------------------------------------------------------

    def show_all(self) -> None:
        """Show it over the parent, with the keys at the first answer, or at the garden used last."""
        self.show()
        self.raise_()
        first = self.recent[0] if self.recent else self.answers.where
        first.setFocus(Qt.FocusReason.TabFocusReason)
        self._draw_gardens()

    def _draw_gardens(self) -> None:
        """Draw the gardens beside the window, those of the top first."""
        if not self.isVisible():
            return
        tiles = [*self.recent, *self.samples]
        paths, look = [tile.path for tile in tiles], self._look.now
        ratio, cache = self.devicePixelRatio(), cache_folder()

        def work(cancelled: Cancelled) -> Iterator[GardenDrawing]:
            return draw_gardens(paths, look, ratio, cache, cancelled)

        self._drawing_jobs.start(work, self._show_drawing)

    def _show_drawing(self, drawing: GardenDrawing) -> None:
        for tile in (*self.recent, *self.samples):
            if tile.path == drawing.path:
                if drawing.image is not None:
                    drawing.image.setDevicePixelRatio(self.devicePixelRatio())
                tile.show_drawing(drawing, self._look)

    def _follow(self) -> None:
        self.picture.show_answers(self.answers.pictured())

    def stop(self) -> None:
        """End what is read and drawn beside the window."""
        self.jobs.stop()
        self._drawing_jobs.stop()

    # -- leaving ----------------------------------------------------------------------------

    def _begin(self) -> None:
        self.setFocus()  # what is being typed is read
        if self.answers.is_wrong:
            self.answers.first_wrong().setFocus(Qt.FocusReason.TabFocusReason)
            return
        self.begun.emit(self.answers.answers())

    def _want_sample(self, name: str, _checked: bool = False) -> None:
        self.sample_wanted.emit(name)

    def _want_file(self, path: Path, _checked: bool = False) -> None:
        self.file_wanted.emit(path)

    # -- events -----------------------------------------------------------------------------

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            button = QApplication.focusWidget()
            if isinstance(button, (QPushButton, QToolButton)):
                button.click()
            else:
                self._begin()
            return
        super().keyPressEvent(event)

    @override
    def focusNextPrevChild(self, next: bool) -> bool:  # Qt's name
        """Keep Tab within the card: what lies beneath cannot be seen."""
        stops = [each for each in self.findChildren(QWidget) if _is_stop(each)]
        at = QApplication.focusWidget()
        if not stops:
            return False
        place = stops.index(at) if at in stops else -1
        follower = stops[(place + (1 if next else -1)) % len(stops)]
        reason = Qt.FocusReason.TabFocusReason if next else Qt.FocusReason.BacktabFocusReason
        follower.setFocus(reason)
        self.around.ensureWidgetVisible(follower, 20, 40)
        return True

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= NARROW
        self._both.setDirection(
            QHBoxLayout.Direction.LeftToRight if beside else QHBoxLayout.Direction.TopToBottom
        )
        self.answers.setMaximumWidth(ANSWERS_WIDTH if beside else CARD_WIDTH)


def _flow(widgets: Iterable[QWidget]) -> QWidget:
    """Widgets side by side, over as many lines as they take."""
    holder = QWidget()
    flow = FlowLayout(spacing=10)
    holder.setLayout(flow)
    for widget in widgets:
        flow.addWidget(widget)
    return holder


def _is_stop(widget: QWidget) -> bool:
    """Whether Tab stops at a widget: of radio buttons at the one that is chosen."""
    if not (widget.isVisible() and widget.isEnabled() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus):
        return False
    return not isinstance(widget, (QScrollArea, QAbstractItemView)) and (
        not isinstance(widget, QRadioButton) or widget.isChecked()
    )
