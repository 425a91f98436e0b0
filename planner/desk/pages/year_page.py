"""The year of the whole garden beside the work of a week, to be ticked off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.amounts.bed_tasks import dressing_tasks
from planner.amounts.tasks import planting_tasks, tasks, tasks_between, touches, touching
from planner.desk.canvas.bar_legend import BarLegend
from planner.desk.forms.day_field import DayField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.wrapped import WrappedItems
from planner.desk.model.document import Document
from planner.desk.model.per_bed import PerBed
from planner.desk.pages.watering_group import watering_group
from planner.desk.pages.year_chart import YearChart
from planner.desk.theme.choice_names import name_choice
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Bed, edits
from planner.garden.units import month_first
from planner.listings.tasks import task_words
from planner.plan import Plan
from planner.season.tasks import Task, monday
from planner.words import day_words, full_day_words, join_list, say, weekday_words, work_words
from planner.words.typed_days import date_as_typed

_DAY = dt.timedelta(days=1)
_WEEK = dt.timedelta(days=7)
_TASK_ROLE = Qt.ItemDataRole.UserRole
#: Widths of chart and week at first. [pixels]
CHART_WIDTH, WEEK_WIDTH = 700, 380
#: On a narrower page the week is below the chart, with some lines of its list in sight. [pixels]
LEAST_LIST = 76
NARROW = 640


class YearPage(QWidget):
    """The chart of the year, and the work of the week of the day shown.

    Signals
    -------
    record_wanted : dict
        A record is to be written; its first fields.
    said : str
        A line for the status bar.
    end_wanted, anew_wanted
        The selected plantings ended; the selected planting is to be sown anew.
    """

    record_wanted = Signal(object)
    said = Signal(str)
    end_wanted = Signal()
    anew_wanted = Signal()

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName(say("Year"))
        self._filling = False
        self._done_chosen = False
        self.shown: list[Task] = []
        self._work = _Work()
        self._places_of: tuple[int, dt.date] | None = None
        self._places: dict[str, tuple[str, int]] = {}
        self._ticked: set[str] = set()
        self.board = YearChart(document, look)
        self.board.picked.connect(lambda key: document.select((key,)))
        area = QScrollArea()
        area.setAccessibleName(say("Part of the page that scrolls"))
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidget(self.board)
        self.board.follow_scrolling(area)
        self._make_list()
        self._split = split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(area)
        self._side = self._make_side()
        split.addWidget(self._side)
        split.setStretchFactor(0, 1)
        split.setSizes([CHART_WIDTH, WEEK_WIDTH])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addWidget(split, 1)
        self.legend = BarLegend(document, look, "bare", "frost")
        whole.addWidget(self.legend)
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self._forget_done)
        document.day_changed.connect(self.refresh)

    def _make_list(self) -> None:
        self.list = QTreeWidget()
        self.list.setAccessibleName(say("Work of the week"))
        self.list.setHeaderHidden(True)
        self.list.setRootIsDecorated(False)
        self.list.setWordWrap(True)
        self._delegate = WrappedItems(self.list, 38)
        self.list.setItemDelegate(self._delegate)
        self.list.setIndentation(12)
        self.list.itemChanged.connect(self._on_item_changed)
        self.list.itemSelectionChanged.connect(self._select_plantings)

    def _make_side(self) -> QWidget:
        """The work of the week: its days, filters, the list, and the day that ticks are given."""
        self.week = QLabel()
        self.week.setTextFormat(Qt.TextFormat.PlainText)
        self.week.setFont(letters(10, bold=True))
        before, after = QPushButton(say("Week before")), QPushButton(say("Week after"))
        before.clicked.connect(lambda: self._step(-7))
        after.clicked.connect(lambda: self._step(7))
        self.bed, self.kind = QComboBox(), QComboBox()
        for box, name in ((self.bed, say("Bed")), (self.kind, say("Kind of work"))):
            name_choice(box, name)
            box.setMinimumContentsLength(6)
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.activated.connect(lambda _index: self._fill())
        self.done = DayField(say("Done on"), dt.date.today(), self._read_day)
        self.done.typed.connect(self._on_done_chosen)
        self.why = QLabel()
        self.why.setWordWrap(True)
        self.why.setTextFormat(Qt.TextFormat.PlainText)
        self.why.setProperty("warn", True)
        self.why.hide()
        self.done.marked.connect(self.why.setText)
        self.done.marked.connect(lambda why: self.why.setVisible(bool(why)))
        head, filters, foot = FlowLayout(), QHBoxLayout(), FlowLayout()
        for widget in (self.week, before, after):
            head.addWidget(widget)
        filters.addWidget(self.bed, 1)
        filters.addWidget(self.kind, 1)
        foot.addWidget(QLabel(say("Ticked off as done on")))
        foot.addWidget(self.done)
        self.record_button = QPushButton(say("Write down more…"))
        self.record_button.setToolTip(say("A record of any kind about the work that is chosen"))
        self.record_button.clicked.connect(self._write_record)
        foot.addWidget(self.record_button)
        self.ended, self.anew = QPushButton(say("Ended…")), QPushButton(say("Sow anew…"))
        self.ended.clicked.connect(self.end_wanted)
        self.anew.clicked.connect(self.anew_wanted)
        foot.addWidget(self.ended)
        foot.addWidget(self.anew)
        self._follow_selection()
        self.document.selection_changed.connect(self._follow_selection)
        side = QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(10, 8, 10, 8)
        column.addLayout(head)
        column.addLayout(filters)
        column.addWidget(self.list, 1)
        column.addLayout(foot)
        column.addWidget(self.why)
        return side

    @property
    def monday(self) -> dt.date:
        """First day of the week shown: that of the day shown on the sheet."""
        return monday(self.document.day or self.document.plan.span.first)

    def _step(self, days: int) -> None:
        day = self.document.day or self.document.plan.span.first
        self.document.show_day(day + _DAY * days)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the week as it is now (only while the page can be seen)."""
        if self.isVisible():
            self._fill()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < NARROW
        orientation = Qt.Orientation.Vertical if narrow else Qt.Orientation.Horizontal
        if self._split.orientation() != orientation:
            self._split.setOrientation(orientation)
            third = max(self.height() // 3, 1)
            self._split.setSizes([third, 2 * third] if narrow else [CHART_WIDTH, WEEK_WIDTH])
        self._keep_room_for_lines(self.width() if narrow else 0)

    def _keep_room_for_lines(self, width: int) -> None:
        """Keep the height of the week's buttons, which go on in further lines of a narrow page.

        A splitter asks for the least height of one line only. 0 asks for nothing more.
        """
        self.list.setMinimumHeight(LEAST_LIST if width else 0)
        layout = self._side.layout()
        self._side.setMinimumHeight(layout.minimumHeightForWidth(width) if layout and width else 0)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    def _fill(self) -> None:
        first = self.monday
        last = first + _DAY * 6
        found = self._work.between(self.document.plan, first, last)
        found = (*found, *self._still_listed(found, first))
        self._fill_filters(found)
        bed = self.bed.currentText() if self.bed.currentIndex() > 0 else ""
        kind = str(self.kind.currentData() or "")
        self.shown = [task for task in found if bed in ("", task.bed_name) and kind in ("", task.kind)]
        self.week.setText(say("{first} to {last}", first=day_words(first), last=full_day_words(last)))
        self._propose_day(first, last)
        self._filling = True
        self.list.clear()
        for title, part in self._groups(first):
            if part:
                self._add_group(title, part)
        watered = watering_group(self.document.plan, first, last, bed) if kind == "" else None
        if watered is not None:
            self.list.addTopLevelItem(watered)
            watered.setExpanded(True)
        elif not self.shown:
            self.list.addTopLevelItem(QTreeWidgetItem([say("Nothing to do in this week.")]))
        self._filling = False

    def _still_listed(self, found: tuple[Task, ...], first: dt.date) -> list[Task]:
        """What was ticked off while this week is shown, with a day of another one: it stays to be seen."""
        if self._places_of != (self.document.year, first):
            return []
        plan, known = self.document.plan, {task.key for task in found}
        left = []
        for key in self._ticked - known:
            planting = plan.garden.plantings_by_id.get(key.partition("/")[0])
            work = planting_tasks(plan, planting) if planting is not None else ()
            left += [task for task in work if task.done is not None and task.key == key]
        return left

    def _groups(self, first: dt.date) -> list[tuple[str, list[Task]]]:
        """The work shown, in its groups; while the same week is shown, a tick moves no line under the pointer."""
        if self._places_of != (self.document.year, first):
            self._places_of, self._places = (self.document.year, first), {}
            self._ticked = set()
        this_week, going_on = say("This week"), say("Going on")
        groups: dict[str, list[Task]] = {this_week: [], going_on: []}
        for task in self.shown:
            usual = going_on if task.date < first and task.is_open else this_week
            title, _ = self._place_of(task, (usual, 0))
            groups[title].append(task)
        for part in groups.values():
            part.sort(key=lambda task: self._place_of(task, ("", len(self._places)))[1])
        places = [
            (task, (title, number)) for title, part in groups.items() for number, task in enumerate(part)
        ]
        # A tick that is taken back puts its line where it was.
        self._places = {task.base_key: at for task, at in reversed(places)} | {
            task.key: at for task, at in places
        }
        return list(groups.items())

    def _place_of(self, task: Task, usual: tuple[str, int]) -> tuple[str, int]:
        """Group and place of a piece of work while its week is shown; what is done again takes that of before it was ticked."""
        return self._places.get(task.key) or self._places.get(task.base_key, usual)

    def _fill_filters(self, found: tuple[Task, ...]) -> None:
        beds = sorted({task.bed_name for task in found})
        kinds = sorted({task.kind for task in found}, key=lambda kind: work_words(kind).casefold())
        for box, words, offered in (
            (self.bed, say("all beds"), [(name, name) for name in beds]),
            (self.kind, say("all work"), [(kind, work_words(kind)) for kind in kinds]),
        ):
            now = box.currentData()
            box.clear()
            box.addItem(words, None)
            for key, name in offered:
                box.addItem(name, key)
            box.setCurrentIndex(max(0, box.findData(now)) if now is not None else 0)

    def _propose_day(self, first: dt.date, last: dt.date) -> None:
        """Propose a day for ticks; one that the person has chosen stays, until another garden or year is shown."""
        if self._done_chosen or self.done.isModified():
            return
        today = dt.date.today()
        day = today if first <= today <= last else self.document.day or first
        self.done.show_day(day)

    def _read_day(self, text: str) -> dt.date:
        plan = self.document.plan
        return date_as_typed(text, plan.span.first, month_first=month_first(plan.garden.site.units))

    def _on_done_chosen(self) -> None:
        self._done_chosen = True

    def _forget_done(self) -> None:
        self._done_chosen = False
        self.done.accept()
        self.refresh()

    def _add_group(self, title: str, part: list[Task]) -> None:
        head = QTreeWidgetItem([title])
        head.setFont(0, letters(9, bold=True))
        self.list.addTopLevelItem(head)
        for task in part:
            head.addChild(self._item(task))
        head.setExpanded(True)

    def _item(self, task: Task) -> QTreeWidgetItem:
        picked = self._picked(task)
        item = QTreeWidgetItem([_words(task, picked)])
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(0, Qt.CheckState.PartiallyChecked if picked else _mark(task))
        item.setData(0, _TASK_ROLE, task)
        item.setToolTip(0, plain_tip(task.why))
        if not task.is_open:
            item.setForeground(0, self.look.now.pencil)
        return item

    def _picked(self, task: Task) -> tuple[dt.date, ...]:
        """Days of the week on which something was picked, of picking that goes on."""
        if task.kind != "pick" or task.done:
            return ()
        first, last = self.monday, self.monday + _DAY * 6
        records = self.document.garden.records_of(task.planting)
        days = {one.day for one in records if one.kind in ("picked", "first picking")}
        return tuple(sorted(day for day in days if first <= day <= last))

    # -- ticking off ------------------------------------------------------------------------

    def _on_item_changed(self, item: QTreeWidgetItem, _column: int) -> None:
        task = item.data(0, _TASK_ROLE)
        if self._filling or not isinstance(task, Task):
            return
        checked = item.checkState(0) == Qt.CheckState.Checked
        if checked and self.done.is_wrong:  # the day that is meant is not known
            self.done.setFocus()
            QTimer.singleShot(0, self, self._fill)
            return
        day = self.done.day
        # Later: the edit fills the list anew, which must not delete the item that emits this signal.
        QTimer.singleShot(0, self, lambda: self._tick(task, checked, day))

    def _tick(self, task: Task, checked: bool, day: dt.date) -> None:
        if checked:
            words = say("Tick off: {work}, {crop}", work=work_words(task.kind), crop=task.crop)
            done = self.document.edit(
                words, lambda g: edits.tick(g, task.subject, task.kind, day, task.cover, bool(task.every))
            )
        else:
            words = say("Take back: {work}, {crop}", work=work_words(task.kind), crop=task.crop)
            # Work that comes back every year has a record for each: only that of this task is taken back.
            done = self.document.edit(
                words,
                lambda g: edits.untick(g, task.subject, task.kind, task.done, task.cover, bool(task.every)),
            )
        if not done:
            self._fill()
        elif checked:
            self._tell_week(task, day)

    def _tell_week(self, task: Task, day: dt.date) -> None:
        """Keep what was ticked off in the list, and say where it stands where its day is of another week."""
        once = replace(task, occurrence=day.isoformat()) if task.every else task
        self._ticked.add(once.key)
        first = self.monday
        if not first <= day <= first + _DAY * 6:
            self._fill()
            self.said.emit(
                say(
                    "{work}: done on {day}, and listed in the week of {monday}",
                    work=task_words(task)[0],
                    day=full_day_words(day),
                    monday=day_words(monday(day)),
                )
            )

    def _write_record(self) -> None:
        """Begin a record about the task that is chosen, or about what is selected."""
        tasks = [item.data(0, _TASK_ROLE) for item in self.list.selectedItems()]
        task = next((one for one in tasks if isinstance(one, Task)), None)
        draft: dict[str, object] = {} if self.done.is_wrong else {"day": min(self.done.day, dt.date.today())}
        plantings, beds = self.document.selected_plantings, self.document.selected_beds
        if task is not None and task.planting:
            draft |= {"planting": task.planting, "task": task.kind, "cover": task.cover}
        elif task is not None:
            draft |= {"bed": task.bed}
        elif plantings:
            draft |= {"planting": plantings[0]}
        elif beds:
            draft |= {"bed": beds[0]}
        self.record_wanted.emit(draft)

    def _follow_selection(self) -> None:
        """What ended, or is sown anew, is what is selected."""
        number = len(self.document.selected_plantings)
        self.ended.setEnabled(number > 0)
        self.anew.setEnabled(number == 1)

    def _select_plantings(self) -> None:
        """Select the plantings of the tasks that are selected; of work on a bed the bed."""
        found = (item.data(0, _TASK_ROLE) for item in self.list.selectedItems())
        keys = [task.planting or task.bed for task in found if isinstance(task, Task)]
        if keys:
            self.document.select(keys)


class _Work:
    """The work of all plantings, which follows edits: that of a bed is kept while nothing in it differs."""

    def __init__(self) -> None:
        self._of_beds = PerBed(_work_in_bed)
        self._beside: tuple[object, ...] = ((), ())

    def between(self, plan: Plan, first: dt.date, last: dt.date) -> tuple[Task, ...]:
        """The work of a span, as :func:`planner.amounts.tasks.tasks` gives it."""
        # Seed that was tested changes how much is sown; a dressing stands for other work.
        beside = (plan.garden.stock, plan.garden.dressings)
        if any(now is not before for now, before in zip(beside, self._beside, strict=True)):
            self._beside, self._of_beds = beside, PerBed(_work_in_bed)
        year = plan.span
        if not (year.first - _WEEK <= first and last <= year.last + _WEEK):
            return tasks(plan, first, last)
        of_beds = self._of_beds.of(plan)
        elsewhere = (
            planting_tasks(plan, one)
            for one in plan.garden.plantings
            if one.bed not in of_beds and touches(plan, one, first, last)
        )
        there = (
            work
            for in_bed in of_beds.values()
            for begins, ends, work in in_bed
            if begins <= last and ends >= first
        )
        return tasks_between(plan, (dressing_tasks(plan, first, last), *there, *elsewhere), first, last)


def _work_in_bed(plan: Plan, bed: Bed) -> tuple[tuple[dt.date, dt.date, tuple[Task, ...]], ...]:
    """The work on each planting of a bed in the growing year or a week from it, with the days around which it falls."""
    first, last = plan.span.first - _WEEK, plan.span.last + _WEEK
    return tuple(
        (*touching(plan, one), planting_tasks(plan, one))
        for one in plan.garden_in_bed(bed.id)
        if touches(plan, one, first, last)
    )


def _mark(task: Task) -> Qt.CheckState:
    """The mark of a piece of work; of what was done before on a day nobody knows half a one."""
    if task.done:
        return Qt.CheckState.Checked
    return Qt.CheckState.PartiallyChecked if task.done_before else Qt.CheckState.Unchecked


def _words(task: Task, picked: Sequence[dt.date] = ()) -> str:
    days = (
        f"{weekday_words(task.date)} {day_words(task.date)}"
        if task.date == task.until
        else say("{first} to {last}", first=day_words(task.date), last=day_words(task.until))
    )
    pinned = say(" (set by hand)") if task.origin == "by hand" else ""
    done = say(", done on {day}", day=day_words(task.done)) if task.done else ""
    if task.done_before:
        done = say(", done before")
    if picked:
        done = say(", picked on {days}", days=join_list([day_words(day) for day in picked]))
    return f"{days}{pinned}{done}: {task.text}"
