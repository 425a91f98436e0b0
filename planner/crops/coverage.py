"""How complete the catalogue is: crops by fields, and how much of it is published."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from planner.crops.crop import ENTRY_FIELDS, Crop

#: What may be said of a field of a crop.
Standing = Literal["published", "practice", "estimate", "missing", "does not apply"]
STANDINGS: tuple[Standing, ...] = ("published", "practice", "estimate", "missing", "does not apply")

#: Fields that drive counts, dates and light.
DRIVING_FIELDS = (
    "in_row_spacing", "row_spacing", "sowing_depth", "seeds_per_gram", "germination", "sow_from", "sow_until",
    "set_out_from", "set_out_until", "days_to_maturity", "height",
)  # fmt: skip
#: The aim for the share of published figures among those.
AIM = 0.90


def standing(crop: Crop, field: str) -> Standing:
    """Where a crop's figure comes from, or why there is none.  A figure from memory is an estimate."""
    entry = getattr(crop, field)
    if entry is None:
        return "missing"
    if not entry.applies:
        return "does not apply"
    found: Standing = entry.standing
    return found


@dataclass(frozen=True)
class Coverage:
    """Standings of fields of crops.

    Attributes
    ----------
    crops : tuple of Crop
    fields : tuple of str
    table : mapping of (str, str) to str
        Standing by crop key and field.
    """

    crops: tuple[Crop, ...]
    fields: tuple[str, ...]
    table: Mapping[tuple[str, str], Standing]

    def counts(
        self, fields: Iterable[str] | None = None, crops: Iterable[Crop] | None = None
    ) -> dict[Standing, int]:
        """How many figures have each standing; of all fields and crops by default."""
        chosen = self.fields if fields is None else tuple(fields)
        found = Counter(
            self.table[crop.key, field]
            for crop in (self.crops if crops is None else crops)
            for field in chosen
        )
        return {word: found[word] for word in STANDINGS}


def published_share(counts: Mapping[Standing, int], with_inapplicable: bool = False) -> float | None:
    """Share of published figures among all that there should be, missing ones included.

    Parameters
    ----------
    counts : mapping
        As of :meth:`Coverage.counts`.
    with_inapplicable : bool
        Count a field that says it does not apply as settled, among those published.

    Returns
    -------
    float or None
        None where there is nothing to count.
    """
    settled = counts["published"]
    whole = sum(counts.values()) - counts["does not apply"]
    if with_inapplicable:
        settled += counts["does not apply"]
        whole += counts["does not apply"]
    return settled / whole if whole else None


def coverage(crops: Iterable[Crop], fields: Iterable[str] = ENTRY_FIELDS) -> Coverage:
    """Standing of every field of some crops."""
    found, chosen = tuple(crops), tuple(fields)
    table = {(crop.key, field): standing(crop, field) for crop in found for field in chosen}
    return Coverage(found, chosen, table)
