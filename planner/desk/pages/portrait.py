"""A plant drawn to scale: its height, spread and roots beside a person and a rule."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QAccessible, QColor, QPainter, QPainterPath, QPaintEvent, QPen, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.crops import Crop
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.side_views import side_view
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.sheets.family_inks import family_ink
from planner.words import say

#: Height of the person beside the plant. [m]
PERSON = 1.70
#: Length of the rule, and of its parts, in each system of units. [m]
RULES: dict[UnitSystem, tuple[float, float]] = {"metric": (1.0, 0.1), "feet_inches": (0.9144, 0.3048)}
#: Height of the drawing, ground at its top and bottom, and greatest scale. [pixels], [pixels], [pixels/m]
HIGH, AROUND, LARGEST = 250, 18, 230.0
#: Forms whose leaves are drawn as one crown.
_ONE_CROWN = ("bush", "shrub")
#: Share of the drawing's height that roots may take.
_DEEPEST = 0.45


class Portrait(QWidget):
    """The plant as it stands when grown, from the side."""

    heard_as = QAccessible.Role.Graphic

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look
        self.crop: Crop | None = None
        self.units: UnitSystem = "metric"
        self.setFixedHeight(HIGH)
        self.setMinimumWidth(260)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("The plant to scale"))

    def show_crop(self, crop: Crop, units: UnitSystem) -> bool:
        """Show another crop; returns whether its height is known, without which there is nothing to draw."""
        self.crop, self.units = crop, units
        words = [text for _, text in self.measures()]
        self.setAccessibleDescription("; ".join(words))
        self.update()
        return crop.number("height") is not None

    def measures(self) -> list[tuple[str, str]]:
        """Field and words of each measure that is drawn."""
        if self.crop is None:
            return []
        found = []
        for name in ("height", "spread", "root_depth"):
            value = self.crop.number(name)
            if value is not None:
                found.append((name, _measure_words(name, show_length(value, self.units))))
        return found

    def scale(self) -> float:
        """How large a metre is drawn, so that plant, person and roots fit. [pixels]"""
        assert self.crop is not None
        over = max(self.crop.number("height") or 0, PERSON)
        roots = min(self.crop.number("root_depth") or 0.15, _DEEPEST / (1 - _DEEPEST) * over)
        across = (self.crop.number("spread") or 0.3) + 2.2
        room = self.height() - 2 * AROUND
        return min(room / (over + roots), (self.width() - 2 * AROUND) / across, LARGEST)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, crop = self.look.now, self.crop
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.field)
        height = crop.number("height") if crop is not None else None
        if crop is None or height is None:
            return
        scale = self.scale()
        soil = AROUND + max(height, PERSON) * scale
        painter.fillRect(QRectF(0, soil, self.width(), self.height() - soil), look.soil)
        painter.setPen(QPen(look.built, 1.2))
        painter.drawLine(QPointF(0, soil), QPointF(self.width(), soil))
        spread = crop.number("spread") or min(height, 0.3)
        person = QPointF(AROUND + 0.35 * scale, soil)
        rule = QPointF(person.x() + 0.75 * scale, soil)
        middle = QPointF(max(rule.x() + (0.7 + spread / 2) * scale, self.width() / 2), soil)
        middle.setX(min(middle.x(), self.width() - AROUND - spread / 2 * scale))
        self._paint_person(painter, person, scale)
        self._paint_rule(painter, rule, scale)
        self._paint_roots(painter, crop, middle, scale)
        self._paint_plant(painter, crop, middle, QPointF(spread * scale, height * scale))
        self._paint_measures(painter, middle, spread * scale, height * scale)
        painter.end()

    def _paint_person(self, painter: QPainter, foot: QPointF, scale: float) -> None:
        """Somebody in a hat, for the size."""
        painter.save()
        painter.translate(foot)
        painter.scale(scale / 100, scale / 100)  # drawn in centimetres
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(_blended(self.look.now.built, self.look.now.field))
        painter.drawPath(_person())
        painter.restore()

    def _paint_rule(self, painter: QPainter, foot: QPointF, scale: float) -> None:
        """An upright rule of a metre or a yard."""
        look = self.look.now
        length, part = RULES[self.units]
        wide = 7.0
        painter.setPen(QPen(look.pencil, 1))
        painter.setBrush(look.field)
        painter.drawRect(QRectF(foot.x() - wide / 2, foot.y() - length * scale, wide, length * scale))
        steps = round(length / part)
        for i in range(1, steps):
            y = foot.y() - i * part * scale
            half = i * 2 == steps
            painter.drawLine(
                QPointF(foot.x() - wide / 2, y), QPointF(foot.x() + (wide / 2 if half else 0), y)
            )
        painter.setFont(letters(9))
        words = say("1 m") if self.units == "metric" else say("3 ft")
        above = QRectF(foot.x() - 24, foot.y() - length * scale - 17, 48, 15)
        painter.drawText(above, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_plant(self, painter: QPainter, crop: Crop, foot: QPointF, size: QPointF) -> None:
        view, ink = side_view(crop.growth_form), family_ink(crop.family, dark=self.look.now.dark)
        line, tint = plant_symbols.colour(ink.line_rgb), plant_symbols.colour(ink.tint_rgb)
        place = QTransform().translate(foot.x(), foot.y()).scale(size.x(), size.y())
        pen = QPen(line, 1.3)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.strokePath(place.map(view.lines), pen)
        leaves = place.map(view.leaves)
        leaves.setFillRule(Qt.FillRule.WindingFill)
        if crop.growth_form in _ONE_CROWN:
            leaves = leaves.simplified()
        painter.fillPath(leaves, tint)
        painter.strokePath(leaves, QPen(line, 1.0))
        solid = place.map(view.solid)
        solid.setFillRule(Qt.FillRule.WindingFill)
        painter.fillPath(solid, line)

    def _paint_roots(self, painter: QPainter, crop: Crop, foot: QPointF, scale: float) -> None:
        depth = crop.number("root_depth")
        if depth is None:
            return
        painter.setPen(QPen(self.look.now.pencil, 1, Qt.PenStyle.DotLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        spread = (crop.number("spread") or 0.3) * scale
        for lean in (-0.45, -0.2, 0.0, 0.2, 0.45):
            root = QPainterPath(foot)
            deep = depth * scale * (1 - 0.5 * abs(lean) / 0.45)
            root.quadTo(
                QPointF(foot.x() + lean * spread, foot.y() + deep * 0.35),
                QPointF(foot.x() + lean * spread * 1.1, foot.y() + deep),
            )
            painter.drawPath(root)

    def _paint_measures(self, painter: QPainter, foot: QPointF, spread: float, height: float) -> None:
        """Height at the right, spread over the plant, depth of the roots below."""
        look, words = self.look.now, dict(self.measures())
        painter.setFont(letters(9))
        metrics = painter.fontMetrics()
        painter.setPen(QPen(look.pencil, 1))
        x = foot.x() + spread / 2 + 9
        top = foot.y() - height
        painter.drawLine(QPointF(x, foot.y()), QPointF(x, top))
        for y in (foot.y(), top):
            painter.drawLine(QPointF(x - 3, y), QPointF(x + 3, y))
        lines = [words[name] for name in ("height", "spread") if name in words]
        wide = max(metrics.horizontalAdvance(text) for text in lines)
        left = x + 7 if x + 7 + wide < self.width() else foot.x() - spread / 2 - 8 - wide
        y = min(max(foot.y() - height / 2, AROUND + metrics.height()), foot.y() - 2 * metrics.height())
        for i, text in enumerate(lines):
            painter.drawText(QPointF(left, y + i * metrics.height()), text)
        if "root_depth" in words:
            text = words["root_depth"]
            below = min(
                foot.y() + self.scale() * (self.crop.number("root_depth") or 0) if self.crop else 0,
                self.height() - 4,
            )
            painter.drawText(
                QPointF(foot.x() + spread * 0.6 + 10, max(below - 3, foot.y() + metrics.height())), text
            )


def _measure_words(name: str, length: str) -> str:
    if name == "height":
        return say("{length} high", length=length)
    if name == "spread":
        return say("{length} across", length=length)
    return say("roots to {length}", length=length)


def _blended(one: QColor, other: QColor) -> QColor:
    """The colour halfway between two."""
    return QColor(
        (one.red() + other.red()) // 2, (one.green() + other.green()) // 2, (one.blue() + other.blue()) // 2
    )


@lru_cache(maxsize=1)
def _person() -> QPainterPath:
    """The outline of a standing person with a hat, :data:`PERSON` high, feet at the origin. [cm]"""
    half = [(0, -150), (5, -148), (6, -144), (19, -139), (23, -122), (26, -98), (27, -82), (22, -80), (19, -97), (16, -118),
            (17, -96), (19, -76), (17, -40), (15, -3), (17, 0), (4, 0), (3, -40), (0, -72)]  # fmt: skip
    shape = QPainterPath(QPointF(*half[0]))
    for x, y in half[1:]:
        shape.lineTo(x, y)
    for x, y in reversed(half[:-1]):
        shape.lineTo(-x, y)
    shape.closeSubpath()
    shape.addEllipse(QPointF(0, -157), 8, 9.5)
    shape.addEllipse(QPointF(0, -161.5), 19, 2.6)
    shape.addRoundedRect(QRectF(-8.5, -170, 17, 9), 4, 4)
    shape.setFillRule(Qt.FillRule.WindingFill)
    return shape
