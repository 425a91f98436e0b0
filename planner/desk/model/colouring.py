"""By what the plantings on the sheet are coloured, and what the inks mean."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from PySide6.QtCore import QObject, Signal

from planner.crops.families import ENGLISH
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Planting
from planner.plan import Plan
from planner.season.planting_dates import Dates
from planner.sheets.class_inks import MOST_PEOPLE, SCALES
from planner.words import join_list, later, say

if TYPE_CHECKING:
    from planner.checks.rested import Rested

#: By what plantings can be coloured.
Scale = Literal["family", "stage", "sun", "rotation", "tended", "water"]
SCALES_OFFERED: tuple[Scale, ...] = get_args(Scale)

#: What each is called in the menu, its letter for the keyboard marked, and in the legend.
TITLES: dict[Scale, str] = {
    "family": later("By &family"),
    "stage": later("By &stage"),
    "sun": later("By &hours of sun"),
    "rotation": later("By &rest from the family"),
    "tended": later("By who &tends it"),
    "water": later("By &water"),
}
_HEADS: dict[Scale, str] = {
    "family": later("Families"),
    "stage": later("Stages"),
    "sun": later("Direct sun a day"),
    "rotation": later("Rest from the family"),
    "tended": later("Tended by"),
    "water": later("Water at its height"),
}
_CLASSES = {
    "stage/before": later("not yet sown or planted"),
    "stage/growing": later("growing"),
    "stage/picking": later("being picked"),
    "stage/over": later("over"),
    "sun/0": later("under 2 h"),
    "sun/2": later("2 to 4 h"),
    "sun/4": later("4 to 6 h"),
    "sun/6": later("6 to 8 h"),
    "sun/8": later("8 h and more"),
    "sun/unknown": later("not known"),
    "rotation/rested": later("as long as wanted"),
    "rotation/short": later("less than wanted"),
    "rotation/soon": later("too short"),
    "rotation/new": later("not there in the years known"),
    "rotation/unasked": later("not asked for"),
    "tended/nobody": later("nobody named"),
    "water/less": later("less than grass"),
    "water/same": later("as grass"),
    "water/more": later("more than grass"),
    "water/unknown": later("not known"),
}
#: Shares of the water of grass (FAO-56, coefficient of the middle stage) from which a crop needs as much, and more (practice).
AS_GRASS, MORE_THAN_GRASS = 1.0, 1.1


class Meaning(NamedTuple):
    """An ink of the legend: its key (:func:`planner.sheets.family_inks.family_ink`) and what it means."""

    ink: str
    words: str


class Colouring(QObject):
    """Gives each planting the key of its ink. Sun and rest are worked out beside the window.

    Attributes
    ----------
    scale : str
        One of :data:`SCALES_OFFERED`.

    Signals
    -------
    changed
        Other inks are to be shown.
    said : str
        Why there is nothing to show.
    """

    changed = Signal()
    said = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self._document = document
        self.scale: Scale = "family"
        self._jobs = JobQueue(self)
        self._hours: dict[str, float] = {}
        self._rests: dict[str, Rested] = {}
        #: Keys of the inks that the sheet shows, where there is a sheet.
        self.inks_shown: Callable[[], Iterable[str]] = self._inks_of_all
        self._people_of: tuple[Plan | None, tuple[str, ...]] = (None, ())
        document.garden_settled.connect(self._work)
        document.year_changed.connect(self._work)

    def choose(self, scale: Scale) -> None:
        """Colour by another scale."""
        if scale != self.scale:
            self.scale = scale
            self._work()
            self.changed.emit()

    def stop(self) -> None:
        """Work out nothing any more (the window closes)."""
        self._jobs.stop()

    def ink_of(self, plan: Plan, planting: Planting, day: dt.date | None) -> str:
        """The key of a planting's ink; of the whole year (no day) its stage on the day of the shadows."""
        if self.scale == "stage":
            return f"stage/{stage_on(plan.dates(planting), day or self._document.moment.date())}"
        if self.scale == "sun":
            hours = self._hours.get(planting.id)
            return f"sun/{min(int(hours // 2) * 2, 8)}" if hours is not None else "sun/unknown"
        if self.scale == "rotation":
            return f"rotation/{_rest_class(self._rests.get(planting.id))}"
        if self.scale == "tended":
            return _person_ink(self._people(plan), planting.tended_by)
        crop = plan.figures_of(planting).crop
        if self.scale == "water":
            figures = crop.crop_coefficients if crop is not None else None
            return f"water/{_water_class(figures.values if figures is not None else None)}"
        return crop.family if crop is not None else ""

    def _people(self, plan: Plan) -> tuple[str, ...]:
        if self._people_of[0] is not plan:
            self._people_of = plan, tended_by(plan)
        return self._people_of[1]

    @property
    def head(self) -> str:
        """What the legend is of."""
        return say(_HEADS[self.scale])

    def meanings(self) -> tuple[Meaning, ...]:
        """The legend: all classes of the scale; of families those that are on the sheet."""
        plan = self._document.plan
        if self.scale == "tended":
            people = self._people(plan)
            by_ink: dict[str, list[str]] = {}
            for name in people:
                by_ink.setdefault(_person_ink(people, name), []).append(name)
            shown = [Meaning(ink, join_list(names)) for ink, names in by_ink.items()]
            return (*shown, Meaning("tended/nobody", say(_CLASSES["tended/nobody"])))
        if self.scale != "family":
            keys = (f"{self.scale}/{name}" for name in SCALES[self.scale])
            return tuple(Meaning(key, say(_CLASSES[key])) for key in keys)
        families = sorted(name for name in set(self.inks_shown()) if name)
        return tuple(Meaning(name, say(ENGLISH[name]) if name in ENGLISH else name) for name in families)

    def _inks_of_all(self) -> Iterator[str]:
        document = self._document
        for planting in document.plan.plantings:
            if document.is_growing_on_day_shown(planting):
                yield self.ink_of(document.plan, planting, document.day)

    def words(self, meanings: Iterable[Meaning]) -> str:
        """The legend in a sentence."""
        return say("{head}: {classes}", head=self.head, classes=join_list([one.words for one in meanings]))

    # -- beside the window ------------------------------------------------------------------

    def _work(self) -> None:
        plan = self._document.plan
        if self.scale == "rotation":
            from planner.checks.rested import rested_years

            self._jobs.start(lambda _cancelled: iter((rested_years(plan),)), self._take_rests)
        elif self.scale == "sun":
            try:
                _ = plan.place
            except BedwrightError as error:
                self._hours = {}
                self.said.emit(str(error))
                return

            def work(cancelled: Cancelled) -> Iterator[dict[str, float]]:
                yield hours_of_sun(plan, cancelled)

            self._jobs.start(work, self._take_hours)

    def _take_rests(self, found: dict[str, Rested]) -> None:
        if found != self._rests:
            self._rests = found
            self.changed.emit()

    def _take_hours(self, found: dict[str, float]) -> None:
        if found != self._hours:
            self._hours = found
            self.changed.emit()


