"""One crop of the catalogue: its fields, their bounds and units."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

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
Distance = Annotated[Figure | None, _bounded(0.0, 10_000.0, "m")]


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
    heat : Figure or None
        Heat sum over 10 °C during ``days_to_maturity``, of crops that a cool summer leaves unripe. [deg C days]
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
    heat: Positive = None
    maturity_from: Annotated[Fact | None, _one_of(MATURITY_WORDS)] = None
    harvest_days: Days = None

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


_PLAIN = {"key", "name", "also", "american", "latin", "family", "life_cycle", "growth_form", "cautions"}

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
    "heat": "degree-days over 10 deg C",
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
