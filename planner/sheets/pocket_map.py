"""The plan of the garden as the pocket page draws it: paths in metres, x right, y down."""

from __future__ import annotations

import numpy as np
import shapely

from planner.garden import Bed
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.sheets.family_inks import Rgb, family_ink

#: Outlines are drawn to this share of the plan's longer side: a hair on a phone.
_FINE = 1 / 1500
#: Room around what is drawn. [m]
_AROUND = 0.3


class PocketMap:
    """Draws a plan.

    Parameters
    ----------
    plan : Plan
    """

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._structures = [one for one in plan.garden.structures if one.in_use(plan.year)]
        grounds = [plan_polygon(bed.outline) for bed in plan.beds]
        grounds += [plan_polygon(one.outline) for one in self._structures]
        site = plan.garden.site
        self._outline = plan_polygon(site.outline) if site.outline is not None else None
        grounds += [self._outline] if self._outline is not None else []
        extent = shapely.total_bounds(grounds) if grounds else np.array([0.0, 0.0, 1.0, 1.0])
        self._left, low, right, self._top = (float(v) for v in extent + _AROUND * np.array([-1, -1, 1, 1]))
        self.width, self.height = round(right - self._left, 2), round(self._top - low, 2)

    def data(self) -> dict[str, object]:
        """Everything on it but beds and what grows in them."""
        return {
            "width": self.width,
            "height": self.height,
            "north": -self._plan.garden.site.bearing_up,
            "outline": self._path(self._outline) if self._outline is not None else "",
            "structures": [
                {"kind": one.kind, "path": self._path(plan_polygon(one.outline))} for one in self._structures
            ],
        }

    def bed(self, bed: Bed) -> dict[str, object]:
        """A bed: its path, and the box within which its name is written."""
        ground = plan_polygon(bed.outline)
        inside = (
            shapely.point_on_surface(ground) if bed.outline.shape == "polygon" else shapely.centroid(ground)
        )
        left, low, right, high = (float(v) for v in shapely.bounds(ground))
        return {
            "path": self._path(ground),
            "at": [round(inside.x - self._left, 2), round(self._top - inside.y, 2)],
            "box": [
                round(left - self._left, 2),
                round(self._top - high, 2),
                round(right - left, 2),
                round(high - low, 2),
            ],
        }

    def plot(self, planting: str) -> dict[str, object]:
        """A planting's plot, with the tints of its family on light and on dark ground."""
        one = self._plan.garden.plantings_by_id[planting]
        crop = self._plan.figures_of(one).crop
        family = crop.family if crop is not None else ""
        return {
            "path": self._path(self._plan.plot_on_plan(one)),
            "light": _colour(family_ink(family).tint_rgb),
            "dark": _colour(family_ink(family, dark=True).tint_rgb),
        }

    def _path(self, ground: shapely.Geometry) -> str:
        fine = shapely.simplify(ground, _FINE * max(self.width, self.height))
        found = []
        for ring in shapely.get_rings(shapely.get_parts(fine)):
            corners = (
                f"{_number(x - self._left)} {_number(self._top - y)}"
                for x, y in shapely.get_coordinates(ring)[:-1].tolist()
            )
            found.append(f"M{'L'.join(corners)}Z")
        return "".join(found)


def _number(value: float) -> str:
    """A number with as many of two decimals as it needs."""
    return f"{value:z.2f}".rstrip("0").rstrip(".")


def _colour(rgb: Rgb) -> str:
    return "#" + "".join(f"{round(255 * share):02x}" for share in rgb)
