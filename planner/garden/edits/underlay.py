"""Edits of the picture under the plan."""

from __future__ import annotations

import math
from typing import Any

from planner.garden.edits.common import EditError, changed, finite, put
from planner.garden.garden import Garden
from planner.garden.model import Point
from planner.garden.underlay import Underlay
from planner.words import say


def change_underlay(garden: Garden, **fields: Any) -> Garden:
    """Change fields of the underlay, or lay another one."""
    underlay = changed(garden.underlay, say("underlay"), fields)
    return garden if underlay is garden.underlay else put(garden, underlay=underlay)


def remove_underlay(garden: Garden) -> Garden:
    """Take the underlay away; its file stays."""
    return put(garden, underlay=Underlay()) if garden.underlay != Underlay() else garden


def scale_underlay(garden: Garden, first: Point, second: Point, distance: float) -> Garden:
    """Scale the underlay so that two of its points are as far apart as they really are; the first stays where it is.

    Parameters
    ----------
    garden : Garden
    first, second : tuple of float
        Where the points are on the plan now. [m]
    distance : float
        Between them in truth. [m]
    """
    finite(distance, say("the distance"))
    now = math.dist(first, second)
    if now <= 1e-6 or distance <= 0:
        raise EditError(
            say("two points that lie apart give a scale"),
            fix=say("Click two points, and type how far apart they are"),
        )
    factor = distance / now
    x, y = garden.underlay.center
    center = first[0] + factor * (x - first[0]), first[1] + factor * (y - first[1])
    return change_underlay(
        garden,
        width=round(garden.underlay.width * factor, 6),
        center=(round(center[0], 6), round(center[1], 6)),
    )
