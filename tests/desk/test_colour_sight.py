"""What the window says by colour is told apart by all eyes; the inks of families are in ``tests/sheets/test_family_inks.py``."""

from __future__ import annotations

from itertools import combinations, pairwise

import numpy as np
import pytest
from colour_sight import EYES, distance, lab

from planner.desk.canvas.light_scale import FULL, sun_colours
from planner.desk.theme.palette import CONTRAST, DARK, LIGHT

#: Least distance in CIELAB of what is drawn, what is selected and what is warned of, whatever the eyes.
LEAST = 24.0
#: Least step in lightness from one colour of the map of sun to the next, of 100.
LEAST_STEP = 1.5


@pytest.mark.parametrize("eyes", EYES)
@pytest.mark.parametrize("look", [LIGHT, DARK, CONTRAST], ids=["light", "dark", "contrast"])
def test_selection_and_warnings_stand_out_from_the_ink(look, eyes) -> None:
    colours = {name: getattr(look, name).getRgbF()[:3] for name in ("ink", "accent", "warn", "sheet")}
    apart = {(a, b): distance(colours[a], colours[b], eyes) for a, b in combinations(colours, 2)}
    assert {pair: found for pair, found in apart.items() if found < LEAST} == {}


@pytest.mark.parametrize("eyes", EYES)
def test_more_sun_is_lighter_for_all_eyes(eyes) -> None:
    colours = sun_colours(np.linspace(0, FULL, 11))[:, :3] / 255
    lightness = [lab(colour, eyes)[0] for colour in colours]
    assert min(after - before for before, after in pairwise(lightness)) >= LEAST_STEP
