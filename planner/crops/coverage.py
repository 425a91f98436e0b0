"""Completeness of the catalogue: the provenance of each field of each crop."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from planner.crops.crop import ENTRY_FIELDS, Crop
from planner.crops.figures import Origin

#: Where the figure of a field comes from, or why there is none.
Provenance = Literal["published", "practice", "estimate", "missing", "does not apply"]
PROVENANCES: tuple[Provenance, ...] = ("published", "practice", "estimate", "missing", "does not apply")

#: Fields on which counts, dates and light depend.
DRIVING_FIELDS = (
    "in_row_spacing", "row_spacing", "sowing_depth", "seeds_per_gram", "germination", "sow_from", "sow_until",
    "set_out_from", "set_out_until", "days_to_maturity", "height",
)  # fmt: skip
#: Target share of published figures among the driving fields. [0 to 1]
AIM = 0.90


def provenance_of(crop: Crop, field: str) -> Provenance:
    """Return where a crop's figure comes from, or why there is none.

    Parameters
    ----------
    crop : Crop
    field : str
        One of :data:`planner.crops.crop.ENTRY_FIELDS`.

    Returns
    -------
    str
        A figure recalled from memory counts as an estimate.
    """
    entry = getattr(crop, field)
    return "missing" if entry is None else provenance_of_entry(entry)


def provenance_of_entry(entry: Origin) -> Provenance:
    """Return where a figure comes from, or that it does not apply."""
    if not entry.applies:
        return "does not apply"
    found: Provenance = entry.provenance  # type: ignore[assignment]
    return found


@dataclass(frozen=True)
class Coverage:
    """Provenance of fields of crops.

    Attributes
    ----------
    crops : tuple of Crop
    fields : tuple of str
    table : mapping of (str, str) to str
        Provenance by crop key and field.
    """

    crops: tuple[Crop, ...]
    fields: tuple[str, ...]
    table: Mapping[tuple[str, str], Provenance]

    def counts(
        self, fields: Iterable[str] | None = None, crops: Iterable[Crop] | None = None
    ) -> dict[Provenance, int]:
        """Count the figures of each provenance.

        Parameters
        ----------
        fields : iterable of str, optional
            All fields by default.
        crops : iterable of Crop, optional
            All crops by default.
        """
        chosen = self.fields if fields is None else tuple(fields)
        found = Counter(
            self.table[crop.key, field]
            for crop in (self.crops if crops is None else crops)
            for field in chosen
        )
        return {word: found[word] for word in PROVENANCES}


def published_share(counts: Mapping[Provenance, int], with_inapplicable: bool = False) -> float | None:
    """Return the share of published figures among all that apply, missing ones included. [0 to 1]

    Parameters
    ----------
    counts : mapping
        Result of :meth:`Coverage.counts`.
    with_inapplicable : bool
        Count fields that do not apply with the published ones.

    Returns
    -------
    float or None
        None if there is nothing to count.
    """
    settled = counts["published"]
    whole = sum(counts.values()) - counts["does not apply"]
    if with_inapplicable:
        settled += counts["does not apply"]
        whole += counts["does not apply"]
    return settled / whole if whole else None


def coverage(crops: Iterable[Crop], fields: Iterable[str] = ENTRY_FIELDS) -> Coverage:
    """Collect the provenance of every field of some crops.

    Parameters
    ----------
    crops : iterable of Crop
    fields : iterable of str
        All sourced fields by default.
    """
    found, chosen = tuple(crops), tuple(fields)
    table = {(crop.key, field): provenance_of(crop, field) for crop in found for field in chosen}
    return Coverage(found, chosen, table)
