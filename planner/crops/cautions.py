"""Cautions about work that can hurt someone, by crop, kind of structure or support, and kind of work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Self

from pydantic import AfterValidator, Field, ValidationError

from planner import resources
from planner.crops.aftercare import CARE_WORDS
from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Value
from planner.crops.reading import fault_lines, read_toml, refuse
from planner.crops.vocabulary import SUPPORT_WORDS

FILE = "cautions.toml"

#: Kinds of work that a plan gives a date.
TASK_WORDS = (
    "sow", "spread", "prick out", "pot on", "harden off", "set out", "thin", "cover on", "vent", "cover off", "film down",
    "film up", "support up", "pick", "lift and cure", "clear", "sow the next", *CARE_WORDS,
)  # fmt: skip
#: Kinds of work without a date in the plan that have cautions too.
OTHER_WORK = ("build", "check", "dig", "fill", "save seed", "store", "water", "weed")
#: Kinds of structure, bed and cover as named in the garden document.
STRUCTURE_WORDS = (
    "wall", "fence", "hedge", "tree", "shed", "glasshouse", "tunnel", "arch", "board", "path", "gate", "tap",
    "compost", "lawn", "other",
)  # fmt: skip
BED_WORDS = ("open", "raised", "container", "under glass")
GUARD_WORDS = ("brushwood", "collar", "slug ring", "vole basket")
COVER_WORDS = ("fleece", "netting", "film", "cloche", "low tunnel", *GUARD_WORDS)
#: Of what is spread on a bed, what can hurt by itself.
SPREAD_WORDS = ("lime",)
_THINGS = (
    *STRUCTURE_WORDS,
    *BED_WORDS,
    *COVER_WORDS,
    *SPREAD_WORDS,
    *(word for word in SUPPORT_WORDS if word != "none"),
)


def _of(words: Iterable[str]) -> AfterValidator:
    allowed = tuple(dict.fromkeys(words))

    def check(given: tuple[str, ...]) -> tuple[str, ...]:
        for word in given:
            if word not in allowed:
                raise ValueError(f"'{word}' is none of {', '.join(allowed)}")
        return given

    return AfterValidator(check)


class Caution(Value):
    """A caution and its source.

    Attributes
    ----------
    key : str
    text : str
    source : str
        Key into ``sources.toml``, or ``practice``.
    about : tuple of str
        Keys of crops.
    tasks : tuple of str
        Kinds of work it belongs to.
    structures : tuple of str
        Kinds of structure, bed, support or cover.
    """

    key: str = Field(pattern=r"^[a-z][a-z0-9_]*$")
    text: str = Field(min_length=1)
    source: str = Field(min_length=1)
    about: tuple[str, ...] = ()
    tasks: Annotated[tuple[str, ...], _of((*TASK_WORDS, *OTHER_WORK))] = ()
    structures: Annotated[tuple[str, ...], _of(_THINGS)] = ()

    def is_about(self, crop: Crop) -> bool:
        """Whether it names the crop, or the crop names it."""
        return crop.key in self.about or self.key in crop.cautions

    def holds(self, crops: Iterable[Crop], things: frozenset[str]) -> bool:
        """Whether it applies to some crops and kinds of things at a place.

        Parameters
        ----------
        crops : iterable of Crop
        things : frozenset of str
            Kinds of structures, beds, supports and covers.
        """
        there = not self.structures or not things.isdisjoint(self.structures)
        if any(self.is_about(crop) for crop in crops):
            return there
        return bool(self.structures) and there and not self.about


def cautions(catalogue: Catalogue) -> Mapping[str, Caution]:
    """All cautions by key, in the file's order, read and cached at the first call.

    Crops and sources named by a caution are validated only if the catalogue was read from files; one made in code
    may hold only some crops.

    Raises
    ------
    CatalogueError
        Names every fault by file, caution (or crop) and field, in one line.
    """
    folder = catalogue.folder
    return _load(folder or resources.resource(), _Names.of(catalogue) if folder else None)


def cautions_of(
    catalogue: Catalogue,
    crop: Crop | None = None,
    *,
    structure: str | None = None,
    task: str | None = None,
) -> tuple[Caution, ...]:
    """Cautions that match all given conditions.

    Parameters
    ----------
    catalogue : Catalogue
    crop : Crop, optional
    structure : str, optional
        Kind of a structure, bed, support or cover.
    task : str, optional
        Kind of work.

    Returns
    -------
    tuple of Caution
        In the file's order; all of them if no condition is given.
    """
    return tuple(
        caution
        for caution in cautions(catalogue).values()
        if (crop is None or caution.is_about(crop))
        and (structure is None or structure in caution.structures)
        and (task is None or task in caution.tasks)
    )


def cautions_at_work(
    catalogue: Catalogue, task: str, crop: Crop | None = None, structures: Iterable[str] = ()
) -> tuple[Caution, ...]:
    """Cautions to print beside a task.

    A caution that names crops is printed for those only, one that names structures at those only: fruit overhead
    needs an arch and a heavy crop that climbs it.

    Parameters
    ----------
    catalogue : Catalogue
    task : str
        Kind of work.
    crop : Crop, optional
    structures : iterable of str
        Kinds of structures, beds, supports and covers where the work is done.
    """
    things = frozenset(structures)
    crops = () if crop is None else (crop,)
    return tuple(c for c in cautions_of(catalogue, task=task) if c.holds(crops, things))


# -- reading the file ---------------------------------------------------------------------------


@dataclass(frozen=True)
class _Names:
    """Names that a caution may use, and the cautions that crops name: (file, crop, caution keys)."""

    crops: frozenset[str]
    sources: frozenset[str]
    named: tuple[tuple[str, str, tuple[str, ...]], ...]

    @classmethod
    def of(cls, catalogue: Catalogue) -> Self:
        named = tuple(
            (catalogue.files.get(crop.key, crop.family), crop.key, crop.cautions)
            for crop in catalogue.crops.values()
            if crop.cautions
        )
        return cls(frozenset(catalogue.crops), frozenset(catalogue.sources), named)


@lru_cache(maxsize=4)
def _load(folder: Path, names: _Names | None) -> dict[str, Caution]:
    faults: list[str] = []
    found: dict[str, Caution] = {}
    tables = read_toml(folder / FILE, faults)
    for key, table in tables.items():
        if not isinstance(table, dict):
            faults.append(f"{FILE}, {key}: must be a table of a caution's fields")
            continue
        try:
            found[key] = Caution.model_validate({"key": key, **table})
        except ValidationError as error:
            faults += fault_lines(FILE, key, error, "the caution")
            continue
        if names is not None:
            faults += _unknown(found[key], names)
    for file, crop, keys in names.named if names is not None else ():
        faults += [f"{file}, {crop}, cautions: unknown caution '{key}'" for key in keys if key not in tables]
    refuse(faults, folder)
    return found


def _unknown(caution: Caution, names: _Names) -> list[str]:
    place = f"{FILE}, {caution.key}"
    lines = [f"{place}, about: unknown crop '{crop}'" for crop in caution.about if crop not in names.crops]
    if caution.source not in names.sources and caution.source not in (PRACTICE, ESTIMATE):
        lines.append(f"{place}, source: unknown source key '{caution.source}'")
    return lines
