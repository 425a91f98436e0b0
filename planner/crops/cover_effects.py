"""How covers and shelters change the weather of what grows under them, with sources (``cover_effects.toml``)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, NamedTuple, Self

from pydantic import AfterValidator, Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.cautions import COVER_WORDS, GUARD_WORDS
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "cover_effects.toml"

#: Kinds within which one can stand, so that a cover lies in their still air.
GLASS_WORDS = ("glasshouse", "tunnel")
#: Kinds of shelter; each may hold covers.
SHELTER_WORDS = (*GLASS_WORDS, "cold frame", "south wall")
#: What changes the weather; guards do not.
KINDS = (*(word for word in COVER_WORDS if word not in GUARD_WORDS), *SHELTER_WORDS)

SEASONS = ("winter", "spring", "summer", "autumn")
SUMMER = SEASONS.index("summer")
#: A number for each season.
BySeason = tuple[float, float, float, float]


def _within(low: float, high: float, unit: str) -> AfterValidator:
    def check(figure: Figure) -> Figure:
        readings = [figure.value, figure.low, figure.high]
        for one in figure.other:
            readings += [one.value, one.low, one.high]
        for number in readings:
            if number is not None and not low <= number <= high:
                raise ValueError(f"{number:g} is outside {low:g} to {high:g} {unit}".rstrip())
        if figure.value is None:
            raise ValueError("has no value")
        return figure

    return AfterValidator(check)


#: How much warmer it is under the cover. [deg C]
Gain = Annotated[Figure, _within(-5.0, 15.0, "deg C")]
#: A share.
Share = Annotated[Figure, _within(0.0, 1.0, "")]


class Gains(Value):
    """Gains of temperature by season of the north. [deg C]"""

    winter: Gain
    spring: Gain
    summer: Gain
    autumn: Gain

    @property
    def values(self) -> BySeason:
        """The gains from winter on. [deg C]"""
        return _number(self.winter), _number(self.spring), _number(self.summer), _number(self.autumn)


def _number(figure: Figure) -> float:
    assert figure.value is not None  # refused when it was read
    return figure.value


class CoverFigures(Value):
    """What is known of a kind of cover or shelter.

    Attributes
    ----------
    kind : str
        One of :data:`KINDS`.
    name : str
        For the reader: ``fleece of 17 to 30 g/m2``.
    maximum_gain, minimum_gain : Gains
        How much warmer the air among the plants is by day and by night, in the mean of a season. [deg C]
    soil_gain : Figure
        How much warmer the soil at the roots is in spring. [deg C]
    frost_gain : Figure
        By how much colder the open air may be in a frosty night. [deg C]
    light : Figure
        Share of the sun that the cover lets through, without a frame. [0 to 1]
    inside_glass : Figure or None
        Gain by night and in frost within a glasshouse or tunnel, over these; None where it is that in the open. [deg C]
    """

    kind: str
    name: str = Field(min_length=1)
    maximum_gain: Gains
    minimum_gain: Gains
    soil_gain: Gain
    frost_gain: Gain
    light: Share
    inside_glass: Gain | None = None

    @model_validator(mode="after")
    def _known_kind(self) -> Self:
        if self.kind not in KINDS:
            raise ValueError(f"'{self.kind}' is none of {', '.join(KINDS)}")
        return self

    def figures(self) -> Iterator[tuple[str, Figure]]:
        """Its figures by name of the field; those of seasons as ``minimum_gain.winter``."""
        for field in ("maximum_gain", "minimum_gain"):
            for season in SEASONS:
                yield f"{field}.{season}", getattr(getattr(self, field), season)
        for field in ("soil_gain", "frost_gain", "light"):
            yield field, getattr(self, field)
        if self.inside_glass is not None:
            yield "inside_glass", self.inside_glass

    @property
    def effect(self) -> CoverEffect:
        """The numbers alone."""
        inside = None if self.inside_glass is None else _number(self.inside_glass)
        return CoverEffect(
            self.maximum_gain.values,
            self.minimum_gain.values,
            _number(self.soil_gain),
            _number(self.frost_gain),
            _number(self.light),
            inside,
            self.kind in GLASS_WORDS,
        )


class CoverEffect(NamedTuple):
    """What a cover or shelter does, or several together.

    Attributes
    ----------
    maximum_gain, minimum_gain : tuple of 4 float
        By season of :data:`SEASONS`. [deg C]
    soil_gain, frost_gain : float
        [deg C]
    light : float
        Share of the sun let through. [0 to 1]
    inside_glass : float or None
        Gain by night and in frost where it lies within glass; None where it is that in the open. [deg C]
    glass : bool
        One can stand in it, so that a cover within lies in still air.
    """

    maximum_gain: BySeason
    minimum_gain: BySeason
    soil_gain: float
    frost_gain: float
    light: float
    inside_glass: float | None = None
    glass: bool = False


#: The open ground.
OPEN = CoverEffect((0.0,) * 4, (0.0,) * 4, 0.0, 0.0, 1.0)


def together(effects: Iterable[CoverEffect]) -> CoverEffect:
    """What covers and shelters do together: gains add up, light is let through by one after the other.

    Two films warmed and held off twice as much as one (acta187_20).  Within a glasshouse or tunnel a cover holds more
    of the night's warmth than in the open (coleman2009); in summer that is opened.

    Parameters
    ----------
    effects : iterable of CoverEffect

    Examples
    --------
    >>> both = together([effect("tunnel"), effect("fleece")])
    >>> round(both.frost_gain, 1), round(both.light, 3)
    (5.0, 0.765)
    """
    given = tuple(effects)
    glass = any(one.glass for one in given)
    found = OPEN._replace(glass=glass)
    for one in given:
        inside = one.inside_glass if glass else None
        least, frost = one.minimum_gain, one.frost_gain
        if inside is not None:
            least, frost = (inside, inside, least[SUMMER], inside), inside
        found = found._replace(
            maximum_gain=_added(found.maximum_gain, one.maximum_gain),
            minimum_gain=_added(found.minimum_gain, least),
            soil_gain=found.soil_gain + one.soil_gain,
            frost_gain=found.frost_gain + frost,
            light=found.light * one.light,
        )
    return found


def _added(one: BySeason, other: BySeason) -> BySeason:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3]


def effect(kind: str) -> CoverEffect:
    """What a kind of cover or shelter does, from the shipped file.

    Parameters
    ----------
    kind : str
        One of :data:`KINDS`.
    """
    return _effects()[kind]


@lru_cache(maxsize=1)
def _effects() -> dict[str, CoverEffect]:
    return {kind: figures.effect for kind, figures in cover_figures().items()}


@lru_cache(maxsize=256)
def sheltered_by(kinds: tuple[str, ...]) -> CoverEffect:
    """What covers and shelters of some kinds do together."""
    return together(effect(kind) for kind in kinds)


def cover_figures(folder: Path | None = None) -> Mapping[str, CoverFigures]:
    """Figures of all kinds of cover and shelter, read and cached at the first call.

    Parameters
    ----------
    folder : Path, optional
        A folder of a catalogue; the shipped one by default.

    Raises
    ------
    CatalogueError
        With one line that names every fault by file, kind and field.
    """
    return _load(folder if folder is not None else resources.resource())


# -- reading -----------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _load(folder: Path) -> dict[str, CoverFigures]:
    faults: list[str] = []
    sources = {*load_catalogue(folder).sources, PRACTICE, ESTIMATE}
    found: dict[str, CoverFigures] = {}
    tables = read_toml(folder / FILE, faults)
    for kind, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"{FILE}, {kind}: must be a table of a cover's effect")
            continue
        try:
            found[kind] = CoverFigures.model_validate({"kind": kind, **table})
        except ValidationError as error:
            faults += fault_lines(FILE, kind, error, "the cover")
            continue
        for field, figure in found[kind].figures():
            named = [figure.source, *(reading.source for reading in figure.other)]
            faults += [
                f"{FILE}, {kind}, {field}: unknown source key '{name}'"
                for name in named
                if name not in sources
            ]
    if tables:
        faults += [f"{FILE}, {kind}: is missing" for kind in KINDS if kind not in tables]
    refuse(faults, folder)
    return found
