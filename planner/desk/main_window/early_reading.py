"""Modules that pages and forms will want, read while nothing goes on: the first look at a page does not wait for them."""

from __future__ import annotations

import importlib
from collections.abc import Iterator

from PySide6.QtCore import QObject, QTimer, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue

#: The window has been there for so long. [ms]
AFTER_START = 2_500
#: From one module of the desk to the next. [ms]
APART = 40
#: Read in a thread, with all that they import.
COMPUTING = (
    "planner.checks",
    "planner.listings.raising",
    "planner.listings.record_texts",
    "planner.listings.shopping_words",
    "planner.listings.stock",
    "planner.listings.trials",
    "planner.listings.turn",
    "planner.listings.walk",
    "planner.listings.years",
    "planner.importing",
    "planner.importing.own_figures",
    "planner.importing.stock_cells",
    "planner.importing.typed_records",
    "planner.sheets.kinds",
    "planner.sheets.part_drawing",
    "planner.sheets.poster",
    "planner.proposal.filling",
    "planner.proposal.propose",
    "planner.proposal.repeat",
    "planner.listings.found_layout",
    "planner.listings.proposal",
)
#: Of the desk: read in the window's thread, one at a time.
FORMS = ("bed_form", "climate_form", "planting_form", "plantings_form", "several_form", "structure_form")
PAGES = (
    "year_page",
    "records_page",
    "crop_page",
    "amounts_page",
    "raising_page",
    "materials_page",
    "shopping_page",
    "wishes_page",
    "wish_years",
    "layout_page",
    "harvest_page",
    "gaps_page",
    "store_page",
    "household_page",
    "stock_page",
    "offers_view",
    "own_plants_page",
    "paper_page",
    "walk_page",
    "years_page",
    "learned_page",
    "trials_page",
    "enough_page",
    "water_page",
    "weather_page",
    "odds_page",
)


class EarlyReading(QObject):
    """Reads modules after the start; a page that is wanted meanwhile reads its own.

    Signals
    -------
    ended
        All are read.
    """

    ended = Signal()

    def __init__(self, window: QObject) -> None:
        super().__init__(window)
        self._jobs = JobQueue(self)
        self._of_desk = iter(
            [
                *(".".join(("planner", "desk", "forms", name)) for name in FORMS),
                *(".".join(("planner", "desk", "pages", name)) for name in PAGES),
            ]
        )
        self._timer = QTimer(self)
        self._timer.setInterval(APART)
        self._timer.timeout.connect(self._read_one)

    def begin_later(self) -> None:
        """Begin when the window has been there for a moment."""
        QTimer.singleShot(AFTER_START, self, self.begin)

    def begin(self) -> None:
        """Read what computes in a thread, and then what shows it."""
        self._jobs.start(_read, lambda _none: self._timer.start())

    def _read_one(self) -> None:
        name = next(self._of_desk, None)
        if name is None:
            self._timer.stop()
            self.ended.emit()
        else:
            importlib.import_module(name)


def _read(cancelled: Cancelled) -> Iterator[None]:
    for name in COMPUTING:
        if cancelled():
            return
        importlib.import_module(name)
    yield None
