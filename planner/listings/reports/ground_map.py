"""The ground of a garden at its true place: GeoJSON (RFC 7946), with the members of a report besides."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Iterator
from typing import Literal

import shapely
from pydantic import Field

from planner.garden import Bed, Planting, Structure
from planner.ground.earth import Earth
from planner.ground.shapes import outline_area, plan_polygon
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.listings.reports.base import GardenReport, GrowingYear, Record, SquareMetres
from planner.plan import Plan

#: Decimals of degrees: 0.1 mm on the ground.
DECIMALS = 9
#: Corners that lie off a straight line by less are left out, as of circles. [m]
HAIR = 0.0005

Position = tuple[float, float]
Rings = tuple[tuple[Position, ...], ...]


class PolygonShape(Record):
    """A polygon: its outer ring anticlockwise, then its holes clockwise."""

    type: Literal["Polygon"] = "Polygon"
    coordinates: Rings = Field(description="Longitudes and latitudes of closed rings. [degrees]")


class MultiPolygonShape(Record):
    """Several polygons."""

    type: Literal["MultiPolygon"] = "MultiPolygon"
    coordinates: tuple[Rings, ...] = Field(description="Longitudes and latitudes of closed rings. [degrees]")


class GardenOutline(Record):
    """The garden's own outline."""

    thing: Literal["garden"] = "garden"
    name: str
    area_m2: SquareMetres


class BedOutline(Record):
    """A bed."""

    thing: Literal["bed"] = "bed"
    name: str
    kind: str
    area_m2: SquareMetres
    height_m: float = Field(ge=0, description="Above the ground. [m]")


class StructureOutline(Record):
    """A structure."""

    thing: Literal["structure"] = "structure"
    name: str = Field(description="Empty where it has none.")
    kind: str
    area_m2: SquareMetres
    height_m: float = Field(ge=0, description="[m]")


class PlantingOutline(Record):
    """The plot of a planting in its days."""

    thing: Literal["planting"] = "planting"
    bed: str = Field(description="Its name.")
    bed_id: str
    crop: str = Field(description="Its key, as in the garden file.")
    crop_name: str = Field(description="As shown, in the garden's English.")
    variety: str = Field(description="Empty where none is named.")
    first: dt.date = Field(description="On its plot.")
    last: dt.date | None = Field(description="Null where it stays until it is taken out.")
    plants: int = Field(ge=0)
    area_m2: SquareMetres


class Feature(Record):
    """A thing of the garden."""

    type: Literal["Feature"] = "Feature"
    id: str = Field(description="As in the garden file.")
    geometry: PolygonShape | MultiPolygonShape | None = Field(description="Null where there is no ground.")
    properties: GardenOutline | BedOutline | StructureOutline | PlantingOutline


class MapReport(GardenReport):
    """Outlines of the garden, its beds, structures and plots, on WGS 84."""

    type: Literal["FeatureCollection"] = "FeatureCollection"
    report: Literal["map"] = "map"
    bbox: tuple[float, float, float, float] = Field(
        description="West, south, east, north; west is greater than east where the garden lies on both sides of 180. [degrees]"
    )
    features: tuple[Feature, ...]


def map_report(plan: Plan, day: dt.date | None = None, beds: Iterable[Bed] | None = None) -> MapReport:
    """The ground of a garden in a year.

    Parameters
    ----------
    plan : Plan
    day : date, optional
        Only plots of what grows on it; those of the whole year by default.
    beds : iterable of Bed, optional
        Only these and their plots; by default all beds, the structures and the garden's outline.

    Raises
    ------
    NothingToDrawError
        Where the garden has no bed, structure or outline in the year.
    NoPlaceError
        Where the garden's latitude or its longitude is not known.
    """
    earth = Earth.of(plan.garden.site)
    grounds = list(_grounds(plan, day, None if beds is None else list(beds)))
    if not grounds:
        raise NothingToDrawError.of(plan)
    return MapReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        bbox=_extent(earth, [ground for _, ground, _ in grounds]),
        features=tuple(
            Feature(id=key, geometry=_geometry(earth, ground), properties=about)
            for key, ground, about in grounds
        ),
    )


def map_text(report: MapReport) -> str:
    """A report as a GeoJSON file: its type first, a thing a line."""
    members = report.model_dump(mode="json")
    features = members.pop("features")
    head = json.dumps({"type": members.pop("type"), **members}, ensure_ascii=False)
    lines = ",\n".join(json.dumps(feature, ensure_ascii=False) for feature in features)
    return f'{head[:-1]}, "features": [\n{lines}\n]}}\n'


_About = GardenOutline | BedOutline | StructureOutline | PlantingOutline


def _grounds(
    plan: Plan, day: dt.date | None, beds: list[Bed] | None
) -> Iterator[tuple[str, shapely.Geometry, _About]]:
    """Ids, grounds on the plan and properties."""
    site = plan.garden.site
    if beds is None and site.outline is not None:
        area = outline_area(site.outline)
        yield "garden", plan_polygon(site.outline), GardenOutline(name=site.name, area_m2=area)
    for bed in plan.beds if beds is None else beds:
        yield bed.id, plan_polygon(bed.outline), _bed(bed)
        for planting in plan.in_bed(bed):
            if day is None or plan.span_of(planting).holds(day):
                yield planting.id, plan.plot_on_plan(planting), _planting(plan, bed, planting)
    for one in plan.garden.structures if beds is None else ():
        if one.in_use(plan.year):
            yield one.id, plan_polygon(one.outline), _structure(one)


def _bed(bed: Bed) -> BedOutline:
    area = outline_area(bed.outline)
    return BedOutline(name=bed.name, kind=bed.kind, area_m2=area, height_m=bed.height)


def _structure(one: Structure) -> StructureOutline:
    area = outline_area(one.outline)
    return StructureOutline(name=one.name, kind=one.kind, area_m2=area, height_m=one.height)


def _planting(plan: Plan, bed: Bed, planting: Planting) -> PlantingOutline:
    crop, placed, span = plan.figures_of(planting).crop, plan.placed(planting), plan.span_of(planting)
    return PlantingOutline(
        bed=bed.name,
        bed_id=bed.id,
        crop=planting.crop,
        crop_name=crop.name if crop else planting.crop,
        variety=planting.variety,
        first=span.first,
        last=None if span.open else span.last,
        plants=placed.plants,
        area_m2=placed.area,
    )


def _geometry(earth: Earth, ground: shapely.Geometry) -> PolygonShape | MultiPolygonShape | None:
    fine = shapely.simplify(ground, HAIR)
    if fine.is_empty:
        return None
    placed = earth.shape(fine)
    if placed.geom_type == "Polygon":
        return PolygonShape(coordinates=_rings(placed))
    return MultiPolygonShape(coordinates=tuple(_rings(part) for part in placed.geoms))


def _rings(polygon: shapely.Polygon) -> Rings:
    return tuple(
        tuple((round(x, DECIMALS) + 0.0, round(y, DECIMALS) + 0.0) for x, y in ring.coords)
        for ring in (polygon.exterior, *polygon.interiors)
    )


def _extent(earth: Earth, grounds: list[shapely.Geometry]) -> tuple[float, float, float, float]:
    """Box about all grounds, for the member bbox."""
    placed = earth.positions(shapely.get_coordinates(grounds))
    (west, south), (east, north) = placed.min(axis=0).tolist(), placed.max(axis=0).tolist()
    west, east = ((lon + 180.0) % 360.0 - 180.0 for lon in (west, east))
    return round(west, DECIMALS), round(south, DECIMALS), round(east, DECIMALS), round(north, DECIMALS)
