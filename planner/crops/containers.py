"""What plants are raised in, with sources (``raising.toml``): trays of cells, pots, blocks, seed trays.

All of them stand on the ground of one tray of the trade, so that a bench holds so many trays whatever is in them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal, NamedTuple

from pydantic import Field, ValidationError

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.crop import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "raising.toml"
#: Tolerance when dividing a side of a tray by a width. [m]
SLACK = 1e-3

ContainerKind = Literal["cells", "pots", "blocks", "seed tray"]


class TraySize(Value):
    """The tray that all others are: its sides outside and inside. [m]"""

    length: Figure
    width: Figure
    inner_length: Figure
    inner_width: Figure


class CellTray(Value):
    """A tray of cells: how many, how many across it, and the volume of one. [l]"""

    cells: int = Field(ge=1)
    across: int = Field(ge=1)
    volume: Figure


class PotSize(Value):
    """A pot: its width at the rim [m] and its volume. [l]"""

    width: float = Field(gt=0)
    volume: Figure


class SeedTray(Value):
    """A tray sown thickly: seedlings on a square metre of it, and the depth of its mix. [1/m2], [m]"""

    seedlings: Figure
    depth: Figure


class Blocks(Value):
    """Blocks of pressed mix: litres of loose mix to have for a litre of blocks, and their usual width. [m]"""

    loose: Figure
    usual: Figure


class NurseryBed(Value):
    """A nursery bed: from seed to seed in its rows, and from row to row. [m]"""

    apart: Figure
    rows_apart: Figure


class Mix(Value):
    """Share of loose mix that is lost to settling. [0 to 1]"""

    settling: Figure


class UsualCells(Value):
    """Cells of the tray in which some crops are raised, and whether seedlings are ever pricked out into them."""

    crops: tuple[str, ...] = Field(min_length=1)
    cells: Figure
    pricked: bool = True


class BySeed(Value):
    """Where nothing is printed: limits by seeds in a gram, and what is taken below and above them."""

    pot_below: Figure
    largest_below: Figure
    large_below: Figure
    largest_cells: Figure
    large_cells: Figure
    small_cells: Figure
    pot: Figure


class Stay(Value):
    """For how long a plant stays in a container up to a width. [m], [weeks]"""

    width: float = Field(gt=0)
    weeks: Figure


class Containers(Value):
    """All of ``raising.toml``."""

    tray: TraySize
    cells: tuple[CellTray, ...] = Field(min_length=1)
    pots: tuple[PotSize, ...] = Field(min_length=1)
    seed_tray: SeedTray
    blocks: Blocks
    nursery_bed: NurseryBed
    mix: Mix
    usual: tuple[UsualCells, ...]
    by_seed: BySeed
    stay: tuple[Stay, ...] = Field(min_length=1)


class Container(NamedTuple):
    """What a plant grows in on the bench.

    Attributes
    ----------
    kind : str
        ``cells``, ``pots``, ``blocks`` or ``seed tray``.
    per_tray : int
        How many stand on the ground of a tray; of a seed tray the seedlings in it.
    width : float
        Of a cell, pot or block; of a seed tray the distance of its seedlings. [m]
    volume : float
        Of the mix in one; for a seedling its share of the tray's. [l]
    source : str
        Key of the source of the volume.
    recalled : bool
        The volume is from memory.
    """

    kind: ContainerKind
    per_tray: int
    width: float
    volume: float
    source: str
    recalled: bool

    @property
    def key(self) -> tuple[str, int, float]:
        """The same for containers that share trays."""
        return self.kind, self.per_tray, round(self.width, 4)

    def trays(self, number: int) -> int:
        """Whole trays for a number of plants."""
        return -(-number // self.per_tray)


class Choice(NamedTuple):
    """A container, and why it is this one.

    Attributes
    ----------
    container : Container
    source : str
        Key of the source of the choice: a publication, ``practice``, or empty where the gardener chose.
    pricked : bool
        False of what is sown into its cells and left there, however long it is raised.
    """

    container: Container
    source: str
    pricked: bool = True


def number_of(figure: Figure) -> float:
    """The value of a figure; all in ``raising.toml`` have one."""
    assert figure.value is not None
    return figure.value


# -- containers ------------------------------------------------------------------------------------


def tray_sizes() -> tuple[int, ...]:
    """Numbers of cells of the trays that there are, from the fewest to the most."""
    return tuple(one.cells for one in shipped_containers().cells)


def tray_of(cells: int) -> Container:
    """A tray of so many cells.

    Parameters
    ----------
    cells : int
        One of :func:`tray_sizes`.

    Raises
    ------
    KeyError
        Where there is no such tray.
    """
    found = shipped_containers()
    tray = next((one for one in found.cells if one.cells == cells), None)
    if tray is None:
        raise KeyError(cells)
    width = number_of(found.tray.inner_width) / tray.across
    volume = tray.volume
    return Container("cells", cells, width, number_of(volume), volume.source or "", volume.recalled)


def tray_for(width: float) -> Container:
    """The tray whose cells come nearest to a width: sizes are told from the outer or the inner side of a tray.

    Parameters
    ----------
    width : float
        Of a cell. [m]
    """
    found = shipped_containers()
    inner, outer = number_of(found.tray.inner_width), number_of(found.tray.width)

    def off(tray: CellTray) -> tuple[float, int]:
        low, high = inner / tray.across, outer / tray.across
        off = math.log(low / width) if width < low else math.log(width / high) if width > high else 0.0
        return round(off, 6), -tray.cells

    return tray_of(min(found.cells, key=off).cells)


def pots_of(width: float) -> Container:
    """Pots of a width, set pot to pot; their volume is that of the nearest published one, by the cube of the width.

    Parameters
    ----------
    width : float
        At the rim. [m]
    """
    found = shipped_containers()
    nearest = min(found.pots, key=lambda pot: (abs(math.log(pot.width / width)), pot.width))
    volume = number_of(nearest.volume) * (width / nearest.width) ** 3
    per_tray = fitting(number_of(found.tray.length), number_of(found.tray.width), width)
    source = nearest.volume.source or ""
    return Container("pots", per_tray, width, volume, source, nearest.volume.recalled)


def blocks_of(width: float) -> Container:
    """Blocks of pressed mix of a width, set block to block within a tray; a block takes its own volume.

    Parameters
    ----------
    width : float
        [m]
    """
    found = shipped_containers()
    per_tray = fitting(number_of(found.tray.inner_length), number_of(found.tray.inner_width), width)
    return Container("blocks", per_tray, width, 1000 * width**3, PRACTICE, False)


def seed_tray() -> Container:
    """A tray sown thickly."""
    found = shipped_containers()
    area = number_of(found.tray.inner_length) * number_of(found.tray.inner_width)
    per_tray = math.floor(number_of(found.seed_tray.seedlings) * area)
    volume = 1000 * area * number_of(found.seed_tray.depth) / per_tray
    source = found.seed_tray.seedlings.source or ""
    return Container("seed tray", per_tray, math.sqrt(area / per_tray), volume, source, False)


def fitting(length: float, width: float, side: float) -> int:
    """Squares of a side in a rectangle, in rows along it; one at least, which hangs over.

    Parameters
    ----------
    length, width : float
        Of the rectangle. [m]
    side : float
        Of a square. [m]

    Examples
    --------
    >>> fitting(0.508, 0.254, 0.0508), fitting(0.508, 0.254, 0.05)
    (50, 50)
    """
    return max(1, math.floor((length + SLACK) / side) * math.floor((width + SLACK) / side))


def smaller(container: Container) -> Container | None:
    """The tray with the next smaller cells; None where there is none, and of what is no tray of cells."""
    if container.kind != "cells":
        return None
    more = [cells for cells in tray_sizes() if cells > container.per_tray]
    return tray_of(min(more)) if more else None


def tray_area() -> float:
    """Ground that a tray takes. [m2]"""
    tray = shipped_containers().tray
    return number_of(tray.length) * number_of(tray.width)


def weeks_in(width: float) -> float:
    """For how long a plant stays in a container of a width before it outgrows it. [weeks]

    Parameters
    ----------
    width : float
        [m]
    """
    stays = shipped_containers().stay
    found = next((one for one in stays if width <= one.width), stays[-1])
    return number_of(found.weeks)


# -- the usual container of a crop -------------------------------------------------------------------


def usual_container(crop: Crop | None, seeds_per_gram: float | None, cell_width: float | None) -> Choice:
    """The container in which a crop is usually raised.

    By the width of cell that the catalogue gives, else by the tray that is printed for it, else by the size of its seed.

    Parameters
    ----------
    crop : Crop, optional
    seeds_per_gram : float, optional
        Unknown seed counts as small.
    cell_width : float, optional
        [m]
    """
    if cell_width is not None:
        figure = crop.cell_width if crop is not None else None
        source = (figure.source or "") if figure is not None and figure.value == cell_width else ""
        return Choice(tray_for(cell_width), source)
    found = shipped_containers()
    key = crop.key if crop is not None else ""
    printed = next((one for one in found.usual if key in one.crops), None)
    if printed is not None:
        return Choice(tray_of(round(number_of(printed.cells))), printed.cells.source or "", printed.pricked)
    return Choice(_by_seed(found.by_seed, seeds_per_gram), PRACTICE)


def _by_seed(rule: BySeed, seeds_per_gram: float | None) -> Container:
    if seeds_per_gram is not None and seeds_per_gram < number_of(rule.pot_below):
        return pots_of(number_of(rule.pot))
    cells = rule.small_cells
    if seeds_per_gram is not None and seeds_per_gram < number_of(rule.large_below):
        cells = rule.large_cells if seeds_per_gram >= number_of(rule.largest_below) else rule.largest_cells
    return tray_of(round(number_of(cells)))


# -- reading ---------------------------------------------------------------------------------------


def shipped_containers(folder: Path | None = None) -> Containers:
    """All figures of containers, read and cached at the first call.

    Parameters
    ----------
    folder : Path, optional
        A folder of a catalogue; the shipped one by default.

    Raises
    ------
    CatalogueError
        With one line that names every fault by file, table and field.
    """
    return _load(folder if folder is not None else resources.resource())


@lru_cache(maxsize=4)
def _load(folder: Path) -> Containers:
    faults: list[str] = []
    tables = read_toml(folder / FILE, faults)
    found: Containers | None = None
    try:
        found = Containers.model_validate(tables)
    except ValidationError as error:
        faults += fault_lines(FILE, "containers", error, "the file")
    if found is not None:
        sources = {*load_catalogue(folder).sources, PRACTICE, ESTIMATE}
        faults += [
            f"{FILE}, {place}: unknown source key '{figure.source}'"
            for place, figure in figures_in(found)
            if figure.source not in sources
        ]
    refuse(faults, folder)
    assert found is not None
    return found


def figures_in(value: Any, place: str = "") -> Iterator[tuple[str, Figure]]:
    """All figures in a value, with the place of each."""
    if isinstance(value, Figure):
        yield place, value
    elif isinstance(value, Value):
        for name in type(value).model_fields:
            yield from figures_in(getattr(value, name), f"{place}.{name}".lstrip("."))
    elif isinstance(value, tuple):
        for number, part in enumerate(value):
            yield from figures_in(part, f"{place}[{number}]")
