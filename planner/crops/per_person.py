"""How much of a crop one person eats in a year, with sources (``per_person.toml``).

Publications print what to plant for a person, as plants or as feet of row.  That is turned into kilograms by the figure by
which the yield of a planting of the crop is worked out, so that both stand on one basis.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Self

from pydantic import Field, ValidationError, field_validator, model_validator

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.crop import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Value
from planner.crops.reading import fault_lines, read_toml, refuse

FILE = "per_person.toml"


class PerPerson(Value):
    """What one person eats of a crop.

    Attributes
    ----------
    crop : str
        Key of the crop.
    plants : Figure or None
        Planted for one person.
    row : Figure or None
        The same as a length of row; one of the two is given. [m]
    together : tuple of str
        Keys of crops that are eaten in its place: one amount for all of them.
    kilograms : Figure or None
        In a year: what is planted times the yield of the crop; None where that is not known. [kg]
    """

    crop: str = Field(min_length=1)
    plants: Figure | None = None
    row: Figure | None = None
    together: tuple[str, ...] = ()
    kilograms: Figure | None = None

    @field_validator("plants", "row")
    @classmethod
    def _is_an_amount(cls, figure: Figure | None) -> Figure | None:
        if figure is not None and (figure.value is None or not 0 < figure.value <= 500):
            raise ValueError("must be above 0 and at most 500")
        return figure

    @model_validator(mode="after")
    def _is_one_of_two(self) -> Self:
        if (self.plants is None) == (self.row is None):
            raise ValueError("give either plants or row")
        return self


def yearly_amount(planted: PerPerson, crop: Crop) -> Figure | None:
    """What is planted for a person times the yield of a crop; None where its yield or spacing is not known. [kg]

    Parameters
    ----------
    planted : PerPerson
    crop : Crop
        The crop of that.
    """
    figure = planted.plants if planted.plants is not None else planted.row
    assert figure is not None
    of_plant, of_metre = crop.number("yield_per_plant"), crop.number("yield_per_metre")
    apart = crop.number("in_row_spacing")
    if planted.plants is not None:
        each = of_plant if of_plant is not None else of_metre * apart if of_metre and apart else None
    else:
        each = of_plant / apart if of_plant is not None and apart else of_metre
    if each is None or figure.value is None:
        return None
    low, high = ((each * end if end is not None else None) for end in (figure.low, figure.high))
    note = (
        f"{figure.note}, times the yield of its crop here"
        if figure.note
        else "times the yield of its crop here"
    )
    return Figure(
        value=each * figure.value, low=low, high=high, source=figure.source, basis="derived", note=note
    )


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
        figure = one.plants if one.plants is not None else one.row
        assert figure is not None
        named = [figure.source, *(reading.source for reading in figure.other)]
        faults += [f"{FILE}, {key}: unknown source key '{name}'" for name in named if name not in sources]
        crop_of_it = catalogue.get(key)
        if crop_of_it is not None:
            one = one.model_copy(update={"kilograms": yearly_amount(one, crop_of_it)})
        for crop in (key, *one.together):
            if catalogue.get(crop) is None:
                faults.append(f"{FILE}, {key}: there is no crop '{crop}'")
            if crop in found:
                faults.append(f"{FILE}, {key}: '{crop}' has an amount already")
            found[crop] = one
    refuse(faults, folder)
    return found
