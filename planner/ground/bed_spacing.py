"""Spacing for beds: which beds are planted by it, at which distances, and how a crop is arranged when it is dropped.

Handbooks print two spacings: of rows in the open with paths between them, and of plants in a bed that is worked from its
sides, the same in all directions or with rows of their own.
"""

from __future__ import annotations

import math

import shapely

from planner.garden import Bed
from planner.garden.arrangements import Rows, Scatter, StaggeredRows
from planner.garden.planting_figures import PlantingFigures
from planner.ground.shapes import bed_polygon

#: Farthest from its outline that a bed is worked without stepping on it: 2 1/2 feet (practice). [m]
WORKED_FROM_OUTLINE = 0.762
#: Share of the ground of a bed that may be farther from its outline.
LEAST_SHARE = 0.05
#: Row spacing of equilateral triangles, as a share of the in-row spacing.
EQUILATERAL = math.sqrt(3) / 2


def is_worked_from_sides(bed: Bed) -> bool:
    """Whether a bed is planted by the spacing for beds, rather than by that of rows in a field.

    So are raised beds and containers, and every bed of which nearly all ground lies within
    :data:`WORKED_FROM_OUTLINE` of its outline: a rectangle up to 1.52 m wide.
    """
    if bed.kind in ("raised", "container"):
        return True
    ground = bed_polygon(bed)
    beyond = ground.buffer(-WORKED_FROM_OUTLINE)
    return float(shapely.area(beyond)) <= LEAST_SHARE * float(shapely.area(ground))


def bed_spacings(figures: PlantingFigures) -> tuple[float, float | None] | None:
    """Spacing of plants in a bed, and of its rows where they have one of their own.

    Returns
    -------
    tuple of (float, float or None) or None
        None where no spacing for beds is known: also for a variety that has field rows of its own and no spacing for
        beds. [m]
    """
    own = figures.variety
    if own is not None and own.number("bed_spacing") is None and own.number("in_row_spacing") is not None:
        return None
    apart = figures.number("bed_spacing")
    return None if apart is None else (apart, figures.number("bed_row_spacing"))


def spacings(
    arrangement: Rows | StaggeredRows, figures: PlantingFigures
) -> tuple[float | None, float | None]:
    """In-row and row spacing of an arrangement in rows: its own, else those of the variety or crop.

    Parameters
    ----------
    arrangement : Rows or StaggeredRows
        Says whether the spacing for beds is meant; where none is known, that of field rows is.
    figures : PlantingFigures

    Returns
    -------
    in_row, between : float or None
        None if unknown; the row spacing also if a number of rows shares the plot evenly. [m]
    """
    for_beds = bed_spacings(figures) if arrangement.spacing_for == "beds" else None
    if for_beds is not None:
        usual: float | None = for_beds[0]
        usual_between = for_beds[1]
        if arrangement.in_row_spacing is not None:
            usual_between = None  # the same in all directions
    else:
        usual = figures.number("in_row_spacing")
        usual_between = None if arrangement.kind == "staggered" else figures.number("row_spacing")
    in_row = arrangement.in_row_spacing or usual
    between = arrangement.row_spacing
    if between is None and arrangement.rows is None:
        between = usual_between
        if between is None and in_row is not None:
            between = in_row * EQUILATERAL if arrangement.kind == "staggered" else in_row
    return in_row, between


def usual_arrangement(bed: Bed, figures: PlantingFigures) -> Rows | StaggeredRows | Scatter:
    """How a crop is arranged when it is dropped on a bed.

    By the spacing for beds where the bed is worked from its sides and the spacing is known: in staggered rows, which
    are as far apart in all directions, or in the rows that the spacing gives.  Else in field rows.  A crop without
    spacings that is broadcast is scattered as its seed rate gives.

    Parameters
    ----------
    bed : Bed
    figures : PlantingFigures
    """
    if figures.number("in_row_spacing") is None:
        density = _broadcast_density(figures)
        if density is not None:
            return Scatter(density=density)
    known = bed_spacings(figures) if is_worked_from_sides(bed) else None
    if known is None:
        return Rows()
    return StaggeredRows(spacing_for="beds") if known[1] is None else Rows(spacing_for="beds")


def _broadcast_density(figures: PlantingFigures) -> float | None:
    """Plants that come up of seed broadcast at the crop's rate; None if its figures are not known. [plants/m2]"""
    factors = [figures.number(field) for field in ("sowing_rate", "seeds_per_gram", "germination")]
    if not all(factors):
        return None
    return round(math.prod(factor for factor in factors if factor), 1)