def stage_on(dates: Dates, day: dt.date) -> str:
    """Stage of a planting on a day: ``before``, ``growing``, ``picking`` or ``over``."""
    stages = [stage for stage in dates.stages() if stage.name != "indoors"]
    now = next((stage for stage in stages if stage.first <= day <= stage.last), None)
    if now is None:
        return "over" if stages and day > stages[-1].last else "before"
    return {"growing": "growing", "picking": "picking"}.get(now.name, "over")


def hours_of_sun(plan: Plan, cancelled: Cancelled = lambda: False) -> dict[str, float]:
    """Mean hours of direct sun a day of each planting over its days of the lighter half of the year, by their ids. [h]"""
    from planner.checks.frame.planting_view import planting_view
    from planner.checks.light_measure import coarsely_measured, growing_days

    found: dict[str, float] = {}
    for bed in plan.beds:
        if cancelled():
            break
        views = [planting_view(plan, one) for one in plan.in_bed(bed)]
        judged = [(view, days) for view in views if (days := growing_days(plan, view)) is not None]
        found |= {key: sun.hours for key, sun in coarsely_measured(plan, judged).items()}
    return found


def tended_by(plan: Plan) -> tuple[str, ...]:
    """Who tends plantings of the growing year."""
    return tuple(sorted({one.tended_by for one in plan.plantings if one.tended_by}))


def _person_ink(people: tuple[str, ...], name: str) -> str:
    return f"tended/{people.index(name) % MOST_PEOPLE + 1}" if name in people else "tended/nobody"


def _rest_class(rest: Rested | None) -> str:
    if rest is None:
        return "unasked"
    if rest.ago is None:
        return "new"
    if rest.ago < rest.least:
        return "soon"
    return "short" if rest.ago < rest.wanted else "rested"


def _water_class(coefficients: tuple[float, ...] | None) -> str:
    if not coefficients:
        return "unknown"
    middle = coefficients[1]
    return "less" if middle < AS_GRASS else "more" if middle > MORE_THAN_GRASS else "same"
