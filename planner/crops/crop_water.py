"""What crops take of water, what soils hold of it, and figures of watering, with sources (``crop_water.toml``).

The rows are those of FAO Irrigation and Drainage Paper 56 (Allen and others 1998), tables 11, 12, 17 and 22, the soils
those of its table 19.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Any, NamedTuple, Self

from pydantic import Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.crop import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Basis, Figure, Provenance, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "crop_water.toml"

#: No row of table 22 roots less deep; depths given as less tell where most of the roots are, not what they draw on. [m]
LEAST_ROOTS = 0.2

#: A coefficient of crop evapotranspiration.
Coefficient = Annotated[float, Field(ge=0.0, le=1.5)]
#: In the initial, the middle and at the end of the late stage.
ThreeStages = tuple[Coefficient, Coefficient, Coefficient]
_Days = Annotated[int, Field(ge=0, le=400)]
_Metres = Annotated[float, Field(gt=0, le=10)]
_Share = Annotated[float, Field(ge=0, le=1)]


class CropWater(Value):
    """One row of FAO 56's tables of crops.

    Attributes
    ----------
    key, name : str
        Key in our file, and the row as it is printed.
    kc, basal : tuple of 3 float
        Single and basal crop coefficient of the initial and the middle stage, and at the end of the late one.
    height : float
        Greatest height of the crop. [m]
    roots : tuple of 2 float
        Least and greatest depth that a grown crop roots to. [m]
    depletion : float
        Share of the available water that is drawn without harm where the crop takes 5 mm a day.
    stages : tuple of 4 int, optional
        Length of the initial, the development, the middle and the late stage. [days]
    stages_at : str
        Crop, months and region of that row of table 11.
    bare_while_picked : bool
        It covers the ground only after its harvest (asparagus).
    source, basis, note
        As of the figures of crops.
    """

    key: str
    name: str
    kc: ThreeStages
    basal: ThreeStages
    height: _Metres
    roots: tuple[_Metres, _Metres]
    depletion: _Share
    stages: tuple[_Days, _Days, _Days, _Days] | None = None
    stages_at: str = ""
    bare_while_picked: bool = False
    source: str
    basis: Basis
    note: str | None = None

    @property
    def lasts(self) -> float:
        """How long a soil lasts the grown crop, to be held against another's: water drawn without harm over what it takes a day."""
        return self.depletion * sum(self.roots) / 2 / max(self.kc[1], 0.1)

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.roots[0] > self.roots[1]:
            raise ValueError("the least depth of the roots is below the greatest")
        if any(basal > kc + 0.2 for basal, kc in zip(self.basal[1:], self.kc[1:], strict=True)):
            raise ValueError("the basal coefficient is far above the single one")
        return self

    @property
    def late_share(self) -> float:
        """Share of the whole season that is the late stage; a sixth, an estimate, where the table has none."""
        return self.stages[3] / sum(self.stages) if self.stages else 1 / 6


class CropRow(NamedTuple):
    """The row of a crop; ``kin`` where it is that of its nearest kin, an estimate."""

    row: CropWater
    kin: bool

    @property
    def provenance(self) -> Provenance:
        """How its figures came about."""
        return "estimate" if self.kin else self.row.basis


class SoilWater(Value):
    """Water that a soil of a texture holds; each low and high as printed.

    Attributes
    ----------
    field_capacity, available : tuple of 2 float
        Water held after draining, and what of it plants can draw. [m3/m3]
    readily_evaporable, evaporable : tuple of 2 float
        What the topsoil loses at the full pace, and in all, from 0.10 m. [mm]
    source, basis, note
        As of the figures of crops.
    """

    field_capacity: tuple[_Share, _Share]
    available: tuple[_Share, _Share]
    readily_evaporable: tuple[float, float]
    evaporable: tuple[float, float]
    source: str
    basis: Basis
    note: str | None = None

    @property
    def held(self) -> HeldWater:
        """The middle of each range."""
        ranges = (self.field_capacity, self.available, self.readily_evaporable, self.evaporable)
        held, available, readily, evaporable = ((low + high) / 2 for low, high in ranges)
        return HeldWater(held, available, readily, evaporable, self.basis == "estimate")


class HeldWater(NamedTuple):
    """Water that a soil holds.

    Attributes
    ----------
    field_capacity, available : float
        [m3/m3]
    readily_evaporable, evaporable : float
        [mm]
    estimated : bool
        No publication prints it.
    """

    field_capacity: float
    available: float
    readily_evaporable: float
    evaporable: float
    estimated: bool = False


class _OwnFigures(NamedTuple):
    """Figures of water in a crop's own table; None where it has none."""

    kc: tuple[float, ...] | None
    depletion: float | None
    roots: tuple[float | None, float | None] | None
    stages: tuple[float, ...] | None


