"""The sources of what sheets say: publications by their titles, with what was taken from them."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from planner.amounts.yields import named_yield
from planner.crops import Figure
from planner.crops.cautions import Caution
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.crops.sources import Source
from planner.garden import Bed, Planting
from planner.plan import Plan
from planner.season.raising import way_of_raising
from planner.sheets.bed_remarks import SMALL
from planner.sheets.cautions import bed_cautions
from planner.sheets.flow import Block, gap, paginate
from planner.sheets.page_chrome import Foot, Paper, draw_page
from planner.sheets.pen import Pen
from planner.sheets.text_blocks import heading, kept_with_next, paragraph
from planner.words import join_list, later, say

#: Figures on a sheet, and what they are called.
_FIGURES = {
    "sowing_depth": later("depth"),
    "sowing_spacing": later("seeds in the drill"),
    "in_row_spacing": later("spacing"),
    "row_spacing": later("spacing"),
}
#: Figures of a raised planting on the raising sheet.
_RAISING_FIGURES = {
    "sowing_depth": later("depth"),
    "soil_least": later("warmth"),
    "soil_best": later("warmth"),
    "emergence_days": later("days until it is up"),
}


class SheetSources:
    """Publications that sheets draw on, and what for.

    Parameters
    ----------
    plan : Plan
    """

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._uses: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))

    def __bool__(self) -> bool:
        return bool(self._uses)

    def add_bed(self, bed: Bed) -> None:
        """Take in what a bed's sheet prints."""
        self.add_cautions(bed_cautions(self._plan, bed))
        for planting in self._plan.in_bed(bed):
            self.add_planting(planting)

    def add_planting(self, planting: Planting) -> None:
        """Take in the figures that a planting's entry prints."""
        figures = self._plan.figures_of(planting)
        if figures.crop is None:
            return
        given = planting.arrangement
        for field in _FIGURES:
            own = figures.variety.number(field) if figures.variety is not None else None
            figure = getattr(figures.crop, field, None)
            if own is None and isinstance(figure, Figure) and not getattr(given, field, None):
                self._take(figure.source, say(_FIGURES[field]), figures.crop.name)
        self._take(named_yield(figures), say("yield"), figures.crop.name)

    def add_raising(self, planting: Planting) -> None:
        """Take in the figures that the raising sheet prints of a planting."""
        figures = self._plan.figures_of(planting)
        if figures.crop is None:
            return
        for field in _RAISING_FIGURES:
            own = figures.variety.number(field) if figures.variety is not None else None
            figure = getattr(figures.crop, field, None)
            if own is None and figure is not None:
                self._take(figure.source, say(_RAISING_FIGURES[field]), figures.crop.name)
        self._take(way_of_raising(planting, figures).source, say("cells"), figures.crop.name)

    def add_cautions(self, found: Iterable[Caution]) -> None:
        """Take in cautions."""
        for caution in found:
            self._take(caution.source, say("cautions"), "")

    def _take(self, key: str | None, what: str, crop: str) -> None:
        if key and key not in (PRACTICE, ESTIMATE) and key in self._plan.catalogue.sources:
            self._uses[key][what].add(crop)

    def blocks(self, paper: Paper) -> list[Block]:
        """The publications under their heading; none where nothing was printed from any.

        Parameters
        ----------
        paper : Paper
        """
        if not self._uses:
            return []
        lines = []
        citations = sorted(
            (_title_words(self._plan.catalogue.sources[key]), uses) for key, uses in self._uses.items()
        )
        for citation, uses in citations:
            words = say("{source} ({uses})", source=citation, uses="; ".join(_use_words(uses)))
            lines += paragraph(paper, words, inset=3.0, size=SMALL, together=True, mark="•")
        rest = say("What has no source here is common practice, or our estimate where the sheet says so.")
        return [
            heading(paper, say("Sources")),
            *map(kept_with_next, lines[:1]),
            *lines[1:],
            *paragraph(paper, rest, size=SMALL, style="italic"),
            gap(2.0),
        ]


def _title_words(source: Source) -> str:
    """Who published it, its title and year."""
    who = source.author or source.agency
    year = f"{source.year}" if source.year and f"{source.year}" not in who else ""
    if source.author and source.agency:
        words = say("{author}: {title}. {agency}", author=who, title=source.title, agency=source.agency)
    else:
        words = say("{author}: {title}", author=who, title=source.title)
    return say("{source}, {year}", source=words, year=year) if year else words


def _use_words(uses: dict[str, set[str]]) -> list[str]:
    """What was taken from a source: ``depth of carrot and leek``, ``cautions``."""
    return [
        say("{figure} of {crops}", figure=what, crops=join_list(sorted(crops))) if "" not in crops else what
        for what, crops in sorted(uses.items())
    ]


def draw_source_pages(
    canvas: Any, pen: Pen, sources: SheetSources, paper: Paper, garden: str, today: dt.date
) -> None:
    """Draw sources on pages of their own, at the end; none where there are no sources.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    pen : Pen
    sources : SheetSources
    paper : Paper
    garden : str
        Garden and season, for the foot.
    today : date
        Day of printing.
    """
    blocks = sources.blocks(paper)
    if not blocks:
        return
    foot = Foot.of(paper, garden, today, check=False)
    room = paper.height - paper.top - paper.bottom - foot.height
    pages = paginate(blocks, room, room)
    canvas.bookmark(say("Sources"))
    for number in range(len(pages)):
        draw_page(pen, paper, pages, number, foot)
        canvas.showPage()
