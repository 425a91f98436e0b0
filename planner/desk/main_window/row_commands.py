"""Commands for the rows and the single plants of the selected planting: what the handles on the sheet do, by keys."""

from __future__ import annotations

from collections.abc import Callable

from planner.desk.gestures.rows import ROW_STEPS
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.model.row_words import plant_words, row_lines_words
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, Planting
from planner.ground.place import Placed
from planner.ground.rearranging import rearrange
from planner.ground.row_changes import change_rows
from planner.ground.splitting import row_lines, split_rows
from planner.words import join_list, say, say_count

#: Steps of a spacing by a key. [m]
SPACING_STEPS = {"metric": 0.01, "feet_inches": 0.0127}


class RowCommands:
    """Changes of the rows of the one selected planting, each told with the new count.

    Parameters
    ----------
    document : Document
    view : SheetView
        Holds the single plants that are picked.
    tell : callable
        Shows a line in the status bar.
    """

    def __init__(self, document: Document, view: SheetView, tell: Callable[[str], None]) -> None:
        self._document, self._view, self._tell = document, view, tell

    def _planting(self) -> Planting | None:
        selected = self._document.selected_plantings
        if len(selected) != 1 or len(self._document.selection) != 1:
            self._tell(say("Select one planting first"))
            return None
        return self._document.garden.plantings_by_id[selected[0]]

    # -- rows -------------------------------------------------------------------------------

    def change_number(self, more: int) -> None:
        """Give it more rows, or fewer."""
        self._change(
            "rows",
            lambda garden, key, placed: change_rows(garden, key, placed, number=more),
        )

    def change_in_row(self, steps: int) -> None:
        """Put the plants further apart in their rows, or nearer."""
        by = self._step()
        self._change(
            "in_row",
            lambda garden, key, placed: change_rows(garden, key, placed, in_row=steps * by, step=by),
        )

    def change_between(self, steps: int) -> None:
        """Put the rows further apart, or nearer."""
        by = self._step()
        self._change(
            "between",
            lambda garden, key, placed: change_rows(garden, key, placed, between=steps * by, step=by),
        )

    def turn(self, degrees: float) -> None:
        """Turn the rows."""
        self._change(
            "row_turn",
            lambda garden, key, placed: change_rows(garden, key, placed, turn=degrees),
        )

    def _step(self) -> float:
        return SPACING_STEPS[self._document.garden.site.units]

    def _change(self, handle: str, change: Callable[[Garden, str, Placed], Garden]) -> None:
        planting = self._planting()
        if planting is None:
            return
        placed, key = self._document.plan.placed(planting), planting.id
        name = name_of(self._document.plan, (key,))
        done = self._document.edit(
            say(ROW_STEPS[handle], planting=name),
            lambda garden: change(garden, key, placed),
            merge=f"{handle} {key}",
        )
        if done:
            now = self._document.garden.plantings_by_id[key]
            self._tell("; ".join(row_lines_words(self._document.plan, now)))

    # -- row by row -------------------------------------------------------------------------

    def split(self) -> None:
        """Make plantings of its rows: of the varieties that the garden has of the crop, else each row by itself."""
        planting = self._planting()
        if planting is None:
            return
        document = self._document
        placed, key = document.plan.placed(planting), planting.id
        names = self._varieties(planting)
        rows = len(row_lines(placed))
        shared = [names[number * len(names) // rows] for number in range(rows)] if rows else []
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, ids = split_rows(garden, key, placed, shared, apart=len(names) < 2 or rows < len(names))
            made.extend(ids)
            return garden

        name = name_of(document.plan, (key,))
        if document.edit(say("Split {planting} into rows", planting=name), change):
            document.select(made)
            told = [
                say(
                    "{variety}: {count}",
                    variety=one.variety or say("no variety"),
                    count=document.plan.placed(one).plants,
                )
                for one in (document.garden.plantings_by_id[each] for each in made)
            ]
            self._tell(
                say_count(
                    "Split into {count} planting: {parts}",
                    "Split into {count} plantings: {parts}",
                    len(made),
                    parts=join_list(told),
                )
            )

    def _varieties(self, planting: Planting) -> list[str]:
        """Its own variety, then the others that the garden knows, has in stock or has planted of the crop."""
        garden = self._document.garden
        known = [one.name for one in garden.varieties if one.crop == planting.crop]
        stocked = [one.variety for one in garden.stock if one.crop == planting.crop]
        planted = [one.variety for one in garden.plantings if one.crop == planting.crop]
        names = dict.fromkeys(name for name in (planting.variety, *known, *stocked, *planted) if name)
        return list(names) or [""]

    # -- single plants ----------------------------------------------------------------------

    def make_single(self) -> None:
        """Arrange it in single places, where its plants are now."""
        planting = self._planting()
        if planting is None:
            return
        document, key = self._document, planting.id
        placed, name = document.plan.placed(planting), name_of(document.plan, (key,))
        if document.edit(
            say("Make single plants of {planting}", planting=name),
            lambda garden: rearrange(garden, key, "places", placed),
        ):
            self.pick_next(1)

    def pick_next(self, ahead: int) -> None:
        """Pick the next single plant, or the one before."""
        planting, picked = self._planting(), self._view.picked
        if planting is None:
            return
        if not picked.count:
            self._tell(say("Its plants have no places of their own: make single plants of it first"))
            return
        now = max(picked.indices, default=0) if ahead > 0 else min(picked.indices, default=0)
        at = (now + ahead) % picked.count if picked.indices else (0 if ahead > 0 else picked.count - 1)
        picked.pick({at})
        self._tell(plant_words(self._document.plan, planting, at))
