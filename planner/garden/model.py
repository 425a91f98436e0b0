"""Base class and shared field types of the document: frozen values with named limits."""

from __future__ import annotations

import re
from typing import Annotated, Any, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from planner.lazy import lazy_property
from planner.words import say

#: Greatest distance of a coordinate from the plan's origin. [m]
PLAN_LIMIT = 10_000.0
#: Longest side of a bed or structure. [m]
SIDE_LIMIT = 2_000.0
#: Shortest side of a bed or structure. [m]
LEAST_SIDE = 0.02
#: Least and greatest spacing of plants or rows. [m]
LEAST_SPACING = 0.002
LARGEST_SPACING = 50.0
#: Greatest length of a name. [characters]
LONGEST_NAME = 200


class Model(BaseModel):
    """Base class of the document's values: frozen, without unknown fields or numbers that are not finite."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", allow_inf_nan=False, ignored_types=(lazy_property,)
    )

    def with_(self, **changes: Any) -> Self:
        """Return a copy with some fields changed, validated as a new value.

        Raises
        ------
        pydantic.ValidationError
            If a new value is not allowed.
        """
        fields = {name: getattr(self, name) for name in type(self).model_fields}
        return type(self)(**{**fields, **changes})

    def __getstate__(self) -> dict[Any, Any]:
        """Its fields alone: what was worked out of them is not sent along, and may be added while another thread sends."""
        fields = {name: self.__dict__[name] for name in type(self).model_fields}
        return {**super().__getstate__(), "__dict__": fields}


_LINE_END = re.compile("\r\n?|\x85|\u2028|\u2029")
_NO_TEXT = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]")
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]")


def _one_line(text: str) -> str:
    if _CONTROL.search(text):
        raise ValueError(say("must be one line without control characters"))
    return text


def lines(text: str) -> str:
    """A text of lines: one sign for their ends, and no other control characters than tabs."""
    if not _CONTROL.search(text):
        return text
    return _NO_TEXT.sub("", _LINE_END.sub("\n", text))


#: A name of one line: any script, quotes and emoji included.
Name = Annotated[str, Field(min_length=1, max_length=LONGEST_NAME), AfterValidator(_one_line)]
#: A name that may be empty.
Label = Annotated[str, Field(max_length=LONGEST_NAME), AfterValidator(_one_line)]
#: Lines of any text; control characters, which a damaged file or table may bring, are left out.
Notes = Annotated[str, Field(max_length=20_000), AfterValidator(lines)]
Id = Annotated[str, Field(pattern=r"^[A-Za-z0-9_.\-]{1,64}$")]

Coordinate = Annotated[float, Field(ge=-PLAN_LIMIT, le=PLAN_LIMIT)]
Point = tuple[Coordinate, Coordinate]
Side = Annotated[float, Field(ge=LEAST_SIDE, le=SIDE_LIMIT)]
#: Distance along a bed from its beginning. [m]
Along = Annotated[float, Field(ge=0, le=2 * PLAN_LIMIT)]
Distance = Annotated[float, Field(ge=0, le=SIDE_LIMIT)]
Spacing = Annotated[float, Field(ge=LEAST_SPACING, le=LARGEST_SPACING)]
Height = Annotated[float, Field(ge=0, le=200)]
Degrees = Annotated[float, Field(ge=-360, le=360)]
Year = Annotated[int, Field(ge=1800, le=2400)]
