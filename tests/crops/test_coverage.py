"""The completeness report counts present and missing figures."""

from __future__ import annotations

import pytest
from making import crop

from planner.crops.coverage import (
    AIM,
    AIM_IN_PRINT,
    DRIVING_FIELDS,
    IN_PRINT,
    PROVENANCES,
    coverage,
    provenance_of,
    share_of,
)
from planner.crops.crop import ENTRY_FIELDS

CARROT = crop(
    "carrot",
    height={"value": 0.3, "source": "book"},
    in_row_spacing={"value": 0.05, "low": 0.03, "high": 0.07, "source": "book", "basis": "chosen"},
    sow_from={"value": -4, "source": "book", "basis": "derived", "note": "the middle of April"},
    spread={"value": 0.2, "source": "book", "recalled": True},
    sowing_depth={"value": 0.01, "source": "practice"},
    germination=0.5,
    weeks_to_raise={"applies": False, "note": "never moved"},
)
BEET = crop("beet", height={"value": 0.4, "source": "book"})


@pytest.mark.parametrize(
    ("field", "word"),
    [
        ("height", "printed"), ("in_row_spacing", "chosen"), ("sow_from", "derived"), ("spread", "estimate"), ("germination", "estimate"),
        ("sowing_depth", "practice"), ("weeks_to_raise", "does not apply"), ("row_spacing", "missing"),
    ],
)  # fmt: skip
def test_provenance_of_a_field(field, word):
    assert provenance_of(CARROT, field) == word


def test_counts_add_up_to_crops_by_fields():
    found = coverage([CARROT, BEET])
    assert sum(found.counts().values()) == 2 * len(ENTRY_FIELDS)
    counts = found.counts(["height", "weeks_to_raise"])
    expected = dict.fromkeys(PROVENANCES, 0) | {"printed": 2, "missing": 1, "does not apply": 1}
    assert counts == expected
    assert tuple(counts) == PROVENANCES
    assert found.counts(["height"], [CARROT])["printed"] == 1


def test_missing_figures_lower_the_share():
    counts = coverage([CARROT, BEET]).counts(["height", "weeks_to_raise"])
    assert share_of(counts) == pytest.approx(2 / 3)
    assert share_of(counts, with_inapplicable=True) == pytest.approx(3 / 4)


def test_a_derived_figure_is_published_but_not_in_print():
    counts = coverage([CARROT]).counts(["height", "in_row_spacing", "sow_from", "row_spacing"])
    assert share_of(counts) == pytest.approx(3 / 4)
    assert share_of(counts, IN_PRINT) == pytest.approx(2 / 4)


def test_the_share_of_nothing_is_none():
    assert share_of(coverage([]).counts()) is None
    assert share_of(coverage([CARROT]).counts(["weeks_to_raise"])) is None
    assert share_of(coverage([CARROT]).counts(["weeks_to_raise"]), with_inapplicable=True) == 1.0


def test_driving_fields_are_fields():
    assert set(DRIVING_FIELDS) <= set(ENTRY_FIELDS)


def test_the_shipped_catalogue_is_counted_whole(catalogue):
    found = coverage(catalogue.crops.values())
    assert sum(found.counts().values()) == len(catalogue.crops) * len(ENTRY_FIELDS)
    driving = found.counts(DRIVING_FIELDS)
    # The aims are lower bounds, so that figures cannot lose their sources unnoticed.
    assert share_of(driving) >= AIM
    assert share_of(driving, IN_PRINT) >= AIM_IN_PRINT


def test_every_shipped_figure_says_how_it_came_about(catalogue):
    silent = [
        f"{crop.key}.{name}"
        for crop in catalogue.crops.values()
        for name, entry in crop.entries()
        if entry.applies and entry.basis is None
    ]
    assert silent == []


def test_a_code_of_a_plant_is_never_an_estimate(catalogue):
    guessed = [
        crop.key
        for crop in catalogue.crops.values()
        if crop.eppo is not None and provenance_of(crop, "eppo") not in (*IN_PRINT, "does not apply")
    ]
    assert guessed == []
