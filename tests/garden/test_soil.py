"""What is not known of a bed's soil is as in the garden; a test counts as a whole."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, rectangle
from pydantic import ValidationError

from planner.garden import Site, Soil
from planner.garden.units import show_length
from planner.listings.phrases import soil_words

AROUND = Soil(
    texture="loam", ph=6.4, phosphorus=30, tested=dt.date(2025, 3, 2), laboratory="county", depth=0.5
)


def test_an_unknown_soil_is_as_around_it() -> None:
    assert Soil().over(AROUND) == AROUND
    assert AROUND.over(Soil()) == AROUND
    assert not Soil().is_known
    assert AROUND.is_known


def test_texture_and_depth_are_mixed_but_not_two_tests() -> None:
    own = Soil(texture="clay", ph=7.5)
    assert own.over(AROUND) == Soil(texture="clay", ph=7.5, depth=0.5)
    assert Soil(depth=0.2).over(AROUND) == AROUND.with_(depth=0.2)


def test_a_container_has_no_share_in_the_soil_of_the_garden() -> None:
    document = garden(
        bed("b1", rectangle(2, 1)),
        bed("b2", rectangle(2, 1, center=(5, 0)), kind="container", depth=0.3, soil=Soil(ph=5.5)),
        site=Site(soil=AROUND),
    )
    assert document.soil_of(document.beds[0]) == AROUND
    assert document.soil_of(document.beds[1]) == Soil(ph=5.5, depth=0.3)


@pytest.mark.parametrize(
    "wrong", [{"ph": 1.0}, {"ph": 15}, {"texture": "mud"}, {"organic": 3}, {"depth": -0.1}]
)
def test_impossible_soil_is_refused(wrong: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Soil.model_validate(wrong)


def test_soil_in_words() -> None:
    def length(value: float) -> str:
        return show_length(value, "metric")

    assert soil_words(Soil(), length) == []
    assert soil_words(AROUND.with_(organic=0.042, magnesium=110), length) == [
        "soil 0.50 m deep", "loam", "pH 6.4", "4 % organic matter", "P\u00a030, Mg\u00a0110\u00a0mg/kg", "tested 2 Mar 2025 by county",
    ]  # fmt: skip
