"""How much of the direct sun structures hold back, by kind and material, with sources (``structures.toml``).

The numbers are opacities as :class:`planner.garden.Structure` has them: the share of the direct sun that is lost at
one pass through the cover or crown, one less the transmission.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import AfterValidator, BeforeValidator, Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import Catalogue
from planner.crops.cautions import STRUCTURE_WORDS
from planner.crops.figures import ESTIMATE, PRACTICE, Origin, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "structures.toml"

MONTHS = 12
#: Months by which the seasons of the south follow those of the north.
HALF_A_YEAR = 6
#: Difference below which a value does not leave its range.
TOLERANCE = 1e-9
#: Decimals of the share of a cover and its frame together: the figures are no more exact.
EXACT = 2


def _as_tuple(given: Any) -> Any:
    return (given,) if isinstance(given, int | float) and not isinstance(given, bool) else given


def _one_or_twelve(given: tuple[float, ...]) -> tuple[float, ...]:
    if len(given) not in (0, 1, MONTHS):
        raise ValueError(f"needs one number, or {MONTHS} from January on; {len(given)} are given")
    return given


#: One share for the whole year, or twelve from January on in the north; none where it is unknown.
Shares = Annotated[
    tuple[Annotated[float, Field(ge=0, le=1)], ...],
    BeforeValidator(_as_tuple),
    AfterValidator(_one_or_twelve),
]


def _in_month(shares: tuple[float, ...], month: int) -> float:
    return shares[month % len(shares)]


class OpacityReading(Value):
    """What a second source says of an opacity.

    Attributes
    ----------
    value, low, high : tuple of float
        One share, or twelve from January on; empty where the source gives none.
    source : str
        Key into ``sources.toml``.
    recalled : bool
    note : str or None
    """

    value: Shares = ()
    low: Shares = ()
    high: Shares = ()
    source: str
    recalled: bool = False
    note: str | None = None


class Opacity(Origin):
    """Share of the direct sun that is blocked, with its source. [0 to 1]

    Attributes
    ----------
    value, low, high : tuple of float
        One share for the whole year, or twelve from January on in the north.  ``low`` and ``high`` are the
        source's range, empty where it prints a single number.
    other : tuple of OpacityReading
        What further sources say.
    """

    value: Shares = ()
    low: Shares = ()
    high: Shares = ()
    other: tuple[OpacityReading, ...] = ()

    def _has_value(self) -> bool:
        return bool(self.value)

    @model_validator(mode="after")
    def _range_in_order(self) -> Self:
        for month in range(MONTHS if self.value else 0):
            value = _in_month(self.value, month)
            low = _in_month(self.low, month) if self.low else value
            high = _in_month(self.high, month) if self.high else value
            if not low - TOLERANCE <= value <= high + TOLERANCE:
                raise ValueError(f"month {month + 1}: {value:g} is outside {low:g} to {high:g}")
        return self

    def for_garden(self, southern: bool) -> tuple[float, ...]:
        """The opacity as a structure of a garden stores it.

        Parameters
        ----------
        southern : bool
            Whether the garden lies south of the equator; its months are then half a year later.

        Returns
        -------
        tuple of float
            One share, or twelve from January on.

        Examples
        --------
        >>> bare_in_winter = Opacity(value=(0.2,) * 4 + (0.8,) * 6 + (0.2,) * 2, source="book")
        >>> bare_in_winter.for_garden(southern=False)[6], bare_in_winter.for_garden(southern=True)[6]
        (0.8, 0.2)
        """
        if not southern or len(self.value) == 1:
            return self.value
        return self.value[HALF_A_YEAR:] + self.value[:HALF_A_YEAR]


class Material(Value):
    """What a structure may be made of.

    Attributes
    ----------
    name : str
        For the reader: ``clear film, one layer``.
    opacity : Opacity
    framed : bool
        Whether the opacity counts the frame that carries it, or there is none.
    """

    name: str = Field(min_length=1)
    opacity: Opacity
    framed: bool = False


class StructureLight(Material):
    """The usual material of a kind of structure, and what else it may be made of.

    Attributes
    ----------
    kind : str
        Kind of structure, as the garden document has it.
    name, opacity, framed
        Of the usual material.
    frame : str
        Key of the material that is the frame alone, which carries the others; empty for a kind without one.
    materials : mapping of str to Material
        The others, by key, in the file's order.
    """

    kind: str
    frame: str = ""
    materials: dict[str, Material] = Field(default_factory=dict)

    @model_validator(mode="after")
    def _known_kind(self) -> Self:
        if self.kind not in STRUCTURE_WORDS:
            raise ValueError(f"'{self.kind}' is none of {', '.join(STRUCTURE_WORDS)}")
        return self

    @model_validator(mode="after")
    def _known_frame(self) -> Self:
        if self.frame and self.frame not in self.materials:
            raise ValueError(f"the frame '{self.frame}' is none of its materials")
        return self

    def material(self, key: str) -> Material:
        """The material of a key; the usual one where it has none of that key."""
        return self.materials.get(key, self)

    def frame_of(self, key: str) -> Material | None:
        """The frame that carries a material, whose opacity does not count it; None where there is none."""
        return None if self.material(key).framed else self.materials.get(self.frame)

    def held_back(self, key: str, southern: bool) -> tuple[float, ...]:
        """Share of the direct sun that a structure of a material holds back, its frame included.

        Parameters
        ----------
        key : str
            Of the material; the usual one where there is none of that key.
        southern : bool
            Whether the garden lies south of the equator.

        Returns
        -------
        tuple of float
            One share for the whole year, or twelve from January on.
        """
        cover = self.material(key).opacity.for_garden(southern)
        frame = self.frame_of(key)
        if frame is None:
            return cover
        bars = frame.opacity.for_garden(southern)
        months = range(max(len(cover), len(bars)))
        through = ((1 - _in_month(cover, month)) * (1 - _in_month(bars, month)) for month in months)
        return tuple(round(1 - share, EXACT) for share in through)


def structure_light(catalogue: Catalogue) -> Mapping[str, StructureLight]:
    """Opacities of structures by kind, read and cached at the first call.

    Sources are checked against a catalogue that was read from files.

    Parameters
    ----------
    catalogue : Catalogue

    Returns
    -------
    mapping of str to StructureLight
        One for every kind of structure.

    Raises
    ------
    CatalogueError
        With one line that names every fault by file, kind and field.
    """
    folder = catalogue.folder
    return _load(folder or resources.resource(), _Sources.of(catalogue) if folder else None)


# -- reading -----------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Sources:
    """Keys of the sources that a figure may name."""

    keys: frozenset[str]

    @classmethod
    def of(cls, catalogue: Catalogue) -> Self:
        return cls(frozenset({*catalogue.sources, PRACTICE, ESTIMATE}))


@lru_cache(maxsize=4)
def _load(folder: Path, sources: _Sources | None) -> dict[str, StructureLight]:
    faults: list[str] = []
    found: dict[str, StructureLight] = {}
    tables = read_toml(folder / FILE, faults)
    for kind, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"{FILE}, {kind}: must be a table of a structure's light")
            continue
        try:
            found[kind] = StructureLight.model_validate({"kind": kind, **table})
        except ValidationError as error:
            faults += fault_lines(FILE, kind, error, "the structure")
            continue
        if sources is not None:
            faults += _unknown_sources(found[kind], sources)
    if tables:
        faults += [f"{FILE}, {kind}: is missing" for kind in STRUCTURE_WORDS if kind not in tables]
    refuse(faults, folder)
    return found


def _unknown_sources(structure: StructureLight, sources: _Sources) -> list[str]:
    lines = []
    for key, material in {"": structure, **structure.materials}.items():
        place = f"{FILE}, {structure.kind}, " + (f"materials.{key}.opacity" if key else "opacity")
        named = [material.opacity.source, *(reading.source for reading in material.opacity.other)]
        lines += [f"{place}: unknown source key '{name}'" for name in named if name not in sources.keys]
    return lines
