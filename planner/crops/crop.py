"""One crop of the catalogue: its fields, their bounds and units."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Literal, get_args

from pydantic import AfterValidator, Field, field_validator

from planner.crops.aftercare import Care
from planner.crops.figures import PRACTICE, Fact, Figure, Flag, Origin, Series, Value, Words
from planner.crops.products import PRODUCT_FIELDS, Product, check_products
from planner.crops.vocabulary import (
    ANIMALS,
    DAY_LENGTH_WORDS,
    DEMAND_WORDS,
    HARDINESS_WORDS,
    HARMED,
    HARVEST_END_WORDS,
    HARVEST_UNITS,
    LIGHT_WORDS,
    MATURITY_WORDS,
    PARTNER_WORDS,
    POLLINATION_WORDS,
    PRODUCT_WORDS,
    START_WORDS,
    SUPPORT_WORDS,
    Coefficients,
    DayLength,
    Days,
    Depth,
    Distance,
    Fraction,
    GrowthForm,
    Hours,
    Length,
    LifeCycle,
    Positive,
    SoilPh,
    Stages,
    Temperature,
    Weeks,
    Years,
    Zone,
    bounded,
    one_of,
    starts_and_supports,
)

#: Englishes in which crops have names of their own.
English = Literal["british", "american"]


class Toxic(Origin):
    """A part of a plant that poisons or hurts.

    Attributes
    ----------
    part : str
        In a word: leaves, seed, tubers turned green.
    harms : tuple of str
        Whom, of :data:`HARMED`.
    """

    part: str = Field(min_length=1)
    harms: tuple[str, ...] = Field(min_length=1)

    def _has_value(self) -> bool:
        return True

    @field_validator("harms")
    @classmethod
    def _known(cls, harms: tuple[str, ...]) -> tuple[str, ...]:
        for word in harms:
            if word not in HARMED:
                raise ValueError(f"'{word}' is none of {', '.join(HARMED)}")
        return harms


class Crop(Value):
    """A crop of the catalogue.

    Lengths in metres, masses in kilograms, temperatures in degrees Celsius, fractions from 0 to 1; see
    :data:`~planner.crops.field_units.UNITS`.  A field that is None is unknown; one with ``applies`` false has no meaning for the crop.

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
    german : Fact or None
        Name in German.
    winter_zone : Figure or None
        Coldest USDA hardiness zone in which what stays, or stands over winter, lives through it; 7.5 is 7b. [USDA zone]
    chilling_hours : Figure or None
        Hours below about 7 °C that buds need before they break. [h]
    day_length_class : Fact or None
        Length of day that makes it flower, or swell bulbs or tubers.
    light_to_germinate : Fact or None
        Whether its seed wants light or dark.
    soaking_hours, stratification_days : Figure or None
        Hours for which seed is soaked, and days for which it lies cold and moist, before it is sown. [h], [days]
    oldest_transplant : Figure or None
        Age at which raised plants are spoilt by waiting. [weeks]
    cell_width : Figure or None
        Width of a cell of the tray in which it is raised. [m]
    sow_again_days : Figure or None
        From one sowing to the next where it is to be had without a gap. [days]
    soil_ph : Figure or None
        Middle and range of what suits it.
    nutrient_demand : Fact or None
        How much food it asks of the soil.
    nitrogen_fixed : Figure or None
        By its roots in a season. [g/m2]
    root_depth : Figure or None
        Greatest effective depth of roots (FAO-56 Table 22, or rooting studies). [m]
    growth_stages, crop_coefficients, depletion : Numbers, Numbers and Figure or None
        Of water, after FAO-56: four lengths of stages, three coefficients, share of the soil's water that may go before it suffers.
    product : Fact or None
        What its own figures of harvest and store are of.
    further_products : tuple of Product
        What else is harvested from it, with its own figures.
    harvest_unit : Fact or None
        What its harvest is counted in.
    cuts : Figure or None
        Times that a plant is cut.
    pollen_partner : Fact or None
        Where the pollen of a full crop comes from.
    eaten_by : Words or None
        Animals that it must be guarded against.
    toxic : tuple of Toxic
        Parts that poison or hurt, and whom.
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
    german: Fact | None = None

    starts: Annotated[Words | None, one_of(START_WORDS)] = None
    hardiness: Annotated[Fact | None, one_of(HARDINESS_WORDS)] = None
    least_night_temperature: Temperature = None
    kills_young: Temperature = None
    kills_flower: Temperature = None
    kills_root: Temperature = None
    winter_zone: Zone = None
    chilling_hours: Annotated[Figure | None, bounded(0.0, 3000.0, "h")] = None

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
    light_to_germinate: Annotated[Fact | None, one_of(LIGHT_WORDS)] = None
    soaking_hours: Annotated[Figure | None, bounded(0.0, 96.0, "h")] = None
    stratification_days: Days = None

    weeks_to_raise: Weeks = None
    oldest_transplant: Weeks = None
    cell_width: Length = None
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
    sow_again_days: Days = None
    maturity_from: Annotated[Fact | None, one_of(MATURITY_WORDS)] = None
    base_temperature: Temperature = None
    best_temperature: Temperature = None
    ceiling_temperature: Temperature = None
    heat_to_harvest: Positive = None
    heat_to_sprout: Positive = None
    start_temperature: Temperature = None
    slows_in_short_days: Flag | None = None
    day_length_class: Annotated[Fact | None, one_of(DAY_LENGTH_WORDS)] = None
    day_length_to_bulb: DayLength = None
    bolts_at_day_length: DayLength = None
    bolts_above: Temperature = None
    chill_to_bolt: Days = None
    harvest_ends: Annotated[Fact | None, one_of(HARVEST_END_WORDS)] = None
    harvest_days: Days = None
    years_to_crop: Years = None
    years_from_seed: Years = None
    productive_years: Years = None

    height: Length = None
    spread: Length = None
    sun_hours: Hours = None
    soil_ph: SoilPh = None
    nutrient_demand: Annotated[Fact | None, one_of(DEMAND_WORDS)] = None
    nitrogen_fixed: Annotated[Figure | None, bounded(0.0, 60.0, "g/m2")] = None
    root_depth: Length = None
    growth_stages: Stages = None
    crop_coefficients: Coefficients = None
    depletion: Fraction = None
    support: Annotated[Fact | None, one_of(SUPPORT_WORDS)] = None

    pollination: Annotated[Fact | None, one_of(POLLINATION_WORDS)] = None
    needs_pollination: Flag | None = None
    pollen_partner: Annotated[Fact | None, one_of(PARTNER_WORDS)] = None
    isolation: Distance = None
    seed_plants: Positive = None
    rotation_years: Years = None

    product: Annotated[Fact | None, one_of(PRODUCT_WORDS)] = None
    harvest_unit: Annotated[Fact | None, one_of(HARVEST_UNITS)] = None
    cuts: Positive = None
    yield_per_plant: Positive = None
    yield_per_metre: Positive = None
    store_days: Days = None
    store_temperature: Temperature = None
    store_humidity: Fraction = None
    cover_keeps_off: Words | None = None
    eaten_by: Annotated[Words | None, one_of(ANIMALS)] = None
    further_products: Annotated[tuple[Product, ...], AfterValidator(check_products)] = ()
    toxic: tuple[Toxic, ...] = ()
    aftercare: Annotated[tuple[Care, ...], AfterValidator(starts_and_supports)] = ()
    cautions: tuple[str, ...] = ()

    @property
    def usual_start(self) -> str:
        """Usual way to start the crop; ``sown`` if the catalogue gives none."""
        return self.starts.value[0] if self.starts and self.starts.value else "sown"

    def grown_for(self, product: str) -> Crop:
        """The crop with the figures of one of its further products; itself for its own, or one it does not have."""
        one = next((one for one in self.further_products if one.product == product), None)
        if one is None:
            return self
        rest = [own for own in self.further_products if own is not one]
        own = {name: getattr(self, name) for name in PRODUCT_FIELDS}
        if self.product is not None and self.product.value:
            rest.append(Product(product=self.product.value, **own))
        name = Fact(value=product, source=PRACTICE, basis="practice")
        new: dict[str, object] = {
            **dict(one.entries()),
            "product": name,
            "further_products": tuple(rest),
        }
        if (
            one.days_to_maturity is not None
        ):  # a sum of heat, and the days of early and late sorts, are of the own product
            new |= {"heat_to_harvest": None, "days_early": None, "days_late": None}
        return self.model_copy(update=new)

    def under_name(self, field: str) -> Crop:
        """The crop under the name that a field gives it, ``american`` or ``german``; itself where there is none."""
        told: Fact | None = getattr(self, field)
        if told is None or not told.value:
            return self
        name = told.value
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
    "further_products",
    "toxic",
}

#: Names of the fields that hold a figure with its source.
ENTRY_FIELDS: tuple[str, ...] = tuple(name for name in Crop.model_fields if name not in _PLAIN)

#: Names of the fields that hold a single number.
FIGURE_FIELDS: tuple[str, ...] = tuple(
    name for name in ENTRY_FIELDS if Figure in get_args(Crop.model_fields[name].annotation)
)

#: Names of the fields that hold words, or a yes or no, with the kind of their entry.
WORD_FIELDS: dict[str, type[Fact] | type[Words] | type[Flag]] = {
    name: kind
    for name in ENTRY_FIELDS
    for kind in (Fact, Words, Flag)
    if kind in get_args(Crop.model_fields[name].annotation)
}
