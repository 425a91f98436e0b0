"""Comparing derived values as deep as they go, and holding that they cannot be changed."""

from __future__ import annotations

import dataclasses
import datetime as dt
import enum
import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pydantic
import shapely

#: Fields that are work to be done later, not values.
LATER = frozenset({"candidates", "find_fixes", "height"})
PLAIN = (str, bytes, int, bool, type(None), dt.date, dt.tzinfo, enum.Enum, frozenset)
#: Light is summed in single precision, in batches of any size. [h]
EXACT = 2e-4


def parts(value: Any) -> Iterator[tuple[str, Any]]:
    """Names and values of what an object is made of, what was worked out of it later left out."""
    if isinstance(value, tuple):
        names = getattr(value, "_fields", range(len(value)))
        yield from ((str(name), part) for name, part in zip(names, value, strict=True))
    elif dataclasses.is_dataclass(value):
        yield from ((field.name, getattr(value, field.name)) for field in dataclasses.fields(value))
    else:
        slots = [name for kind in type(value).__mro__ for name in getattr(kind, "__slots__", ())]
        own = value.__dict__ if hasattr(value, "__dict__") else {}
        yield from ((name, getattr(value, name)) for name in (*slots, *own) if not name.startswith("__"))


def difference(one: Any, other: Any, where: str = "") -> str:
    """The place of the first difference of two values, and what differs; empty where they are equal."""
    if one is other:
        return ""
    if type(one) is not type(other):
        return f"{where}: {type(one).__name__} and {type(other).__name__}"
    if isinstance(one, shapely.Geometry):
        same = one.equals_exact(other, 1e-9) or (one.is_empty and other.is_empty)
        return "" if same else f"{where}: {one.wkt[:80]} and {other.wkt[:80]}"
    if isinstance(one, np.ndarray):
        same = one.shape == other.shape and bool(np.allclose(one, other, rtol=0, atol=1e-9, equal_nan=True))
        return "" if same else f"{where}: arrays differ"
    if isinstance(one, float):
        return "" if math.isclose(one, other, rel_tol=1e-9, abs_tol=EXACT) else f"{where}: {one} and {other}"
    if isinstance(one, (*PLAIN, pydantic.BaseModel)):
        return "" if one == other else f"{where}: {one!r} and {other!r}"
    if isinstance(one, shapely.STRtree):
        return difference(tuple(one.geometries), tuple(other.geometries), where)
    if callable(one) and not dataclasses.is_dataclass(one):
        return ""
    mine, theirs = dict(parts(one)), dict(parts(other))
    if isinstance(one, tuple) and len(one) != len(other):
        return f"{where}: {len(one)} and {len(other)} items: {str(one)[:200]} and {str(other)[:200]}"
    for name in mine.keys() & theirs.keys():
        if name not in LATER:
            found = difference(mine[name], theirs[name], f"{where}.{name}")
            if found:
                return found
    return ""


def changeable(value: Any, where: str = "", seen: set[int] | None = None) -> str:
    """The place of something in a value that could be changed; empty where there is none."""
    seen = set() if seen is None else seen
    if isinstance(value, (*PLAIN, float, shapely.Geometry)) or id(value) in seen:
        return ""
    seen.add(id(value))
    if isinstance(value, np.ndarray):
        return f"{where}: a writeable array" if value.flags.writeable else ""
    if isinstance(value, (list, dict, set, bytearray)):
        return f"{where}: a {type(value).__name__}"
    if isinstance(value, pydantic.BaseModel):
        return "" if value.model_config.get("frozen") else f"{where}: a model that is not frozen"
    if dataclasses.is_dataclass(value) and not value.__dataclass_params__.frozen:
        return f"{where}: {type(value).__name__} is not frozen"
    if callable(value) or isinstance(value, shapely.STRtree):
        return ""
    if isinstance(value, tuple) or dataclasses.is_dataclass(value):
        for name, part in parts(value):
            found = changeable(part, f"{where}.{name}", seen)
            if found:
                return found
    return ""
