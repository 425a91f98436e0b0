"""Figures of a crop in words, in the garden's units."""

from __future__ import annotations

from planner.crops import Fact, Figure, Flag, Numbers, Series, Words
from planner.crops.field_units import UNITS
from planner.crops.figures import Origin
from planner.garden.site import UnitSystem
from planner.garden.units import show_length, show_spacing
from planner.words import say

#: What each field is called on a page, in groups.
GROUPS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        "Spacing and size",
        (
            ("in_row_spacing", "In the row"),
            ("row_spacing", "Between rows"),
            ("bed_spacing", "Between plants in a bed"),
            ("bed_row_spacing", "Between rows in a bed"),
            ("height", "Height"),
            ("spread", "Spread"),
            ("root_depth", "Roots go down to"),
            ("support", "Support"),
        ),
    ),
    (
        "Sowing",
        (
            ("starts", "Started as"),
            ("sowing_depth", "Depth"),
            ("sowing_spacing", "Spacing as sown, before thinning"),
            ("sowing_rate", "Seed rate broadcast"),
            ("seeds_per_gram", "Seeds to the gram"),
            ("germination", "Germination standard"),
            ("seed_life_years", "Seed keeps"),
            ("soil_least", "Soil, at least"),
            ("soil_best", "Soil, best"),
            ("soil_most", "Soil, at most"),
            ("light_to_germinate", "Germinates in"),
            ("soaking_hours", "Seed soaked for"),
            ("stratification_days", "Seed kept cold and moist for"),
            ("cell_width", "Raised in cells of"),
        ),
    ),
    (
        "Days",
        (
            ("weeks_to_raise", "Raised for"),
            ("oldest_transplant", "Spoilt by waiting after"),
            ("sow_from", "Sow outdoors from"),
            ("sow_until", "Sow outdoors until"),
            ("set_out_from", "Set out from"),
            ("set_out_until", "Set out until"),
            ("autumn_from", "In autumn from"),
            ("autumn_until", "In autumn until"),
            ("start_temperature", "Started in soil of"),
            ("days_to_maturity", "To maturity"),
            ("days_early", "To maturity, early sorts"),
            ("days_late", "To maturity, late sorts"),
            ("days_from_seed", "To maturity, from seed"),
            ("sow_again_days", "Sown again every"),
            ("maturity_from", "Counted from"),
            ("harvest_ends", "Its harvest ends"),
            ("harvest_days", "Picked for"),
            ("years_to_crop", "First full harvest after"),
            ("years_from_seed", "The same, from seed"),
            ("productive_years", "Bears for"),
        ),
    ),
    (
        "Warmth, light and cold",
        (
            ("base_temperature", "Grows above"),
            ("best_temperature", "Grows best from"),
            ("ceiling_temperature", "Stands still above"),
            ("heat_to_harvest", "Warmth until ripe"),
            ("heat_to_sprout", "More of it, unsprouted"),
            ("slows_in_short_days", "Slows in short days"),
            ("day_length_class", "Answers to the day as"),
            ("day_length_to_bulb", "Bulbs swell in days of"),
            ("bolts_at_day_length", "Runs to seed in days of"),
            ("bolts_above", "Runs to seed above"),
            ("chill_to_bolt", "Runs to seed after cold days"),
            ("hardiness", "Hardiness"),
            ("least_night_temperature", "Grown plants bear"),
            ("kills_young", "Young plants die at"),
            ("kills_flower", "Blossom dies at"),
            ("kills_root", "Roots die at"),
            ("winter_zone", "Lives through winter in zone"),
            ("chilling_hours", "Buds need cold of"),
        ),
    ),
    (
        "Sun, soil and water",
        (
            ("sun_hours", "Direct sun needed"),
            ("soil_ph", "Soil acidity"),
            ("nutrient_demand", "Asks of the soil"),
            ("nitrogen_fixed", "Nitrogen fixed"),
            ("growth_stages", "Stages of growth"),
            ("crop_coefficients", "Water, against grass"),
            ("depletion", "Soil may dry by"),
        ),
    ),
    (
        "Harvest and store",
        (
            ("product", "What is harvested"),
            ("harvest_unit", "Counted in"),
            ("cuts", "Cut"),
            ("yield_per_plant", "Yield of a plant"),
            ("yield_per_metre", "Yield of a metre"),
            ("store_days", "Keeps for"),
            ("store_temperature", "Stored at"),
            ("store_humidity", "Air humidity"),
        ),
    ),
    (
        "Flower, seed and rotation",
        (
            ("pollination", "Pollinated by"),
            ("needs_pollination", "Harvest needs pollination"),
            ("pollen_partner", "Pollen from"),
            ("cover_keeps_off", "A cover keeps off"),
            ("eaten_by", "Guard against"),
            ("isolation", "Isolation for seed"),
            ("seed_plants", "Plants for seed, at least"),
            ("rotation_years", "Years between"),
            ("german", "In German"),
            ("eppo", "EPPO code"),
        ),
    ),
)

