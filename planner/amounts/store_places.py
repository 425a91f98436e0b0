"""Where a harvest keeps best among a gardener's places, and for how long."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from planner.garden.household import StoreKind, StorePlace
from planner.garden.planting_figures import PlantingFigures

#: Usual mean temperature in winter [deg C] and humidity [0 to 1] of each kind of place (practice).
USUAL: dict[StoreKind, tuple[float, float]] = {
    "cellar": (8.0, 0.9),
    "fridge": (4.0, 0.9),
    "clamp": (4.0, 0.95),
    "dry room": (12.0, 0.6),
    "shed": (5.0, 0.75),
}
#: How many times as fast a harvest ages for 10 °C more than its best temperature: respiration goes two to three times as
#: fast (practice).
TEN_DEGREES = 2.5
#: Degrees that a place may be colder than the best temperature of what chilling spoils. [deg C]
CHILLED_BY = 3.0
#: Best temperature from which a crop is one that chilling spoils: squash, sweet potato. [deg C]
SPOILT_BY_CHILL = 7.0
#: Share of its time that what is chilled, shrivels in dry air or rots in damp air keeps (estimate).
HALF = 0.5
#: Difference of humidity from which that is so. [0 to 1]
DRY_OR_DAMP = 0.2

#: Why a harvest keeps for less than its figure in a place.
PlaceFault = Literal["", "too warm", "too cold", "too dry", "too damp"]


class Kept(NamedTuple):
    """How long a harvest keeps in a place.

    Attributes
    ----------
    place : StorePlace or None
        None for a place as the crop's figures want it, where the garden has none.
    days : float
    fault : str
        What shortens it most; empty where nothing does.
    """

    place: StorePlace | None
    days: float
    fault: PlaceFault = ""


def conditions(place: StorePlace) -> tuple[float, float]:
    """Temperature and humidity of a place, those of its kind where it does not say. [deg C], [0 to 1]"""
    temperature, humidity = USUAL[place.kind]
    return (
        place.temperature if place.temperature is not None else temperature,
        place.humidity if place.humidity is not None else humidity,
    )


def share_of_time(figures: PlantingFigures, place: StorePlace) -> tuple[float, PlaceFault]:
    """Share of its published time that a harvest keeps in a place, and what shortens it most.

    Where no best temperature or humidity is published, it does not count.

    Parameters
    ----------
    figures : PlantingFigures
    place : StorePlace
    """
    temperature, humidity = conditions(place)
    best, wanted = figures.number("store_temperature"), figures.number("store_humidity")
    shares: list[tuple[float, PlaceFault]] = [(1.0, "")]
    if best is not None and temperature > best:
        crop = figures.crop
        figure = crop.store_temperature if crop is not None else None
        beyond = temperature - max(
            best, figure.high if figure is not None and figure.high is not None else best
        )
        if beyond > 0:
            shares.append((TEN_DEGREES ** (-beyond / 10), "too warm"))
    if best is not None and best >= SPOILT_BY_CHILL and temperature < best - CHILLED_BY:
        shares.append((HALF, "too cold"))
    if temperature < 0 and (best is None or best >= 0):
        shares.append((0.0, "too cold"))
    if wanted is not None and humidity < wanted - DRY_OR_DAMP:
        shares.append((HALF, "too dry"))
    if wanted is not None and humidity > wanted + DRY_OR_DAMP:
        shares.append((HALF, "too damp"))
    whole = 1.0
    for share, _ in shares:
        whole *= share
    return whole, min(shares, key=lambda one: one[0])[1]


def best_place(crop: str, figures: PlantingFigures, days: float, places: Iterable[StorePlace]) -> Kept:
    """The place in which a harvest keeps longest, the first of several as good; one that names the crop is taken.

    Parameters
    ----------
    crop : str
        Its key.
    figures : PlantingFigures
    days : float
        For which it keeps as its figures want it.
    places : iterable of StorePlace
        Of the garden.
    """
    given = tuple(places)
    open_to_it = [one for one in given if crop in one.crops] or [one for one in given if not one.crops]
    best = Kept(None, days)
    found = False
    for place in open_to_it:
        share, fault = share_of_time(figures, place)
        if not found or days * share > best.days + 1e-9:
            best, found = Kept(place, days * share, fault), True
    return best
