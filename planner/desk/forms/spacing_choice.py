"""The choice between the spacing for beds, that of field rows, and one of the gardener's own."""

from __future__ import annotations

from typing import Any, Literal

from planner.crops import Catalogue
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.planting_figures import PlantingFigures
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing, show_spacings
from planner.ground.bed_spacing import bed_spacings, spacings
from planner.ground.layout import Layout
from planner.words import later, say

SpacingChoice = Literal["beds", "field rows", "own"]

#: The choices, each with its words.
CHOICES: dict[SpacingChoice, str] = {
    "beds": later("for beds"),
    "field rows": later("field rows"),
    "own": later("of your own"),
}


def chosen_spacing(arrangement: Rows | StaggeredRows) -> SpacingChoice:
    """Which spacing a planting has: its own where one is typed."""
    if arrangement.in_row_spacing is not None or arrangement.row_spacing is not None:
        return "own"
    return arrangement.spacing_for


def changes_for(
    choice: SpacingChoice, arrangement: Rows | StaggeredRows, figures: PlantingFigures, layout: Layout
) -> dict[str, Any]:
    """The fields of an arrangement that a choice changes.

    A published spacing takes the place of what was typed; one's own begins with what there is.

    Parameters
    ----------
    choice : str
    arrangement : Rows or StaggeredRows
    figures : PlantingFigures
    layout : Layout
        As the planting is laid out now.
    """
    if choice != "own":
        return {"spacing_for": choice, "in_row_spacing": None, "row_spacing": None}
    in_row, between = spacings(arrangement, figures)
    between = between or layout.row_spacing
    return {
        "in_row_spacing": round(in_row, 4) if in_row is not None else None,
        "row_spacing": round(between, 4) if between is not None else None,
    }


def spacing_lines(figures: PlantingFigures, units: UnitSystem) -> str:
    """The published spacings of a crop, for beds and in field rows; what is not known is said to be so."""
    if figures.crop is None:
        return ""
    beds, in_row, between = (
        bed_spacings(figures),
        figures.number("in_row_spacing"),
        figures.number("row_spacing"),
    )
    lines = []
    if beds is None:
        lines.append(say("No spacing for beds is known of {crop}", crop=figures.crop.name))
    elif beds[1] is None:
        lines.append(say("For beds {spacing} in all directions", spacing=show_spacing(beds[0], units)))
    else:
        lines.append(say("For beds {spacings}", spacings=show_spacings(beds[0], beds[1], units)))
    if in_row is None:
        lines.append(say("No field rows are known of {crop}", crop=figures.crop.name))
    else:
        lines.append(
            say("In field rows {spacings}", spacings=show_spacings(in_row, between or in_row, units))
        )
    return "\n".join(lines)


def spacing_sources(figures: PlantingFigures, catalogue: Catalogue) -> str:
    """Where the published spacings come from, a line each."""
    beds = _source_of(figures, "bed_spacing", catalogue)
    rows = _source_of(figures, "in_row_spacing", catalogue)
    lines = []
    if beds:
        lines.append(say("For beds: {source}", source=beds))
    if rows:
        lines.append(say("In field rows: {source}", source=rows))
    return "\n".join(lines)


def _source_of(figures: PlantingFigures, field: str, catalogue: Catalogue) -> str:
    """Citation of a figure of the crop; empty where it has none."""
    if figures.variety is not None and figures.variety.number(field) is not None:
        return say("your own figure of the variety")
    figure = getattr(figures.crop, field, None)
    key = figure.source if figure is not None else None
    return (catalogue.source_line(key) if key in catalogue.sources else key) if key else ""
