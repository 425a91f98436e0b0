"""The ground as GeoJSON, read by other readers."""

from __future__ import annotations

import datetime as dt
import json

import jsonschema
import pytest
import shapely
from geographiclib.geodesic import Geodesic
from making import bed, garden, planting, rectangle
from sample_reading import FOLDER, YEAR, grounds

from planner import storage
from planner.garden import Garden, Site
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.listings.reports.ground_map import map_report, map_text
from planner.listings.reports.schemas import report_schema
from planner.plan import Plan

SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))
SITE = Site(latitude=50.0, longitude=5.0)


def written(document: Garden, **choice: object) -> dict[str, object]:
    return json.loads(map_text(map_report(Plan(document, YEAR), **choice)))


@pytest.mark.parametrize("name", SAMPLES)
def test_areas_on_the_earth_are_those_of_the_file(name):
    """By shapely's reader of GeoJSON and GeographicLib; the file's own numbers beside them."""
    document = storage.load(FOLDER / f"{name}.bedwright")
    found = written(document)
    jsonschema.Draft202012Validator(report_schema("map")).validate(found)
    on_plan = grounds(FOLDER / f"{name}.bedwright", "beds")
    shrunk = (6.371e6 / (6.371e6 + (document.site.elevation or 0.0))) ** 2
    beds = [one for one in found["features"] if one["properties"]["thing"] == "bed"]
    assert len(beds) == len([one for one in document.beds if one.in_use(YEAR)])
    for one in beds:
        shape = shapely.from_geojson(json.dumps(one["geometry"]))
        assert shape.is_valid
        line = Geodesic.WGS84.Polygon()
        for lon, lat in shape.exterior.coords[:-1]:
            line.AddPoint(lat, lon)
        area = line.Compute(False, True)[2]
        assert area > 0, "the outer ring runs anticlockwise"
        assert area == pytest.approx(on_plan[one["properties"]["name"]].area * shrunk, rel=1.5e-3)


def test_the_file_begins_as_geojson_and_says_its_box():
    document = garden(bed("b1", rectangle(10.0, 4.0)), site=SITE)
    text = map_text(map_report(Plan(document, YEAR)))
    assert text.startswith('{"type": "FeatureCollection"')
    found = json.loads(text)
    shape = shapely.from_geojson(json.dumps(found["features"][0]["geometry"]))
    assert shape.bounds == pytest.approx(found["bbox"], abs=1e-9)
    ring = found["features"][0]["geometry"]["coordinates"][0]
    assert ring[0] == ring[-1]


def test_plots_are_those_of_the_year_or_of_a_day():
    sown = planting("p1", first="2026-04-10", last="2026-06-30")
    document = garden(bed("b1"), sown, planting("p0", year=2024), site=SITE)
    properties = [one["properties"] for one in written(document)["features"]]
    assert [one["thing"] for one in properties] == ["bed", "planting"]
    assert (properties[1]["first"], properties[1]["last"]) == ("2026-04-10", "2026-06-30")
    assert [one["id"] for one in written(document, day=dt.date(2026, 5, 1))["features"]] == ["b1", "p1"]
    assert [one["id"] for one in written(document, day=dt.date(2026, 9, 1))["features"]] == ["b1"]


def test_a_plot_without_ground_has_no_geometry():
    beyond = {"kind": "stretch", "start": 90.0, "end": 95.0}
    document = garden(bed("b1"), planting("p1", plot=beyond), site=SITE)
    assert written(document)["features"][1]["geometry"] is None


def test_a_garden_with_nothing_in_it_is_refused():
    with pytest.raises(NothingToDrawError):
        map_report(Plan(Garden(site=SITE), YEAR))
