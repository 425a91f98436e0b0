"""Placing a crop: the real stations and their number, before it is let go."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

import numpy as np
import shapely
from PySide6.QtCore import QPointF, Qt, QTimer
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen
from typing_extensions import override

from planner.checks import check_only
from planner.crops import Crop
from planner.desk.canvas import transform
from planner.desk.gestures.base import Gesture, Pointer
from planner.desk.theme import plant_symbols
from planner.errors import BedwrightError
from planner.garden import Bed, Places, Planting, edits
from planner.garden.units import show_spacing
from planner.ground import shapes
from planner.ground.dropping import Landing, Manner, fields_of, landing
from planner.ground.free import pieces
from planner.ground.place import Placed

#: Crops from this height on may take sun from others. [m]
TALL = 0.9
#: Fields of a planting that a drop sets.
PLANTED = ("variety", "plot", "arrangement", "first", "shares_ground")
#: Checks that are asked before a drop.
LIVE = ("crowding", "overlap", "rotation", "neighbours", "support", "season")


@dataclass(frozen=True)
class Ghost:
    """What would be planted, were the crop let go now."""

    bed: Bed
    planting: Planting | None
    placed: Placed | None
    why: str = ""
    shaded: tuple[tuple[str, float], ...] = ()
    causes: tuple[str, ...] = ()


def manner_of(modifiers: Qt.KeyboardModifier) -> Manner:
    """The piece of ground the held keys ask for."""
    if modifiers & Qt.KeyboardModifier.AltModifier:
        return "single"
    if modifiers & Qt.KeyboardModifier.ControlModifier:
        return "whole"
    if modifiers & Qt.KeyboardModifier.ShiftModifier:
        return "stretch"
    return "free"


class PlaceCrop(Gesture):
    """Holds a crop over the beds; a click, a drop or Enter plants it.

    With the keyboard the arrows go from bed to bed and Tab from one free piece to the next.
    """

    hint = "Free ground; Shift a stretch, Ctrl the whole bed, Alt one plant. Arrows and Enter work too; Escape ends"
    lasting = True
    cursor = Qt.CursorShape.CrossCursor
    keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter)

    def __init__(self, view, crop: Crop, variety: str = "") -> None:
        super().__init__(view)
        self.crop, self.variety = crop, variety
        self.ghost: Ghost | None = None
        self._key: tuple[object, ...] = ()
        self._at = QPointF(-1000, -1000)
        # What it would cause, and shade, is worked out when the pointer rests.
        self._resting = QTimer()
        self._resting.setSingleShot(True)
        self._resting.setInterval(150)
        self._resting.timeout.connect(self._shade)
        self._bed_index = -1
        self._piece = 0

    # -- the ghost --------------------------------------------------------------------------

    def over(self, at: Pointer) -> bool:
        """Follow the pointer; returns whether the crop may be let go here."""
        key = self.view.sheet.bed_at(at.scene, 0.15 * transform.SCALE)
        self._at = at.view
        if key is None:
            self._show(None)
            return False
        bed = self.document.garden.beds_by_id[key]
        ((x, y),) = shapes.to_own(bed.outline, [at.plan])
        self._consider(bed, (float(x), float(y)), manner_of(at.modifiers))
        return self.ghost is not None and self.ghost.planting is not None

    def _consider(self, bed: Bed, at: tuple[float, float], manner: Manner) -> None:
        plan = self.document.plan
        step = self.crop.number("in_row_spacing") or self.view.fine_step
        first: dt.date | None = None
        if manner in ("whole", "single"):
            land = landing(bed, shapely.Polygon(), at, manner)
        else:
            first, land = self._free_land(bed, at, manner, max(step, 0.05))
        if land.plot is None:
            self._show(Ghost(bed, None, None, land.why))
            return
        if manner == "single" and not shapes.bed_polygon(bed).covers(shapely.Point(at)):
            self._show(None)
            return
        key = (bed, plan, land, first)
        if key == self._key:
            return
        self._key = key
        planting = Planting(
            id="ghost",
            bed=bed.id,
            crop=self.crop.key,
            variety=self.variety,
            year=plan.year,
            first=first,
            shares_ground=manner == "single",
            **fields_of(land),
        )
        placed = plan.trial(planting)
        self._show(Ghost(bed, planting, placed))
        if placed.plants:
            self._resting.start()

    def _free_land(
        self, bed: Bed, at: tuple[float, float], manner: Manner, step: float
    ) -> tuple[dt.date | None, Landing]:
        """Where it would land, and from which day (None: its own): on ground that is free while it stands.

        Ground under the pointer goes first: in the crop's own days, else from the first day on which
        it falls free; then the nearest other piece.
        """
        plan = self.document.plan
        natural = Planting(id="ghost", bed=bed.id, crop=self.crop.key, variety=self.variety, year=plan.year)
        span = plan.span_of(natural)
        grounds: list[tuple[dt.date | None, shapely.Geometry]] = [(None, plan.free_in(bed, span))]
        grounds += [(day, free) for day, free in plan.free_from(bed) if day is not None and day > span.first]
        point = shapely.Point(at)
        under = [(day, free) for day, free in grounds if free.distance(point) <= 1e-9]
        options = [(day, landing(bed, free, at, manner, step)) for day, free in (*under, *grounds)]
        return next((option for option in options if option[1].plot is not None), options[0])

    def _shade(self) -> None:
        """Tell which plantings would lose sun to what is held."""
        ghost = self.ghost
        if ghost is None or ghost.planting is None or ghost.placed is None:
            return
        plan = self.document.plan
        ghost = replace(ghost, causes=self._causes(ghost.planting))
        self.ghost = ghost
        self.view.viewport().update()
        if (self.crop.number("height") or 0.0) < TALL:
            return
        day = self.document.moment.date()
        span = plan.span_of(ghost.planting)
        if not span.holds(day):
            day = span.first + (min(span.last, plan.span.last) - span.first) // 2
        try:
            lost = plan.would_shade(ghost.planting, ghost.placed, day)
        except BedwrightError:  # no latitude yet: the map and the shadows say how to give it
            return
        names = [(plan.figures_of(p).crop, p.crop, hours) for p, hours in lost[:3]]
        self.ghost = replace(ghost, shaded=tuple((c.name if c else key, hours) for c, key, hours in names))
        self.view.viewport().update()

    def _causes(self, planting: Planting) -> tuple[str, ...]:
        """What the checks would say of it, the gravest first."""
        try:
            garden, key = edits.add_planting(
                self.document.garden,
                planting.bed,
                planting.crop,
                planting.year,
                **{n: getattr(planting, n) for n in PLANTED},
            )
            found = check_only(self.document.plan.what_if(garden), LIVE)
        except BedwrightError as error:
            return (str(error),)
        return tuple(one.text for one in found if key in one.plantings and one.severity != "note")[:2]

    @override
    def cancel(self) -> None:
        self._resting.stop()
        super().cancel()

    def _show(self, ghost: Ghost | None) -> None:
        if ghost is None or ghost.planting is None:
            self._key = ()
        self.ghost = ghost
        self.view.viewport().update()

    # -- by pointer -------------------------------------------------------------------------

    @override
    def move(self, at: Pointer) -> None:
        self.over(at)

    @override
    def press(self, at: Pointer) -> None:
        self.over(at)

    @override
    def finish(self, at: Pointer) -> bool:
        self.over(at)
        more = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier
        return self.plant() and not at.held(more)

    def plant(self) -> bool:
        """Let the crop go where the ghost stands."""
        self._resting.stop()
        ghost = self.ghost
        if ghost is None:
            self.view.say(f"Hold {self.crop.name} over a bed to plant it")
            return False
        if ghost.planting is None or ghost.placed is None:
            self.view.say(f"{ghost.why}; choose another bed, or hold Ctrl for the whole bed")
            return False
        if ghost.placed.problem and not ghost.placed.plants:
            self.view.say(ghost.placed.problem)
            return False
        made: list[str] = []
        wanted = ghost.planting

        def change(garden):
            same = self._grown_by_one(garden, wanted)
            if same is not None:
                return same
            fields = {name: getattr(wanted, name) for name in PLANTED}
            garden, key = edits.add_planting(garden, wanted.bed, wanted.crop, wanted.year, **fields)
            made.append(key)
            return garden

        word = f"{ghost.placed.plants} {self.crop.name}"
        done = self.document.edit(f"Plant {word} in {ghost.bed.name}", change)
        if done:
            if made:
                self.document.select(made)
            self.view.say(f"Planted {word} in {ghost.bed.name}")
        self._key = ()
        return done

    def _grown_by_one(self, garden, wanted: Planting):
        """Single plants of one variety in one bed are one planting."""
        if wanted.arrangement.kind != "places":
            return None
        for planting in garden.plantings:
            if (
                planting.arrangement.kind == "places"
                and (planting.bed, planting.crop, planting.variety, planting.year)
                == (wanted.bed, wanted.crop, wanted.variety, wanted.year)
                and planting.plot.kind == "whole"
            ):
                points = (*planting.arrangement.points, *wanted.arrangement.points)
                return edits.change_planting(garden, planting.id, arrangement=Places(points=points))
        return None

    # -- by keyboard ------------------------------------------------------------------------

    def begin_at(self, bed_id: str | None) -> None:
        """Stand over a bed (the selected one, else the first)."""
        beds = self.document.plan.beds
        if not beds:
            self.view.say("Draw a bed first")
            return
        ids = [bed.id for bed in beds]
        self._bed_index = ids.index(bed_id) if bed_id in ids else 0
        self._piece = 0
        self._over_piece(Qt.KeyboardModifier.NoModifier)

    def _over_piece(self, modifiers: Qt.KeyboardModifier) -> None:
        bed = self.document.plan.beds[self._bed_index]
        found = [piece for _, free in self.document.plan.free_from(bed) for piece in pieces(free)]
        piece = found[self._piece % len(found)] if found else shapes.bed_polygon(bed)
        middle = piece.representative_point()
        self._consider(bed, (middle.x, middle.y), manner_of(modifiers))
        place = shapes.to_plan(bed.outline, [(middle.x, middle.y)])[0]
        self.view.show_place((float(place[0]), float(place[1])))
        self._at = self.view.to_view((float(place[0]), float(place[1])))
        self.view.say(f"{bed.name}: {'; '.join(self._lines())}")

    @override
    def key(self, event: QKeyEvent) -> bool:
        beds = self.document.plan.beds
        steps = {
            Qt.Key.Key_Right: 1,
            Qt.Key.Key_Down: 1,
            Qt.Key.Key_Left: -1,
            Qt.Key.Key_Up: -1,
        }
        key = Qt.Key(event.key())
        if not beds and (key in steps or key in self.keys or key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)):
            self.view.say("Draw a bed first")
            return True
        if key in steps:
            self._bed_index = (max(self._bed_index, 0) + steps[key]) % len(beds)
            self._piece = 0
            self._over_piece(Qt.KeyboardModifier.NoModifier)
            return True
        if key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            self._piece += 1 if key == Qt.Key.Key_Tab else -1
            self._over_piece(Qt.KeyboardModifier.NoModifier)
            return True
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._bed_index < 0 and self.ghost is None:
                self.begin_at(None)
                return True
            if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
                self._over_piece(Qt.KeyboardModifier.ControlModifier)
            if self.plant():
                self.view.end_gesture()
            return True
        return False

    # -- painting ---------------------------------------------------------------------------

    def _lines(self) -> list[str]:
        ghost = self.ghost
        if ghost is None:
            return [self.crop.name]
        if ghost.planting is None or ghost.placed is None:
            return [self.crop.name, ghost.why]
        layout, count = ghost.placed.layout, ghost.placed.plants
        name = self.crop.name[0].upper() + self.crop.name[1:]
        if layout.rows:
            each = {row.count for row in layout.rows}
            rows = layout.row_count
            word = f"{rows} rows" if rows != 1 else "1 row"
            lines = [
                f"{name} · {word} × {each.pop()} = {count}"
                if len(each) == 1
                else f"{name} · {word}, {count} plants"
            ]
            units = self.document.garden.site.units
            if layout.in_row_spacing and layout.row_spacing:
                lines.append(
                    f"{show_spacing(layout.in_row_spacing, units)} in the row, "
                    f"{show_spacing(layout.row_spacing, units)} between rows"
                )
        else:
            lines = [f"{name} · {count} {'plant' if count == 1 else 'plants'}"]
        if ghost.planting.first is not None:
            lines.append(f"from {ghost.planting.first:%d %b %Y}, when this ground falls free")
        if ghost.placed.problem:
            lines.append(ghost.placed.problem)
        lines += ghost.causes
        if ghost.shaded:
            lines.append(
                "takes sun from " + ", ".join(f"{name} {hours:.1f} h" for name, hours in ghost.shaded)
            )
        return lines

    @override
    def paint(self, painter: QPainter) -> None:
        ghost = self.ghost
        look = self.view.look.now
        if ghost is not None and ghost.placed is not None:
            plot = self.view.view_path(shapes.shape_to_plan(ghost.bed.outline, ghost.placed.plot))
            fill = QColor(look.accent)
            fill.setAlpha(28)
            painter.fillPath(plot, fill)
            painter.strokePath(plot, QPen(look.accent, 1.4, Qt.PenStyle.DashLine))
            self._paint_stations(painter, ghost)
        elif ghost is not None:
            outline = self.view.view_path(shapes.plan_polygon(ghost.bed.outline))
            painter.strokePath(outline, QPen(look.warn, 1.6, Qt.PenStyle.DashLine))
        warned = ghost is not None and (
            ghost.placed is None or bool(ghost.placed.problem) or bool(ghost.causes)
        )
        if ghost is not None or self._at.x() >= 0:
            self.view.chip(painter, self._at + QPointF(18, 18), self._lines(), warn=warned)

    def _paint_stations(self, painter: QPainter, ghost: Ghost) -> None:
        assert ghost.placed is not None
        points = shapes.to_plan(ghost.bed.outline, ghost.placed.layout.points)
        if not len(points):
            return
        places = self.view.to_view_all(points)
        rect = self.view.viewport().rect()
        seen = (
            (places[:, 0] >= -8)
            & (places[:, 0] <= rect.width() + 8)
            & (places[:, 1] >= -8)
            & (places[:, 1] <= rect.height() + 8)
        )
        layout = ghost.placed.layout
        apart = (
            min(d for d in (layout.in_row_spacing or 0.1, layout.row_spacing or 0.1))
            * self.view.pixels_per_metre
        )
        if apart < 1.5:
            return
        stamp = plant_symbols.ghost_stamp(int(np.clip(apart * 0.7, 3, 13)), self.view.look.now.accent.rgba())
        plant_symbols.put_down(painter, stamp, places[seen])
