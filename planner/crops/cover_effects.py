"""How covers and shelters change the weather of what grows under them, with sources (``cover_effects.toml``)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, NamedTuple, Self

from pydantic import AfterValidator, Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.cautions import COVER_WORDS
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "cover_effects.toml"

#: Kinds within which one can stand, so that a cover lies in their still air.
GLASS_WORDS = ("glasshouse", "tunnel")
#: Kinds of shelter; each may hold covers.
SHELTER_WORDS = (*GLASS_WORDS, "cold frame", "south wall")
KINDS = (*COVER_WORDS, *SHELTER_WORDS)

SEASONS = ("winter", "spring", "summer", "autumn")
#: Season of each month in the north, from January on.
_SEASON_OF_MONTH = (0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 0)
_SUMMER = SEASONS.index("summer")
#: Months by which the seasons of the south follow those of the north.
_HALF_A_YEAR = 6


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
    def values(self) -> tuple[float, ...]:
        """The gains from winter on. [deg C]"""
        return tuple(_number(getattr(self, season)) for season in SEASONS)


def _number(figure: Figure) -> float:
    assert figure.value is not None  # refused when it was read
    return figure.value


class CoverEffect(Value):
    """What a kind of cover or shelter does.

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


class Sheltered(NamedTuple):
    """What several covers and shelters do together.

    Attributes
    ----------
    maximum_gain, minimum_gain : tuple of 4 float
        By season of :data:`SEASONS`. [deg C]
    soil_gain, frost_gain : float
        [deg C]
    light : float
        Share of the sun let through. [0 to 1]
    """

    maximum_gain: tuple[float, ...]
    minimum_gain: tuple[float, ...]
    soil_gain: float
    frost_gain: float
    light: float

    def by_month(self, southern: bool) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Gains of the maximum and of the minimum by month, from January on. [deg C]

        Parameters
        ----------
        southern : bool
            Whether the garden lies south of the equator.
        """
        turn = _HALF_A_YEAR if southern else 0
        seasons = [_SEASON_OF_MONTH[(month + turn) % 12] for month in range(12)]
        most, least = self.maximum_gain, self.minimum_gain
        return tuple(most[season] for season in seasons), tuple(least[season] for season in seasons)


#: The open ground.
OPEN = Sheltered((0.0,) * 4, (0.0,) * 4, 0.0, 0.0, 1.0)


def together(effects: Iterable[CoverEffect]) -> Sheltered:
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
    glass = any(one.kind in GLASS_WORDS for one in given)
    found = OPEN
    for one in given:
        least, frost = one.minimum_gain.values, _number(one.frost_gain)
        if glass and one.inside_glass is not None:
            inside = _number(one.inside_glass)
            least = tuple(gain if season == _SUMMER else inside for season, gain in enumerate(least))
            frost = inside
        found = Sheltered(
            tuple(map(sum, zip(found.maximum_gain, one.maximum_gain.values, strict=True))),
            tuple(map(sum, zip(found.minimum_gain, least, strict=True))),
            found.soil_gain + _number(one.soil_gain),
            found.frost_gain + frost,
            found.light * _number(one.light),
        )
    return found


def effect(kind: str) -> CoverEffect:
    """What a kind of cover or shelter does, from the shipped file.

    Parameters
    ----------
    kind : str
        One of :data:`KINDS`.
    """
    return cover_effects()[kind]


def cover_effects(folder: Path | None = None) -> Mapping[str, CoverEffect]:
    """Effects of all kinds of cover and shelter, read and cached at the first call.

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
def _load(folder: Path) -> dict[str, CoverEffect]:
    faults: list[str] = []
    sources = {*load_catalogue(folder).sources, PRACTICE, ESTIMATE}
    found: dict[str, CoverEffect] = {}
    tables = read_toml(folder / FILE, faults)
    for kind, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"{FILE}, {kind}: must be a table of a cover's effect")
            continue
        try:
            found[kind] = CoverEffect.model_validate({"kind": kind, **table})
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
