"""Adding photographs to records: chosen or dropped, read in a thread, one step."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from pathlib import Path

from PySide6.QtCore import QMimeData, QObject, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.records import Photograph
from planner.storage.photographs import PhotographError, refer_to
from planner.words import say, say_count

#: Most files that are taken at once.
MOST_AT_ONCE = 500


class PhotographAdder(QObject):
    """Reads photographs and refers to them in records; the files stay where and as they are.

    Signals
    -------
    said : str
        How far it is, and what was refused; one line.
    """

    said = Signal(str)

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self.document = document
        self._jobs = JobQueue(self)
        document.opened.connect(lambda: self._jobs.cancel())

    def add(self, paths: Sequence[Path], record: str | None, bed: str | None) -> None:
        """Add photographs to a record, or to new notes: one for each day on which they were taken.

        Parameters
        ----------
        paths : sequence of Path
        record : str or None
            Id of a record that gets them all.
        bed : str or None
            Id of the bed of new notes; the garden without one.
        """
        garden_file = self.document.path
        if garden_file is None:
            self.said.emit(say("Save the garden first: photographs are found from where its file is"))
            return
        some = list(paths)[:MOST_AT_ONCE]

        def work(cancelled: Cancelled) -> Iterator[tuple[int, list[Photograph], list[str]]]:
            found: list[Photograph] = []
            refused: list[str] = []
            for number, path in enumerate(some, 1):
                if cancelled():
                    return
                try:
                    found.append(refer_to(garden_file, path))
                except PhotographError as error:
                    refused.append(str(error))
                except BedwrightError as error:
                    refused.append(str(error))
                yield number, list(found), list(refused)

        def receive(result: tuple[int, list[Photograph], list[str]]) -> None:
            number, found, refused = result
            if number < len(some):
                self.said.emit(say("Reading photograph {number} of {count}", number=number, count=len(some)))
                return
            self._put(found, refused, record, bed)

        self._jobs.start(work, receive)

    def _put(self, found: list[Photograph], refused: list[str], record: str | None, bed: str | None) -> None:
        done = False
        if found:
            words = say_count("Add a photograph", "Add {count} photographs", len(found))
            done = self.document.edit(
                words, lambda garden: with_photographs(garden, found, record, bed, dt.date.today())
            )
        if refused:
            more = say_count("{count} was left out", "{count} were left out", len(refused))
            self.said.emit(
                say("{first} ({more})", first=refused[0], more=more) if len(refused) > 1 else refused[0]
            )
        elif done:
            self.said.emit(say_count("{count} photograph added", "{count} photographs added", len(found)))


def with_photographs(
    garden: Garden, found: Sequence[Photograph], record: str | None, bed: str | None, today: dt.date
) -> Garden:
    """Refer to photographs in a record, or in a new note for each day on which they were taken.

    Parameters
    ----------
    garden : Garden
    found : sequence of Photograph
    record, bed : str or None
        Ids.
    today : date
        Of photographs whose camera does not say when they were taken.

    Raises
    ------
    EditError
        Where a record would have too many.
    """
    known = garden.records_by_id.get(record or "")
    if known is not None:
        there = {one.sha256 for one in known.photographs}
        new = [one for one in found if one.sha256 not in there]
        return edits.change_record(garden, known.id, photographs=(*known.photographs, *new))
    by_day: dict[dt.date, list[Photograph]] = {}
    for one in sorted(found, key=lambda each: (each.taken is None, each.taken, each.path)):
        day = one.taken.date() if one.taken is not None else today
        by_day.setdefault(day, []).append(one)
    notes = [
        {"kind": "note", "day": day, "bed": bed, "photographs": tuple(of_day)}
        for day, of_day in by_day.items()
    ]
    return edits.add_records(garden, notes)[0]


def dropped_files(data: QMimeData) -> list[Path]:
    """The files of this computer that are dragged."""
    return [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
