"""The pictures of the manual: the program opens its own window on sample gardens, unseen, and draws what it shows.

Each picture is the same whenever it is made with the same program on the same system: days, sizes and letters are fixed.
"""

from __future__ import annotations

import datetime as dt
import io
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from typing import NamedTuple

from PySide6.QtCore import QBuffer, QEvent, QIODevice, QSettings, Qt
from PySide6.QtWidgets import QApplication, QWidget

from planner.desk.main_window.window import Window
from planner.desk.model.document import Document
from planner.garden import Garden
from planner.manual.book import Generator
from planner.resources import sample_folder
from planner.storage.files import load

#: Size of the window in a picture. [pixels]
SIZE = (1180, 760)
#: Sample garden, and day that is shown.
SAMPLE, DAY = "hollow_lane", (6, 20)
#: Width of a page of a sheet. [pixels]
PAGE_WIDTH = 800


class Screen(NamedTuple):
    """What the manual takes from the window.

    Attributes
    ----------
    generators : mapping
        Of the commands of the menus, with their keys.
    pictures : mapping
        PNG files by name.
    """

    generators: Mapping[str, Generator]
    pictures: Mapping[str, bytes]


def screen(with_pictures: bool = True) -> Screen:
    """Open a window unseen, and take from it what the manual shows.

    Parameters
    ----------
    with_pictures : bool
    """
    from planner.desk.app import application

    application()
    made: dict[str, bytes] = {}
    garden = load(sample_folder() / f"{SAMPLE}.bedwright") if with_pictures else Garden()
    with unseen_window(garden) as window:
        texts = {
            name: (window.commands.help.action_words(name), window.commands.help.key_words(name))
            for name in window.action_names
        }
        for name, show in SHOWN.items() if with_pictures else ():
            made[name] = picture_of(window, show)
    if with_pictures:
        made["sheet"] = sheet_picture(garden)
    generators: dict[str, Generator] = {
        "action": lambda words, name: texts[name][0],
        "key": lambda words, name: texts[name][1],
    }
    return Screen(generators, made)


@contextmanager
def unseen_window(garden: Garden) -> Iterator[Window]:
    """A window on a garden that nobody sees, and that leaves no trace."""
    with tempfile.TemporaryDirectory() as folder:
        before = {name: os.environ.get(name) for name in ("BEDWRIGHT_STATE", "BEDWRIGHT_CACHE")}
        os.environ |= {"BEDWRIGHT_STATE": folder, "BEDWRIGHT_CACHE": folder}
        window = Window(
            QSettings(os.path.join(folder, "settings.ini"), QSettings.Format.IniFormat),
            document=Document(garden),
        )
        window.look.choose("light")
        window.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        window.resize(*SIZE)
        window.show()
        window.document.show_day(dt.date(window.document.year, *DAY))
        try:
            yield window
        finally:
            window.document.undo_stack.setClean()
            window.close()
            window.deleteLater()
            QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
            for name, value in before.items():
                os.environ.pop(name, None)
                if value is not None:
                    os.environ[name] = value


def picture_of(window: Window, show: Callable[[Window], QWidget | None]) -> bytes:
    """What a window shows, as PNG.

    Parameters
    ----------
    window : Window
    show : callable
        Brings something to the front; returns the part to draw, None for the whole window.
    """
    part = show(window) or window
    for _ in range(6):  # what follows by timers and posted events
        QApplication.processEvents()
        QApplication.sendPostedEvents()
    focus = QApplication.focusWidget()
    if focus is not None:
        focus.clearFocus()  # a caret blinks
    picture = part.grab().toImage()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    picture.save(buffer, "PNG")  # type: ignore[call-overload]  # takes a device or a path
    return bytes(buffer.data().data())


def sheet_picture(garden: Garden) -> bytes:
    """The first page of a bed's sheet, as PNG."""
    import pypdfium2

    from planner.plan import Plan
    from planner.sheets.kinds import SheetWish, write_sheets

    plan = Plan(garden, max(planting.year for planting in garden.plantings))
    bed = max(plan.beds, key=lambda one: (len(plan.in_bed(one)), one.name))
    stream = io.BytesIO()
    write_sheets(plan, stream, SheetWish("bed", (bed.id,), tint=True), dt.date(plan.year, *DAY))
    page = pypdfium2.PdfDocument(stream.getvalue())[0]
    image = page.render(scale=PAGE_WIDTH / page.get_width()).to_pil()
    written = io.BytesIO()
    image.save(written, "PNG")
    return written.getvalue()


def _plan(window: Window) -> None:
    window.pages.show_sheet()
    window.docks.right.setCurrentWidget(window.docks.details)
    plan = window.document.plan
    planting = max(plan.plantings, key=lambda one: (plan.placed(one).plants, one.id))
    window.document.select((planting.id,))
    window.view.show_all()


def _findings(window: Window) -> QWidget:
    window.docks.right.setCurrentWidget(window.docks.findings)
    return window.docks.right


def _guide(window: Window) -> None:
    window.document.select(())
    window.docks.right.setCurrentWidget(window.docks.details)
    window.pages.show_sheet()
    window.guide.start()


def _page(name: str) -> Callable[[Window], QWidget]:
    def show(window: Window) -> QWidget:
        window.guide.leave()
        page: QWidget = getattr(window.pages, name)
        window.pages.bring(page)
        return window.pages

    return show


#: How each picture comes about, by its name.
SHOWN: dict[str, Callable[[Window], QWidget | None]] = {
    "plan": _plan,
    "findings": _findings,
    "guide": _guide,
    "year": _page("year"),
    "records": _page("records"),
    "quantities": _page("amounts"),
    "raising": _page("raising"),
    "wishes": _page("wishes"),
    "harvest": _page("harvest"),
    "crop": _page("crop"),
}
#: Names of all pictures.
PICTURES = (*SHOWN, "sheet")
