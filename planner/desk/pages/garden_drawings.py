"""Small drawings of garden files, made beside the window and kept in the cache."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import shapely
from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF
from PySide6.QtGui import QImage, QPainter, QPen

from planner import storage
from planner.atomic_write import write_whole
from planner.crops import Catalogue, load_catalogue
from planner.desk.model.background_jobs import Cancelled
from planner.desk.pages.map_painting import MappedPlot, draw_ground, paint_map
from planner.desk.theme.palette import Look
from planner.errors import BedwrightError
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.season.spans import usual_year
from planner.words import say, say_count

#: Size of a drawing. [pixels at a scale of 1]
WIDE, HIGH = 190, 124
#: Around what is drawn. [pixels at a scale of 1]
_MARGIN = 9
#: So many drawings are kept; the oldest go first.
MOST_KEPT = 200
#: Counted up when a drawing of before would look otherwise.
_EDITION = 1


@dataclass(frozen=True)
class GardenDrawing:
    """A garden file as it is shown among others.

    Attributes
    ----------
    path : Path
    image : QImage or None
        None where the file cannot be read.
    beds, plantings : int
    problem : str
        Why it cannot be read, as one line; else empty.
    """

    path: Path
    image: QImage | None
    beds: int = 0
    plantings: int = 0
    problem: str = ""

    @property
    def words(self) -> str:
        """What is in it, or why that cannot be said."""
        if self.problem:
            return self.problem
        beds = say_count("{count} bed", "{count} beds", self.beds)
        plantings = say_count("{count} planting", "{count} plantings", self.plantings)
        return say("{beds}, {plantings}", beds=beds, plantings=plantings)


def draw_gardens(
    paths: Iterable[Path], look: Look, scale: float, cache: Path, cancelled: Cancelled
) -> Iterator[GardenDrawing]:
    """Draw garden files one after the other, from the cache where they are the same as before.

    Parameters
    ----------
    paths : iterable of Path
    look : Look
    scale : float
        Pixels of the screen for each of a drawing.
    cache : Path
        A folder; where it cannot be written to, drawings are made anew each time.
    cancelled : callable
    """
    catalogue = load_catalogue()
    for path in paths:
        if cancelled():
            return
        yield _drawing(path, look, scale, cache, catalogue)


def _drawing(path: Path, look: Look, scale: float, cache: Path, catalogue: Catalogue) -> GardenDrawing:
    if not path.is_file():
        return GardenDrawing(path, None, problem=say("The file is not there any more"))
    try:
        kept = cache / _name(path, look, scale)
        if (found := _kept(path, kept)) is not None:
            return found
        garden = storage.load(path)
    except (BedwrightError, OSError):
        return GardenDrawing(path, None, problem=say("The file cannot be read"))
    plan = Plan(garden, usual_year(garden, dt.date.today()), catalogue)
    image = paint_garden(plan, look, scale)
    image.setText("beds", str(len(garden.beds)))
    image.setText("plantings", str(len(garden.plantings)))
    _keep(image, kept)
    return GardenDrawing(path, image, len(garden.beds), len(garden.plantings))


# -- the cache --------------------------------------------------------------------------------


def _name(path: Path, look: Look, scale: float) -> str:
    """Name in the cache: another one as soon as the file is another, or is to look otherwise."""
    state = path.stat()
    seen = (str(path.resolve()), state.st_mtime_ns, state.st_size, look.dark, round(scale, 3), _EDITION)
    return f"garden-{hashlib.sha256(repr(seen).encode()).hexdigest()[:40]}.png"


def _kept(path: Path, kept: Path) -> GardenDrawing | None:
    image = QImage(str(kept)) if kept.is_file() else QImage()
    beds, plantings = image.text("beds"), image.text("plantings")
    if image.isNull() or not (beds.isdecimal() and plantings.isdecimal()):
        return None
    return GardenDrawing(path, image, int(beds), int(plantings))


def _keep(image: QImage, kept: Path) -> None:
    content = QByteArray()
    buffer = QBuffer(content)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # Qt's own description of it takes bytes
    with contextlib.suppress(OSError, BedwrightError):
        kept.parent.mkdir(parents=True, exist_ok=True)
        write_whole(kept, bytes(content.data()))
        others = sorted(kept.parent.glob("garden-*.png"), key=lambda each: each.stat().st_mtime)
        for old in others[:-MOST_KEPT]:
            old.unlink(missing_ok=True)


# -- the drawing ------------------------------------------------------------------------------


def paint_garden(plan: Plan, look: Look, scale: float) -> QImage:
    """Beds, structures, and plots in the inks of their families, as small as a thumbnail.

    Parameters
    ----------
    plan : Plan
    look : Look
    scale : float
        Pixels of the screen for each of the drawing.
    """
    image = QImage(round(WIDE * scale), round(HIGH * scale), QImage.Format.Format_RGB32)
    image.fill(look.sheet)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(scale, scale)
    beds = [plan_polygon(bed.outline) for bed in plan.beds]
    there = [one for one in plan.garden.structures if one.in_use(plan.year) and one.kind != "lawn"]
    built = [plan_polygon(one.outline) for one in there]
    if beds or built:
        left, low, right, high = (float(value) for value in shapely.total_bounds([*beds, *built]))
        per_metre = min(
            (WIDE - 2 * _MARGIN) / max(right - left, 0.5), (HIGH - 2 * _MARGIN) / max(high - low, 0.5)
        )
        centre = (left + right) / 2, (low + high) / 2

        def place(x: float, y: float) -> QPointF:
            return QPointF(WIDE / 2 + (x - centre[0]) * per_metre, HIGH / 2 - (y - centre[1]) * per_metre)

        plots = [
            MappedPlot(plan.plot_on_plan(one), figures.crop.family if figures.crop else "", "")
            for one in plan.plantings
            for figures in (plan.figures_of(one),)
        ]
        paint_map(painter, look, beds, plots, place)
        painter.setPen(QPen(look.ink, 1))
        painter.setBrush(look.built)
        painter.setOpacity(0.6)
        for ground in built:
            draw_ground(painter, ground, place)
    painter.end()
    return image
