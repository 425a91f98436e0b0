"""How much of a crop one person eats in a year, with sources (``per_person.toml``)."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from pydantic import Field, ValidationError, field_validator

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "per_person.toml"


class PerPerson(Value):
    """What one person eats of a crop.

    Attributes
    ----------
    crop : str
        Key of the crop.
    kilograms : Figure
        In a year. [kg]
    together : tuple of str
        Keys of crops that are eaten in its place: one amount for all of them.
    """

    crop: str = Field(min_length=1)
    kilograms: Figure
    together: tuple[str, ...] = ()

    @field_validator("kilograms")
    @classmethod
    def _is_an_amount(cls, figure: Figure) -> Figure:
        if figure.value is None or not 0 < figure.value <= 500:
            raise ValueError("must be above 0 and at most 500 kg")
        return figure


def per_person(folder: Path | None = None) -> Mapping[str, PerPerson]:
    """What one person eats, by key of the crop; a crop that shares an amount is under its own key too.

    Read and cached at the first call.

    Parameters
    ----------
    folder : Path, optional
        A folder of a catalogue; the shipped one by default.

    Raises
    ------
    CatalogueError
        With one line that names every fault by file, crop and field.
    """
    return _load(folder if folder is not None else resources.resource())


@lru_cache(maxsize=4)
def _load(folder: Path) -> dict[str, PerPerson]:
    faults: list[str] = []
    catalogue = load_catalogue(folder)
    sources = {*catalogue.sources, PRACTICE, ESTIMATE}
    found: dict[str, PerPerson] = {}
    for key, table in read_toml(folder / FILE, faults).items():
        try:
            one = PerPerson.model_validate({"crop": key, **table})
        except (ValidationError, TypeError) as error:
            faults += (
                fault_lines(FILE, key, error, "the amount")
                if isinstance(error, ValidationError)
                else [f"{FILE}, {key}: must be a table"]
            )
            continue
        named = [one.kilograms.source, *(reading.source for reading in one.kilograms.other)]
        faults += [f"{FILE}, {key}: unknown source key '{name}'" for name in named if name not in sources]
        for crop in (key, *one.together):
            if catalogue.get(crop) is None:
                faults.append(f"{FILE}, {key}: there is no crop '{crop}'")
            if crop in found:
                faults.append(f"{FILE}, {key}: '{crop}' has an amount already")
            found[crop] = one
    refuse(faults, folder)
    return found
