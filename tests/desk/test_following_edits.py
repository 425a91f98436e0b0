"""What the window shows after any edits is what it shows of the same garden opened anew."""

from __future__ import annotations

import random

import numpy as np
import pytest
from bench.bench_edit import big_garden
from effort import tries
from random_edits import EDITS, random_edit

from planner import resources
from planner.desk.canvas.label_layer import LabelLayer
from planner.desk.canvas.scene import SheetScene
from planner.desk.forms.garden_form import GardenForm
from planner.desk.panels.ribbon import Ribbon
from planner.garden import Garden
from planner.garden import edits as e
from planner.storage import load


def drawn(scene: SheetScene) -> dict[str, object]:
    """What a scene draws of its beds and structures."""
    beds = {
        key: (
            item.bed,
            item.shape(),
            item.boundingRect(),
            [(p.planting, p.plot, p.canopy, p.mark, p.cover, p.support) for p in item.painted],
            [p.points for p in item.painted],
        )
        for key, item in sorted(scene.beds.items())
    }
    return {**beds, **{key: item.structure for key, item in sorted(scene.structures.items())}}


def same(mine: object, theirs: object) -> bool:
    if isinstance(mine, np.ndarray):
        return np.array_equal(mine, theirs)
    if isinstance(mine, (tuple, list)):
        return len(mine) == len(theirs) and all(map(same, mine, theirs))
    return mine == theirs


@pytest.mark.parametrize("name", ["hollow_lane", "24 beds"])
def test_after_any_edits_sheet_labels_ribbon_and_sums_are_those_of_the_garden_opened_anew(
    name: str, open_hand
) -> None:
    document: Garden = (
        big_garden(24) if name == "24 beds" else load(resources.sample_folder() / f"{name}.bedwright")
    )
    hand = open_hand(document)
    window, chance, done = hand.window, random.Random(name), 0
    window.view.scale_to(45.0)
    window.view.labels.right_end()
    while done < tries(16, 24):
        after = random_edit(chance, hand.document.garden, chance.choice(sorted(EDITS)))
        if after is None or not hand.document.commit("Edit", after):
            continue
        done += 1
        if chance.random() < 0.2:
            hand.document.undo_stack.undo()
        if chance.random() < 0.2:
            hand.document.show_day(chance.choice([None, hand.document.plan.span.first]))
            window.view.sheet._rested.stop()
            window.view.sheet._follow_beds()
        window.view.labels.right_end()
        fresh = SheetScene(hand.document, window.look)
        ours, theirs = drawn(window.view.sheet), drawn(fresh)
        assert ours.keys() == theirs.keys()
        assert [key for key in ours if not same(ours[key], theirs[key])] == []
        assert window.view.sheet.sceneRect().contains(fresh.content_rect())
        labels = LabelLayer(window.view)
        labels.right_end()
        assert [(one.text, rect) for one, rect in window.view.labels.all_placed()] == [
            (one.text, rect) for one, rect in labels.all_placed()
        ]
        ribbon, form = Ribbon(hand.document, window.look), GardenForm(hand.document)
        assert window.ribbon._lines == ribbon._lines
        form.refresh()
        window.docks.details.garden.refresh()
        assert window.docks.details.garden.totals.text() == form.totals.text()
        fresh.deleteLater()


def test_climbers_get_their_own_support_when_their_arch_goes(open_hand) -> None:
    hand = open_hand(load(resources.sample_folder() / "hollow_lane.bedwright"))
    gone = e.change_structure(hand.document.garden, "s3", last_year=hand.document.plan.year - 1)
    assert hand.document.commit("Edit", gone)
    ours, theirs = drawn(hand.window.view.sheet), drawn(SheetScene(hand.document, hand.window.look))
    assert [key for key in ours if not same(ours[key], theirs[key])] == []
