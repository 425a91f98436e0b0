"""Marks of growth forms can be distinguished, even small ones."""

from __future__ import annotations

from itertools import combinations
from typing import get_args

import numpy as np
import pytest
from PIL import Image, ImageDraw

from planner.crops.vocabulary import GrowthForm
from planner.sheets.growth_marks import MARKS, mark


def test_every_growth_form_has_a_mark_in_the_unit_circle():
    assert set(MARKS) == set(get_args(GrowthForm))
    for strokes in MARKS.values():
        reach = max(np.hypot(x, y) for stroke in strokes for x, y in stroke.points)
        assert 0.6 <= reach <= 1.0


def test_unknown_form_is_marked_as_a_bush():
    assert mark("no such form") == MARKS["bush"]


def drawn(form: str, pixels: int = 6, fine: int = 24) -> np.ndarray:
    """A mark in so many pixels, lines a pixel wide, as shares of ink."""
    side = pixels * fine
    picture = Image.new("L", (side, side), 0)
    pen = ImageDraw.Draw(picture)
    for stroke in mark(form):
        points = [((x + 1) / 2 * side, (1 - y) / 2 * side) for x, y in stroke.points]
        if stroke.filled:
            pen.polygon(points, fill=255)
        else:
            pen.line(points + points[:1] * stroke.closed, fill=255, width=fine)
    return np.asarray(picture.resize((pixels, pixels), Image.Resampling.BOX)) / 255


@pytest.mark.parametrize(("one", "other"), list(combinations(sorted(MARKS), 2)))
def test_marks_differ_in_six_pixels(one: str, other: str):
    difference = np.abs(drawn(one) - drawn(other))
    # a quarter of the ink of the paler one lies elsewhere, and clearly so in four pixels
    assert difference.sum() >= 0.25 * min(drawn(one).sum(), drawn(other).sum())
    assert (difference > 0.25).sum() >= 4
