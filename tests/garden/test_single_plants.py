"""Single plants of one variety in one bed are one planting."""

from __future__ import annotations

import pytest
from making import bed, garden, planting

from planner.garden import Places, Stretch
from planner.garden.edits import EditError, plant

PLACES = Places(points=((0.0, 0.0),))
MORE = Places(points=((1.0, 0.0),))
DOCUMENT = garden(bed("b1"), bed("b2"), planting(arrangement=PLACES, variety="Early"))


def test_a_single_plant_joins_those_of_its_variety():
    after, new = plant(DOCUMENT, "b1", "carrot", 2026, variety="Early", arrangement=MORE)
    assert new == ()
    (one,) = after.plantings
    assert one == DOCUMENT.plantings[0].with_(arrangement=Places(points=((0.0, 0.0), (1.0, 0.0))))


@pytest.mark.parametrize(
    "other",
    [
        {"variety": "Late"},
        {"variety": ""},
        {"bed": "b2", "variety": "Early"},
        {"crop": "pea", "variety": "Early"},
        {"year": 2027, "variety": "Early"},
    ],
)
def test_a_single_plant_of_another_kind_place_or_year_is_a_planting_of_its_own(other):
    wanted = {"bed": "b1", "crop": "carrot", "year": 2026, **other}
    after, (new,) = plant(DOCUMENT, arrangement=MORE, **wanted)
    assert after.plantings[0] == DOCUMENT.plantings[0]
    assert after.plantings_by_id[new].arrangement == MORE


def test_rows_and_single_plants_in_a_part_of_the_bed_are_not_joined():
    rows = garden(bed("b1"), planting())
    part = garden(bed("b1"), planting(arrangement=PLACES, plot=Stretch(start=0, end=1)))
    for document in (rows, part):
        after, new = plant(document, "b1", "carrot", 2026, arrangement=MORE)
        assert len(new) == 1
        assert len(after.plantings) == 2
    after, new = plant(DOCUMENT, "b1", "carrot", 2026, variety="Early")
    assert len(new) == 1
    assert after.plantings[0] is DOCUMENT.plantings[0]


def test_planting_in_no_bed_is_refused():
    with pytest.raises(EditError, match="no bed 'b9'"):
        plant(DOCUMENT, "b9", "carrot", 2026, arrangement=MORE)
