"""What a screen reader says by itself: the messages of the status line, and findings that appear after an edit."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

from planner.desk.model.document import Document
from planner.desk.model.findings_model import FindingsModel
from planner.words import say, say_count

#: What comes within so long is said in one go; of messages that follow each other faster, the last. [ms]
GATHERED = 250


class Announcer(QObject):
    """Gathers what is to be said, and hands it to the screen reader, if there is one.

    Attributes
    ----------
    last : str
        What was said last.
    """

    def __init__(self, speaker: QWidget, document: Document, findings: FindingsModel) -> None:
        super().__init__(speaker)
        self._speaker, self._findings = speaker, findings
        self.last = ""
        self._message = ""
        self._more: list[str] = []
        self._known: frozenset[str] | None = None
        self._edited = False
        self._timer = QTimer(self, singleShot=True, interval=GATHERED)
        self._timer.timeout.connect(self._speak)
        document.undo_stack.indexChanged.connect(self._note_edit)
        document.opened.connect(self._forget)
        document.year_changed.connect(self._forget)
        findings.changed.connect(self._follow_findings)

    def say(self, text: str) -> None:
        """Say a message, unless another one follows at once."""
        if text:
            self._message = text
            self._timer.start()

    def hush(self) -> None:
        """Say nothing of what was gathered."""
        self._timer.stop()
        self._message = ""
        self._more.clear()

    def _note_edit(self) -> None:
        self._edited = True

    def _forget(self) -> None:
        self._known, self._edited = None, False

    def _follow_findings(self) -> None:
        now = {finding.key: finding for finding in self._findings.open}
        before, self._known = self._known, frozenset(now)
        if before is None or not self._edited:
            return  # opened, not edited: the tab tells how many there are
        new = [finding for key, finding in now.items() if key not in before]
        if new:
            self._more.append(
                say_count(
                    "{count} new finding: {first}",
                    "{count} new findings; the first: {first}",
                    len(new),
                    first=new[0].text,
                )
            )
            self._timer.start()
        elif before and not now:
            self._more.append(say("No findings any more"))
            self._timer.start()

    def _speak(self) -> None:
        parts = [part for part in (self._message, *self._more) if part]
        self._message, self._more = "", []
        self.last = ". ".join(part.rstrip(".") for part in parts) + "."
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self._speaker, self.last))
