"""The clipboard: things of a garden, as the text of a garden file, within a garden and between gardens."""

from __future__ import annotations

from PySide6.QtCore import QMimeData
from PySide6.QtWidgets import QApplication

from planner import storage
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.plan.pasting import Copied, copied

#: Clipboard data: ids of what was copied, a line each, an empty line, and the text of a garden file.
THINGS_MIME = "application/x-bedwright-things"


def put(garden: Garden, ids: tuple[str, ...]) -> None:
    """Put things of a garden on the clipboard."""
    text = storage.dump(copied(garden, ids).garden)
    data = QMimeData()
    data.setData(THINGS_MIME, ("\n".join(ids) + "\n\n" + text).encode())
    data.setText(text)
    QApplication.clipboard().setMimeData(data)


def holds_things() -> bool:
    """Whether there is something to paste."""
    data = QApplication.clipboard().mimeData()
    return data is not None and data.hasFormat(THINGS_MIME)


def read() -> Copied | None:
    """The things on the clipboard; None where it holds nothing of a garden, or it is damaged."""
    if not holds_things():
        return None
    text = bytes(QApplication.clipboard().mimeData().data(THINGS_MIME).data()).decode(errors="replace")
    head, _, body = text.partition("\n\n")
    try:
        return Copied(storage.parse(body, "clipboard"), tuple(head.split("\n")))
    except BedwrightError:
        return None
