"""Completeness of the catalogue: the provenance of each field of each crop."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import get_args

from planner.crops.crop import ENTRY_FIELDS, Crop
from planner.crops.figures import Origin, Provenance

PROVENANCES: tuple[Provenance, ...] = get_args(Provenance)
#: Those with a publication behind them, and those of them that a publication prints.
PUBLISHED: tuple[Provenance, ...] = ("printed", "chosen", "derived")
IN_PRINT: tuple[Provenance, ...] = ("printed", "chosen")

#: Fields on which counts, dates and light depend.
DRIVING_FIELDS = (
    "in_row_spacing", "row_spacing", "sowing_depth", "seeds_per_gram", "germination", "sow_from", "sow_until",
    "set_out_from", "set_out_until", "days_to_maturity", "height",
)  # fmt: skip
#: Target shares among the driving fields: with a publication behind them, and printed or chosen. [0 to 1]
AIM, AIM_IN_PRINT = 0.95, 0.70


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
    entry: Origin | None = getattr(crop, field)
    return "missing" if entry is None else entry.provenance


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


def share_of(
    counts: Mapping[Provenance, int],
    words: Iterable[Provenance] = PUBLISHED,
    *,
    with_inapplicable: bool = False,
) -> float | None:
    """Return the share of figures of some kinds among all that apply, missing ones included. [0 to 1]

    Parameters
    ----------
    counts : mapping
        Result of :meth:`Coverage.counts`.
    words : iterable of str
        Kinds counted; those with a publication behind them by default.
    with_inapplicable : bool
        Count fields that do not apply with them.

    Returns
    -------
    float or None
        None if there is nothing to count.
    """
    settled = sum(counts[word] for word in words)
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
