"""Light: casters, shadows, and hours of direct sun."""

from planner.light.beams import Beams, beam_at, beams
from planner.light.casters import (
    Caster,
    bed_casters,
    foliage_opacity,
    planting_casters,
    structure_casters,
    support_casters,
)
from planner.light.day_of_sun import day_of_sun
from planner.light.hours import AreaSunHours, hours_at, hours_over
from planner.light.map import LightMap, garden_extent, light_maps
from planner.light.place import Place, PlaceError
from planner.light.receiver import Receiver
from planner.light.sample_days import Days, common_days, on_day, sample_days
from planner.light.shade_sources import Shade, shade_sources
from planner.light.shadow import shadow, shadows
from planner.light.survey import SunHours, survey
from planner.sun import sun

__all__ = [
    "AreaSunHours",
    "Beams",
    "Caster",
    "Days",
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
