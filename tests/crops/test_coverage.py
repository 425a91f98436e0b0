"""The completeness report counts present and missing figures."""

from __future__ import annotations

import pytest
from making import crop

from planner.crops.coverage import AIM, DRIVING_FIELDS, PROVENANCES, coverage, provenance_of, published_share
from planner.crops.crop import ENTRY_FIELDS

CARROT = crop(
    "carrot",
    height={"value": 0.3, "source": "book"},
    spread={"value": 0.2, "source": "book", "recalled": True},
    sowing_depth={"value": 0.01, "source": "practice"},
    germination=0.5,
    weeks_to_raise={"applies": False, "note": "never moved"},
)
BEET = crop("beet", height={"value": 0.4, "source": "book"})


@pytest.mark.parametrize(
    ("field", "word"),
    [
        ("height", "published"), ("spread", "estimate"), ("germination", "estimate"),
        ("sowing_depth", "practice"), ("weeks_to_raise", "does not apply"), ("row_spacing", "missing"),
    ],
)  # fmt: skip
def test_provenance_of_a_field(field, word):
    assert provenance_of(CARROT, field) == word


def test_counts_add_up_to_crops_by_fields():
    found = coverage([CARROT, BEET])
    assert sum(found.counts().values()) == 2 * len(ENTRY_FIELDS)
    counts = found.counts(["height", "weeks_to_raise"])
    expected = {"published": 2, "practice": 0, "estimate": 0, "missing": 1, "does not apply": 1}
    assert counts == expected
    assert tuple(counts) == PROVENANCES
    assert found.counts(["height"], [CARROT])["published"] == 1


def test_missing_figures_lower_the_share():
    counts = coverage([CARROT, BEET]).counts(["height", "weeks_to_raise"])
    assert published_share(counts) == pytest.approx(2 / 3)
    assert published_share(counts, with_inapplicable=True) == pytest.approx(3 / 4)


def test_the_share_of_nothing_is_none():
    assert published_share(coverage([]).counts()) is None
    assert published_share(coverage([CARROT]).counts(["weeks_to_raise"])) is None
    assert published_share(coverage([CARROT]).counts(["weeks_to_raise"]), with_inapplicable=True) == 1.0


def test_driving_fields_are_fields():
    assert set(DRIVING_FIELDS) <= set(ENTRY_FIELDS)


def test_the_shipped_catalogue_is_counted_whole(catalogue):
    found = coverage(catalogue.crops.values())
    assert sum(found.counts().values()) == len(catalogue.crops) * len(ENTRY_FIELDS)
    # The target is a lower bound, so that figures cannot lose their sources unnoticed.
    assert published_share(found.counts(DRIVING_FIELDS)) >= AIM
