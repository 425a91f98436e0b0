"""Supports of a growing year: posts, rails, poles, sticks, panels, nets, wire, string and ties by length and number."""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, get_args

from planner.amounts.materials import ANY, Material, materials_of
from planner.amounts.sharing import Job
from planner.amounts.sold_sizes import cut_length
from planner.garden import Bed, Planting
from planner.garden.materials import BarKind, CountedKind, MaterialKind
from planner.garden.site import UnitSystem
from planner.ground.built_support import BuiltSupport
from planner.ground.support_materials import DRIVEN, TIE_LENGTH, WIRE_FIXING, wires_of
from planner.plan import Plan
from planner.plan.cache import fact

#: Shorter lines need nothing. [m]
_SPECK = 0.01


class Piece(NamedTuple):
    """Pieces of one size.

    Attributes
    ----------
    kind : str
    number : int
    length : float
        0 of what is counted only. [m]
    width : float
        Of a net its shorter side, of a panel its height; 0 of all else. [m]
    """

    kind: MaterialKind
    number: int
    length: float = 0.0
    width: float = 0.0


@dataclass(frozen=True)
class PutUp:
    """The support of a planting in a growing year.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    built : BuiltSupport
    pieces : tuple of Piece
    string : float
        Used up: of ties, strings from a rail, edges of a net. [m]
    first, last : date
        Days on which it stands.
    """

    planting: Planting
    bed: Bed
    built: BuiltSupport
    pieces: tuple[Piece, ...]
    string: float
    first: dt.date
    last: dt.date

    @property
    def key(self) -> str:
        """Names it: the id of its planting."""
        return self.planting.id


@dataclass(frozen=True)
class Supports:
    """All supports of a growing year, and what they take.

    Attributes
    ----------
    put_up : tuple of PutUp
        In the order of their days.
    materials : tuple of Material
    string : float
        Used up by those that are put up in the year. [m]
    string_in_shed : float
        [m]
    jobs : mapping of str to sequence of Job
        Of the materials, by kind.
    """

    put_up: tuple[PutUp, ...]
    materials: tuple[Material, ...]
    string: float
    string_in_shed: float
    jobs: Mapping[MaterialKind, Sequence[Job]]

    @property
    def string_to_buy(self) -> float:
        """[m]"""
        return max(0.0, self.string - self.string_in_shed)


class PiecesInputs(NamedTuple):
    """What the pieces of a support depend on."""

    built: BuiltSupport
    units: UnitSystem = "metric"


@fact("support pieces")
def support_pieces(inputs: PiecesInputs) -> tuple[tuple[Piece, ...], float]:
    """Pieces of a support, the longest first, and the length of its string [m]."""
    built, units = inputs.built, inputs.units
    found: dict[Piece, int] = defaultdict(int)
    string = 0.0
    for one in built.materials:
        number = round(one.amount)
        if one.name == "string":
            string += one.amount
            if built.kind == "stake":
                found[Piece("tie", 0)] += round(one.amount / TIE_LENGTH)
        elif one.name in ("net", "wire"):
            for piece in _along_lines(built, one.name, units):
                found[piece._replace(number=0)] += piece.number
        elif one.name in get_args(CountedKind):
            size = (one.length or 0.0, built.height) if one.name == "panel" else (0.0, 0.0)
            found[Piece(one.name, 0, *size)] += number  # type: ignore[arg-type]  # a word of them
        elif one.name in get_args(BarKind):
            found[Piece(one.name, 0, cut_length(one.length or 0.0, units))] += number  # type: ignore[arg-type]
    pieces = (piece._replace(number=number) for piece, number in found.items() if number)
    order = get_args(MaterialKind)
    return tuple(sorted(pieces, key=lambda one: (order.index(one.kind), -one.length, -one.width))), string


