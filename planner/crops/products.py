"""What else is harvested from a crop: dry beans of a bean, seed of coriander, with figures of its own."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from planner.crops.figures import Fact, Origin, Value
from planner.crops.vocabulary import (
    HARVEST_END_WORDS,
    HARVEST_UNITS,
    PRODUCT_WORDS,
    Days,
    Fraction,
    Positive,
    Temperature,
    one_of,
)


class Product(Value):
    """A further product of a crop; what it does not say is as the crop's own.

    Attributes
    ----------
    product : str
        One of :data:`~planner.crops.vocabulary.PRODUCT_WORDS`.
    note : str
        How it is grown or harvested for that.
    """

    product: str = Field(min_length=1)
    note: str = ""
    days_to_maturity: Days = None
    harvest_ends: Annotated[Fact | None, one_of(HARVEST_END_WORDS)] = None
    harvest_days: Days = None
    harvest_unit: Annotated[Fact | None, one_of(HARVEST_UNITS)] = None
    yield_per_plant: Positive = None
    yield_per_metre: Positive = None
    store_days: Days = None
    store_temperature: Temperature = None
    store_humidity: Fraction = None

    def entries(self) -> tuple[tuple[str, Origin], ...]:
        """Name and figure of each field that has one."""
        return tuple((name, entry) for name in PRODUCT_FIELDS if (entry := getattr(self, name)) is not None)


#: Names of the figures that a further product can have of its own.
PRODUCT_FIELDS: tuple[str, ...] = tuple(
    name for name in Product.model_fields if name not in ("product", "note")
)


def check_products(products: tuple[Product, ...]) -> tuple[Product, ...]:
    """Check that each product is a known word and stands once."""
    words = [one.product for one in products]
    for word in words:
        if word not in PRODUCT_WORDS:
            raise ValueError(f"'{word}' is none of {', '.join(PRODUCT_WORDS)}")
        if words.count(word) > 1:
            raise ValueError(f"has the product '{word}' twice")
    return products
