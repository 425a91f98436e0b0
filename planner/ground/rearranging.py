"""Another arrangement, or other ends of its plot, for a planting that is there already."""

from __future__ import annotations

from typing import Literal

from planner.garden import Arrangement, Garden, Places, Planting, Rows, Scatter, StaggeredRows, Whole, edits
from planner.garden.edits import EditError, checked
from planner.ground.dropping import plot_box, plot_of_box
from planner.ground.place import Placed
from planner.words import say

ArrangementKind = Literal["rows", "staggered", "scatter", "places"]
#: Density of a planting that becomes scattered before any plants fit. [plants per m2]
USUAL_DENSITY = 25.0
#: Greatest number of plants that can be arranged as single places.
MOST_PLACES = 5_000
#: Shortest plot along its bed. [m]
LEAST_LENGTH = 0.01


def rearrange(garden: Garden, key: str, kind: ArrangementKind, placed: Placed) -> Garden:
    """Arrange a planting in another way, with as much of the old arrangement as the new one can hold.

    Rows and staggered rows share their spacings; scattered plants have the density of before, and single places
    are those that the plants have now.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    kind : str
        Kind of the new arrangement.
    placed : Placed
        The planting as it is placed now.

    Raises
    ------
    EditError
        Where single places are wished for and there are no plants.
    """
    planting = garden.plantings_by_id[key]
    if kind == planting.arrangement.kind:
        return garden
    return edits.change_planting(garden, key, arrangement=_arrangement(planting, kind, placed))


def _arrangement(planting: Planting, kind: ArrangementKind, placed: Placed) -> Arrangement:
    old = planting.arrangement
    if kind == "scatter":
        density = placed.plants / placed.area if placed.area and placed.plants else USUAL_DENSITY
        return checked(lambda: Scatter(density=round(density, 2)), planting.crop)
    if kind == "places":
        points = placed.layout.points[:MOST_PLACES]
        if not len(points):
            raise EditError(
                say("There are no plants whose places could be kept"),
                fix=say("Give it a spacing that fits first"),
            )
        return Places(points=tuple((round(float(x), 6), round(float(y), 6)) for x, y in points))
    made = Rows() if kind == "rows" else StaggeredRows()
    if isinstance(old, (Rows, StaggeredRows)):
        shared = ("spacing_for", "in_row_spacing", "row_spacing", "rows", "edge", "end", "turn")
        return made.with_(**{name: getattr(old, name) for name in shared})
    return made


def move_plot_ends(garden: Garden, key: str, start: float | None = None, end: float | None = None) -> Garden:
    """Let the plot of a planting begin and end elsewhere along its bed.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    start, end : float, optional
        Distance of the plot's beginning and end from the beginning of the bed, along its long axis; left
        out, that end stays where it is. [m]

    Raises
    ------
    EditError
        Where nothing of the plot would be left, or it would lie outside the bed.
    """
    planting = garden.plantings_by_id[key]
    bed = garden.beds_by_id[planting.bed]
    left, low, right, high = plot_box(bed, planting.plot)
    begin = plot_box(bed, Whole())[0]
    left = begin + start if start is not None else left
    right = begin + end if end is not None else right
    if right - left < LEAST_LENGTH:
        raise EditError(say("The plot must end at least 1 cm beyond its beginning"))
    plot = plot_of_box(bed, left, low, right, high)
    if plot is None:
        raise EditError(
            say("That plot lies outside {bed}", bed=bed.name), fix=say("Give distances along the bed, from 0")
        )
    return edits.change_planting(garden, key, plot=plot)
