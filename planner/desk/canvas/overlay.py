"""What is drawn over and under the items: paper, grid, words, selection, north, scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QGuiApplication, QPainter, QPainterPath, QPen, QPolygonF

from planner.desk.canvas import labels, transform
from planner.desk.canvas.rulers import steps
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import letters
from planner.garden import Bed, Planting
from planner.garden.units import FOOT, show_length
from planner.ground import shapes

if TYPE_CHECKING:
    from planner.desk.main_window.sheet_view import SheetView
    from planner.desk.model.document import Document

#: Zoom below which sizes, and then plantings, are no longer written. [pixels per metre]
SIZES_FROM, PLANTINGS_FROM = 38.0, 20.0


def paint_paper(painter: QPainter, view: SheetView) -> None:
    """The sheet and its grid."""
    look = view.look.now
    rect = QRectF(view.viewport().rect())
    painter.fillRect(rect, look.sheet)
    if not view.grid_shown:
        return
    metric = view.document.garden.site.units == "metric"
    fine = (0.1 if metric else FOOT / 2, look.grid)
    coarse = (1.0 if metric else 5 * FOOT, look.grid_major)
    for step, colour in (fine, coarse):
        pixels = step * view.pixels_per_metre
        while pixels < 7:
            step, pixels = step * 10, pixels * 10
        if pixels < 7 or pixels > 4_000:
            continue
        start, end = (
            transform.to_plan(view._scene_at(rect.topLeft())),
            transform.to_plan(view._scene_at(rect.bottomRight())),
        )
        painter.setPen(QPen(colour, 1))
        lines = []
        for i in range(math.floor(start[0] / step), math.ceil(end[0] / step) + 1):
            x = round(view.to_view((i * step, 0)).x()) + 0.5
            lines.append(QLineF(x, 0, x, rect.height()))
        for i in range(math.floor(end[1] / step), math.ceil(start[1] / step) + 1):
            y = round(view.to_view((0, i * step)).y()) + 0.5
            lines.append(QLineF(0, y, rect.width(), y))
        painter.drawLines(lines)


class LabelCache:
    """Settled labels, worked out again when the plan or the zoom changes."""

    def __init__(self) -> None:
        self._key: tuple[object, ...] = ()
        self._settled: list[tuple[labels.Label, QRectF]] = []
        self._offset = QPointF()

    def key_at(self, point: QPointF) -> str | None:
        """Id of the thing whose words are at a point of the viewport."""
        for label, rect in self._settled:
            if label.kind in ("bed", "planting", "structure") and rect.contains(point - self._offset):
                return label.key
        return None

    def paint(self, painter: QPainter, view: SheetView) -> None:
        """Write the words that can be seen."""
        zoom = view.pixels_per_metre
        standing = tuple(s.planting.id for item in view.sheet.beds.values() for s in item.painted)
        key = (view.document.plan, standing, zoom)
        if key != self._key:
            self._key = key
            self._settled = labels.settle(_wanted(view), _drawn(view))
        self._offset = view.viewportTransform().map(QPointF(0, 0))
        look = view.look.now
        seen = QRectF(view.viewport().rect()).translated(-self._offset).adjusted(-4, -4, 4, 4)
        for label, rect in self._settled:
            if not rect.intersects(seen):
                continue
            place = rect.translated(self._offset)
            painter.setFont(_font(label.kind))
            if label.kind == "planting":
                ink = plant_symbols.family_ink(label.family, dark=look.dark)
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(look.chip)
                painter.drawRoundedRect(place, 3, 3)
                painter.fillRect(
                    QRectF(place.left(), place.top() + 2, 3, place.height() - 4),
                    plant_symbols.colour(ink.line_rgb),
                )
                painter.setPen(look.ink)
                painter.drawText(place.adjusted(7, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, label.text)
            else:
                if rect in label.inside:
                    painter.setPen(Qt.PenStyle.NoPen)
                    painter.setBrush(look.chip)
                    painter.drawRect(place.adjusted(-1, 0, 2, 0))
                painter.setPen(look.pencil if label.kind in ("size", "structure") else look.ink)
                painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, label.text)


def _font(kind: str):
    return letters(10 if kind == "bed" else 9, bold=kind == "bed", italic=kind == "structure")


def planting_words(document: Document, planting: Planting) -> str:
    """Name and number of a planting: ``carrot · 4 rows · 120``."""
    plan = document.plan
    placed, facts = plan.placed(planting), plan.figures_of(planting)
    name = facts.crop.name if facts.crop else planting.crop
    name = name[0].upper() + name[1:]
    if planting.variety:
        name += f" ‘{planting.variety}’"
    rows = placed.layout.row_count
    count = f"{placed.plants}"
    if planting.covers:
        count += f" · {planting.covers[0].kind}"
    return f"{name} · {rows} {'row' if rows == 1 else 'rows'} · {count}" if rows else f"{name} · {count}"


def words_for(document: Document, key: str) -> str:
    """A line that says what a thing is."""
    garden, units = document.garden, document.garden.site.units
    if key in garden.plantings_by_id:
        planting = garden.plantings_by_id[key]
        return f"{planting_words(document, planting)}, in {garden.beds_by_id[planting.bed].name}"
    if key in garden.beds_by_id:
        bed = garden.beds_by_id[key]
        return f"Bed {bed.name}, {size_words(bed, units)}, {len(document.plan.in_bed(bed))} plantings"
    if key in garden.structures_by_id:
        structure = garden.structures_by_id[key]
        return f"{structure.kind} {structure.name}, {show_length(structure.height, units)} high"
    return ""


def size_words(bed: Bed, units) -> str:
    """Size of a bed: ``4.80 × 1.20 m``."""
    outline = bed.outline
    if outline.shape == "circle":
        return f"⌀ {show_length(2 * outline.radius, units)}"
    if outline.shape == "rectangle":
        length, width = outline.length, outline.width
    else:
        left, low, right, high = shapes.own_polygon(outline).bounds
        length, width = right - left, high - low
    if units == "metric":
        return f"{length:.2f} × {width:.2f} m"
    return f"{show_length(length, units)} × {show_length(width, units)}"


def _wanted(view: SheetView) -> list[labels.Label]:
    """Labels with the places they may take, the most needed first."""
    zoom = view.pixels_per_metre
    factor = zoom / transform.SCALE
    plan, units = view.document.plan, view.document.garden.site.units

    def pixels(rect: QRectF) -> QRectF:
        return QRectF(
            rect.left() * factor, rect.top() * factor, rect.width() * factor, rect.height() * factor
        )

    def size(text: str, kind: str, pad: float = 0.0) -> QSizeF:
        metrics = metrics_of[kind]
        return QSizeF(metrics.horizontalAdvance(text) + pad, metrics.height() + 1)

    metrics_of = {kind: QFontMetricsF(_font(kind)) for kind in ("bed", "size", "planting", "structure")}
    names, sizes, plants, built = [], [], [], []
    for bed in plan.beds:
        item = view.sheet.beds.get(bed.id)
        if item is None:
            continue
        rect = pixels(item.shape().boundingRect())
        if max(rect.width(), rect.height()) < 26:
            continue
        text = size(bed.name, "bed")
        over = (labels.above(rect, text),) if text.width() <= rect.width() + 40 else ()
        names.append(labels.Label(bed.id, bed.name, "bed", over, labels.corner(rect, text)))
        if zoom >= SIZES_FROM:
            words = size_words(bed, units)
            extent = size(words, "size")
            if extent.width() + text.width() + 12 <= rect.width():
                sizes.append(labels.Label(bed.id, words, "size", (labels.above_right(rect, extent),)))
        if zoom >= PLANTINGS_FROM:
            for stand in item.painted:
                plot = pixels(stand.plot.boundingRect())
                if stand.planting.shares_ground and len(stand.points):
                    plot = pixels(_extent(stand.points))
                plants.append(_planting_label(view.document, stand.planting, stand.family, plot, size))
    for key, item in view.sheet.structures.items():
        structure = item.structure
        if structure is None or zoom < PLANTINGS_FROM:
            continue
        text = structure.name or structure.kind
        if structure.kind == "arch":
            text += f", clear {show_length(structure.clear_height, units)}"
        rect = pixels(item.shape().boundingRect())
        extent = size(text, "structure")
        around = (labels.beside(rect, extent), labels.below(rect, extent), labels.above(rect, extent))
        within = labels.inside(rect, extent) if structure.fills_outline else ()
        built.append(labels.Label(key, text, "structure", (*within, *around)))
    return [*names, *plants, *sizes, *built]


def _extent(points) -> QRectF:
    left, top = points.min(axis=0)
    right, bottom = points.max(axis=0)
    return QRectF(left - 5, top - 5, right - left + 10, bottom - top + 10)


def _planting_label(document: Document, planting: Planting, family: str, plot: QRectF, size) -> labels.Label:
    full = planting_words(document, planting)
    name = full.split(" · ")[0]
    count = document.plan.placed(planting).plants
    for text in (full, f"{name} · {count}", name):
        extent = size(text, "planting", 12)
        if extent.width() <= plot.width() + 2:
            return labels.Label(
                planting.id,
                text,
                "planting",
                (labels.below(plot, extent),),
                labels.inside(plot, extent),
                family,
            )
    # Too narrow for any words along it: they stand beside it where there is room.
    extent = size(full, "planting", 12)
    return labels.Label(planting.id, full, "planting", (labels.beside(plot, extent),), (), family)


def _drawn(view: SheetView) -> list[QRectF]:
    """Extents of the beds. [pixels at this zoom]"""
    factor = view.pixels_per_metre / transform.SCALE
    rects = [item.shape().boundingRect() for item in view.sheet.beds.values()]
    return [QRectF(r.x() * factor, r.y() * factor, r.width() * factor, r.height() * factor) for r in rects]


def paint_selection(painter: QPainter, view: SheetView) -> None:
    """Outlines and handles of what is selected."""
    document, look = view.document, view.look.now
    garden = document.garden
    for key in document.selection:
        if key in garden.beds_by_id or key in garden.structures_by_id:
            thing = garden.beds_by_id.get(key) or garden.structures_by_id[key]
            path = view.view_path(shapes.plan_polygon(thing.outline))
        elif key in garden.plantings_by_id:
            planting = garden.plantings_by_id[key]
            bed = garden.beds_by_id[planting.bed]
            placed = document.plan.placed(planting)
            if planting.arrangement.kind == "places":
                path = _rings(view, shapes.to_plan(bed.outline, placed.layout.points))
            else:
                path = view.view_path(shapes.shape_to_plan(bed.outline, placed.plot))
        else:
            continue
        painter.strokePath(path, QPen(look.sheet, 4.5))
        painter.strokePath(path, QPen(look.accent, 2.2))
    for handle in view.handles():
        at = view.to_view(handle.plan)
        painter.setPen(QPen(look.accent, 1.4))
        painter.setBrush(look.sheet)
        if handle.kind == "turn":
            key = handle.key
            thing = garden.beds_by_id.get(key) or garden.structures_by_id[key]
            painter.drawLine(at, view.to_view(tuple(thing.outline.center)))
            painter.drawEllipse(at, 5.5, 5.5)
        else:
            painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8))


def paint_dimensions(painter: QPainter, view: SheetView) -> None:
    """Dimension lines of the one bed or structure that is selected."""
    document, look = view.document, view.look.now
    if len(document.selection) != 1:
        return
    (key,) = document.selection
    thing = document.garden.beds_by_id.get(key) or document.garden.structures_by_id.get(key)
    if thing is None or thing.outline.shape == "polygon":
        return
    outline, units = thing.outline, document.garden.site.units
    if outline.shape == "rectangle":
        a, b = outline.length / 2, outline.width / 2
        sides = (((-a, -b), (a, -b), outline.length), ((a, -b), (a, b), outline.width))
    else:
        r = outline.radius
        sides = (((-r, -r), (r, -r), 2 * r),)
    painter.setFont(letters(9))
    metrics = QFontMetricsF(painter.font())
    for first, last, length in sides:
        p, q = (view.to_view((float(x), float(y))) for x, y in shapes.to_plan(outline, [first, last]))
        along = q - p
        pixels = math.hypot(along.x(), along.y())
        if pixels < 24:
            continue
        # Off the outline by a fixed distance on the screen, to its right as one walks along it.
        off = QPointF(-along.y(), along.x()) * (30 / pixels)
        p, q = p + off, q + off
        painter.setPen(QPen(look.pencil, 1))
        painter.drawLine(p, q)
        tick = (along / pixels + QPointF(-along.y(), along.x()) / pixels) * 4.5
        for end in (p, q):
            painter.drawLine(end - tick, end + tick)
        text = show_length(length, units)
        middle = (p + q) / 2
        width, height = metrics.horizontalAdvance(text) + 8, metrics.height()
        place = QRectF(middle.x() - width / 2, middle.y() - height / 2, width, height)
        painter.fillRect(place, look.sheet)
        painter.setPen(look.ink)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)


def _rings(view: SheetView, points) -> QPainterPath:
    path = QPainterPath()
    for x, y in view.to_view_all(points):
        path.addEllipse(QPointF(x, y), 9, 9)
    return path


def paint_snap(painter: QPainter, view: SheetView, lines: tuple[float | None, float | None]) -> None:
    """Edges that have caught, across the whole sheet."""
    pen = QPen(view.look.now.accent, 1, Qt.PenStyle.DotLine)
    painter.setPen(pen)
    x, y = lines
    rect = view.viewport().rect()
    if x is not None:
        at = view.to_view((x, 0)).x()
        painter.drawLine(QPointF(at, 0), QPointF(at, rect.height()))
    if y is not None:
        at = view.to_view((0, y)).y()
        painter.drawLine(QPointF(0, at), QPointF(rect.width(), at))


def paint_furniture(painter: QPainter, view: SheetView) -> None:
    """North arrow and scale bar, in the corners of the window."""
    look = view.look.now
    rect = QRectF(view.viewport().rect())
    _north(painter, QPointF(rect.right() - 34, rect.top() + 44), view.document.garden.site.bearing_up, look)
    metric = view.document.garden.site.units == "metric"
    _, step = steps(view.pixels_per_metre / 1.2, metric=metric)
    width = step * view.pixels_per_metre
    left, top = rect.left() + 18, rect.bottom() - 30
    screen = view.screen() or QGuiApplication.primaryScreen()
    per_metre = screen.physicalDotsPerInch() / 0.0254 if screen is not None else 3780.0
    words = f"{show_length(step, view.document.garden.site.units)}   ·   1 : {per_metre / view.pixels_per_metre:.0f} on this screen"
    painter.setFont(letters(9))
    extent = QFontMetricsF(painter.font()).horizontalAdvance(words)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawRoundedRect(QRectF(left - 8, top - 7, width + extent + 28, 25), 4, 4)
    painter.setPen(QPen(look.ink, 1))
    painter.setBrush(look.sheet)
    painter.drawRect(QRectF(left, top, width, 6))
    painter.fillRect(QRectF(left, top, width / 2, 6), look.ink)
    painter.setPen(look.pencil)
    painter.drawText(QPointF(left + width + 10, top + 9), words)


def _north(painter: QPainter, at: QPointF, bearing_up: float, look) -> None:
    painter.save()
    painter.translate(at)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawEllipse(QPointF(0, 0), 27, 27)
    painter.rotate(-bearing_up)
    painter.setPen(QPen(look.ink, 1.4))
    painter.drawLine(QPointF(0, 17), QPointF(0, -10))
    painter.setBrush(look.ink)
    painter.drawPolygon(QPolygonF([QPointF(-4.5, -6), QPointF(0, -17), QPointF(4.5, -6)]))
    painter.drawLine(QPointF(-5, 12), QPointF(5, 12))
    painter.restore()
    painter.setFont(letters(9, bold=True))
    painter.setPen(look.ink)
    angle = math.radians(-bearing_up)
    tip = at + QPointF(math.sin(angle) * 35, -math.cos(angle) * 35)
    painter.drawText(QRectF(tip.x() - 10, tip.y() - 9, 20, 18), Qt.AlignmentFlag.AlignCenter, "N")


def paint_chip(
    painter: QPainter, view: SheetView, at: QPointF, lines: Sequence[str], *, warn: bool = False
) -> None:
    """A small sign of a few lines, the first one bold."""
    look = view.look.now
    lines = [line for line in lines if line]
    if not lines:
        return
    fonts = [letters(10, bold=True), *[letters(9)] * (len(lines) - 1)]
    metrics = [QFontMetricsF(font) for font in fonts]
    widest = view.viewport().width() - 60
    texts = [
        m.elidedText(line, Qt.TextElideMode.ElideRight, widest)
        for m, line in zip(metrics, lines, strict=True)
    ]
    width = max(m.horizontalAdvance(t) for m, t in zip(metrics, texts, strict=True)) + 20
    height = sum(m.height() for m in metrics) + 12
    area = QRectF(view.viewport().rect()).adjusted(6, 6, -6, -6)
    left = min(max(at.x(), area.left()), area.right() - width)
    top = min(max(at.y(), area.top()), area.bottom() - height)
    ground = QColor(look.field)
    painter.setPen(QPen(look.warn if warn else look.accent, 1.4))
    painter.setBrush(ground)
    painter.drawRoundedRect(QRectF(left, top, width, height), 4, 4)
    y = top + 6
    for i, (text, font, m) in enumerate(zip(texts, fonts, metrics, strict=True)):
        painter.setFont(font)
        painter.setPen(look.warn if warn and i == len(texts) - 1 else look.ink if i == 0 else look.pencil)
        painter.drawText(QPointF(left + 10, y + m.ascent()), text)
        y += m.height()
