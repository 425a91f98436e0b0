"""The catalogue with a garden's own crops and sources."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from planner.crops import Catalogue, Crop
from planner.crops.sources import Source
from planner.garden.garden import Garden
from planner.garden.varieties import OwnCrop, OwnSource, Variety

#: Own catalogues kept of each one: those of the gardens seen last.
_KEPT = 4


def own_catalogue(catalogue: Catalogue, garden: Garden) -> Catalogue:
    """The catalogue in the garden's English, with its own crops and sources; the same one while those are the same.

    Parameters
    ----------
    catalogue : Catalogue
        The shipped one, or one that this function made for any garden.
    garden : Garden
    """
    shipped = catalogue.in_words(garden.site.english)
    if not garden.crops and not garden.sources:
        return shipped
    own = (garden.crops, garden.sources)
    for known, made in shipped.own:
        if known == own:
            return made
    sources = {source.key: _source(source) for source in garden.sources}
    crops = {crop.key: _crop(crop, shipped) for crop in garden.crops}
    made = shipped.with_own(crops, sources)
    shipped.own[:] = [(own, made), *shipped.own[: _KEPT - 1]]
    return made


def _source(own: OwnSource) -> Source:
    return Source(
        title=own.title, author=own.author, agency=own.agency, year=own.year, undated=own.year is None
    )


def _crop(own: OwnCrop, shipped: Catalogue) -> Crop:
    """An own crop as the catalogue has such: the figures of the one that it is like, and its own over them."""
    like = shipped.get(own.like)
    fields: dict[str, Any] = (
        {name: getattr(like, name) for name in Crop.model_fields} if like is not None else {}
    )
    names = {"also": (), "american": None, "german": None, "eppo": None, "cautions": ()}
    told = {"key": own.key, "name": own.name, "latin": own.latin, "family": own.family}
    fields |= {**names, **told, "life_cycle": own.life_cycle, "growth_form": own.growth_form, **own.entries}
    return Crop.model_validate(fields)


def with_variety(catalogue: Catalogue, crop: Crop, variety: Variety) -> Crop:
    """The crop with the words of one of its varieties, the same value every time.

    Its figures are asked of the variety itself (:class:`~planner.garden.planting_figures.PlantingFigures`).
    """
    if not variety.words:
        return crop
    known = catalogue.by_words.get((id(crop), variety.words))
    if known is not None and known[0] is crop:
        return known[1]
    words = {own.field: own.as_entry() for own in variety.words}
    fields = {name: getattr(crop, name) for name in Crop.model_fields}
    try:
        made = Crop.model_validate({**fields, **words})
    except ValidationError:  # a word that the crop's other fields do not go with
        made = crop
    catalogue.by_words[id(crop), variety.words] = crop, made
    return made
