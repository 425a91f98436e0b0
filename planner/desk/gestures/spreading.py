"""Several crops held over a bed together: side by side on one piece of ground, in the order in which they were chosen."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QPainter
from typing_extensions import override

from planner.crops import Crop
from planner.desk.gestures.base import GestureView
from planner.desk.gestures.drop_painting import paint_drop
from planner.desk.gestures.placing import PlaceCrop
from planner.desk.model.drop_preview import DropPreview, planted_fields
from planner.garden import Bed, Garden, edits
from planner.ground.dropping import Manner
from planner.plan.dropping import spread
from planner.words import capital, join_list, say, say_count


class SpreadCrops(PlaceCrop):
    """Holds several crops over the beds; a drop or Enter plants them all as one step.

    Parameters
    ----------
    view : GestureView
    crops : sequence of (Crop, str)
        With their varieties, in their order.
    """

    may_draw_bed = False

    def __init__(self, view: GestureView, crops: Sequence[tuple[Crop, str]]) -> None:
        super().__init__(view, *crops[0])
        self.crops = tuple(crops)
        self.hint = say(
            "Side by side in the order chosen; Ctrl the whole bed. Arrows and Enter work too; Escape ends"
        )
        self.parts: tuple[DropPreview, ...] = ()
        self._asked: tuple[object, ...] = ()

    @override
    def hold_over(self, bed: Bed, at: tuple[float, float], manner: Manner) -> None:
        plan = self.document.plan
        found = spread(plan, bed, self.crops, at, manner, self.view.fine_step)
        if (plan, bed.id, found) == self._asked and found:
            return
        self._asked = (plan, bed.id, found)
        self.parts = tuple(DropPreview(bed, one, plan.trial(one)) for one in found)
        why = say("{bed} has no ground free for all of them", bed=bed.name)
        self._show(self.parts[0] if self.parts else DropPreview(bed, None, None, why))

    @override
    def _show(self, preview: DropPreview | None) -> None:
        if preview is None or not preview.may_land:
            self.parts, self._asked = (), ()
        super()._show(preview)

    @override
    def work_out_consequences(self) -> None:
        """What each would cause is told by the findings once they are planted."""

    @override
    def plant(self) -> bool:
        parts = [(one.planting, one.placed) for one in self.parts]
        if not parts:
            self.view.say(self.preview.why if self.preview is not None else say("Hold them over a bed"))
            return False
        bed = self.parts[0].bed
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            for planting, _ in parts:
                if planting is not None:
                    garden, key = edits.add_planting(
                        garden, planting.bed, planting.crop, planting.year, **planted_fields(planting)
                    )
                    made.append(key)
            return garden

        step = say_count(
            "Plant {count} crop in {bed}", "Plant {count} crops in {bed}", len(parts), bed=bed.name
        )
        done = self.document.edit(step, change)
        if done:
            self.document.show_growing(made)
            self.document.select(made)
            self.view.say(say("{step}: {crops}", step=step, crops=join_list(self._counts())))
        self._asked = ()
        return done

    def _counts(self) -> list[str]:
        """Each crop with the number of its plants."""
        return [
            say("{count} {crop}", count=one.placed.plants, crop=crop.name)
            for (crop, _), one in zip(self.crops, self.parts, strict=False)
            if one.placed is not None
        ]

    @override
    def lines(self) -> list[str]:
        if not self.parts:
            names = capital(join_list([crop.name for crop, _ in self.crops]))
            return [names, self.preview.why] if self.preview is not None else [names]
        return self._counts()

    @override
    def paint(self, painter: QPainter) -> None:
        for part in self.parts[1:]:
            paint_drop(painter, self.view, part)
        super().paint(painter)
