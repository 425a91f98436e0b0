"""What two people changed in different ways, kept in the garden until it is settled."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field

from planner.garden.model import Label, Model
from planner.words import say

#: Parts of a garden that hold things, and the field by which a thing is known.
KEYS = {
    "beds": "id",
    "structures": "id",
    "plantings": "id",
    "sources": "key",
    "crops": "key",
    "varieties": "id",
    "stock": "id",
    "planting_stock": "id",
    "offers": "id",
    "benches": "id",
    "dressings": "id",
    "shed": "id",
    "store_places": "id",
    "trials": "id",
    "wishes": "id",
    "records": "id",
    "notes": "year",
    "waived": "finding",
}
#: Parts whose things have ids, beds before the plantings that name them.
PARTS_WITH_IDS = tuple(part for part, field in KEYS.items() if field == "id")
#: Parts whose things have keys made of their names: the same key is the same thing in two gardens.
PARTS_WITH_KEYS = tuple(part for part, field in KEYS.items() if field == "key")

#: Whose version stays in the garden where one of the two removed the thing.
KeptFrom = Literal["mine", "theirs"]
#: Parts of a garden in which two versions can differ.
ConflictPart = Literal[
    "site",
    "climate",
    "weather",
    "household",
    "underlay",
    "beds",
    "structures",
    "plantings",
    "sources",
    "crops",
    "varieties",
    "stock",
    "planting_stock",
    "offers",
    "benches",
    "dressings",
    "shed",
    "store_places",
    "trials",
    "wishes",
    "records",
    "notes",
    "waived",
]


def _other_version(text: str) -> str:
    try:
        found = json.loads(text)
    except ValueError:
        found = text
    if found is not None and not isinstance(found, dict):
        raise ValueError(say("the other version must be fields and values as JSON, or null"))
    return text


class Conflict(Model):
    """A difference between two gardens that were joined.

    The garden holds one version; the other is kept here.
    """

    part: ConflictPart
    key: Label = Field(
        default="", description="Id of the thing, or the year of a note, or the key of a waived finding."
    )
    kept: KeptFrom = Field(default="mine", description="Whose version the garden holds.")
    other: Annotated[str, Field(max_length=1_000_000), AfterValidator(_other_version)] = Field(
        description="The other version as JSON: its fields and their values; null where it was removed."
    )

    @property
    def removed(self) -> bool:
        """Whether the other version is that the thing was removed."""
        return self.other == "null"

    @property
    def values(self) -> dict[str, Any]:
        """The other version's values by field, as JSON holds them; empty where it was removed."""
        found = json.loads(self.other)
        return found if isinstance(found, dict) else {}


def values_as_json(model: Model, names: tuple[str, ...]) -> str:
    """Write some fields of a value as a conflict keeps them."""
    return json.dumps(model.model_dump(mode="json", include=set(names)), ensure_ascii=False, sort_keys=True)