FIELD_NAMES = {field: words for _, fields in GROUPS for field, words in fields}
#: Fields that are shown as a small length, as a length, as a share, and as weeks from a frost.
SPACINGS = {
    "in_row_spacing", "row_spacing", "bed_spacing", "bed_row_spacing", "sowing_spacing", "sowing_depth", "cell_width",
}  # fmt: skip
LENGTHS = {"height", "spread", "isolation", "root_depth"}
SHARES = {"germination", "store_humidity", "depletion"}
_WEEKS = {"sow_from", "sow_until", "set_out_from", "set_out_until", "autumn_from", "autumn_until"}


def number_words(field: str, value: float, units: UnitSystem) -> str:
    """A number of a field with its unit."""
    if field in SPACINGS:
        return show_spacing(value, units)
    if field in LENGTHS:
        return show_length(value, units) if value < 50 or units != "metric" else f"{value:.0f} m"
    if field in SHARES:
        return f"{value:.0%}"
    if UNITS.get(field) == "deg C":
        return f"{value:g} °C" if units == "metric" else f"{value * 9 / 5 + 32:.0f} °F"
    if UNITS.get(field) == "degree-days":
        return (
            f"{value if units == 'metric' else value * 1.8:,.0f} {'°C' if units == 'metric' else '°F'} days"
        )
    if field == "winter_zone":
        return zone_words(value)
    if field in _WEEKS:
        frost = "first frost" if field.startswith("autumn") else "last frost"
        if value == 0:
            return f"at the {frost}"
        side = "before" if value < 0 else "after"
        return f"{abs(value):g} weeks {side} the {frost}"
    unit = {
        "seeds/g": "",
        "days": "days",
        "weeks": "weeks",
        "years": "years",
        "h": "hours",
        "plants": "plants",
        "cuts": "times",
        "pH": "",
        "g/m2": "g/m²",
        "kg/m": "kg/m",
    }
    word = unit.get(UNITS.get(field, ""), UNITS.get(field, ""))
    return f"{value:g} {word}".rstrip()


def entry_words(field: str, entry: Origin, units: UnitSystem) -> str:
    """The value of an entry, or that it does not apply."""
    if not entry.applies:
        return "–"
    if isinstance(entry, Figure):
        assert entry.value is not None
        return number_words(field, entry.value, units)
    if isinstance(entry, Flag):
        return "yes" if entry.value else "no"
    if isinstance(entry, Fact):
        return entry.value or ""
    if isinstance(entry, Words):
        return ", ".join(entry.value)
    if isinstance(entry, Numbers):
        return _numbers_words(field, entry)
    if isinstance(entry, Series):
        return ", ".join(f"{v:g} at {t:g} °C" for t, v in entry.at)
    return ""


def _numbers_words(field: str, entry: Numbers) -> str:
    """The numbers of a figure of several, each with what it is of."""
    texts = [f"{number:g}" for number in entry.values]
    if field == "growth_stages":
        first, second, third, last = texts
        return say(
            "{first} days to start, {second} to grow, {third} full grown, {last} to ripen",
            first=first,
            second=second,
            third=third,
            last=last,
        )
    if field == "crop_coefficients":
        first, second, last = texts
        return say(
            "{first} at first, {second} full grown, {last} at the end", first=first, second=second, last=last
        )
    return ", ".join(texts)


def zone_words(zone: float) -> str:
    """A hardiness zone as it is written.

    Examples
    --------
    >>> zone_words(7.0), zone_words(7.5)
    ('7a', '7b')
    """
    return f"{int(zone)}{'b' if zone % 1 >= 0.5 else 'a'}"


def range_words(field: str, entry: Origin, units: UnitSystem) -> str:
    """The range a source prints, where it prints one."""
    if not isinstance(entry, Figure) or entry.low is None or entry.high is None or entry.low == entry.high:
        return ""
    low, high = (number_words(field, v, units) for v in (entry.low, entry.high))
    low_number, _, low_unit = low.partition(" ")
    if low_unit and high.endswith(low_unit):
        return f"{low_number} to {high}"
    return f"{low} to {high}"
