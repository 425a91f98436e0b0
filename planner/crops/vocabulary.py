"""The words and the bounded kinds of figures that a crop's fields are made of."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator

from planner.crops.aftercare import Care
from planner.crops.figures import Fact, Figure, Numbers, Words

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
SUPPORT_WORDS = (
    "none",
    "sticks",
    "stake",
    "cage",
    "net",
    "frame",
    "arch",
    "tower",
    "wire",
    "strings",
    "panel",
)
POLLINATION_WORDS = ("self", "insect", "wind", "none")
MATURITY_WORDS = ("sowing", "setting out")
#: How much food a crop asks of the soil.
DEMAND_WORDS = ("light", "moderate", "heavy")
#: Length of day that makes a crop flower, or swell its bulbs or tubers.
DAY_LENGTH_WORDS = ("short-day", "long-day", "day-neutral")
#: What seed needs to germinate.
LIGHT_WORDS = ("light", "dark", "either")
#: Where the pollen of a full crop comes from.
PARTNER_WORDS = ("itself", "another variety", "better with another variety", "male plant")
#: What a harvest is counted in.
HARVEST_UNITS = ("kilogram", "piece", "bunch", "head", "stem")
#: Animals that a crop must be guarded against, larger than what a fleece or fine net keeps off.
ANIMALS = (
    "pigeons",
    "birds",
    "rabbits",
    "deer",
    "mice",
    "voles",
    "rats",
    "squirrels",
    "slugs",
    "badgers",
    "cats",
)
#: Whom a part of a plant poisons or hurts.
HARMED = ("people", "dogs", "cats", "horses", "livestock", "poultry")
#: What is harvested.
PRODUCT_WORDS = (
    "leaves", "young leaves", "heads", "stalks", "shoots", "roots", "young roots", "tubers", "bulbs", "green bulbs",
    "fruit", "green fruit", "pods", "green seed", "dry seed", "flowers", "buds", "grain", "rhizomes", "green manure",
)  # fmt: skip

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


def bounded(low: float, high: float, unit: str) -> AfterValidator:
    """A check that a figure and its range lie within bounds."""

    def check(figure: Figure | None) -> Figure | None:
        if figure is None:
            return None
        for number in (figure.value, figure.low, figure.high):
            if number is not None and not low <= number <= high:
                raise ValueError(f"{number:g} is outside {low:g} to {high:g} {unit}".rstrip())
        return figure

    return AfterValidator(check)


def one_of(words: tuple[str, ...]) -> AfterValidator:
    """A check that a fact is one of some words, or that several all are."""

    def check(fact: Fact | Words | None) -> Fact | Words | None:
        if fact is None or fact.value is None:
            return fact
        given = (fact.value,) if isinstance(fact.value, str) else fact.value
        for word in given:
            if word not in words:
                raise ValueError(f"'{word}' is none of {', '.join(words)}")
        return fact

    return AfterValidator(check)


Length = Annotated[Figure | None, bounded(0.001, 20.0, "m")]
Depth = Annotated[Figure | None, bounded(0.0, 0.6, "m")]
Temperature = Annotated[Figure | None, bounded(-60.0, 60.0, "deg C")]
Fraction = Annotated[Figure | None, bounded(0.0, 1.0, "")]
Weeks = Annotated[Figure | None, bounded(-60.0, 60.0, "weeks")]
Days = Annotated[Figure | None, bounded(0.0, 1500.0, "days")]
Years = Annotated[Figure | None, bounded(0.0, 60.0, "years")]
Positive = Annotated[Figure | None, bounded(1e-6, 1e6, "")]
Hours = Annotated[Figure | None, bounded(0.0, 16.0, "h")]
DayLength = Annotated[Figure | None, bounded(6.0, 24.0, "h")]
Distance = Annotated[Figure | None, bounded(0.0, 10_000.0, "m")]
#: USDA hardiness zones as numbers: 7 is 7a, 7.5 is 7b.
Zone = Annotated[Figure | None, bounded(1.0, 13.5, "")]
SoilPh = Annotated[Figure | None, bounded(3.0, 10.0, "")]


def _numbers(count: int, low: float, high: float) -> AfterValidator:
    def check(numbers: Numbers | None) -> Numbers | None:
        if numbers is None or not numbers.applies:
            return numbers
        if len(numbers.values) != count:
            raise ValueError(f"needs {count} numbers, has {len(numbers.values)}")
        for number in numbers.values:
            if not low <= number <= high:
                raise ValueError(f"{number:g} is outside {low:g} to {high:g}")
        return numbers

    return AfterValidator(check)


#: FAO-56 lengths of the initial, development, mid and late stage. [days]
Stages = Annotated[Numbers | None, _numbers(4, 0, 400)]
#: FAO-56 single crop coefficients of the initial stage, the mid stage and the end.
Coefficients = Annotated[Numbers | None, _numbers(3, 0.05, 1.6)]


def starts_and_supports(care: tuple[Care, ...]) -> tuple[Care, ...]:
    """Check the ways to start and the supports that pieces of aftercare name."""
    for one in care:
        for given, known in ((one.starts, START_WORDS), (one.supports, SUPPORT_WORDS)):
            for word in given:
                if word not in known:
                    raise ValueError(f"'{word}' of '{one.task}' is none of {', '.join(known)}")
    return care
