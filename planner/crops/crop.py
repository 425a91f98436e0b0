"""One crop of the catalogue: its fields, their bounds and units."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from planner.crops.aftercare import Care
from planner.crops.figures import Fact, Figure, Flag, Origin, Series, Value, Words

#: Growth forms; drawings mark each with a symbol of its own.
GrowthForm = Literal[
    "rosette",  # leaves from the ground: lettuce, spinach
    "root",  # a tuft over a swollen root: carrot, beet
    "bulb",  # narrow upright leaves: onion, garlic, leek
    "head",  # a head on a short stalk: cabbage, broccoli
    "bush",  # branching, broad as high: potato, dwarf bean
    "upright",  # a single tall stem with side leaves: tomato, sunflower
    "climber",  # goes up a support: pea, climbing bean
    "sprawler",  # runs over the ground: squash, melon
    "grass",  # a tall blade: sweet corn, rye
    "fern",  # fine foliage: asparagus, dill
    "cane",  # canes from the ground: raspberry
    "shrub",  # woody: currant, rosemary
    "mat",  # covers the ground: clover, thyme, strawberry
    "flower",  # a flowering annual of no other form
]

LifeCycle = Literal["annual", "biennial", "perennial"]

#: Ways to start a planting; the first one that a crop lists is its usual one.
START_WORDS = ("sown", "raised", "bought", "sets", "tubers", "cloves", "crowns", "standing")
HARDINESS_WORDS = ("very hardy", "frost-tolerant", "tender", "warm-loving")
SUPPORT_WORDS = ("none", "sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire")
POLLINATION_WORDS = ("self", "insect", "wind", "none")
MATURITY_WORDS = ("sowing", "setting out")

#: What ends a harvest.
HARVEST_END_WORDS = (
    "at once",  # ripe together and over within days: sweet corn, a head of broccoli
    "after weeks",  # picked over for its ``harvest_days``, longer in the cool: pea, bush bean
    "with frost",  # picked until frost kills it: tomato, courgette
    "with bolting",  # until it runs to seed: spinach, lettuce
    "stands",  # waits in the ground until it is needed, or spring comes: leek, parsnip, kale
    "dies back",  # lifted when its tops die or its bulbs are ripe: potato, onion, garlic
    "yearly",  # the same weeks of each year, of what stays: asparagus, rhubarb
)


def _bounded(low: float, high: float, unit: str) -> AfterValidator:
    def check(figure: Figure | None) -> Figure | None:
        if figure is None:
            return None
        for number in (figure.value, figure.low, figure.high):
            if number is not None and not low <= number <= high:
                raise ValueError(f"{number:g} is outside {low:g} to {high:g} {unit}".rstrip())
        return figure

    return AfterValidator(check)


def _one_of(words: tuple[str, ...]) -> AfterValidator:
    def check(fact: Fact | Words | None) -> Fact | Words | None:
        if fact is None or fact.value is None:
            return fact
        given = (fact.value,) if isinstance(fact.value, str) else fact.value
        for word in given:
            if word not in words:
                raise ValueError(f"'{word}' is none of {', '.join(words)}")
        return fact

    return AfterValidator(check)


Length = Annotated[Figure | None, _bounded(0.001, 20.0, "m")]
Depth = Annotated[Figure | None, _bounded(0.0, 0.6, "m")]
Temperature = Annotated[Figure | None, _bounded(-60.0, 60.0, "deg C")]
Fraction = Annotated[Figure | None, _bounded(0.0, 1.0, "")]
Weeks = Annotated[Figure | None, _bounded(-60.0, 60.0, "weeks")]
Days = Annotated[Figure | None, _bounded(0.0, 1500.0, "days")]
Years = Annotated[Figure | None, _bounded(0.0, 60.0, "years")]
Positive = Annotated[Figure | None, _bounded(1e-6, 1e6, "")]
Hours = Annotated[Figure | None, _bounded(0.0, 16.0, "h")]
DayLength = Annotated[Figure | None, _bounded(6.0, 24.0, "h")]
Distance = Annotated[Figure | None, _bounded(0.0, 10_000.0, "m")]


def _starts_and_supports(care: tuple[Care, ...]) -> tuple[Care, ...]:
    for one in care:
        for given, known in ((one.starts, START_WORDS), (one.supports, SUPPORT_WORDS)):
            for word in given:
                if word not in known:
                    raise ValueError(f"'{word}' of '{one.task}' is none of {', '.join(known)}")
    return care


#: Englishes in which crops have names of their own.
English = Literal["british", "american"]


class Crop(Value):
    """A crop of the catalogue.

    Lengths in metres, masses in kilograms, temperatures in degrees Celsius, fractions from 0 to 1; see
    :data:`UNITS`.  A field that is None is unknown; one with ``applies`` false has no meaning for the crop.

    Attributes
    ----------
    name : str
        In British English, unless the catalogue was asked for another (:meth:`Catalogue.in_english`).
    also : tuple of str
        Other names, the American one among them.
    american : Fact or None
        Name in American English, where it is another.
    in_row_spacing : Figure or None
        Distance from plant to plant in the row after thinning, in rows with paths between them. [m]
    bed_spacing : Figure or None
        Distance from plant to plant in a bed or wide row, the same in all directions; the middle of a printed range
        unless a note says otherwise. [m]
    bed_row_spacing : Figure or None
        Distance of the rows of a bed, where it is another; ``bed_spacing`` is then that in the row. [m]
    sowing_spacing : Figure or None
        Distance from seed to seed in a drill that is thinned later. [m]
    sowing_rate : Figure or None
        Of broadcast seed. [g/m2]
    sow_from, sow_until : Figure or None
        Window for sowing outdoors, from the last spring frost (negative: before). [weeks]
    set_out_from, set_out_until : Figure or None
        Window for setting out raised or bought plants, and for planting sets, tubers, cloves and crowns, from the
        last spring frost. [weeks]
    autumn_from, autumn_until : Figure or None
        Window for autumn sowing or planting, from the first autumn frost. [weeks]
    base_temperature, best_temperature, ceiling_temperature : Figure or None
        Of development from emergence to harvest: below the base there is none, from the best on it goes no faster,
        above the ceiling it stands still. [deg C]
    heat_to_harvest : Figure or None
        Degree-days from ``maturity_from`` to first picking, over the crop's base and cut off at its best temperature;
        only where a publication gives the sum with that base.  Else it is derived from ``days_to_maturity`` and the
        climate in which those were counted. [deg C days]
    days_early, days_late : Figure or None
        Days to maturity of early and of late sorts, counted like ``days_to_maturity``. [days]
    days_from_seed : Figure or None
        Of what is usually grown from sets: days from sowing in the open to the first harvest. [days]
    heat_to_sprout : Figure or None
        Degree-days over its base that tubers planted unsprouted take longer to come up. [deg C days]
    start_temperature : Figure or None
        Mean temperature of the soil from which handbooks sow or set it out in the open. [deg C]
    slows_in_short_days : Flag or None
        It slows when days are shorter than 12 h and stands still below 10 h.
    day_length_to_bulb : Figure or None
        Length of day from which its bulbs swell. [h]
    bolts_at_day_length : Figure or None
        Length of day from which grown plants run to seed. [h]
    bolts_above : Figure or None
        Mean temperature above which it runs to seed or turns bitter. [deg C]
    chill_to_bolt : Figure or None
        Days below 10 °C after which grown plants run to seed. [days]
    harvest_ends : Fact or None
        What ends its harvest, one of :data:`HARVEST_END_WORDS`.
    least_night_temperature : Figure or None
        Cold that grown, hardened plants bear above the ground. [deg C]
    kills_young, kills_flower, kills_root : Figure or None
        Cold that kills seedlings and plants just set out; blossom; roots or crowns in the ground. [deg C]
    years_to_crop, productive_years : Figure or None
        Of what stays for years: years from planting to the first full harvest, and years for which it pays. [years]
    years_from_seed : Figure or None
        ``years_to_crop`` of what is sown or raised, where it is later than that of crowns. [years]
    aftercare : tuple of Care
        The work that it usually needs between its start and its end.
    """

    key: str = Field(pattern=r"^[a-z][a-z0-9_]*$")
    name: str = Field(min_length=1)
    also: tuple[str, ...] = ()
    american: Fact | None = None
    latin: str
    family: str
    life_cycle: LifeCycle
    growth_form: GrowthForm
    eppo: Fact | None = None

    starts: Annotated[Words | None, _one_of(START_WORDS)] = None
    hardiness: Annotated[Fact | None, _one_of(HARDINESS_WORDS)] = None
    least_night_temperature: Temperature = None
    kills_young: Temperature = None
    kills_flower: Temperature = None
    kills_root: Temperature = None

    in_row_spacing: Length = None
    row_spacing: Length = None
    bed_spacing: Length = None
    bed_row_spacing: Length = None
    sowing_spacing: Length = None
    sowing_rate: Positive = None
    sowing_depth: Depth = None
    seeds_per_gram: Positive = None
    germination: Fraction = None
    seed_life_years: Years = None

    soil_least: Temperature = None
    soil_best: Temperature = None
    soil_most: Temperature = None
    emergence_days: Series | None = None
    normal_seedlings: Series | None = None

    weeks_to_raise: Weeks = None
    sow_from: Weeks = None
    sow_until: Weeks = None
    set_out_from: Weeks = None
    set_out_until: Weeks = None
    autumn_from: Weeks = None
    autumn_until: Weeks = None
    days_to_maturity: Days = None
    days_early: Days = None
    days_late: Days = None
    days_from_seed: Days = None
    maturity_from: Annotated[Fact | None, _one_of(MATURITY_WORDS)] = None
    base_temperature: Temperature = None
    best_temperature: Temperature = None
    ceiling_temperature: Temperature = None
    heat_to_harvest: Positive = None
    heat_to_sprout: Positive = None
    start_temperature: Temperature = None
    slows_in_short_days: Flag | None = None
    day_length_to_bulb: DayLength = None
    bolts_at_day_length: DayLength = None
    bolts_above: Temperature = None
    chill_to_bolt: Days = None
    harvest_ends: Annotated[Fact | None, _one_of(HARVEST_END_WORDS)] = None
    harvest_days: Days = None
    years_to_crop: Years = None
    years_from_seed: Years = None
    productive_years: Years = None

    height: Length = None
    spread: Length = None
    sun_hours: Hours = None
    support: Annotated[Fact | None, _one_of(SUPPORT_WORDS)] = None

    pollination: Annotated[Fact | None, _one_of(POLLINATION_WORDS)] = None
    needs_pollination: Flag | None = None
    isolation: Distance = None
    seed_plants: Positive = None
    rotation_years: Years = None

    yield_per_plant: Positive = None
    yield_per_metre: Positive = None
    store_days: Days = None
    store_temperature: Temperature = None
    store_humidity: Fraction = None
    cover_keeps_off: Words | None = None
    aftercare: Annotated[tuple[Care, ...], AfterValidator(_starts_and_supports)] = ()
    cautions: tuple[str, ...] = ()

    @property
    def usual_start(self) -> str:
        """Usual way to start the crop; ``sown`` if the catalogue gives none."""
        return self.starts.value[0] if self.starts and self.starts.value else "sown"

    def in_american(self) -> Crop:
        """The crop under its American name; itself where that is no other."""
        if self.american is None or not self.american.value:
            return self
        name = self.american.value
        also = (self.name, *(other for other in self.also if other != name))
        return self.model_copy(update={"name": name, "also": also})

    def entries(self) -> Iterator[tuple[str, Origin]]:
        """Name and figure of each field that has one, in the model's order."""
        for name in ENTRY_FIELDS:
            entry = getattr(self, name)
            if entry is not None:
                yield name, entry

    def number(self, field: str) -> float | None:
        """Value of a figure, or None if it is unknown or does not apply."""
        figure = getattr(self, field)
        return figure.value if figure is not None else None


