"""Long work on files: it is done beside the window, with its progress and a button that stops it after half a second."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator

from PySide6.QtCore import QEventLoop, QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QProgressDialog, QWidget

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.words import say

#: Work that takes no longer shows nothing. [ms]
UNSEEN = 500
#: How often is looked whether the work has ended. [ms]
LOOK = 15

#: Called as ``progress(done, all)``; raises :class:`StoppedError` where the work is to stop.
Progress = Callable[[int, int], None]


class StoppedError(Exception):
    """The person stopped the work."""


class LongWork(QObject):
    """Does one piece of work at a time beside the window and waits for it, while the window goes on painting.

    Parameters
    ----------
    window : QWidget
        Takes no edits while the progress is shown.
    """

    _progressed = Signal(int, int)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._jobs = JobQueue(self)
        self._dialog: QProgressDialog | None = None
        self.busy = False
        self._progressed.connect(self._show_progress)

    def run(self, title: str, work: Callable[[Progress], object]) -> None:
        """Do some work in a thread, and come back when it has ended.

        Parameters
        ----------
        title : str
            What is done, for the person.
        work : callable
            Gets a :data:`Progress`, which it calls now and then.

        Raises
        ------
        StoppedError
            Where it was stopped, or other work goes on already.
        Exception
            What the work raised.
        """
        if self.busy:
            raise StoppedError
        self.busy, ended, failed = True, threading.Event(), list[BaseException]()
        stopped = threading.Event()

        def job(cancelled: Cancelled) -> Iterator[None]:
            def progress(done: int, of: int) -> None:
                if cancelled() or stopped.is_set():
                    raise StoppedError
                self._progressed.emit(done, of)

            try:
                work(progress)
            except Exception as error:
                failed.append(error)
            finally:
                ended.set()
            yield None

        loop, look = QEventLoop(), QTimer()
        look.setInterval(LOOK)
        look.timeout.connect(lambda: loop.quit() if ended.is_set() else None)
        shown = QTimer()
        shown.setSingleShot(True)
        shown.timeout.connect(lambda: self._show(title, stopped))
        try:
            self._jobs.start(job, lambda _none: None)
            look.start()
            shown.start(UNSEEN)
            loop.exec()
        finally:
            look.stop()
            shown.stop()
            self.busy = False
            if self._dialog is not None:
                self._dialog.deleteLater()
                self._dialog = None
        if failed:
            raise failed[0]

    def _show(self, title: str, stopped: threading.Event) -> None:
        dialog = self._dialog = QProgressDialog(title, say("Stop"), 0, 0, self._window)
        dialog.setWindowTitle("Bedwright")
        dialog.setWindowModality(Qt.WindowModality.WindowModal)
        dialog.setAutoReset(False)
        dialog.setAutoClose(False)
        dialog.setMinimumDuration(0)
        dialog.canceled.connect(stopped.set)
        dialog.canceled.connect(lambda: dialog.setLabelText(say("Stopping…")))
        dialog.canceled.connect(dialog.show)
        dialog.show()

    def _show_progress(self, done: int, of: int) -> None:
        if self._dialog is not None:
            self._dialog.setMaximum(of)
            self._dialog.setValue(done)
