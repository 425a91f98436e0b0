"""The garden's own figures beside the published ones, and whether plans use them."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QCheckBox, QPushButton, QVBoxLayout, QWidget

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import LEAST_TABLE, wrapped_label
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.garden import edits
from planner.garden.learned import LEARNED_KINDS, LearnedUse
from planner.listings.learned import (
    counting_sentence,
    counting_words,
    crop_name,
    figure_name,
    group_name,
    own_words,
    shown_years,
    together,
    together_words,
    used_words,
    variety_name,
    years_words,
)
from planner.listings.left_out import end_lines, left_out_lines
from planner.listings.phrases import start_words
from planner.plan import Plan
from planner.plan.own_years import GroupLeftOut, OwnYears
from planner.words import capital, say, say_count, say_in_context

#: Columns that are set to the right.
_NUMBERS = (3, 4, 5, 6, 8, 9)
#: Most lines of years that are left out where no crop is chosen.
MOST_LINES = 5


def learned_heads() -> tuple[str, ...]:
    """Headings of the table."""
    return (
        say("Crop"), say("Variety"), say("Figure"), say("Years"), say("Own"), say("Published"), say("To plan with"), say("Used"),
        say("Own years count"), say_in_context("of several values", "Spread"), say("Start"),
    )  # fmt: skip


class LearnedPage(QWidget):
    """What this garden's own years tell."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Own figures"))
        self._own: dict[str, OwnYears] = {}
        self._left_out: tuple[GroupLeftOut, ...] = ()
        self.words = wrapped_label()
        self.wanted = QCheckBox(say("Use this garden's own figures"))
        self.wanted.setToolTip(say("From three years on, or where you choose so"))
        self.wanted.clicked.connect(self._use)
        self.table = OpeningTable(learned_heads(), say("Own figures beside the published ones"), _NUMBERS)
        self.table.sort_rows(0)
        self.table.setRootIsDecorated(False)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.left_out = wrapped_label()
        self.use = QPushButton(say("Use it"))
        self.leave = QPushButton(say("Leave it out"))
        self.by_rule = QPushButton(say("From three years on"))
        for button, used in ((self.use, True), (self.leave, False), (self.by_rule, None)):
            button.clicked.connect(lambda _checked=False, used=used: self._choose(used))
        head, below = FlowLayout(), FlowLayout()
        head.addWidget(self.wanted)
        for button in (self.use, self.leave, self.by_rule):
            below.addWidget(button)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.words)
        column.addWidget(self.table, 1000)
        column.addWidget(self.left_out)
        column.addLayout(below)
        column.addStretch(1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def refresh(self) -> None:
        """Show the figures as they are now."""
        plan = self.document.plan
        own = shown_years(plan)
        self._own = {_key(one): one for one in own}
        self.wanted.setChecked(plan.garden.site.learned.use != "never")
        self.table.show_rows([_row(plan, one) for one in own])
        self.table.setVisible(bool(own))
        self._left_out = plan.learned.left_out
        self.words.setText(
            say(
                "Own is the mean of this garden's years, published what books and growers say of the same plantings. Plans use what follows "
                "of both: the more years there are and the less they differ, the more your own years count."
            )
            if own
            else say("No record tells days, yields or seed that came up yet.")
        )
        self._follow_choice()

    def _chosen(self) -> OwnYears | None:
        keys = self.table.selected_keys()
        return self._own.get(keys[0]) if keys else None

    def _follow_choice(self) -> None:
        """A choice that is there already, or that nothing follows from, is not offered."""
        one = self._chosen()
        can = one is not None and one.learned is not None
        chosen = one.chosen if one is not None else None
        for button, used in ((self.use, True), (self.leave, False), (self.by_rule, None)):
            button.setEnabled(can and chosen is not used)
            button.setVisible(bool(self._own))
        lines = self._left_out_lines(one)
        if one is not None and (counts := counting_sentence(one)):
            lines.insert(0, say("{crop}: {words}.", crop=_title(self.document.plan, one), words=counts))
        self.left_out.setText("\n".join(lines))
        self.left_out.setVisible(bool(lines))

    def _left_out_lines(self, one: OwnYears | None) -> list[str]:
        """What was lost and which years are left out: of the crop that is chosen, else the first of all."""
        plan = self.document.plan
        units = plan.garden.site.units
        groups = [of for of in self._left_out if one is None or of.key.crop == one.key.crop]
        lines = [
            say("{group}: {words}.", group=group_name(plan, of), words=words)
            for of in groups
            for words in left_out_lines(of, units)
        ]
        lines += end_lines(groups, partial(group_name, plan))
        if one is None and len(lines) > MOST_LINES:
            more = len(lines) - MOST_LINES + 1
            rest = say_count(
                "{count} more: choose a crop to read of its years",
                "{count} more: choose a crop to read of its years",
                more,
            )
            return [*lines[: MOST_LINES - 1], rest]
        return lines

    def _use(self) -> None:
        use: LearnedUse = "after three years" if self.wanted.isChecked() else "never"
        self.document.edit(say("Own figures"), lambda garden: edits.use_learned(garden, use))

    def _choose(self, used: bool | None) -> None:
        one = self._chosen()
        kind = next((kind for kind in LEARNED_KINDS if one is not None and kind == one.kind), None)
        if one is None or kind is None:
            return
        self.document.edit(
            say("Own figure"),
            lambda garden: edits.choose_learned(garden, one.key.crop, kind, used, one.name),
        )


def _title(plan: Plan, one: OwnYears) -> str:
    """Crop and figure: ``Carrot, yield of a plant``."""
    crop = capital(crop_name(plan, one.key.crop))
    return say("{crop}, {figure}", crop=crop, figure=figure_name(one, plan.garden.site.units))


def _key(one: OwnYears) -> str:
    return " ".join((*one.key, one.kind))


def _row(plan: Plan, one: OwnYears) -> Row:
    units, published = plan.garden.site.units, one.published
    cells = (
        capital(crop_name(plan, one.key.crop)),
        variety_name(plan, one),
        figure_name(one, units),
        years_words(one),
        own_words(one, one.own, units),
        own_words(one, published, units) if published is not None else "",
        together_words(one, units),
        used_words(plan, one),
        counting_words(one),
        own_words(one, one.spread, units) if one.spread is not None else "",
        start_words(one.key.start),
    )
    sorts: tuple[str | float, ...] = (
        *cells[:3],
        len(one.counted or one.years),
        one.own,
        published or 0.0,
        together(one) or 0.0,
        cells[7],
        one.shrunk.weight if one.shrunk is not None else 0.0,
        one.spread or 0.0,
        cells[10],
    )
    return Row(cells, _key(one), sorts=sorts)
