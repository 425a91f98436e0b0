"""Figures of a crop in words, in the garden's units."""

from __future__ import annotations

from planner.crops import Fact, Figure, Flag, Numbers, Series, Words
from planner.crops.field_units import UNITS
from planner.crops.figures import Origin
from planner.garden.site import UnitSystem
from planner.garden.units import show_length, show_spacing
from planner.words import later, percent, property_words, say, short_number, whole_words
from planner.words import number_words as decimals

#: What each field is called on a page, in groups.
GROUPS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        later("Spacing and size"),
        (
            ("in_row_spacing", later("In the row")),
            ("row_spacing", later("Between rows")),
            ("bed_spacing", later("Between plants in a bed")),
            ("bed_row_spacing", later("Between rows in a bed")),
            ("height", later("Height")),
            ("spread", later("Spread")),
            ("root_depth", later("Roots go down to")),
            ("support", later("Support")),
        ),
    ),
    (
        later("Sowing"),
        (
            ("starts", later("Started as")),
            ("sowing_depth", later("Depth")),
            ("sowing_spacing", later("Spacing as sown, before thinning")),
            ("sowing_rate", later("Seed rate broadcast")),
            ("seeds_per_gram", later("Seeds to the gram")),
            ("germination", later("Germination standard")),
            ("seed_life_years", later("Seed keeps")),
            ("soil_least", later("Soil, at least")),
            ("soil_best", later("Soil, best")),
            ("soil_most", later("Soil, at most")),
            ("light_to_germinate", later("Germinates in")),
            ("soaking_hours", later("Seed soaked for")),
            ("stratification_days", later("Seed kept cold and moist for")),
            ("cell_width", later("Raised in cells of")),
        ),
    ),
    (
        later("Days"),
        (
            ("weeks_to_raise", later("Raised for")),
            ("oldest_transplant", later("Spoilt by waiting after")),
            ("sow_from", later("Sow outdoors from")),
            ("sow_until", later("Sow outdoors until")),
            ("set_out_from", later("Set out from")),
            ("set_out_until", later("Set out until")),
            ("autumn_from", later("In autumn from")),
            ("autumn_until", later("In autumn until")),
            ("start_temperature", later("Started in soil of")),
            ("days_to_maturity", later("To maturity")),
            ("days_early", later("To maturity, early sorts")),
            ("days_late", later("To maturity, late sorts")),
            ("days_from_seed", later("To maturity, from seed")),
            ("sow_again_days", later("Sown again every")),
            ("maturity_from", later("Counted from")),
            ("harvest_ends", later("Its harvest ends")),
            ("harvest_days", later("Picked for")),
            ("years_to_crop", later("First full harvest after")),
            ("years_from_seed", later("The same, from seed")),
            ("productive_years", later("Bears for")),
        ),
    ),
    (
        later("Warmth, light and cold"),
        (
            ("base_temperature", later("Grows above")),
            ("best_temperature", later("Grows best from")),
            ("ceiling_temperature", later("Stands still above")),
            ("heat_to_harvest", later("Warmth until ripe")),
            ("heat_to_sprout", later("More of it, unsprouted")),
            ("slows_in_short_days", later("Slows in short days")),
            ("day_length_class", later("Answers to the day as")),
            ("day_length_to_bulb", later("Bulbs swell in days of")),
            ("bolts_at_day_length", later("Runs to seed in days of")),
            ("bolts_above", later("Runs to seed above")),
            ("chill_to_bolt", later("Runs to seed after cold days")),
            ("hardiness", later("Hardiness")),
            ("least_night_temperature", later("Grown plants bear")),
            ("kills_young", later("Young plants die at")),
            ("kills_flower", later("Blossom dies at")),
            ("kills_root", later("Roots die at")),
            ("winter_zone", later("Lives through winter in zone")),
            ("chilling_hours", later("Buds need cold of")),
        ),
    ),
    (
        later("Sun, soil and water"),
        (
            ("sun_hours", later("Direct sun needed")),
            ("soil_ph", later("Soil acidity")),
            ("nutrient_demand", later("Asks of the soil")),
            ("nitrogen_fixed", later("Nitrogen fixed")),
            ("growth_stages", later("Stages of growth")),
            ("crop_coefficients", later("Water, against grass")),
            ("depletion", later("Soil may dry by")),
        ),
    ),
    (
        later("Harvest and store"),
        (
            ("product", later("What is harvested")),
            ("harvest_unit", later("Counted in")),
            ("cuts", later("Cut")),
            ("yield_per_plant", later("Yield of a plant")),
            ("yield_per_metre", later("Yield of a metre")),
            ("store_days", later("Keeps for")),
            ("store_temperature", later("Stored at")),
            ("store_humidity", later("Air humidity")),
        ),
    ),
    (
        later("Flower, seed and rotation"),
        (
            ("pollination", later("Pollinated by")),
            ("needs_pollination", later("Harvest needs pollination")),
            ("pollen_partner", later("Pollen from")),
            ("cover_keeps_off", later("A cover keeps off")),
            ("eaten_by", later("Guard against")),
            ("isolation", later("Isolation for seed")),
            ("seed_plants", later("Plants for seed, at least")),
            ("rotation_years", later("Years between")),
            ("german", later("In German")),
            ("eppo", later("EPPO code")),
        ),
    ),
)

