"""The days on which a planting is picked, and how its yield is spread over them.

What ends the harvest of a crop says how it comes: all on one day (a potato is lifted), the same each time (leaves,
what waits in the ground), or little, much and less (fruit and pods).  A yield is that of the crop's usual weeks of picking:
where frost or clearing ends them sooner, what would have come later is lost.  It is spread day by day, so that weeks are even.
"""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Iterable
from dataclasses import replace
from typing import Literal, NamedTuple

from planner.crops import Crop
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.plan.survival import Survival
from planner.season.frosts import shift
from planner.season.keeping import day_of_storing
from planner.season.planting_dates import Dated, Dates
from planner.season.tasks import monday

#: How a yield comes.
Shape = Literal["once", "even", "peaked"]
#: Of a harvest that comes to a peak: shares of its days at which the peak begins and ends.  Summer squash picked for two
#: months had its peak in weeks 3 to 5 (sare_squash); for other crops an estimate.
PEAK = (0.25, 0.6)
#: What comes on the last day, as a share of the peak (estimate).
AT_THE_END = 0.3
#: Products that wait until they are needed, or grow anew all the time.
_EVEN = ("leaves", "young leaves", "shoots", "stalks", "tubers", "roots", "bulbs", "heads", "green bulbs")
#: Products that grow as they are picked, though their crop stands.
GROWS_AS_PICKED = ("leaves", "young leaves", "shoots")
#: Days of picking up to which a harvest for the store is brought in at once (practice). [days]
SOON_OVER = 21
#: Parts into which a yield is divided to weigh days. [g]
_FINE = 10**9
#: Days of keeping from which fruit that frost ends is left to be cut in a go (practice). [days]
KEPT_FOR_MONTHS = 60
#: Source of the shape of single crops.
_SHAPE_SOURCES = {"courgette": "sare_squash", "dwarf_bean": "utk_succession"}


class Pick(NamedTuple):
    """What is brought in on a day. [g]"""

    day: dt.date
    grams: int


class Picking(NamedTuple):
    """How a planting is harvested.

    Attributes
    ----------
    first, last : date
    shape : {"once", "even", "peaked"}
    stands : bool
        All of it is there from the first day, and waits until the last.
    source : str
        Of the shape: key of a publication, ``practice`` or ``estimate``.
    over : date or None
        The last day of its usual weeks of picking, where frost or clearing cuts them off; what would come until then is lost.
    """

    first: dt.date
    last: dt.date
    shape: Shape
    stands: bool = False
    source: str = "practice"
    over: dt.date | None = None

    @property
    def days(self) -> tuple[dt.date, ...]:
        """The days on which something is picked."""
        if self.shape == "once":
            return (self.first,)
        return tuple(shift(self.first, number) for number in range((self.last - self.first).days + 1))

    def picks(self, grams: int) -> tuple[Pick, ...]:
        """Spread a yield over the days; the parts add up to what of it comes before the end."""
        days = self.days
        if self.shape == "once":
            return (Pick(days[0], grams),)
        whole = (max(self.over or self.last, self.last) - self.first).days + 1
        parts = spread(grams, whole, self.shape)[: len(days)]
        return tuple(Pick(day, part) for day, part in zip(days, parts, strict=True))

    def picks_left(self, grams: int, lives: Survival) -> tuple[Pick, ...]:
        """Spread what a planting yields after its losses over the days; the parts add up as those of :meth:`picks`.

        Parameters
        ----------
        grams : int
            What it yields after its losses. [g]
        lives : Survival
            What is left of it on each day.
        """
        if not lives.steps:
            return self.picks(grams)
        parts, after = _parts_left(self, lives)
        whole = math.fsum(parts) + after
        if not whole:
            return self.picks(0)
        come = [round(grams * part / whole) for part in itertools.accumulate(parts, initial=0.0)]
        return tuple(
            Pick(day, then - before)
            for day, (before, then) in zip(self.days, itertools.pairwise(come), strict=True)
        )

    @property
    def share(self) -> float:
        """Share of its yield that comes before the end; 1 where its picking is not cut off."""
        if self.over is None or self.over <= self.last or self.shape == "once":
            return 1.0
        days, whole = ((day - self.first).days + 1 for day in (self.last, self.over))
        return share_by(days / whole, self.shape)


def picking_of(planting: Planting, figures: PlantingFigures, dates: Dates) -> Picking | None:
    """How a planting is harvested; None where no harvest is known.

    Parameters
    ----------
    planting : Planting
    figures : PlantingFigures
        With those of the product it is grown for.
    dates : Dates
    """
    crop = figures.crop
    if dates.first_harvest is None or crop is None:
        return None
    if dates.picked_until is not None:
        return _picking_until_lost(planting, figures, dates)
    first = dates.first_harvest.day
    last = max(first, dates.last_harvest.day if dates.last_harvest is not None else first)
    ends = crop.harvest_ends.value if crop.harvest_ends is not None else None
    product = crop.product.value if crop.product is not None else None
    waits = ends in ("stands", "at once") and product not in GROWS_AS_PICKED
    waits = waits or (ends == "with bolting" and product == "heads")
    lifted = ends == "dies back" or waits or (last - first).days <= SOON_OVER
    if planting.purpose == "store" and lifted and not dates.stays_for_years:
        stored = max(first, day_of_storing(planting, dates) or last)
        return Picking(stored, stored, "once")
    if ends == "dies back":
        return Picking(first, first, "once")
    if waits:
        return Picking(first, last, "even", stands=True)
    if product == "fruit" and picked_in_goes(figures):
        return Picking(last, last, "once")
    shape, source = shape_of(crop)
    return Picking(first, last, shape, source=source, over=_over(figures, dates, first, last))


