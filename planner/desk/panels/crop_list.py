"""The crops at the left: a list that can be searched, ordered, narrowed to what fits, and dragged from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from PySide6.QtCore import QEvent, QModelIndex, QObject, QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QLabel, QLineEdit, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.own_plan import own_plan
from planner.desk.model.when_seen import WhenSeen
from planner.desk.panels.crop_facts import (
    CHOICES,
    FITTING,
    ORDERS,
    CropFacts,
    fitting_words,
    harvests,
    windows,
)
from planner.desk.panels.crop_model import CROP_ROLE, VARIETY_ROLE, CropFilter, CropModel
from planner.desk.panels.crop_view import CropPainter, CropView
from planner.desk.theme.palette import LookSwitch
from planner.garden import Bed
from planner.plan import Plan
from planner.words import say

#: What is worked out of crops waits until nothing has changed for so long. [ms]
SETTLED = 250
#: Names of settings.
_FAVOURITES, _ORDER = "crops/favourites", "crops/order"


class CropList(QWidget):
    """Search field and list.

    Signals
    -------
    crops_taken : object, bool
        Crops with their varieties in the order in which they were chosen, and whether they were taken with the keyboard.
    crop_shown : object
        The crop under the list's cursor changed.
    """

    crops_taken = Signal(object, bool)
    crop_shown = Signal(object)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.model = CropModel(document)
        self._filter = CropFilter(self.model)
        self._document = document
        self._settings: QSettings | None = None
        self._make_search()
        self._make_choices()
        self._make_list(look)
        self._make_work()
        self.none = QLabel(say("No crop fits these words."))
        self.none.setWordWrap(True)
        self.none.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.search)
        choices = FlowLayout(4, filling=True)
        choices.addWidget(self.order)
        choices.addWidget(self.choice)
        layout.addLayout(choices)
        layout.addWidget(self.state)
        layout.addWidget(self.none)
        layout.addWidget(self.list)
        look.changed.connect(self.list.viewport().update)

    def _make_search(self) -> None:
        self.search = QLineEdit()
        self.search.setPlaceholderText(say("Find a crop"))
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName(say("Find a crop"))
        self.search.textChanged.connect(self._look_for)
        self.search.returnPressed.connect(lambda: self.take(by_key=True))
        self.search.installEventFilter(self)

    def _make_list(self, look: LookSwitch) -> None:
        self.list = CropView()
        self.list.setAccessibleName(say("Crops"))
        self.list.setModel(self._filter)
        self._delegate = CropPainter(look)
        self.list.setItemDelegate(self._delegate)
        self.list.setUniformItemSizes(True)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.list.setDragEnabled(True)
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setMouseTracking(True)
        self.list.star_pressed.connect(self._star)
        self.list.doubleClicked.connect(lambda _index: self.take(by_key=False))
        self.list.taken.connect(lambda: self.take(by_key=True))
        self.list.selectionModel().currentChanged.connect(self._show)

    def _make_choices(self) -> None:
        self.order = ChoiceField(say("Order of the crops"), [(key, say(ORDERS[key])) for key in ORDERS])
        self.order.explain(
            say("Puts first what is picked soonest, has to go in soonest, or was grown here in most years.")
        )
        self.order.chosen.connect(self._arrange)
        self.choice = ChoiceField(say("Which crops"), [(key, say(CHOICES[key])) for key in CHOICES])
        self.choice.explain(
            say(
                "What fits now: into the selected bed, or anywhere in the garden, from the day shown on. Crops that do not fit come last "
                "and say why. A star, pressed or typed as *, makes a crop a favourite."
            )
        )
        self.choice.chosen.connect(self._arrange)
        self.state = QLabel()
        self.state.setWordWrap(True)
        self.state.setProperty("second", True)
        self.state.hide()

    def _make_work(self) -> None:
        self.jobs = JobQueue(self)
        self._tried: Plan | None = None
        self._worked_out: tuple[object, ...] = ()
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLED)
        self._settling.timeout.connect(self._work_out)
        seen = WhenSeen(self, self._follow)
        for changed in (
            self._document.garden_settled,
            self._document.selection_changed,
            self._document.day_changed,
            self._document.year_changed,
        ):
            changed.connect(seen.follow)

    def remember(self, settings: QSettings) -> None:
        """Take up the favourites and the order that were chosen before, and keep those chosen from now on."""
        self._settings = settings
        self.model.favourites = frozenset(str(settings.value(_FAVOURITES, "", str)).split())
        order = settings.value(_ORDER, "name", str)
        if order in ORDERS:
            self.order.show_value(order)
            self._arrange()

    # -- order and choice -------------------------------------------------------------------

    def _arrange(self, _value: object = None) -> None:
        """Take up the order and the choice."""
        for key in ORDERS:
            if key == self.order.value:
                self.model.order = key
        for choice in CHOICES:
            if choice == self.choice.value:
                self._filter.choice = choice
        self.model.tell_fit = self._filter.choice in FITTING
        if self._settings is not None:
            self._settings.setValue(_ORDER, self.model.order)
        self._show_order()
        self._follow()

    def _show_order(self) -> None:
        self.model.tell()
        self._filter.arrange()
        self._say_state()
        self._say_none()
        self.list.scrollToTop()

    def _star(self, index: QModelIndex) -> None:
        key = index.data(CROP_ROLE).key
        self.model.mark_favourite(key, key not in self.model.favourites)
        if self._settings is not None:
            self._settings.setValue(_FAVOURITES, " ".join(sorted(self.model.favourites)))
        self._say_none()

    def _beds(self) -> tuple[tuple[Bed, ...], bool]:
        """The beds that are asked: selected ones, those of selected plantings, else all; and whether they are all."""
        document = self._document
        there = {bed.id: bed for bed in document.plan.beds}
        plantings = document.garden.plantings_by_id
        keys = dict.fromkeys(
            (*document.selected_beds, *(plantings[key].bed for key in document.selected_plantings))
        )
        chosen = tuple(there[key] for key in keys if key in there)
        return (chosen, False) if chosen else (tuple(there.values()), True)

    def _follow(self) -> None:
        """Something has changed on which order or choice may depend."""
        if self.model.order in ("harvest", "due") or self.model.tell_fit:
            self._settling.start()
        elif self.model.order == "grown":
            self.model.tell()

    def _work_out(self) -> None:
        document, model = self._document, self.model
        plan, day = document.plan, document.moment.date()
        beds, _all = self._beds()
        asked = (plan, day, tuple(bed.id for bed in beds), model.order, model.tell_fit)
        if asked == self._worked_out:
            return
        self._worked_out = asked
        tried = self._tried
        of = (plan.garden, plan.year, plan.assumed)
        if tried is None or (tried.garden, tried.year, tried.assumed) != of:
            # Of its own: what the window works out meanwhile is not for another thread.
            tried = self._tried = own_plan(plan)
        crops = tuple(document.catalogue.crops.values())
        order, fitting = model.order, model.tell_fit
        self.state.setText(say("Being worked out…"))
        self.state.show()

        def work(cancelled: Cancelled) -> Iterator[CropFacts]:
            from planner.proposal.fitting import fits

            facts = CropFacts(day=day)
            if order == "harvest":
                facts = replace(facts, harvest=dict(harvests(tried, crops, day, cancelled)))
            elif order == "due":
                facts = replace(facts, windows=dict(windows(tried, crops, cancelled)))
            if fitting:
                facts = replace(facts, fits=fits(tried, beds, day, crops, cancelled))
            yield facts

        self.jobs.start(work, self._show_facts)

    def _show_facts(self, facts: CropFacts) -> None:
        self.model.facts = facts
        self._show_order()

    def _say_state(self) -> None:
        """How many fit, also to a screen reader, which reads it with the list."""
        facts = self.model.facts
        words = ""
        if self.model.tell_fit and facts.day is not None and facts.fits:
            beds, everything = self._beds()
            words = fitting_words(facts.fits, beds, facts.day, garden=everything)
        elif self.model.tell_fit and not self._beds()[0]:
            words = say("No bed is there to fit into.")
        self.state.setText(words)
        self.state.setVisible(bool(words))
        self.list.setAccessibleDescription(words)

    def _say_none(self) -> None:
        empty = self._filter.rowCount() == 0
        if self.search.text().strip():
            self.none.setText(say("No crop fits these words."))
        elif self._filter.choice == "favourites":
            self.none.setText(say("No favourites yet: press the star of a crop, or type *."))
        else:
            self.none.setText(say("Nothing is in stock."))
        self.none.setVisible(empty)

    # -- searching --------------------------------------------------------------------------

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Down:
                self.list.setFocus(Qt.FocusReason.TabFocusReason)
                if not self.list.currentIndex().isValid():
                    self.list.setCurrentIndex(self._filter.index(0, 0))
                return True
            if event.key() == Qt.Key.Key_Escape and self.search.text():
                self.search.clear()
                return True
        return super().eventFilter(watched, event)

    def _look_for(self, words: str) -> None:
        self._filter.look_for(words)
        self._say_none()
        if self._filter.rowCount():
            self.list.setCurrentIndex(self._filter.index(0, 0))
            self.list.scrollToTop()

    def _show(self, index: QModelIndex, _before: QModelIndex) -> None:
        if index.isValid():
            self.crop_shown.emit(index.data(CROP_ROLE))

    def take(self, *, by_key: bool) -> None:
        """Take the crop under the list's cursor, or the first one; by key all that are chosen."""
        index = self.list.currentIndex()
        if not index.isValid() and self._filter.rowCount():
            index = self._filter.index(0, 0)
        chosen = self.list.chosen() if by_key else []
        if index.isValid():
            indexes = chosen if len(chosen) > 1 and index in chosen else [index]
            crops = tuple((each.data(CROP_ROLE), each.data(VARIETY_ROLE)) for each in indexes)
            self.crops_taken.emit(crops, by_key)