FIELD_NAMES = {field: words for _, fields in GROUPS for field, words in fields}  # of later()


def field_words(field: str) -> str:
    """What a field is called on a page."""
    for group, (_, fields) in enumerate(GROUPS):
        for place, (name, _) in enumerate(fields):
            if name == field:
                return say(GROUPS[group][1][place][1])
    return field


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
        if value < 50 or units != "metric":
            return show_length(value, units)
        return say("{number} m", number=decimals(value, 0))
    if field in SHARES:
        return percent(value)
    if UNITS.get(field) == "deg C":
        return (
            say("{number} °C", number=short_number(value))
            if units == "metric"
            else say("{number} °F", number=decimals(value * 9 / 5 + 32, 0))
        )
    if UNITS.get(field) == "degree-days":
        return (
            say("{number} °C days", number=whole_words(value))
            if units == "metric"
            else say("{number} °F days", number=whole_words(value * 1.8))
        )
    if field == "winter_zone":
        return zone_words(value)
    number = short_number(abs(value))
    if field in _WEEKS:
        return _from_frost(value, number, autumn=field.startswith("autumn"))
    match UNITS.get(field, ""):
        case "days":
            return say("{number} days", number=short_number(value))
        case "weeks":
            return say("{number} weeks", number=short_number(value))
        case "years":
            return say("{number} years", number=short_number(value))
        case "h":
            return say("{number} hours", number=short_number(value))
        case "plants":
            return say("{number} plants", number=short_number(value))
        case "cuts":
            return say("{number} times", number=short_number(value))
        case "g/m2":
            return say("{number} g/m²", number=short_number(value))
        case "seeds/g" | "pH" | "":
            return short_number(value)
        case unit:
            return f"{short_number(value)} {unit}"


def _from_frost(weeks: float, number: str, *, autumn: bool) -> str:
    """Weeks before or after a frost."""
    if not weeks:
        return say("at the first frost") if autumn else say("at the last frost")
    if weeks < 0:
        return (
            say("{number} weeks before the first frost", number=number)
            if autumn
            else say("{number} weeks before the last frost", number=number)
        )
    return (
        say("{number} weeks after the first frost", number=number)
        if autumn
        else say("{number} weeks after the last frost", number=number)
    )


def entry_words(field: str, entry: Origin, units: UnitSystem) -> str:
    """The value of an entry, or that it does not apply."""
    if not entry.applies:
        return "–"
    if isinstance(entry, Figure):
        assert entry.value is not None
        return number_words(field, entry.value, units)
    if isinstance(entry, Flag):
        return say("yes") if entry.value else say("no")
    if isinstance(entry, Fact):
        return property_words(field, entry.value or "")
    if isinstance(entry, Words):
        return ", ".join(property_words(field, word) for word in entry.value)
    if isinstance(entry, Numbers):
        return _numbers_words(field, entry)
    if isinstance(entry, Series):
        return ", ".join(f"{v:g} at {t:g} °C" for t, v in entry.at)
    return ""


def _numbers_words(field: str, entry: Numbers) -> str:
    """The numbers of a figure of several, each with what it is of."""
    texts = [short_number(number) for number in entry.values]
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
        return say("{first} to {last}", first=low_number, last=high)
    return say("{first} to {last}", first=low, last=high)