def picking_if_alive(planting: Planting, figures: PlantingFigures, dates: Dates) -> Picking | None:
    """How a planting would be harvested had it not been lost; of any other how it is.

    Parameters
    ----------
    planting : Planting
    figures : PlantingFigures
    dates : Dates
    """
    if dates.picked_until is not None:
        dates = replace(dates, last_harvest=Dated(dates.picked_until, ""), outcome=None, picked_until=None)
    return picking_of(planting, figures, dates)


def _picking_until_lost(planting: Planting, figures: PlantingFigures, dates: Dates) -> Picking | None:
    """How was picked what was lost: as if it had not been, until the day before; None of what comes all at once."""
    whole, lost = picking_if_alive(planting, figures, dates), dates.outcome
    if whole is None or lost is None or whole.shape == "once":
        return None
    last = shift(lost.day, -1)
    if last < whole.first:
        return None
    return whole if last >= whole.last else whole._replace(last=last, over=whole.over or whole.last)


def _parts_left(picking: Picking, lives: Survival) -> tuple[list[float], float]:
    """Shares of a whole yield that are left to be picked on each day, and the one that would come after the end."""
    picks = picking.picks(_FINE)
    parts = [pick.grams / _FINE * lives.left_on(pick.day) for pick in picks]
    return parts, (1.0 - sum(pick.grams for pick in picks) / _FINE) * lives.left


def share_left(picking: Picking, lives: Survival) -> float:
    """Share of a yield that is left after losses: what was picked before them is not lost.

    Parameters
    ----------
    picking : Picking
    lives : Survival
        What is left of the planting on each day.
    """
    parts, after = _parts_left(picking, lives)
    return math.fsum(parts) + after


def share_picked(picking: Picking, lives: Survival) -> float:
    """Share of a whole yield that is picked: what is lost before it is, or would come after the end, is none of it.

    Parameters
    ----------
    picking : Picking
    lives : Survival
        What is left of the planting on each day.
    """
    return math.fsum(_parts_left(picking, lives)[0])


def picked_in_goes(figures: PlantingFigures) -> bool:
    """Whether fruit is left to ripen and cut in a go before the frost, since it keeps for months: squash, pumpkins.

    Winter squash and pumpkins are harvested once (tamu_eht077).
    """
    crop = figures.crop
    ends = crop.harvest_ends.value if crop is not None and crop.harvest_ends is not None else None
    return ends == "with frost" and (figures.number("store_days") or 0) >= KEPT_FOR_MONTHS


def _over(figures: PlantingFigures, dates: Dates, first: dt.date, last: dt.date) -> dt.date | None:
    """The last of the usual days of picking where they are cut off; None where they are not, or are not known.

    Of what stays for years the last day that is worked out is that of its usual weeks.
    """
    days = figures.number("harvest_days")
    worked_out = dates.last_harvest is not None and dates.last_harvest.origin == "worked out"
    if days is None or (dates.stays_for_years and worked_out):
        return None
    over = shift(first, max(round(days) - 1, 0))
    return over if over > last else None


def shape_of(crop: Crop) -> tuple[Shape, str]:
    """How the harvest of a crop comes that is picked over, and the source for that."""
    ends = crop.harvest_ends.value if crop.harvest_ends is not None else None
    product = crop.product.value if crop.product is not None else None
    if ends == "with bolting" or ends == "stands" or product in _EVEN:
        return "even", "practice"
    return "peaked", _SHAPE_SOURCES.get(crop.key, "estimate")


def share_by(x: float, shape: Shape) -> float:
    """Share of a yield that has come by a share of its days, both from 0 to 1.

    Examples
    --------
    >>> share_by(0.5, "even"), share_by(0.0, "once"), round(share_by(0.6, "peaked"), 3)
    (0.5, 1.0, 0.646)
    """
    if shape == "once":
        return 1.0
    if shape == "even":
        return x
    begins, ends = PEAK
    falls = 1.0 - ends
    whole = begins / 2 + (ends - begins) + falls * (1 + AT_THE_END) / 2
    if x <= begins:
        return x * x / (2 * begins) / whole
    if x <= ends:
        return (begins / 2 + x - begins) / whole
    beyond = x - ends
    return (begins / 2 + (ends - begins) + beyond - (1 - AT_THE_END) * beyond * beyond / (2 * falls)) / whole


def spread(grams: int, times: int, shape: Shape) -> list[int]:
    """Divide a yield over so many pickings, in whole grams that add up to it.

    Parameters
    ----------
    grams : int
        [g]
    times : int
        At least 1.
    shape : {"once", "even", "peaked"}

    Examples
    --------
    >>> spread(10, 3, "even"), spread(10, 3, "once"), spread(100, 5, "peaked")
    ([3, 4, 3], [10, 0, 0], [11, 26, 28, 22, 13])
    """
    if shape == "once":
        return [grams] + [0] * (times - 1)
    come = [round(grams * share_by(number / times, shape)) for number in range(times)] + [grams]
    return [after - before for before, after in itertools.pairwise(come)]


def by_week(picks: Iterable[Pick]) -> dict[dt.date, int]:
    """Grams by the Monday of the week in which they are picked, in order. [g]"""
    found: dict[dt.date, int] = {}
    for day, grams in sorted(picks):
        found[monday(day)] = found.get(monday(day), 0) + grams
    return found
