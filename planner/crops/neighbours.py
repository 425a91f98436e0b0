"""Rules about neighbours: how plants affect one another, each with its grade of evidence.

A rule has an acting plant ``a`` and an affected one ``b``; either may be some crops, a species, a genus or a family.
Plants that are not in the catalogue (a walnut tree) are looked up by their Latin name.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal, Self

from pydantic import Field, ValidationError, model_validator

from planner import resources
from planner.crops.catalogue import Catalogue
from planner.crops.crop import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "neighbours.toml"

Effect = Literal["good", "bad", "none"]
#: Evidence of a rule: plants grown together in a bed, glasshouse or field cage; the advice of an agency or trade;
#: an extract, a dish or infected pots, not shown in a bed; or tradition.
Grade = Literal["trial", "advice", "laboratory", "lore"]
GRADES: tuple[Grade, ...] = ("trial", "advice", "laboratory", "lore")
#: Grades used unless the caller includes lore.
DEFAULT_GRADES: tuple[Grade, ...] = ("trial", "advice", "laboratory")
#: Grades that tell what happens in a bed.
OF_BEDS: tuple[Grade, ...] = ("trial", "advice")

Kind = Literal["crop", "species", "genus", "family"]
_ONE_NAME = {
    "crop": re.compile(r"[a-z][a-z0-9_]*"),
    "species": re.compile(r"[A-Z][a-z]+( [A-Za-z-]+){1,2}"),
    "genus": re.compile(r"[A-Z][a-z]+"),
    "family": re.compile(r"[A-Z][a-z]+"),
}
#: Words of a Latin name that name no taxon.
_RANKS = {"x", "subsp.", "ssp.", "var.", "f."}


class Selector(Value):
    """Some crops, or a species, genus or family.

    Attributes
    ----------
    kind : str
        ``crop``, ``species``, ``genus`` or ``family``.
    names : tuple of str
        Keys of crops, or one Latin name.  That of a species may go on to a subspecies or variety; the ranks are
        left out.
    """

    kind: Kind
    names: tuple[str, ...] = Field(min_length=1)

    @model_validator(mode="before")
    @classmethod
    def _from_text(cls, given: Any) -> Any:
        if not isinstance(given, str):
            return given
        kind, colon, text = given.partition(":")
        if not colon or kind not in _ONE_NAME:
            raise ValueError(f"'{given}' must be crop:KEY, species:LATIN, genus:LATIN or family:LATIN")
        names = [name.strip() for name in text.split(",")] if kind == "crop" else [text]
        if not all(_ONE_NAME[kind].fullmatch(name) for name in names):
            form = "given by its key" if kind == "crop" else "a Latin name with a capital"
            raise ValueError(f"'{given}': a {kind} is {form}")
        if len(set(names)) < len(names):
            raise ValueError(f"'{given}': a crop is named twice")
        return {"kind": kind, "names": names}

    @property
    def latin(self) -> str:
        """Latin name; empty where crops are named by their keys."""
        return "" if self.kind == "crop" else self.names[0]

    def fits(self, plant: Crop | str) -> bool:
        """Whether a crop, or a plant with this Latin name, is selected."""
        if self.kind == "crop":
            return not isinstance(plant, str) and plant.key in self.names
        if self.kind == "family":
            return not isinstance(plant, str) and plant.family == self.latin
        words = self.latin.split()
        return _taxon(plant if isinstance(plant, str) else plant.latin)[: len(words)] == words


class Rule(Value):
    """An effect of ``a`` on ``b`` or on itself.

    Attributes
    ----------
    number : int
        Position in the file, from 1.
    a, b : Selector
        The acting plant and its neighbour.
    effect : str
        ``good``, ``bad``, or ``none`` (tried without result).
    on : str
        Affected side: ``b``, ``a`` or ``both``.
    reach : float
        Greatest distance from plant to plant, of a tree when it is grown; 0 is the same ground, before or after. [m]
    mechanism : str
        How the effect comes about.
    grade : str
        ``trial``, ``advice``, ``laboratory`` or ``lore``.
    source, note, recalled
        As for a figure.
    """

    number: int = Field(ge=1)
    a: Selector
    b: Selector
    effect: Effect
    on: Literal["a", "b", "both"]
    reach: float = Field(ge=0, le=100)
    mechanism: str = Field(min_length=1)
    grade: Grade
    source: str = Field(min_length=1)
    note: str = ""
    recalled: bool = False

    def affects(self, side: Literal["a", "b"]) -> bool:
        """Whether the plant on this side of the rule is affected."""
        return self.on in (side, "both")


@dataclass(frozen=True)
class Mention:
    """A rule that applies to one plant.

    Attributes
    ----------
    rule : Rule
    other : Selector
        The other side of the rule.
    affected, acts : bool
        Whether the plant is affected; whether it is the acting one.
    """

    rule: Rule
    other: Selector
    affected: bool
    acts: bool


@dataclass(frozen=True)
class Between:
    """A rule that applies to a pair of plants.

    Attributes
    ----------
    rule : Rule
    on_first, on_second : bool
        Whether the first and the second plant of the pair are affected.
    """

    rule: Rule
    on_first: bool
    on_second: bool


def genus(latin: str) -> str:
    """First word of a Latin name, without the sign of a hybrid."""
    words = _taxon(latin)
    return words[0] if words else ""


def _taxon(latin: str) -> list[str]:
    """Words of a Latin name without ranks and the sign of a hybrid."""
    return [word for word in latin.replace("×", " ").split() if word not in _RANKS]


def rules(catalogue: Catalogue) -> tuple[Rule, ...]:
    """All rules, read and cached at the first call.

    Crops, families and sources named by a rule are validated only if the catalogue was read from files; one made
    in code may hold only some crops.

    Raises
    ------
    CatalogueError
        Names every fault by file, rule number and field, in one line.
    """
    return _rules_of(catalogue).rules


class _RulesOf:
    """The rules of one catalogue, and which of them name a plant: asked for each pair of plantings of a garden."""

    def __init__(self, catalogue: Catalogue) -> None:
        folder = catalogue.folder
        self.catalogue = catalogue
        self.rules = _load(folder or resources.resource(), _Names.of(catalogue) if folder else None)
        self._sides: dict[tuple[str, str, str], tuple[frozenset[int], frozenset[int]]] = {}

    def sides(self, plant: Crop | str) -> tuple[frozenset[int], frozenset[int]]:
        """Positions of the rules whose ``a``, and of those whose ``b``, is a plant."""
        key = ("", "", plant) if isinstance(plant, str) else (plant.key, plant.family, plant.latin)
        found = self._sides.get(key)
        if found is None:
            found = (
                frozenset(at for at, rule in enumerate(self.rules) if rule.a.fits(plant)),
                frozenset(at for at, rule in enumerate(self.rules) if rule.b.fits(plant)),
            )
            self._sides[key] = found
        return found


#: Those of the catalogues that were asked for last.
_KEPT: list[_RulesOf] = []
_MOST_KEPT = 4


def _rules_of(catalogue: Catalogue) -> _RulesOf:
    for kept in tuple(_KEPT):
        if kept.catalogue is catalogue:
            return kept
    made = _RulesOf(catalogue)
    _KEPT.insert(0, made)
    del _KEPT[_MOST_KEPT:]
    return made


def rules_for(
    catalogue: Catalogue, plant: Crop | str, grades: Collection[Grade] = GRADES
) -> tuple[Mention, ...]:
    """Rules that apply to one plant, best evidence first.

    Parameters
    ----------
    catalogue : Catalogue
    plant : Crop or str
        A crop, or the Latin name of another plant.
    grades : collection of str
        Grades to include.

    Returns
    -------
    tuple of Mention
        A rule whose two sides both select the plant comes once.
    """
    found = []
    for rule in rules(catalogue):
        if rule.grade not in grades:
            continue
        as_a, as_b = rule.a.fits(plant), rule.b.fits(plant)
        if as_a or as_b:
            affected = (as_a and rule.affects("a")) or (as_b and rule.affects("b"))
            found.append(Mention(rule, rule.a if as_b else rule.b, affected, as_a))
    return tuple(sorted(found, key=lambda mention: GRADES.index(mention.rule.grade)))


def rules_between(
    catalogue: Catalogue, first: Crop | str, second: Crop | str, grades: Collection[Grade] = GRADES
) -> tuple[Between, ...]:
    """Rules that apply to a pair of neighbours, whichever of them acts; best evidence first.

    Parameters
    ----------
    catalogue : Catalogue
    first, second : Crop or str
        A crop, or the Latin name of another plant.
    grades : collection of str
        Grades to include.

    Returns
    -------
    tuple of Between
    """
    known = _rules_of(catalogue)
    (first_acts, first_hears), (second_acts, second_hears) = known.sides(first), known.sides(second)
    found = []
    for at in sorted((first_acts & second_hears) | (second_acts & first_hears)):
        rule = known.rules[at]
        if rule.grade not in grades:
            continue
        forth, back = at in first_acts and at in second_hears, at in second_acts and at in first_hears
        on_first = (forth and rule.affects("a")) or (back and rule.affects("b"))
        on_second = (forth and rule.affects("b")) or (back and rule.affects("a"))
        found.append(Between(rule, on_first, on_second))
    return tuple(sorted(found, key=lambda between: GRADES.index(between.rule.grade)))


# -- reading the file ---------------------------------------------------------------------------


@dataclass(frozen=True)
class _Names:
    """Names that a rule may use."""

    crops: frozenset[str]
    families: frozenset[str]
    sources: frozenset[str]

    @classmethod
    def of(cls, catalogue: Catalogue) -> Self:
        crops = catalogue.crops
        return cls(
            frozenset(crops), frozenset(c.family for c in crops.values()), frozenset(catalogue.sources)
        )


@lru_cache(maxsize=4)
def _load(folder: Path, names: _Names | None) -> tuple[Rule, ...]:
    faults: list[str] = []
    document = read_toml(folder / FILE, faults)
    tables = document.pop("rule", [])
    faults += [f"{FILE}, {key}: only [[rule]] stands in this file" for key in document]
    if not isinstance(tables, list):
        tables = []
        faults.append(f"{FILE}, rule: must be [[rule]], a list of tables")
    found = []
    for number, table in enumerate(tables, start=1):
        try:
            rule = Rule.model_validate({**table, "number": number} if isinstance(table, dict) else table)
        except ValidationError as error:
            faults += fault_lines(FILE, f"rule {number}", error, "the rule")
            continue
        if names is not None:
            faults += _unknown(rule, names)
        found.append(rule)
    refuse(faults, folder)
    return tuple(found)


def _unknown(rule: Rule, names: _Names) -> list[str]:
    lines = []
    for side in (rule.a, rule.b):
        field = "a" if side is rule.a else "b"
        allowed = {"crop": names.crops, "family": names.families}.get(side.kind)
        if allowed is not None:
            unknown = (name for name in side.names if name not in allowed)
            lines += [
                f"{FILE}, rule {rule.number}, {field}: unknown {side.kind} '{name}'" for name in unknown
            ]
    if rule.source not in names.sources and rule.source not in (PRACTICE, ESTIMATE):
        lines.append(f"{FILE}, rule {rule.number}, source: unknown source key '{rule.source}'")
    return lines