@lru_cache(maxsize=1024)  # the same object for the same figures, so that what hangs on it stays cached
def _with_own(row: CropWater, own: _OwnFigures) -> CropWater:
    """A row with a crop's own figures; its basal coefficients differ from the row's by what the single ones differ."""
    changes: dict[str, Any] = {}
    if own.kc is not None and own.kc != row.kc and len(own.kc) == 3:
        initial, middle, end = row.basal
        changes["kc"] = own.kc
        changes["basal"] = (
            initial,
            max(middle + own.kc[1] - row.kc[1], initial),
            max(end + own.kc[2] - row.kc[2], 0.0),
        )
    if own.depletion is not None and own.depletion != row.depletion:
        changes["depletion"] = own.depletion
    if own.roots is not None and own.roots != row.roots:
        least, most = own.roots
        if least is not None and most is not None and least >= LEAST_ROOTS:
            changes["roots"] = own.roots
    if own.stages is not None and len(own.stages) == 4 and own.stages != row.stages:
        changes["stages"], changes["stages_at"] = tuple(round(days) for days in own.stages), ""
    return row.model_copy(update=changes) if changes else row


class WaterFigures(NamedTuple):
    """All of the file.

    Attributes
    ----------
    rows : mapping of str to CropWater
    crops : mapping of str to CropRow
        By key of the crop.
    soils : mapping of str to SoilWater
        By texture.
    practice : mapping of str to Figure
    """

    rows: Mapping[str, CropWater]
    crops: Mapping[str, CropRow]
    soils: Mapping[str, SoilWater]
    practice: Mapping[str, Figure]

    def of(self, crop: Crop | None) -> CropRow:
        """The row of a crop, with the figures that the crop has of its own; of one without a row that of lettuce, as an estimate.

        Parameters
        ----------
        crop : Crop, optional
        """
        found = self.crops.get(crop.key) if crop is not None else None
        found = found or CropRow(self.rows["lettuce"], kin=True)
        if crop is None:
            return found
        roots, stages = crop.root_depth, crop.growth_stages
        own = _OwnFigures(
            tuple(crop.crop_coefficients.values) if crop.crop_coefficients is not None else None,
            crop.depletion.value if crop.depletion is not None else None,
            (roots.low or roots.value, roots.high or roots.value) if roots is not None else None,
            tuple(stages.values) if stages is not None else None,
        )
        return CropRow(_with_own(found.row, own), found.kin and own.kc is None)

    def number(self, name: str) -> float:
        """A figure of practice."""
        value = self.practice[name].value
        assert value is not None  # refused when it was read
        return value


def water_figures(folder: Path | None = None) -> WaterFigures:
    """Figures of water, read and cached at the first call.

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


# -- reading -----------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _load(folder: Path) -> WaterFigures:
    faults: list[str] = []
    tables = read_toml(folder / FILE, faults)
    rows: dict[str, CropWater] = {}
    for key, table in _table(tables, "rows", faults).items():
        _read(f"rows.{key}", CropWater, {"key": key, **table}, rows, key, faults)
    soils: dict[str, SoilWater] = {}
    for texture, table in _table(tables, "soils", faults).items():
        _read(f"soils.{texture}", SoilWater, table, soils, texture, faults)
    practice: dict[str, Figure] = {}
    for name, table in _table(tables, "practice", faults).items():
        _read(f"practice.{name}", Figure, table, practice, name, faults)
        if name in practice and practice[name].value is None:
            faults.append(f"{FILE}, practice.{name}: has no value")
    refuse(faults, folder)
    catalogue = load_catalogue(folder)
    sources = {*catalogue.sources, PRACTICE, ESTIMATE}
    named = [(f"rows.{key}", row.source) for key, row in rows.items()]
    named += [(f"soils.{texture}", soil.source) for texture, soil in soils.items()]
    named += [(f"practice.{name}", figure.source or "") for name, figure in practice.items()]
    faults += [f"{FILE}, {place}: unknown source key '{key}'" for place, key in named if key not in sources]
    crops: dict[str, CropRow] = {}
    for key, table in _table(tables, "crops", faults).items():
        row = rows.get(table.get("row", "")) if isinstance(table, dict) else None
        if key not in catalogue.crops:
            faults.append(f"{FILE}, crops.{key}: is no crop of the catalogue")
        elif row is None:
            faults.append(f"{FILE}, crops.{key}: names none of the rows")
        else:
            crops[key] = CropRow(row, bool(table.get("kin", False)))
    faults += [f"{FILE}, crops.{key}: is missing" for key in catalogue.crops if key not in crops]
    refuse(faults, folder)
    return WaterFigures(rows, crops, soils, practice)


def _table(tables: dict[str, Any], name: str, faults: list[str]) -> dict[str, Any]:
    found = tables.get(name)
    if isinstance(found, dict):
        return found
    faults.append(f"{FILE}, {name}: is missing")
    return {}


def _read(
    place: str, model: type[Any], table: Any, into: dict[str, Any], key: str, faults: list[str]
) -> None:
    try:
        into[key] = model.model_validate(table)
    except ValidationError as error:
        faults += fault_lines(FILE, place, error, "the table")