_PLAIN = {
    "key",
    "name",
    "also",
    "american",
    "latin",
    "family",
    "life_cycle",
    "growth_form",
    "aftercare",
    "cautions",
}

#: Names of the fields that hold a figure with its source.
ENTRY_FIELDS: tuple[str, ...] = tuple(name for name in Crop.model_fields if name not in _PLAIN)

#: Unit of each number as shown to a reader, SI.
UNITS: dict[str, str] = {
    "least_night_temperature": "deg C",
    "in_row_spacing": "m",
    "row_spacing": "m",
    "bed_spacing": "m",
    "bed_row_spacing": "m",
    "sowing_spacing": "m",
    "sowing_rate": "g/m2",
    "sowing_depth": "m",
    "seeds_per_gram": "seeds/g",
    "germination": "fraction",
    "seed_life_years": "years",
    "soil_least": "deg C",
    "soil_best": "deg C",
    "soil_most": "deg C",
    "emergence_days": "days at deg C",
    "normal_seedlings": "fraction at deg C",
    "weeks_to_raise": "weeks",
    "sow_from": "weeks from last frost",
    "sow_until": "weeks from last frost",
    "set_out_from": "weeks from last frost",
    "set_out_until": "weeks from last frost",
    "autumn_from": "weeks from first frost",
    "autumn_until": "weeks from first frost",
    "days_to_maturity": "days",
    "days_early": "days",
    "days_late": "days",
    "days_from_seed": "days",
    "base_temperature": "deg C",
    "best_temperature": "deg C",
    "ceiling_temperature": "deg C",
    "heat_to_harvest": "degree-days",
    "heat_to_sprout": "degree-days",
    "start_temperature": "deg C",
    "day_length_to_bulb": "h",
    "bolts_at_day_length": "h",
    "bolts_above": "deg C",
    "chill_to_bolt": "days",
    "years_to_crop": "years",
    "years_from_seed": "years",
    "productive_years": "years",
    "kills_young": "deg C",
    "kills_flower": "deg C",
    "kills_root": "deg C",
    "harvest_days": "days",
    "height": "m",
    "spread": "m",
    "sun_hours": "h",
    "isolation": "m",
    "seed_plants": "plants",
    "rotation_years": "years",
    "yield_per_plant": "kg",
    "yield_per_metre": "kg/m",
    "store_days": "days",
    "store_temperature": "deg C",
    "store_humidity": "fraction",
}
