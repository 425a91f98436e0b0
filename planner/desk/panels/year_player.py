"""The year plays: the day shown runs through the growing year, at a speed that can be chosen."""

from __future__ import annotations

import datetime as dt
import time

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLabel, QPushButton, QSlider, QStyle, QWidget
from typing_extensions import override

from planner.desk.model.document import Document
from planner.words import say, say_count

#: How long the whole year takes: shortest, usual, longest. [s]
FASTEST, USUAL, SLOWEST = 10, 60, 180
#: Time from frame to frame. [ms]
FRAME = 40
#: The next step is drawn no sooner than so long after the last: the window answers meanwhile. [ms]
REST = 10
#: In less room there is only the button. [pixels]
NARROW = 180
#: What is jumped at once where little is to move. [days]
JUMP = 7
_DAY = dt.timedelta(days=1)
_MODIFIERS = (Qt.Key.Key_Shift, Qt.Key.Key_Control, Qt.Key.Key_Alt, Qt.Key.Key_Meta)


def system_wants_less_motion() -> bool:
    """Whether the system is set to show nothing that moves."""
    return QApplication.style().styleHint(QStyle.StyleHint.SH_Widget_Animation_Duration) == 0


class YearPlayer(QWidget):
    """Plays the growing year from the day shown, or from its first day; any key stops it.

    Parameters
    ----------
    document : Document

    Attributes
    ----------
    less_motion : bool
        Whether the day jumps by weeks in the place of running.

    Signals
    -------
    playing_changed : bool
    """

    playing_changed = Signal(bool)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.less_motion = system_wants_less_motion()
        self._at = self._last = 0.0
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._step)
        self.button = QPushButton(say("Play the year"))
        self.button.setFlat(True)
        self.button.setStyleSheet("padding: 0 4px;")
        self.button.setMinimumHeight(0)
        self.button.clicked.connect(self.toggle)
        self.speed = QSlider(Qt.Orientation.Horizontal)
        self.speed.setAccessibleName(say("How long the year takes"))
        self.speed.setRange(FASTEST, SLOWEST)
        self.speed.setValue(USUAL)
        self.speed.setInvertedAppearance(True)
        self.speed.setMinimumWidth(40)
        self.speed.valueChanged.connect(self._tell)
        self.label = QLabel()
        self.label.setMinimumWidth(self.label.fontMetrics().horizontalAdvance("180 s") + 4)
        row = QHBoxLayout(self)
        row.setContentsMargins(2, 0, 2, 0)
        row.setSpacing(4)
        row.addWidget(self.button)
        row.addWidget(self.speed, 1)
        row.addWidget(self.label)
        self._tell()
        document.about_to_change_history.connect(self.stop)
        document.year_changed.connect(self.stop)

    def _tell(self) -> None:
        seconds = self.speed.value()
        self.label.setText(say("{seconds} s", seconds=str(seconds)))
        words = say_count("The year takes {count} second", "The year takes {count} seconds", seconds)
        self.speed.setToolTip(words)
        self.speed.setAccessibleDescription(words)

    @property
    def playing(self) -> bool:
        """Whether the year is playing."""
        return self._timer.isActive()

    def toggle(self) -> None:
        """Play, or stop."""
        if self.playing:
            self.stop()
        else:
            self.play()

    def play(self) -> None:
        """Play from the day shown; from the first day of the growing year where its whole, or its last day, is shown."""
        span, day = self._document.plan.span, self._document.day
        if day is None or day >= span.last:
            day = span.first
            self._document.show_day(day)
        self._at = float((day - span.first).days)
        self._last = time.monotonic()
        self._timer.start(FRAME)
        QApplication.instance().installEventFilter(self)  # type: ignore[union-attr]  # a widget lives in one
        self.button.setText(say("Stop"))
        self.playing_changed.emit(True)

    def stop(self) -> None:
        """Stop at the day shown."""
        if self._timer.isActive():
            self._timer.stop()
            QApplication.instance().removeEventFilter(self)  # type: ignore[union-attr]  # a widget lives in one
            self.button.setText(say("Play the year"))
            self.playing_changed.emit(False)

    def _step(self) -> None:
        """Show the day that is due by the clock, whatever time the last one took to draw."""
        span, now = self._document.plan.span, time.monotonic()
        self._timer.start(FRAME)
        self._at += (now - self._last) * span.days / self.speed.value()
        self._last = now
        days = int(self._at)
        if self.less_motion:
            days -= days % JUMP
        self._document.show_day(span.first + _DAY * min(days, span.days - 1))
        if self._at >= span.days - 1:
            self._document.show_day(span.last)
            self.stop()
        else:
            spent = (time.monotonic() - now) * 1000
            self._timer.start(max(FRAME - round(spent), REST))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for widget in (self.speed, self.label):
            widget.setVisible(event.size().width() >= NARROW)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Any key but those that are held with others stops the year, and does nothing else."""
        kind = event.type()
        if kind not in (QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress):
            return False
        if not isinstance(watched, QWidget) or event.key() in _MODIFIERS:  # type: ignore[attr-defined]  # a QKeyEvent
            return False
        if kind == QEvent.Type.ShortcutOverride:
            event.accept()
        else:
            self.stop()
        return True
