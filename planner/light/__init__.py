"""Light: where the sun stands, what shades, and the hours of direct sun that are left."""

from planner.light.casters import (
    Caster,
    bed_casters,
    foliage_opacity,
    planting_casters,
    structure_casters,
    support_casters,
)
from planner.light.days import Beams, Place, PlaceError, beam_at, beams, common_days, day_of_sun, sample_days
from planner.light.hours import Days, Light, Receiver, Shade, hours_at, hours_over, on_day, shade_sources
from planner.light.map import LightMap, garden_extent, light_maps
from planner.light.shadow import shadow, shadows
from planner.light.survey import SunHours, survey
from planner.sun import sun

__all__ = [
    "Beams",
    "Caster",
    "Days",
    "Light",
    "LightMap",
    "Place",
    "PlaceError",
    "Receiver",
    "Shade",
    "SunHours",
    "beam_at",
    "beams",
    "bed_casters",
    "common_days",
    "day_of_sun",
    "foliage_opacity",
    "garden_extent",
    "hours_at",
    "hours_over",
    "light_maps",
    "on_day",
    "planting_casters",
    "sample_days",
    "shade_sources",
    "shadow",
    "shadows",
    "structure_casters",
    "sun",
    "support_casters",
    "survey",
]
