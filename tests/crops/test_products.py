"""A crop with several products has the figures of the one that it is grown for."""

from __future__ import annotations

import pytest
from making import crop
from pydantic import ValidationError

from planner.crops import Catalogue
from planner.garden import Planting
from planner.garden.garden import Garden
from planner.garden.planting_figures import figures_of

BEAN = crop(
    "bean",
    product={"value": "pods", "source": "practice"},
    days_to_maturity={"value": 55, "source": "guide"},
    height={"value": 0.5, "source": "guide"},
    store_days={"value": 7, "source": "guide"},
    days_early={"value": 45, "source": "guide"},
    heat_to_harvest={"value": 700, "source": "guide"},
    further_products=[
        {
            "product": "dry seed",
            "days_to_maturity": {"value": 95, "source": "guide"},
            "yield_per_metre": {"value": 0.1, "source": "guide"},
        }
    ],
)


def test_a_further_product_replaces_its_figures_and_no_others() -> None:
    dry = BEAN.grown_for("dry seed")
    assert [dry.number(name) for name in ("days_to_maturity", "yield_per_metre", "height", "store_days")] == [
        95,
        0.1,
        0.5,
        7,
    ]
    assert dry.product is not None
    assert dry.product.value == "dry seed"


def test_heat_and_early_sorts_of_the_own_product_are_not_those_of_another() -> None:
    dry = BEAN.grown_for("dry seed")
    assert (dry.heat_to_harvest, dry.days_early) == (None, None)
    assert BEAN.number("heat_to_harvest") == 700


def test_the_own_product_is_a_further_one_of_the_crop_grown_for_another() -> None:
    back = BEAN.grown_for("dry seed").grown_for("pods")
    assert back.number("days_to_maturity") == 55
    assert [one.product for one in back.further_products] == ["dry seed"]


@pytest.mark.parametrize("product", ["", "pods", "roots"])
def test_the_crop_itself_for_its_own_product_or_one_it_does_not_have(product: str) -> None:
    assert BEAN.grown_for(product) is BEAN


def test_a_planting_has_the_figures_of_its_product() -> None:
    catalogue = Catalogue({"bean": BEAN}, {})
    green = Planting(id="p1", bed="b1", crop="bean", year=2026)
    dry = green.with_(product="dry seed")
    assert figures_of(Garden(), catalogue, green).number("days_to_maturity") == 55
    first, second = (figures_of(Garden(), catalogue, dry) for _ in range(2))
    assert first.number("days_to_maturity") == 95
    assert first.crop is second.crop, "facts compare their inputs by identity"


@pytest.mark.parametrize(
    ("products", "words"),
    [
        ([{"product": "jam"}], "'jam' is none of"),
        ([{"product": "pods"}, {"product": "pods"}], "has the product 'pods' twice"),
    ],
)
def test_unknown_and_double_products_are_refused(products: list[dict[str, str]], words: str) -> None:
    with pytest.raises(ValidationError, match=words):
        crop("bean", further_products=products)
