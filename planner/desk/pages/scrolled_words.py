"""Words that take a few lines of a page at most, and scroll within them where there are more."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QSizePolicy
from typing_extensions import override

from planner.desk.pages.harvest_page import wrapped_label


class ScrolledWords(QScrollArea):
    """A label as high as its words, up to a number of lines; what is more scrolls.

    Parameters
    ----------
    name : str
        For screen readers.
    most : int
        Lines that are shown at most.

    Attributes
    ----------
    label : QLabel
    """

    def __init__(self, name: str, most: int) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.label: QLabel = wrapped_label()
        self.label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self._most = most
        self.setWidget(self.label)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.label.installEventFilter(self)

    def text(self) -> str:
        """The words."""
        return self.label.text()

    def setText(self, words: str) -> None:
        """Show other words, from their first line on."""
        if words == self.label.text():
            return
        self.label.setText(words)
        self.verticalScrollBar().setValue(0)
        self._fit()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.label and event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        """Be as high as the words at this width, but no higher than the most lines."""
        line = self.label.fontMetrics().lineSpacing()
        # With room for the bar, so that the height is the same with and without it.
        width = max(self.width() - self.verticalScrollBar().sizeHint().width(), 1)
        wanted = max(self.label.heightForWidth(width), line)
        # Half a line more than whole ones tells that there are more.
        self.setFixedHeight(wanted if wanted <= line * self._most else round(line * (self._most + 0.5)))
