"""Short functions that make documents and catalogues for tests."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from planner.crops import Catalogue, Crop
from planner.garden import Bed, Garden, Planting, Polygon, Rectangle
from planner.garden.records import WorkRecord

Ring = list[tuple[float, float]]


def rectangle(length: float = 4.8, width: float = 1.2, **place: Any) -> Rectangle:
    """A rectangle, by default 4.8 m x 1.2 m."""
    return Rectangle(length=length, width=width, **place)


def bed(key: str = "b1", outline: Any = None, **fields: Any) -> Bed:
    """A bed."""
    return Bed(id=key, name=fields.pop("name", key), outline=outline or rectangle(), **fields)


def ring_bed(ring: Ring, key: str = "b1", **place: Any) -> Bed:
    """A bed with a polygon."""
    return bed(key, Polygon(points=tuple(ring), **place))


def planting(key: str = "p1", bed: str = "b1", **fields: Any) -> Planting:
    """A planting of carrots in 2026."""
    return Planting.model_validate({"id": key, "bed": bed, "crop": "carrot", "year": 2026, **fields})


def ticked(planting: str, task: str, day: dt.date, cover: str | None = None, **fields: Any) -> WorkRecord:
    """A record of a task that was done; its id tells of what."""
    key = f"r-{planting}-{task}-{day}".replace(" ", "_")
    more = {"id": key, "planting": planting, "task": task, "day": day, "cover": cover, **fields}
    return WorkRecord.model_validate({"kind": "done", **more})


def garden(*things: Any, **fields: Any) -> Garden:
    """A garden of beds and plantings."""
    beds = tuple(thing for thing in things if isinstance(thing, Bed))
    plantings = tuple(thing for thing in things if isinstance(thing, Planting))
    return Garden(beds=beds, plantings=plantings, **fields)


def crop(key: str = "carrot", **figures: Any) -> Crop:
    """A crop from plain numbers."""
    entries = {
        name: value
        if isinstance(value, dict) or name in ("further_products", "toxic")
        else {"value": value, "source": "estimate"}
        for name, value in figures.items()
    }
    plain = {"name": key, "latin": key, "family": "Apiaceae", "life_cycle": "annual", "growth_form": "root"}
    return Crop.model_validate({"key": key, **plain, **entries})


def catalogue_of(*crops: Crop) -> Catalogue:
    """A catalogue of these crops, without sources."""
    return Catalogue({one.key: one for one in crops}, {})


def write_catalogue(folder: Path, sources: str, **files: str) -> Path:
    """A catalogue's files in a folder."""
    (folder / "crops").mkdir(parents=True, exist_ok=True)
    (folder / "sources.toml").write_text(sources, encoding="utf-8")
    for name, text in files.items():
        (folder / "crops" / f"{name}.toml").write_text(text, encoding="utf-8")
    return folder
