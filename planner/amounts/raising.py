"""What it takes to raise a planting's plants: what they are sown in and moved into, whole trays, mix, and days on the bench."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from planner.amounts.begun import begun_in_year
from planner.amounts.plants import Amount, amount
from planner.crops.containers import Container, number_of, shipped_containers, tray_area
from planner.crops.figures import ESTIMATE
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.garden.raising import BenchKind
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.season.raising import Fill, WayOfRaising, on_benches, potted_on_into, sown_in, way_of_raising
from planner.words import say


@dataclass(frozen=True)
class Standing:
    """Days on which a planting stands on a bench in one container.

    Attributes
    ----------
    planting : str
        Id.
    kind : str
        Kind of bench that it wants.
    container : Container
    number : int
        Cells, pots or seedlings.
    first, last : date
        Both included.
    """

    planting: str
    kind: BenchKind
    container: Container
    number: int
    first: dt.date
    last: dt.date

    @property
    def share(self) -> float:
        """Ground that it takes where trays are filled up with other plantings. [m2]"""
        return self.number / self.container.per_tray * tray_area()


@dataclass(frozen=True)
class Raised:
    """What raising a planting takes.

    Attributes
    ----------
    amount : Amount
        Its plants and seed.
    way : WayOfRaising
    pricked : bool
        It is sown thickly and pricked out.
    fills : tuple of Fill
        In the order of their days; none in a nursery bed.
    standings : tuple of Standing
        In the order of their days.
    emerge_days, grow_days, harden_days : int or None
        From sowing to emergence, to hardening off, to setting out; None where a day is not known. [days]
    nursery_area : float
        Of a nursery bed; 0 without one. [m2]
    missing : tuple of str
        What could not be worked out, a sentence each.
    emerge_known : bool
        False where nothing is known of how long it takes to come up: those days are a stand-in.
    """

    amount: Amount
    way: WayOfRaising
    pricked: bool
    fills: tuple[Fill, ...]
    standings: tuple[Standing, ...]
    emerge_days: int | None
    grow_days: int | None
    harden_days: int | None
    nursery_area: float
    missing: tuple[str, ...]
    emerge_known: bool = True

    @property
    def planting(self) -> Planting:
        """The planting."""
        return self.amount.planting

    @property
    def litres(self) -> float:
        """Mix in all that is filled for it. [l]"""
        return math.fsum(fill.litres for fill in self.fills)


class RaisedInputs(NamedTuple):
    """What raising a planting depends on."""

    amount: Amount
    figures: PlantingFigures
    dates: Dates


def raised(plan: Plan, planting: Planting) -> Raised | None:
    """Work out what raising a planting takes; None where its plants are not raised.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    dates = plan.dates(planting)
    if dates.start != "raised":
        return None
    inputs = RaisedInputs(amount(plan, planting), plan.figures_of(planting), dates)
    return plan.cached(raised_of_planting, planting.id, inputs)


@fact("raised")
def raised_of_planting(inputs: RaisedInputs) -> Raised:
    """What raising a planting takes."""
    part, figures, dates = inputs
    way = way_of_raising(part.planting, figures)
    pricked = dates.prick_out is not None and way.way == "pricked out"
    fills = _fills(part, way, pricked, dates)
    sow, up, harden, out = (
        at.day if at is not None else None
        for at in (dates.sow, dates.emerge, dates.harden_off, dates.set_out)
    )
    return Raised(
        amount=part,
        way=way,
        pricked=pricked,
        fills=fills,
        standings=_standings(part, fills, figures, dates),
        emerge_days=_days(sow, up),
        grow_days=_days(up, harden or out),
        # What stands in a nursery bed grows in the open and is not hardened off.
        harden_days=_days(harden, out) if harden is not None or way.container is not None else 0,
        nursery_area=_nursery_area(_sown(part)) if way.container is None else 0.0,
        missing=_missing(part, dates),
        emerge_known=dates.emerge is None or dates.emerge.source != ESTIMATE,
    )


def _missing(part: Amount, dates: Dates) -> tuple[str, ...]:
    missing = list(part.missing if part.seeds is None else ())
    if part.seeds is None:
        missing.append(say("What {crop} is sown in is reckoned for its plants alone", crop=part.crop))
    if dates.indoors is None:
        missing.append(say("When {crop} is on the bench is not known", crop=part.crop))
    return tuple(missing)


def _days(first: dt.date | None, last: dt.date | None) -> int | None:
    return None if first is None or last is None else max(0, (last - first).days)


def _sown(part: Amount) -> int:
    """Seeds that are sown; the plants wanted where that is not known."""
    return part.seeds if part.seeds is not None else part.plants


def _fills(part: Amount, way: WayOfRaising, pricked: bool, dates: Dates) -> tuple[Fill, ...]:
    first = sown_in(way, pricked)
    if first is None or way.container is None or not part.plants:
        return ()
    sow, prick, pot = dates.sow, dates.prick_out, dates.pot_on
    fills = [Fill(first, _sown(part), sow.day if sow is not None else None, "sow")]
    if pricked and prick is not None:
        fills.append(Fill(way.container, part.plants, prick.day, "prick out"))
    if pot is not None:
        fills.append(Fill(potted_on_into(way.container), part.plants, pot.day, "pot on"))
    return tuple(fills)


def _nursery_area(seeds: int) -> float:
    """Ground for so many seeds in a nursery bed. [m2]"""
    bed = shipped_containers().nursery_bed
    return seeds * number_of(bed.apart) * number_of(bed.rows_apart)


def _standings(
    part: Amount, fills: tuple[Fill, ...], figures: PlantingFigures, dates: Dates
) -> tuple[Standing, ...]:
    """Each container on each kind of bench."""
    found = []
    for number, fill in enumerate(fills):
        if fill.day is None:
            return ()
        begins = fill.day
        after = fills[number + 1].day if number + 1 < len(fills) else None
        for kind, first, last in on_benches(figures, dates):
            first, last = max(first, begins), min(last, shift(after, -1)) if after is not None else last
            if first <= last:
                found.append(Standing(part.planting.id, kind, fill.container, fill.number, first, last))
    return tuple(found)


def raisings(plan: Plan, plantings: Iterable[Planting] | None = None) -> tuple[Raised, ...]:
    """What raising takes, planting by planting.

    Parameters
    ----------
    plan : Plan
    plantings : iterable of Planting, optional
        Those begun in the growing year by default, bed by bed.
    """
    of_year = begun_in_year(plan) if plantings is None else plantings
    found = (raised(plan, planting) for planting in of_year)
    return tuple(one for one in found if one is not None)


def mix_to_have(litres: float, of_blocks: float = 0.0) -> float:
    """Loose mix for what holds so many litres: some of it is lost to settling, and blocks are pressed. [l]

    Parameters
    ----------
    litres : float
        [l]
    of_blocks : float
        What of it are blocks. [l]
    """
    found = shipped_containers()
    settled = (litres - of_blocks) * (1 + number_of(found.mix.settling))
    return settled + of_blocks * number_of(found.blocks.loose)
