"""A planting as a form: how it stands, and what that makes."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QPushButton

from planner.amounts import Amount, amount
from planner.desk.canvas.planting_bar import MARKS, steps_of
from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.sun_bars import SunBars
from planner.desk.model.document import Document
from planner.garden import Planting, Rows, Scatter, StaggeredRows, Whole, edits
from planner.garden.planting import Cover, Support
from planner.garden.units import show_area, show_length, show_spacing
from planner.ground.dropping import plot_box, plot_of_box
from planner.ground.place import spacings
from planner.season.planting_dates import Dated

_ARRANGEMENTS = (
    ("rows", "rows"),
    ("staggered", "staggered rows"),
    ("scatter", "scattered"),
    ("places", "single places"),
)
_STARTS = (
    (None, "the usual way"),
    ("sown", "sown in place"),
    ("raised", "raised and set out"),
    ("bought", "bought in"),
    ("sets", "sets"),
    ("tubers", "tubers"),
    ("cloves", "cloves"),
    ("crowns", "crowns"),
    ("standing", "standing from before"),
)
_PURPOSES = tuple((word, word) for word in ("kitchen", "store", "seed", "cutting", "green manure", "trial"))
_COVERS = ((None, "none"), *((w, w) for w in ("fleece", "netting", "film", "cloche", "low tunnel")))
_SUPPORTS = (
    (None, "none"),
    *((w, w) for w in ("sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire")),
)


_TIMINGS = (
    (None, "the crop's usual"),
    ("spring", "spring"),
    ("autumn", "autumn"),
    ("count back", "counted back from frost"),
)


def _day(dated: Dated | None) -> str:
    return f"{dated.day:%d %b %Y}" if dated is not None else "unknown"


class PlantingForm(Form):
    """Variety, plot, arrangement, spacing and counts of a planting."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.counts = self.words()
        self.problem = self.words()
        self.problem.setProperty("warn", True)
        self.section("Planting")
        self.variety = fields.text_field("Variety", may_be_empty=True)
        self.row("Variety", self.variety)
        self.variety.typed.connect(lambda text: self._edit("Name a variety", variety=text or ""))
        self.start = fields.ChoiceField("How it starts", _STARTS)
        self.row("Starts", self.start)
        self.start.chosen.connect(lambda word: self._edit("Change how it starts", start=word))
        self.purpose = fields.ChoiceField("Purpose", _PURPOSES)
        self.row("For", self.purpose)
        self.purpose.chosen.connect(lambda word: self._edit("Change the purpose", purpose=word))
        self.section("Stand")
        self.arrangement = fields.ChoiceField("Arrangement", _ARRANGEMENTS)
        self.row("Arranged in", self.arrangement)
        self.arrangement.chosen.connect(self._arrange)
        self.in_row = fields.length_field(
            "Spacing in the row", lambda: self.units, small=True, may_be_empty=True
        )
        self.between = fields.length_field(
            "Spacing between rows", lambda: self.units, small=True, may_be_empty=True
        )
        self.rows = fields.whole_field("Number of rows", may_be_empty=True)
        self.edge = fields.length_field(
            "Distance from the edge", lambda: self.units, small=True, may_be_empty=True
        )
        self.turn = fields.number_field("Turn of the rows", after="°")
        self.density = fields.number_field("Plants to the square metre")
        self._line_labels = [
            self.row("In the row", self.in_row),
            self.row("Between rows", self.between),
            self.row("Rows, at most", self.rows),
            self.row("From the edge", self.edge),
            self.row("Rows turned", self.turn),
        ]
        self._line_fields = [self.in_row, self.between, self.rows, self.edge, self.turn]
        self._density_label = self.row("Plants per m²", self.density)
        self.in_row.typed.connect(lambda value: self._stand("Change the spacing", in_row_spacing=value))
        self.between.typed.connect(lambda value: self._stand("Change the row spacing", row_spacing=value))
        self.rows.typed.connect(lambda value: self._stand("Change the number of rows", rows=value))
        self.edge.typed.connect(lambda value: self._stand("Change the edge distance", edge=value))
        self.turn.typed.connect(lambda value: self._stand("Turn the rows", turn=value))
        self.density.typed.connect(lambda value: self._stand("Change the density", density=value))
        self.section("Plot")
        self.plot_start = fields.length_field("Plot begins at", lambda: self.units)
        self.plot_end = fields.length_field("Plot ends at", lambda: self.units)
        self.row("From, to", self.plot_start, self.plot_end)
        self.plot_start.typed.connect(lambda value: self._plot(start=value))
        self.plot_end.typed.connect(lambda value: self._plot(end=value))
        self.section("Days on its plot")
        self.first, self.last = fields.date_field("First day"), fields.date_field("Last day")
        self.row("First, last", self.first, self.last)
        self.first.typed.connect(lambda day: self._edit("Set the first day", first=day))
        self.last.typed.connect(lambda day: self._edit("Set the last day", last=day))
        self.sown, self.picked = fields.date_field("Sowing day"), fields.date_field("First picking day")
        self._sown_label = self.row("Sow", self.sown)
        self.row("Pick from", self.picked)
        self.sown.typed.connect(lambda day: self._pin("Pin the sowing", sow=day))
        self.picked.typed.connect(lambda day: self._pin("Pin the first harvest", first_harvest=day))
        self.timing = fields.ChoiceField("Season", _TIMINGS)
        self.row("Season", self.timing)
        self.timing.chosen.connect(lambda word: self._edit("Change the season", timing=word))
        self.dates = self.words()
        self.series = QPushButton("Make a series of it…")
        self.widget(self.series)
        self.section("Light")
        self.sun = SunBars(document)
        self.widget(self.sun)
        self.section("Cover and support")
        self.cover = fields.ChoiceField("Cover", _COVERS)
        self.row("Cover", self.cover)
        self.cover.chosen.connect(self._cover)
        self.support = fields.ChoiceField("Support", _SUPPORTS)
        self.support_height = fields.length_field("Height of the support", lambda: self.units)
        self.row("Support, height", self.support, self.support_height)
        self.support.chosen.connect(self._support)
        self.support_height.typed.connect(self._support_height)
        self.sides = fields.ChoiceField(
            "Planted along a drawn support",
            ((1, "one side of it"), (2, "both sides"), (0, "no line: in rows")),
        )
        self._sides_label = self.row("Along it", self.sides)
        self.sides.chosen.connect(self._along)
        self.offset = fields.length_field("Distance from the support", lambda: self.units, small=True)
        self._offset_label = self.row("From it", self.offset)
        self.offset.typed.connect(lambda value: self._support_part("Change the distance", offset=value))
        self.materials = self.words()
        self.section("More")
        self.tended = fields.text_field("Tended by", may_be_empty=True)
        self.row("Tended by", self.tended)
        self.tended.typed.connect(lambda text: self._edit("Change who tends it", tended_by=text or ""))
        self.notes = fields.NotesField("Notes on the planting")
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self._edit("Note on a planting", notes=text))
        self.finish()

    @property
    def planting(self) -> Planting | None:
        """The planting shown."""
        return self.document.garden.plantings_by_id.get(self.key)

    def _edit(self, text: str, **changes: Any) -> None:
        self.edit(text, edits.change_planting, **changes)

    def _pin(self, text: str, **days: Any) -> None:
        planting = self.planting
        if planting is not None:
            self._edit(text, pinned_dates={**planting.pinned_dates.model_dump(), **days})

    def _stand(self, text: str, **changes: Any) -> None:
        planting = self.planting
        if planting is not None:
            fields_now = {
                n: getattr(planting.arrangement, n) for n in type(planting.arrangement).model_fields
            }
            self._edit(text, arrangement={**fields_now, **changes})

    def _arrange(self, kind: str) -> None:
        planting = self.planting
        if planting is None or kind == planting.arrangement.kind:
            return
        old = planting.arrangement
        plan = self.document.plan
        placed = plan.placed(planting)
        if kind in ("rows", "staggered"):
            keep = {}
            if isinstance(old, (Rows, StaggeredRows)):
                keep = {n: getattr(old, n) for n in ("in_row_spacing", "rows", "edge", "end", "turn")}
                if kind == "rows" or old.row_spacing:
                    keep["row_spacing"] = old.row_spacing
            new: Any = {"kind": kind, **keep}
        elif kind == "scatter":
            density = placed.plants / placed.area if placed.area and placed.plants else 25.0
            new = Scatter(density=round(density, 2))
        else:
            points = tuple((round(float(x), 6), round(float(y), 6)) for x, y in placed.layout.points[:5000])
            if not points:
                self.refuse(
                    "There are no plants whose places could be kept. Give it a spacing that fits first."
                )
                return
            new = {"kind": "places", "points": points}
        self._edit("Change the arrangement", arrangement=new)

    def _plot(self, start: float | None = None, end: float | None = None) -> None:
        planting = self.planting
        if planting is None:
            return
        bed = self.document.garden.beds_by_id[planting.bed]
        left, low, right, high = plot_box(bed, planting.plot)
        begin = plot_box(bed, Whole())[0]
        left = begin + start if start is not None else left
        right = begin + end if end is not None else right
        if right - left < 0.01:
            self.refuse("The plot must end at least 1 cm beyond its beginning.")
            return
        plot = plot_of_box(bed, left, low, right, high)
        if plot is None:
            self.refuse(f"That plot lies outside {bed.name}. Give distances along the bed, from 0.")
            return
        self._edit("Resize a plot", plot=plot)

    def _cover(self, kind: str | None) -> None:
        planting = self.planting
        if planting is None:
            return
        old = planting.covers[0] if planting.covers else None
        covers: tuple[Any, ...] = ()
        if kind is not None:
            covers = (old.with_(kind=kind) if old else Cover(kind=kind), *planting.covers[1:])  # type: ignore[arg-type]
        self._edit("Change the cover", covers=covers)

    def _support(self, kind: str | None) -> None:
        planting = self.planting
        if planting is None:
            return
        old = planting.support
        new = None if kind is None else (old.with_(kind=kind) if old else Support(kind=kind))  # type: ignore[arg-type]
        self._edit("Change the support", support=new)

    def _support_height(self, height: float) -> None:
        self._support_part("Change the support", height=height)

    def _support_part(self, text: str, **changes: Any) -> None:
        planting = self.planting
        if planting is not None and planting.support is not None:
            self._edit(text, support={**planting.support.model_dump(), **changes})

    def _along(self, sides: int) -> None:
        if sides:
            self._support_part("Plant along the support", sides=sides)
        else:
            self._support_part("Plant in rows again", line=())

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the planting as it is now."""
        planting = self.planting
        if planting is None:
            return
        plan = self.document.plan
        bed = plan.bed_of(planting)
        facts = plan.figures_of(planting)
        part = amount(plan, planting)
        name = part.crop[0].upper() + part.crop[1:]
        self.heading.setText(f"{name} ‘{planting.variety}’" if planting.variety else name)
        family = f"{facts.crop.latin}, {facts.crop.family}; " if facts.crop else "not in the catalogue; "
        self.under.setText(f"{family}in {bed.name}, {planting.year}")
        self.counts.setText("\n".join(self._count_lines(part)))
        self.problem.setText("\n".join(line for line in (part.problem, *part.missing) if line))
        self.problem.setVisible(bool(self.problem.text()))
        self.variety.show_value(planting.variety or None)
        usual = facts.crop.usual_start if facts.crop else "sown"
        self.start.setItemText(0, f"the usual way ({dict(_STARTS)[usual]})")
        self.start.show_value(planting.start)
        self.purpose.show_value(planting.purpose)
        self._show_arrangement(planting, facts)
        left, _, right, _ = (
            plot_box(bed, planting.plot) if not plan.placed(planting).plot.is_empty else (0, 0, 0, 0)
        )
        begin = plot_box(bed, Whole())[0]
        self.plot_start.show_value(max(left - begin, 0.0))
        self.plot_end.show_value(right - begin)
        span = plan.span_of(planting)
        self.first.show_value(planting.first, f"{span.first:%d %b %Y}")
        self.last.show_value(planting.last, f"{span.last:%d %b %Y}")
        self.sun.show_thing(planting.id)
        dates = plan.dates(planting)
        raised = part.start == "raised"
        self.sown.setVisible(raised)
        self._sown_label.setVisible(raised)
        pins = planting.pinned_dates
        self.sown.show_value(pins.sow, _day(dates.sow))
        self.picked.show_value(pins.first_harvest, _day(dates.first_harvest))
        self.timing.show_value(planting.timing)
        lines = [f"{words} {dated.day:%d %b %Y}{MARKS[dated.origin]}" for words, dated in steps_of(dates)]
        lines += [
            f"{c.kind} from {c.on.day:%d %b}" + (f" to {c.off.day:%d %b}" if c.off else "")
            for c in dates.covers
        ]
        self.dates.setText("\n".join([*lines, *dates.missing, *dates.doubts]))
        self.dates.setToolTip("\n".join(f"{words}: {dated.why}" for words, dated in steps_of(dates)))
        self.cover.show_value(planting.covers[0].kind if planting.covers else None)
        self.support.show_value(planting.support.kind if planting.support else None)
        self.support_height.setVisible(planting.support is not None)
        self.support_height.show_value(planting.support.height if planting.support else None)
        drawn = planting.support is not None and bool(planting.support.line)
        for widget in (self.sides, self._sides_label, self.offset, self._offset_label):
            widget.setVisible(drawn)
        if drawn:
            self.sides.show_value(planting.support.sides)
            self.offset.show_value(planting.support.offset)
        self.materials.setText(self._material_words(planting))
        self.materials.setVisible(planting.support is not None)
        self.tended.show_value(planting.tended_by or None)
        self.notes.show_value(planting.notes)

    def _material_words(self, planting: Planting) -> str:
        """What the support is made of, and the usual caution."""
        stand = self.document.plan.built_support(planting)
        if stand is None:
            return ""
        parts = []
        for material in stand.materials:
            long = f" of {show_length(material.length, self.units)}" if material.length else ""
            if material.unit == "pieces":
                word = material.name if material.amount == 1 else f"{material.name}s"
                parts.append(f"{material.amount:.0f} {word}{long}")
            elif material.unit == "m2":
                parts.append(f"{show_area(material.amount, self.units)} of {material.name}")
            else:
                parts.append(f"{show_length(material.amount, self.units)} of {material.name}")
        care = "Have buried services located before driving posts; follow local rules."
        return f"Of {', '.join(parts)}. {care}" if parts else care

    def _show_arrangement(self, planting: Planting, facts: Any) -> None:
        arrangement = planting.arrangement
        self.arrangement.show_value(arrangement.kind)
        lines = isinstance(arrangement, (Rows, StaggeredRows))
        for widget in (*self._line_labels, *self._line_fields):
            widget.setVisible(lines)
        for widget in (self._density_label, self.density):
            widget.setVisible(isinstance(arrangement, Scatter))
        if isinstance(arrangement, Scatter):
            self.density.show_value(arrangement.density)
        if isinstance(arrangement, (Rows, StaggeredRows)):
            in_row, between = spacings(arrangement, facts)
            layout = self.document.plan.placed(planting).layout
            between = between or layout.row_spacing
            self.in_row.show_value(arrangement.in_row_spacing, self._usual(in_row))
            self.between.show_value(arrangement.row_spacing, self._usual(between))
            self.rows.show_value(arrangement.rows, f"{layout.row_count}")
            self.edge.show_value(arrangement.edge, self._usual(between / 2 if between else None))
            self.turn.show_value(arrangement.turn)

    def _usual(self, value: float | None) -> str:
        return show_spacing(value, self.units) if value else "unknown"

    def _count_lines(self, part: Amount) -> list[str]:
        head = f"{part.plants} plants" if part.plants != 1 else "1 plant"
        if part.rows:
            head += f" in {part.rows} {'row' if part.rows == 1 else 'rows'}"
        lines = [f"{head} on {show_area(part.area, self.units)}"]
        if part.raise_:
            lines.append(f"Raise {part.raise_} to have enough, at {part.germination:.0%} germination")
        if part.acquire:
            word = {"bought": "plants"}.get(part.start, part.start)
            lines.append(f"Get {part.acquire} {word}")
        if part.thinned_from:
            layout = self.document.plan.placed(part.planting).layout
            lines.append(
                f"Sow {part.thinned_from} seeds along {show_length(layout.row_length, self.units)} of drill, thin to {part.plants}"
            )
        elif part.seeds_per_station:
            lines.append(f"{part.seeds_per_station} seeds to a station, {part.seeds} in all")
        if part.seed_grams:
            lines.append(f"{part.seed_grams:.2g} g of seed")
        return lines
