"""A planting as a form: how it is arranged, its days, and what that makes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from PySide6.QtCore import QSettings

from planner.amounts import Amount, amount
from planner.crops.families import family_title
from planner.desk.forms import fields
from planner.desk.forms.course_rows import CourseRows
from planner.desk.forms.cover_rows import CoverRows
from planner.desk.forms.form import Form
from planner.desk.forms.planting_choices import (
    ARRANGEMENTS,
    SIDES,
    STARTS,
    STATES,
    purposes,
    starts,
    supports,
    timings,
)
from planner.desk.forms.planting_tips import explain_planting_fields
from planner.desk.forms.planting_words import (
    arch_words,
    count_lines,
    date_lines,
    dated_words,
    reason_lines,
    support_words,
)
from planner.desk.forms.raising_rows import RaisingRows
from planner.desk.forms.short_form import ShortForm
from planner.desk.forms.soil_rule_rows import SoilRuleRows
from planner.desk.forms.spacing_choice import (
    CHOICES,
    SpacingChoice,
    changes_for,
    chosen_spacing,
    spacing_lines,
    spacing_sources,
)
from planner.desk.forms.sun_bars import SunBars
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.desk.model.thing_words import name_of
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Planting, Rows, Scatter, StaggeredRows, Whole, edits
from planner.garden.planting import Support, SupportKind
from planner.garden.planting_figures import PlantingFigures
from planner.garden.raising import Raising
from planner.garden.units import show_spacing
from planner.ground.bed_spacing import spacings
from planner.ground.dropping import plot_box
from planner.ground.rearranging import ArrangementKind, move_plot_ends, rearrange
from planner.ground.support_lines import USUAL_APART
from planner.listings.odds_line import odds_lines
from planner.listings.record_words import lesson_lines
from planner.plan.recorded import lessons_in_plan
from planner.season.planting_dates import Dates
from planner.words import capital, full_day_words, key_words, say, say_in_context

#: Name of the setting that says whether all fields of a planting are shown.
_MORE = "planting/more"


class PlantingForm(Form):
    """Variety, arrangement, plot, days, cover and support of a planting, and its numbers."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.counts = self.words()
        self.problem = self.words()
        self.problem.setProperty("warn", True)
        self.lessons = self.words()
        self._make_planting()
        self._make_arrangement()
        self._make_plot()
        self._make_days()
        self.section(say("Light"))
        self.sun = SunBars(document)
        self.widget(self.sun)
        self._make_cover_and_support()
        self._make_more()
        explain_planting_fields(self, self.states.values())
        self._make_short()
        self.finish()

    # -- fields -----------------------------------------------------------------------------

    def _make_planting(self) -> None:
        self.section(say("Planting"))
        self.variety = fields.text_field(say("Variety"), may_be_empty=True)
        self.row(say("Variety"), self.variety)
        self.variety.typed.connect(lambda text: self._edit(say("Name a variety"), variety=text or ""))
        self.start = fields.ChoiceField(say("How it starts"), starts())
        self.row(say("Start"), self.start)
        self.start.chosen.connect(lambda word: self._edit(say("Change how it starts"), start=word))
        self.states = {
            start: fields.ChoiceField(
                say("State in which it is planted"),
                [(key, say(STATES[start][key])) for key in STATES[start]],
            )
            for start in STATES
        }
        self._state_labels = {
            start: self.row(say("Planted as"), field) for start, field in self.states.items()
        }
        for field in self.states.values():
            field.chosen.connect(lambda word: self._edit(say("Change how it is planted"), state=word))
        self.product = fields.ChoiceField(say("What it is harvested for"), ((None, ""),))
        self._product_label = self.row(say("Harvested for"), self.product)
        self.product.chosen.connect(lambda word: self._edit(say("Change what it is for"), product=word or ""))
        self.purpose = fields.ChoiceField(say("Purpose"), purposes())
        self.row(say("Use"), self.purpose)
        self.purpose.chosen.connect(lambda word: self._edit(say("Change the purpose"), purpose=word))
        self.raising = RaisingRows(self, self._change_raising)

    def _make_arrangement(self) -> None:
        self.section(say("Spacing"))
        self.arrangement = fields.ChoiceField(
            say("Arrangement"), [(key, say(ARRANGEMENTS[key])) for key in ARRANGEMENTS]
        )
        self.row(say("Arranged in"), self.arrangement)
        self.arrangement.chosen.connect(self._rearrange)
        self.spacing = fields.ChoiceField(
            say("Spacing"), [(choice, say(CHOICES[choice])) for choice in CHOICES]
        )
        self.spacing.chosen.connect(self._choose_spacing)
        self.in_row = self._spacing_field(say("Spacing in the row"), may_be_empty=True)
        self.between = self._spacing_field(say("Spacing between rows"), may_be_empty=True)
        self.rows = fields.whole_field(say("Number of rows"), may_be_empty=True)
        self.edge = self._spacing_field(say("Distance from the edge"), may_be_empty=True)
        self.turn = fields.number_field(say("Angle of the rows"), after="°")
        self.density = fields.number_field(say("Plants to the square metre"))
        self._lines = [
            (self.row(say("Spacing"), self.spacing), self.spacing),
            (self.row(say("In the row"), self.in_row), self.in_row),
            (self.row(say("Between rows"), self.between), self.between),
            (self.row(say("Rows, at most"), self.rows), self.rows),
            (self.row(say("From the edge"), self.edge), self.edge),
            (self.row(say("Angle of the rows"), self.turn), self.turn),
        ]
        self._density_label = self.row(say("Plants per m²"), self.density)
        self.published = self.words()
        self.published.setProperty("second", True)
        for field, text, name in (
            (self.in_row, say("Change the spacing"), "in_row_spacing"),
            (self.between, say("Change the row spacing"), "row_spacing"),
            (self.rows, say("Change the number of rows"), "rows"),
            (self.edge, say("Change the edge distance"), "edge"),
            (self.turn, say("Turn the rows"), "turn"),
            (self.density, say("Change the density"), "density"),
        ):
            field.typed.connect(
                lambda value, text=text, name=name: self._change_arrangement(text, **{name: value})
            )

    def _spacing_field(self, name: str, *, may_be_empty: bool = False) -> fields.TypedField:
        return fields.length_field(name, lambda: self.units, small=True, may_be_empty=may_be_empty)

    def _make_plot(self) -> None:
        self.section(say_in_context("of a planting", "Plot"))
        self.plot_start = fields.length_field(say("Plot begins at"), lambda: self.units)
        self.plot_end = fields.length_field(say("Plot ends at"), lambda: self.units)
        self.row(say("From, to"), self.plot_start, self.plot_end)
        self.plot_start.typed.connect(lambda value: self._move_plot_ends(start=value))
        self.plot_end.typed.connect(lambda value: self._move_plot_ends(end=value))

    def _make_days(self) -> None:
        self.section(say("Days on its plot"))
        self.first, self.last = (
            self.date_field(say("First day")),
            self.date_field(say("Last day"), self._first_day),
        )
        self.row(say("First, last"), self.first, self.last)
        self.first.typed.connect(lambda day: self._edit(say("Set the first day"), first=day))
        self.last.typed.connect(lambda day: self._edit(say("Set the last day"), last=day))
        self.sown = self.date_field(say("Sowing day"))
        self.picked = self.date_field(say("First picking day"), self._first_day)
        self._sown_label = self.row(say("Sow"), self.sown)
        self.row(say("Pick from"), self.picked)
        self.sown.typed.connect(lambda day: self._pin(say("Set the sowing day"), sow=day))
        self.picked.typed.connect(lambda day: self._pin(say("Set the first picking day"), first_harvest=day))
        self.timing = fields.ChoiceField(say("Season"), timings())
        self.row(say("Season"), self.timing)
        self.timing.chosen.connect(lambda word: self._edit(say("Change the season"), timing=word))
        self.soil = SoilRuleRows(
            self, lambda rule: self._edit(say("Change the wait for warm soil"), soil_rule=rule)
        )
        self.dates = self.words()
        self.odds = self.words()
        self.series = WrappedButton(say("Make a series of it…"))
        self.widget(self.series)
        self.section(say("What became of it"))
        self.course = CourseRows(
            self, lambda word: self._edit(say("Say where a planting came from"), came_from=word)
        )

    def _make_cover_and_support(self) -> None:
        self.section(say("Covers"))
        self.covers = CoverRows(self, self._one, lambda: name_of(self.document.plan, [self.key]))
        self.section(say("Support"))
        self.support = fields.ChoiceField(say("Support"), supports())
        self.support_height = fields.length_field(say("Height of the support"), lambda: self.units)
        self.row(say("Support, height"), self.support, self.support_height)
        self.support.chosen.connect(self._change_support)
        self.support_height.typed.connect(
            lambda height: self._change_support_fields(say("Change the support"), height=height)
        )
        self.lines = fields.whole_field(say("Lines of the support"), may_be_empty=True)
        self.lines_apart = self._spacing_field(say("Distance of its lines"), may_be_empty=True)
        self._lines_label = self.row(say("Lines, apart"), self.lines, self.lines_apart)
        self.lines.typed.connect(
            lambda value: self._change_support_fields(say("Change the lines of a support"), lines=value)
        )
        self.lines_apart.typed.connect(
            lambda value: self._change_support_fields(
                say("Change the lines of a support"), line_spacing=value
            )
        )
        self.sides = fields.ChoiceField(
            say("Planted along a drawn support"), [(key, say(SIDES[key])) for key in SIDES]
        )
        self._sides_label = self.row(say("Along it"), self.sides)
        self.sides.chosen.connect(self._change_sides)
        self.offset = self._spacing_field(say("Distance from the support"))
        self._offset_label = self.row(say("From it"), self.offset)
        self.offset.typed.connect(
            lambda value: self._change_support_fields(say("Change the distance"), offset=value)
        )
        self.materials = self.words()

    def _make_more(self) -> None:
        self.section(say("Notes"))
        self.tended = fields.text_field(say("Tended by"), may_be_empty=True)
        self.row(say("Tended by"), self.tended)
        self.tended.typed.connect(lambda text: self._edit(say("Change who tends it"), tended_by=text or ""))
        self.notes = fields.NotesField(say("Notes on the planting"))
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self._edit(say("Note on a planting"), notes=text))

    def _make_short(self) -> None:
        """What, where, when and how many come first."""
        self._short = ShortForm(
            self,
            always={
                self.counts,
                self.problem,
                self.lessons,
                self.variety,
                self.arrangement,
                self.rows,
                self.density,
                self.plot_start,
                self.first,
                self.dates,
                self.course.lines,
            },
            differing={
                self.start: lambda: self.planting is not None and self.planting.start is not None,
                self.spacing: lambda: False,  # the two spacings say so
                self.turn: lambda: (
                    self.planting is not None and bool(getattr(self.planting.arrangement, "turn", 0))
                ),
            },
            beside={
                self.raising.words: self.raising.way,
                self.published: self.in_row,
                self.covers.words: self.covers.kind,
                self.covers.add: self.covers.kind,
                self.materials: self.support,
                self.odds: self.timing,
                self.soil.words: self.soil.waits,
                **dict.fromkeys(self.states.values(), self.start),
            },
        )
        self.more = self._short.more

    def remember_more(self, settings: QSettings) -> None:
        """Show as much as was chosen when the program ran last."""
        self.more.setChecked(settings.value(_MORE, False, bool) is True)
        self.more.toggled.connect(lambda more: settings.setValue(_MORE, more))

    # -- edits ------------------------------------------------------------------------------

    @property
    def planting(self) -> Planting | None:
        """The planting shown."""
        return self.document.garden.plantings_by_id.get(self.key)

    def _one(self) -> tuple[Planting, ...]:
        planting = self.planting
        return (planting,) if planting is not None else ()

    def _first_day(self) -> dt.date:
        planting, plan = self.planting, self.document.plan
        return plan.span_of(planting).first if planting is not None else plan.span.first

    def _edit(self, text: str, **changes: Any) -> None:
        self.edit(text, edits.change_planting, **changes)

    def _pin(self, text: str, **days: dt.date | None) -> None:
        planting = self.planting
        if planting is not None:
            self._edit(text, pinned_dates={**planting.pinned_dates.model_dump(), **days})

    def _change_raising(self, changes: Mapping[str, Raising | None]) -> None:
        self._edit(say("Change how it is raised"), raising=changes[self.key])

    def _change_arrangement(self, text: str, **changes: Any) -> None:
        planting = self.planting
        if planting is not None:
            now = {n: getattr(planting.arrangement, n) for n in type(planting.arrangement).model_fields}
            self._edit(text, arrangement={**now, **changes})

    def _choose_spacing(self, choice: SpacingChoice) -> None:
        planting, plan = self.planting, self.document.plan
        if planting is not None and isinstance(planting.arrangement, (Rows, StaggeredRows)):
            figures, layout = plan.figures_of(planting), plan.placed(planting).layout
            changes = changes_for(choice, planting.arrangement, figures, layout)
            self._change_arrangement(say("Choose the spacing"), **changes)

    def _rearrange(self, kind: ArrangementKind) -> None:
        planting = self.planting
        if planting is not None and kind != planting.arrangement.kind:
            placed = self.document.plan.placed(planting)
            self.edit(say("Change the arrangement"), lambda garden, key: rearrange(garden, key, kind, placed))

    def _move_plot_ends(self, start: float | None = None, end: float | None = None) -> None:
        if self.planting is not None:
            self.edit(say("Resize a plot"), lambda garden, key: move_plot_ends(garden, key, start, end))

    def _change_support(self, kind: SupportKind | None) -> None:
        planting = self.planting
        if planting is None:
            return
        new = None
        if kind is not None:
            new = planting.support.with_(kind=kind) if planting.support else Support(kind=kind)
        self._edit(say("Change the support"), support=new)

    def _change_support_fields(self, text: str, **changes: Any) -> None:
        planting = self.planting
        if planting is not None and planting.support is not None:
            self._edit(text, support={**planting.support.model_dump(), **changes})

    def _change_sides(self, sides: int) -> None:
        if sides:
            self._change_support_fields(say("Plant along the support"), sides=sides)
        else:
            self._change_support_fields(say("Plant in rows again"), line=())

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the planting as it is now."""
        planting = self.planting
        if planting is None:
            return
        self._short.show_all()
        plan = self.document.plan
        part, figures, dates = amount(plan, planting), plan.figures_of(planting), plan.dates(planting)
        self._show_head(planting, figures, part)
        self.variety.show_value(planting.variety or None)
        usual = figures.crop.usual_start if figures.crop else "sown"
        self.start.setItemText(0, say("the usual way ({start})", start=say(STARTS[usual])))
        self.start.show_value(planting.start)
        self._show_state(planting, part.start)
        self.raising.show(plan, (planting,))
        self._show_product(planting)
        self.purpose.show_value(planting.purpose)
        self._show_arrangement(planting, figures)
        self._show_plot(planting)
        self._show_days(planting, dates, raised=part.start == "raised")
        self.course.show(planting)
        self.sun.show_thing(planting.id)
        self.covers.show()
        self._show_support(planting)
        self.tended.show_value(planting.tended_by or None)
        self.notes.show_value(planting.notes)
        self._short.shorten()

    def _show_state(self, planting: Planting, start: str) -> None:
        for kind, field in self.states.items():
            field.setVisible(kind == start)
            self._state_labels[kind].setVisible(kind == start)
            known = STATES[kind]
            field.show_value(planting.state if planting.state in known else None)

    def _show_head(self, planting: Planting, figures: PlantingFigures, part: Amount) -> None:
        self.heading.setText(with_variety(capital(part.crop), planting.variety))
        crop = figures.crop
        family = f"{crop.latin}, {family_title(crop.family)}" if crop else say("not in the catalogue")
        self.under.setText(
            say("{family}; in {bed}, {year}", family=family, bed=part.bed.name, year=planting.year)
        )
        self.counts.setText("\n".join(count_lines(self.document.plan, part)))
        self.problem.setText("\n".join(line for line in (part.problem, *part.missing) if line))
        self.problem.setVisible(bool(self.problem.text()))
        lessons = lesson_lines(lessons_in_plan(self.document.plan, planting.crop, planting.bed))
        self.lessons.setText("\n".join(lessons))
        self.lessons.setVisible(bool(lessons))

    def _show_product(self, planting: Planting) -> None:
        """Offer the products of its crop, where that has several."""
        crop = self.document.catalogue.get(planting.crop)
        further = [one.product for one in crop.further_products] if crop is not None else []
        if planting.product and planting.product not in further:
            further.append(planting.product)  # of an older catalogue, or another program
        for widget in (self.product, self._product_label):
            widget.setVisible(bool(further))
        own = crop.product.value if crop is not None and crop.product is not None else None
        self.product.offer(
            [
                ("", key_words(own) if own else say("its usual harvest")),
                *((word, key_words(word)) for word in further),
            ]
        )
        self.product.show_value(planting.product)

    def _show_arrangement(self, planting: Planting, figures: PlantingFigures) -> None:
        arrangement = planting.arrangement
        self.arrangement.show_value(arrangement.kind)
        for label, field in self._lines:
            label.setVisible(isinstance(arrangement, (Rows, StaggeredRows)))
            field.setVisible(isinstance(arrangement, (Rows, StaggeredRows)))
        for widget in (self._density_label, self.density):
            widget.setVisible(isinstance(arrangement, Scatter))
        self.published.setVisible(isinstance(arrangement, (Rows, StaggeredRows)))
        if isinstance(arrangement, Scatter):
            self.density.show_value(arrangement.density)
        if isinstance(arrangement, (Rows, StaggeredRows)):
            in_row, between = spacings(arrangement, figures)
            layout = self.document.plan.placed(planting).layout
            between = between or layout.row_spacing
            self.spacing.show_value(chosen_spacing(arrangement))
            self.published.setText(spacing_lines(figures, self.units))
            self.published.setToolTip(plain_tip(spacing_sources(figures, self.document.catalogue)))
            self.in_row.show_value(arrangement.in_row_spacing, self._usual(in_row))
            self.between.show_value(arrangement.row_spacing, self._usual(between))
            self.rows.show_value(arrangement.rows, f"{layout.row_count}")
            lone = layout.rows[0].across if layout.row_count == 1 else None
            self.edge.show_value(arrangement.edge, self._usual(lone or (between / 2 if between else None)))
            self.turn.show_value(arrangement.turn)

    def _usual(self, value: float | None) -> str:
        return show_spacing(value, self.units) if value else say("unknown")

    def _show_plot(self, planting: Planting) -> None:
        bed = self.document.plan.bed_of(planting)
        left, right = 0.0, 0.0
        if not self.document.plan.placed(planting).plot.is_empty:
            left, _, right, _ = plot_box(bed, planting.plot)
        begin = plot_box(bed, Whole())[0]
        self.plot_start.show_value(max(left - begin, 0.0))
        self.plot_end.show_value(right - begin)

    def _show_days(self, planting: Planting, dates: Dates, *, raised: bool) -> None:
        span, pins = self.document.plan.span_of(planting), planting.pinned_dates
        self.first.show_value(planting.first, full_day_words(span.first))
        self.last.show_value(planting.last, say("no end") if span.open else full_day_words(span.last))
        self.sown.setVisible(raised)
        self._sown_label.setVisible(raised)
        self.sown.show_value(pins.sow, dated_words(dates.sow))
        self.picked.show_value(pins.first_harvest, dated_words(dates.first_harvest))
        self.timing.show_value(planting.timing)
        self.soil.show(planting, dates)
        self.dates.setText("\n".join(date_lines(dates)))
        self.dates.setToolTip(plain_tip("\n".join(reason_lines(dates))))
        odds = odds_lines(self.document.plan, planting)
        self.odds.setText("\n".join(odds))
        self.odds.setVisible(bool(odds))

    def _show_support(self, planting: Planting) -> None:
        support = planting.support
        self.support.show_value(support.kind if support else None)
        self.support_height.setVisible(support is not None)
        self.support_height.show_value(support.height if support else None)
        drawn = support is not None and bool(support.line)
        for widget in (self.lines, self.lines_apart, self._lines_label):
            widget.setVisible(support is not None and support.kind not in ("stake", "cage"))
        if support is not None:
            self.lines.show_value(support.lines, say("one") if drawn else say("one a row"))
            apart = self._usual(USUAL_APART) if drawn else say("evenly")
            self.lines_apart.show_value(support.line_spacing, apart)
        for widget in (self.sides, self._sides_label, self.offset, self._offset_label):
            widget.setVisible(drawn)
        if support is not None and drawn:
            self.sides.show_value(support.sides)
            self.offset.show_value(support.offset)
        plan = self.document.plan
        arch = plan.arch_of(planting)
        built = support_words(plan.built_support(planting), self.units)
        self.materials.setText(arch_words(arch) if arch is not None else built)
        self.materials.setVisible(support is not None or arch is not None)
