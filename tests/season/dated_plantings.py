"""Crops, climates and short ways to the dates of one planting, for the tests of dates."""

from __future__ import annotations

import datetime as dt

from making import bed, catalogue_of, crop, garden, planting

from planner.crops import Catalogue, Crop
from planner.garden import Climate, FrostDates, Planting, Site, Variety
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.frosts import frosts
from planner.season.planting_dates import Dates

D = dt.date
#: Last frost 1 May, first frost 16 October at 50 % risk, ten days either way at 10 and 90 %; no temperatures.
FROSTS_ALONE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
#: The same frosts in a year whose days all have 14 to 24 degrees, so that days to a harvest are reckoned in the head:
#: 9 degree-days over 10. [deg C]
CLIMATE = FROSTS_ALONE.with_(monthly_minimum=(14.0,) * 12, monthly_maximum=(24.0,) * 12)
#: A zone 5 garden of the inner continent: last frost 29 April. [deg C]
ZONE_5 = Climate(
    last_frost=FrostDates(risk_10="05-10", risk_50="04-29", risk_90="04-18"),
    first_frost=FrostDates(risk_10="09-24", risk_50="10-04", risk_90="10-15"),
    zone="5b",
    monthly_minimum=(-11.0, -9.0, -3.0, 3.5, 10.0, 15.5, 18.0, 17.0, 12.0, 5.0, -1.5, -8.0),
    monthly_maximum=(-1.5, 1.0, 8.5, 16.5, 22.5, 28.0, 30.0, 29.0, 25.0, 18.0, 9.0, 1.0),
)
#: A cool summer by the sea at 56 degrees north. [deg C]
COOL_SUMMER = Climate(
    last_frost=FrostDates(risk_10="05-24", risk_50="05-06", risk_90="04-18"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
#: Development over 10 degrees, as fast in short days as in long ones.
OVER_TEN = {
    "base_temperature": 10,
    "best_temperature": 35,
    "ceiling_temperature": 45,
    "slows_in_short_days": {"value": False, "source": "practice"},
}


def ripe_in(days: float) -> dict[str, object]:
    """Figures of a crop that is ripe after so many days of the tests' climate."""
    return {"days_to_maturity": days, "heat_to_harvest": 9 * days, **OVER_TEN}


SOWN = {"sow_from": -3, "harvest_days": 20, "maturity_from": "sowing", **ripe_in(60)}
BEAN = crop("bean", starts={"value": ["sown"], "source": "practice"}, hardiness="tender", **SOWN)
KALE = crop("kale", hardiness="very hardy", **SOWN)
HARDY = crop("hardy", hardiness="frost-tolerant", **SOWN)
RAISED = crop(
    "raised",
    starts={"value": ["raised", "bought", "sown"], "source": "practice"},
    hardiness="frost-tolerant",
    weeks_to_raise=6,
    set_out_from=-1,
    sow_from=0,
    harvest_days=10,
    maturity_from="setting out",
    **ripe_in(50),
)
FROM_SOWING = RAISED.model_copy(update={"key": "early", "maturity_from": KALE.maturity_from})
BARE = crop("bare", sow_from=0)
SHELF = catalogue_of(BEAN, KALE, HARDY, RAISED, FROM_SOWING, BARE)


def steady(low: float, high: float, climate: Climate = CLIMATE) -> Climate:
    """A climate whose days are all alike."""
    return climate.with_(monthly_minimum=(low,) * 12, monthly_maximum=(high,) * 12)


def context_at(
    one: Crop | None,
    climate: Climate = CLIMATE,
    latitude: float | None = 45.0,
    variety: Variety | None = None,
    year: int = 2026,
    under_glass: bool = False,
    **fields,
) -> DateContext:
    """What the rules of dates know of a planting of a crop."""
    site = Site(latitude=latitude)
    of_year = frosts(site, climate, year)
    return context_of(
        DateInputs(
            planting=planting(crop=one.key if one is not None else "unknown", year=year, **fields),
            figures=PlantingFigures(one, variety),
            climate=climate,
            frosts=of_year,
            harvest_frosts=of_year,
            southern=latitude is not None and latitude < 0,
            shelter=("glasshouse",) if under_glass else (),
            latitude=latitude,
        )
    )


def plan_of(one: Planting, climate: Climate = CLIMATE, shelf: Catalogue = SHELF, **fields) -> Plan:
    ground = fields.pop("bed", bed())
    return Plan(garden(ground, one, climate=climate, **fields), one.year, shelf)


def dates(key: str, climate: Climate = CLIMATE, shelf: Catalogue = SHELF, **fields) -> Dates:
    one = planting(crop=key, **{k: v for k, v in fields.items() if k not in ("site", "bed_kind")})
    ground = bed(kind=fields["bed_kind"]) if "bed_kind" in fields else bed()
    more = {"site": fields["site"]} if "site" in fields else {}
    return plan_of(one, climate, shelf, bed=ground, **more).dates(one)


def day(dated) -> dt.date | None:
    return dated.day if dated is not None else None