def _along_lines(built: BuiltSupport, name: str, units: UnitSystem) -> Iterable[Piece]:
    """The nets or wires of a support, line by line; the net of an arch goes over its hoop."""
    if built.kind == "arch":
        yield from _over_arches(built, units)
        return
    if built.level and name == "net":
        for length, width in built.level:
            yield _net(cut_length(length, units), cut_length(width, units))
        return
    for line in built.lines:
        length = float(line.length)
        if length < _SPECK:
            continue
        if name == "net":
            yield _net(cut_length(length, units), cut_length(built.height, units))
        else:
            yield Piece("wire", wires_of(built.height), cut_length(length + WIRE_FIXING, units))


def _net(one: float, other: float) -> Piece:
    """A net, its longer side first, as it is cut from a roll. [m]"""
    return Piece("climbing net", 1, max(one, other), min(one, other))


def _over_arches(built: BuiltSupport, units: UnitSystem) -> Iterable[Piece]:
    """The net over each arch: as long as a hoop above the ground, as wide as the arch."""
    hoops = [one for one in built.materials if one.name == "hoop" and one.length]
    nets = math.fsum(one.amount for one in built.materials if one.name == "net")
    above = [((one.length or 0.0) - 2 * DRIVEN, one.amount) for one in hoops]
    # All arches of a support are as wide, with as many hoops each.
    each = sum(number for _, number in above) / max(1, len(built.lines))
    width = nets / (math.fsum(length * number for length, number in above) / each)
    for length, number in above:
        yield Piece(
            "climbing net",
            round(number / each),
            cut_length(length, units),
            cut_length(round(width, 2), units),
        )


def supports(plan: Plan) -> Supports:
    """Work out the supports that stand on any day of a plan's growing year, and what they take.

    Arches that are drawn as structures are there for good and take nothing.

    Parameters
    ----------
    plan : Plan
    """
    found = supports_up(plan)
    jobs = support_jobs(found)
    return Supports(found, materials_of(plan, jobs), *string_of(plan, found), jobs)


def supports_up(plan: Plan) -> tuple[PutUp, ...]:
    """The supports that stand on any day of a plan's growing year, in the order of their days."""
    found = [one for planting in plan.plantings if (one := put_up(plan, planting)) is not None]
    return tuple(sorted(found, key=lambda one: (one.first, one.planting.id)))


def support_jobs(found: Iterable[PutUp]) -> dict[MaterialKind, list[Job]]:
    """Pieces of supports by kind of material; ties are made of string."""
    jobs: dict[MaterialKind, list[Job]] = defaultdict(list)
    for one in found:
        for piece in one.pieces:
            if piece.kind == "tie":
                continue
            counted = piece.kind in get_args(CountedKind)
            size = () if counted else tuple(side for side in (piece.length, piece.width) if side)
            sort = ANY if piece.width and not counted else None
            jobs[piece.kind].append(Job(one.key, one.first, one.last, size, piece.number, sort))
    return jobs


def string_of(plan: Plan, found: Iterable[PutUp]) -> tuple[float, float]:
    """String that supports put up in the growing year use up, and string in the shed. [m]"""
    wanted = math.fsum(one.string for one in found if one.first >= plan.span.first)
    there = (
        (item.length or 0.0) * item.number
        for item in plan.garden.shed
        if item.kind == "string" and not item.sold
    )
    return wanted, math.fsum(there)


def put_up(plan: Plan, planting: Planting) -> PutUp | None:
    """The support of a planting and its pieces; None without one of its own, and where it does not stand in the year."""
    built = plan.built_support(planting)
    if built is None:
        return None
    span, up = plan.span_of(planting), plan.dates(planting).support_up
    first = up.day if up is not None else span.first
    last = max(first, span.last)
    if last < plan.span.first or first > plan.span.last:
        return None
    pieces, string = plan.cached(support_pieces, planting.id, PiecesInputs(built, plan.garden.site.units))
    return PutUp(planting, plan.bed_of(planting), built, pieces, string, first, last)
