"""What stands in a bed on the days of a drawing and is drawn in detail in another: a plain outline with its letter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import shapely

from planner.ground.bed_frame import BedFrame
from planner.ground.place import SPECK
from planner.ground.shapes import polygons_of
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting
from planner.season.spans import Span
from planner.sheets import fonts
from planner.sheets.part_layout import FIGURE_SIZE
from planner.sheets.pen import PENCIL, Pen
from planner.words import join_list, say

#: Distance of lines of text, and of text from the edge of its ground. [mm]
_LINE, _EDGE = 3.4, 0.6


@dataclass(frozen=True)
class StandingToo:
    """A planting that is drawn in detail in another drawing.

    Attributes
    ----------
    letter : str
    days : str
        When it is on its plot.
    ground : shapely.Geometry
        What nothing of the drawing's own plantings takes of its plot, in the frame. [m]
    """

    letter: str
    days: str
    ground: shapely.Geometry


def standing_too(
    plan: Plan,
    frame: BedFrame,
    group: Sequence[LabelledPlanting],
    others: Sequence[LabelledPlanting],
    days_of: Callable[[Span], str],
) -> tuple[StandingToo, ...]:
    """Of other drawings' plantings those that stand beside a group on days on which its drawing holds.

    Parameters
    ----------
    plan : Plan
    frame : BedFrame
    group, others : sequence of LabelledPlanting
    days_of : callable
        Days on a plot in words.
    """
    spans = [plan.span_of(one.planting) for one in group]
    if not spans:
        return ()
    holds = Span(min(one.first for one in spans), max(one.last for one in spans))
    taken = shapely.union_all([frame.shape(plan.placed(one.planting).plot) for one in group])
    found = []
    for one in others:
        span = plan.span_of(one.planting)
        if not span.meets(holds):
            continue
        ground = polygons_of(shapely.difference(frame.shape(plan.placed(one.planting).plot), taken))
        if ground.area > SPECK:
            found.append(StandingToo(one.letter, days_of(span), ground))
    return tuple(found)


def standing_caption(found: Sequence[StandingToo]) -> list[str]:
    """What the plain outlines of a drawing mean; empty without any."""
    if not found:
        return []
    letters = join_list(one.letter for one in found)
    return [say("Grey outline: {letters} too, drawn in another drawing", letters=letters)]


def draw_standing(
    pen: Pen, found: Sequence[StandingToo], on_page: Callable[[shapely.Geometry], shapely.Geometry]
) -> None:
    """Draw the outline of each, and in it its letter with its days where there is room.

    Parameters
    ----------
    pen : Pen
    found : sequence of StandingToo
    on_page : callable
        Brings ground of the frame that is drawn onto the page [m -> mm].
    """
    written: list[tuple[float, float, float, float]] = []
    for one in found:
        page = on_page(one.ground)
        if page.is_empty:
            continue
        pen.shape(page, rgb=PENCIL, weight=0.25)
        largest = max(shapely.get_parts(page), key=lambda part: float(part.area))
        box = shapely.bounds(largest).tolist()
        for text in (f"{one.letter} · {one.days}", one.letter):
            place = _room(box, fonts.width(text, FIGURE_SIZE), written)
            if place is not None:
                break
        else:
            place = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2 - 1.0
        wide = fonts.width(text, FIGURE_SIZE)
        written.append((place[0] - wide / 2, place[1], place[0] + wide / 2, place[1] + _LINE))
        pen.text(*place, text, FIGURE_SIZE, "regular", PENCIL, "middle")


def _room(
    box: Sequence[float], wide: float, written: Sequence[tuple[float, float, float, float]]
) -> tuple[float, float] | None:
    """Middle and base line of a text in a box, clear of what is written, as near the middle as can be. [mm]"""
    left, low, right, high = box
    if wide + 2 * _EDGE > right - left or high - low < _LINE + 2 * _EDGE:
        return None
    x, middle = (left + right) / 2, (low + high) / 2 - 1.0
    for step in range(int((high - low) / _LINE) + 1):
        for y in (middle - step * _LINE, middle + step * _LINE):
            inside = low + _EDGE <= y and y + _LINE - 1.0 <= high - _EDGE
            clear = all(
                x + wide / 2 < one[0] or x - wide / 2 > one[2] or y >= one[3] or y + _LINE <= one[1]
                for one in written
            )
            if inside and clear:
                return x, y
    return None
