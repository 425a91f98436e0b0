"""How a planting is raised: what it is sown in, what it is pricked out into, and when it outgrows that."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import NamedTuple

from planner.crops.containers import (
    Choice,
    Container,
    blocks_of,
    number_of,
    pots_of,
    seed_tray,
    shipped_containers,
    tray_of,
    usual_container,
    weeks_in,
)
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.garden.raising import BenchKind, RaisingWay
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.season.practice import PRICKED_FROM

#: A plant is potted on no later than this before it is hardened off (practice). [days]
BEFORE_HARDENING = 7
#: A plant may stay a week longer in its cell than it is usually raised for (practice). [weeks]
LONGER_THAN_USUAL = 1
#: Cells differ where the width of one is another by more than this share of it.
SAME_WIDTH = 0.1
#: Seed that comes up best in soil no warmer than this comes up on a cool bench (practice). [deg C]
COOL_BENCH = 15.0


class WayOfRaising(NamedTuple):
    """How a planting is raised.

    Attributes
    ----------
    way : str
        One of :data:`planner.garden.raising.RaisingWay`.
    container : Container or None
        In which it is until it is set out or potted on; None in a nursery bed.
    source : str
        Key of the source of the container's size; ``practice``; empty where the gardener chose it.
    chosen : bool
        The gardener chose the way; else it is the crop's usual one.
    """

    way: RaisingWay
    container: Container | None
    source: str
    chosen: bool


@dataclass(frozen=True)
class Fill:
    """Containers that are filled for a planting on a day.

    Attributes
    ----------
    container : Container
    number : int
        Cells, pots or blocks, or seedlings of a seed tray.
    day : date or None
        On which they are filled; None where it is not known.
    work : str
        ``sow``, ``prick out`` or ``pot on``.
    """

    container: Container
    number: int
    day: dt.date | None
    work: str

    @property
    def trays(self) -> int:
        """Whole trays."""
        return self.container.trays(self.number)

    @property
    def left_over(self) -> int:
        """Cells, pots or places of the whole trays that stay empty."""
        return self.trays * self.container.per_tray - self.number

    @property
    def litres(self) -> float:
        """Mix in what is filled. [l]"""
        return self.number * self.container.volume


def sown_in(way: WayOfRaising, pricked: bool) -> Container | None:
    """What it is sown in: a seed tray where it is pricked out, else where it stays; None in a nursery bed."""
    return seed_tray() if pricked and way.container is not None else way.container


def potted_on_into(container: Container) -> Container:
    """What a plant that outgrew its container is potted on into: a pot of 9 cm, or one half as wide again (practice)."""
    pot = number_of(shipped_containers().by_seed.pot)
    return pots_of(max(pot, round(container.width * 1.5, 2)))


def way_of_raising(planting: Planting, figures: PlantingFigures) -> WayOfRaising:
    """How a planting is raised: as it says, else as its crop usually is.

    Usually large seed is sown into pots; what is raised for five weeks or more is pricked out, the rest sown into cells, and so are
    onions and leeks (``raising.toml``).

    Parameters
    ----------
    planting : Planting
    figures : PlantingFigures
    """
    usual = _usual_choice(figures)
    given = planting.raising
    if given is None:
        return WayOfRaising(_usual_way(usual, figures), usual.container, usual.source, False)
    if given.way == "nursery bed":
        return WayOfRaising(given.way, None, "", True)
    if given.cells is not None:
        return WayOfRaising(given.way, tray_of(given.cells), "", True)
    found = shipped_containers()
    if given.way == "blocks":
        return WayOfRaising(given.way, blocks_of(given.width or number_of(found.blocks.usual)), "", True)
    if given.width is not None or given.way == "pots":
        return WayOfRaising(given.way, pots_of(given.width or number_of(found.by_seed.pot)), "", True)
    if usual.container.kind == "pots" and given.way == "cells":
        return WayOfRaising(given.way, tray_of(round(number_of(found.by_seed.large_cells))), "practice", True)
    return WayOfRaising(given.way, usual.container, usual.source, True)


def _usual_choice(figures: PlantingFigures) -> Choice:
    return usual_container(figures.crop, figures.number("seeds_per_gram"), figures.number("cell_width"))


def _usual_way(usual: Choice, figures: PlantingFigures) -> RaisingWay:
    if usual.container.kind == "pots":
        return "pots"
    if not usual.pricked:
        return "cells"
    return "pricked out" if (figures.number("weeks_to_raise") or 0) >= PRICKED_FROM else "cells"


def outgrown(
    way: WayOfRaising, figures: PlantingFigures, sown: dt.date, begun: dt.date, harden: dt.date
) -> dt.date | None:
    """The day on which plants have outgrown their container; None where they are set out before.

    In its usual cell a plant may grow as old as its crop's figures say, in a wider one longer; in a narrower one as old as
    the width of the cell lets it (practice).

    Parameters
    ----------
    way : WayOfRaising
    figures : PlantingFigures
    sown : date
    begun : date
        The day since which they are in it: pricked out, else sown.
    harden : date
        The day from which they are hardened off.
    """
    if way.container is None:
        return None
    day = shift(begun, 7 * weeks_in(way.container.width))
    wider = way.container.width / _usual_choice(figures).container.width
    usual = figures.number("weeks_to_raise")
    if wider > 1 - SAME_WIDTH and usual is not None:
        weeks = max(usual + LONGER_THAN_USUAL, figures.number("oldest_transplant") or 0)
        own = shift(sown, 7 * weeks)
        day = max(day, own) if wider > 1 + SAME_WIDTH else own
    return day if day <= shift(harden, -BEFORE_HARDENING) else None


class OnBench(NamedTuple):
    """Days on one kind of bench, both included."""

    kind: BenchKind
    first: dt.date
    last: dt.date


def on_benches(figures: PlantingFigures, dates: Dates) -> tuple[OnBench, ...]:
    """On which kind of bench raised plants stand when; nothing where none are raised, or their days are not known.

    Practice: on the heated bench until they come up, unless their seed comes up best in the cool, and what loves warmth until
    it is hardened off (udel_transplants and usu_transplants print nights of 65 F for those, of 60 F and less for the rest);
    then on the cool bench; in the cold frame while they are hardened off.

    Parameters
    ----------
    figures : PlantingFigures
    dates : Dates
    """
    if dates.indoors is None:
        return ()
    sown, last = dates.indoors
    harden = min(dates.harden_off.day, shift(last, 1)) if dates.harden_off is not None else shift(last, 1)
    cool = min(max(_leaves_the_heat(figures, dates, harden), sown), harden)
    marks: list[tuple[BenchKind, dt.date]] = [("heated", sown), ("cool", cool), ("cold frame", harden)]
    ends = [day for _, day in marks[1:]] + [shift(last, 1)]
    spans = (OnBench(kind, day, shift(end, -1)) for (kind, day), end in zip(marks, ends, strict=True))
    return tuple(span for span in spans if span.first <= span.last)


def _leaves_the_heat(figures: PlantingFigures, dates: Dates, harden: dt.date) -> dt.date:
    """The day from which a planting no longer wants the heated bench."""
    assert dates.sow is not None
    hardiness = figures.crop.hardiness if figures.crop is not None else None
    if hardiness is not None and hardiness.value == "warm-loving":
        return harden
    best = figures.number("soil_best")
    if best is not None and best <= COOL_BENCH:
        return dates.sow.day
    return dates.emerge.day if dates.emerge is not None else harden
