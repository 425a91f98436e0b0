"""Own figures of a garden: what the years of a crop tell, drawn towards what is published.

Plantings of one crop, variety, product and way to start are one group; those that name no variety use the group of all
varieties of their crop.  Plantings of one year share its weather, so each growing year counts once, with the mean of its
plantings.  The means of the years are drawn towards the published figure (:mod:`planner.plan.shrinkage`), and are used where the
gardener says so, or from three years on.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple, get_args

from planner.crops.figures import Figure
from planner.garden import Planting
from planner.garden.learned import LearnedFigure, LearnedFigures, LearnedKind, Learning, SeenKind
from planner.garden.planting_figures import PlantingFigures
from planner.plan.cache import fact
from planner.plan.observations import LostSeen, Seen
from planner.plan.shrinkage import Shrunk, alone, shrink, variance_between, variance_within
from planner.plan.yields import yield_field
from planner.season.practice import start_of
from planner.season.seen_times import LeftOut

#: Years from which on the garden's own figures are used by themselves. [years]
YEARS_ENOUGH = 3
#: Standard deviation of the years of one garden, as a share of the figure (estimate).
USUAL_WITHIN: Mapping[LearnedKind, float] = {
    "coming up": 0.30,
    "first picking": 0.10,
    "length of picking": 0.25,
    "emergence": 0.20,
    "yield": 0.35,
}
#: Standard deviation of gardens about a published figure that has no range, as a share of it (estimate).
USUAL_BETWEEN: Mapping[LearnedKind, float] = {
    "coming up": 0.30,
    "first picking": 0.15,
    "length of picking": 0.30,
    "emergence": 0.20,
    "yield": 0.50,
}
#: The field of a crop that each kind stands for; that of yields is the one which is published.
FIELDS: Mapping[LearnedKind, str] = {
    "coming up": "emergence_days",
    "first picking": "days_to_maturity",
    "length of picking": "harvest_days",
    "emergence": "germination",
    "yield": "yield_per_plant",
}


#: The order in which they are told.
_ORDER = get_args(SeenKind)


class GroupKey(NamedTuple):
    """Plantings that are alike in what is learned of them; ``variety`` is case-folded, empty for all varieties."""

    crop: str
    product: str
    variety: str
    start: str


class YearSeen(NamedTuple):
    """One growing year of a group.

    Attributes
    ----------
    year : int
    plantings : int
    seen : float
        In days, as a share, or grams a plant or metre of row.
    expected : float or None
        The same by the published figures.
    factor : float or None
    """

    year: int
    plantings: int
    seen: float
    expected: float | None
    factor: float | None


class OwnYears(NamedTuple):
    """What the years of a garden tell of one figure of a group.

    Attributes
    ----------
    key : GroupKey
    name : str
        The variety as it is written; empty for all.
    kind : str
    field : str
        Of the crop; empty where it has none.
    years : tuple of YearSeen
        In order.
    shrunk : Shrunk or None
        The factor over the published figure; the figure itself where none is published; None where
        nothing can be learned.
    learned : LearnedFigure or None
        The figure that follows from it, whether it is used or not.
    used : bool
    chosen : bool or None
        What the gardener says of it.
    by_plant, by_metre : float or None
        Of yields: mean of the years. [g]
    """

    key: GroupKey
    name: str
    kind: SeenKind
    field: str
    years: tuple[YearSeen, ...]
    shrunk: Shrunk | None
    learned: LearnedFigure | None
    used: bool
    chosen: bool | None
    by_plant: float | None = None
    by_metre: float | None = None

    @property
    def counted(self) -> tuple[YearSeen, ...]:
        """The years from which something is learned."""
        return tuple(one for one in self.years if one.factor is not None) if self.published else self.years

    @property
    def published(self) -> float | None:
        """Mean of what the published figures say of these years; None where there are none."""
        known = [one.expected for one in self.years if one.expected is not None and one.factor is not None]
        return math.fsum(known) / len(known) if known else None

    @property
    def own(self) -> float:
        """Mean of the years."""
        return math.fsum(one.seen for one in self.counted or self.years) / len(self.counted or self.years)

    @property
    def spread(self) -> float | None:
        """Standard deviation of the years; None of one."""
        values = [one.seen for one in self.counted or self.years]
        if len(values) < 2:
            return None
        mean = math.fsum(values) / len(values)
        return math.sqrt(math.fsum((one - mean) ** 2 for one in values) / (len(values) - 1))


class LotEmergence(NamedTuple):
    """What came up of a packet of seed: mean of its sowings."""

    lot: str
    sowings: int
    share: float


class LostInYear(NamedTuple):
    """What was lost of a group in one growing year.

    Attributes
    ----------
    year : int
    lost, plantings : int
        Plantings that were lost, of those of the crop of which something is written down.
    share : float
        Most that was lost of a planting that was not lost altogether; 0 where that is none. [0 to 1]
    causes : tuple of str
    """

    year: int
    lost: int
    plantings: int
    share: float
    causes: tuple[str, ...]

    @property
    def whole(self) -> bool:
        """Whether nothing of the crop was left that year."""
        return self.lost == self.plantings


class GroupLeftOut(NamedTuple):
    """What was seen of a group and teaches nothing, and what was lost of it.

    Attributes
    ----------
    key : GroupKey
    name : str
        The variety as it is written; empty where it names none.
    what : tuple of LeftOut
        By figure and year, each once.
    years : int
        Growing years of its plantings that are over, the lost ones among them.
    lost : tuple of LostInYear
        By year.
    taken_as_over : tuple of int
        Years that count as over though no end is written down: their planned end is past.
    """

    key: GroupKey
    name: str
    what: tuple[LeftOut, ...]
    years: int
    lost: tuple[LostInYear, ...] = ()
    taken_as_over: tuple[int, ...] = ()

    @property
    def untold(self) -> tuple[LeftOut, ...]:
        """All else."""
        return tuple(one for one in self.what if one.why != "lost")


class Learned(NamedTuple):
    """All that the records of a garden tell of its crops.

    Attributes
    ----------
    own : tuple of OwnYears
        By crop, variety and kind.
    used : tuple of (GroupKey, LearnedFigures)
        What plantings use.
    lots : tuple of LotEmergence
    left_out : tuple of GroupLeftOut
        By crop and variety.
    """

    own: tuple[OwnYears, ...] = ()
    used: tuple[tuple[GroupKey, LearnedFigures], ...] = ()
    lots: tuple[LotEmergence, ...] = ()
    left_out: tuple[GroupLeftOut, ...] = ()


NOTHING = Learned()


def group_key(planting: Planting, figures: PlantingFigures) -> GroupKey:
    return GroupKey(
        planting.crop, planting.product or "", planting.variety.casefold(), start_of(planting, figures)
    )


class LearnedInputs(NamedTuple):
    """What was seen of all plantings, and the gardener's choice."""

    seen: tuple[tuple[Planting, PlantingFigures, Seen], ...]
    learning: Learning


class _Group(NamedTuple):
    """Plantings of one group."""

    key: GroupKey
    name: str
    figures: PlantingFigures
    seen: list[Seen]


@fact("learned of garden")
def learned_of_garden(inputs: LearnedInputs) -> Learned:
    """The own figures of all groups."""
    groups = _groups(inputs.seen)
    by_kind: dict[SeenKind, list[tuple[_Group, tuple[YearSeen, ...]]]] = {}
    for group in groups:
        for kind, years in _years(group):
            by_kind.setdefault(kind, []).append((group, years))
    own: list[OwnYears] = []
    for kind, members in by_kind.items():
        if kind == "flowering":  # nothing is published to draw it to, and no date needs it
            own += [
                OwnYears(group.key, group.name, kind, "", years, None, None, False, None)
                for group, years in members
            ]
            continue
        # all varieties together are no further years
        varieties = [
            years for group, years in members if group.key.variety or not _has_varieties(group, groups)
        ]
        within = rounded(
            variance_within(
                ([one.factor for one in years if one.factor is not None] or [1.0] for years in varieties),
                USUAL_WITHIN[kind],
            )
        )
        own += [_own_years(group, kind, years, within, inputs.learning) for group, years in members]
    own.sort(key=lambda one: (one.key, _ORDER.index(one.kind)))
    used: dict[GroupKey, list[LearnedFigure]] = {}
    for one in own:
        if one.used and one.learned is not None:
            used.setdefault(one.key, []).append(one.learned)
    lots: dict[str, list[float]] = {}
    for _planting, _figures, seen in inputs.seen:
        for lot in seen.lots:
            lots.setdefault(lot.lot, []).append(lot.share)
    return Learned(
        tuple(own),
        tuple((key, LearnedFigures(tuple(figures))) for key, figures in used.items()),
        tuple(LotEmergence(key, len(of), math.fsum(of) / len(of)) for key, of in sorted(lots.items())),
        tuple(_left_out(inputs.seen)),
    )


def _left_out(seen: Iterable[tuple[Planting, PlantingFigures, Seen]]) -> Iterator[GroupLeftOut]:
    """What teaches nothing, by group; a year that another planting of the group was weighed in lacks no weight."""
    groups: dict[GroupKey, tuple[str, list[Seen]]] = {}
    of_crop: Counter[tuple[str, str, int]] = Counter()
    as_over: dict[GroupKey, set[int]] = {}
    for planting, figures, of in seen:
        key = group_key(planting, figures)
        groups.setdefault(key, (planting.variety, []))[1].append(of)
        of_crop[key.crop, key.product, planting.year] += 1
        if of.taken_as_over:
            as_over.setdefault(key, set()).add(planting.year)
    for key, (name, members) in sorted(groups.items()):
        weighed = {one.year for of in members for one in of.yields}
        what = dict.fromkeys(
            one
            for of in members
            for one in of.left_out
            if one.why != "unweighed" or (weighed and one.year not in weighed)
        )
        lost = tuple(_lost_in_years(key, members, of_crop))
        if what or lost or key in as_over:
            years = {year for of in members for year in of.over}
            told = sorted(what, key=lambda one: (_ORDER.index(one.kind), one.year))
            yield GroupLeftOut(key, name, tuple(told), len(years), lost, tuple(sorted(as_over.get(key, ()))))


def _lost_in_years(
    key: GroupKey, members: Iterable[Seen], of_crop: Mapping[tuple[str, str, int], int]
) -> Iterator[LostInYear]:
    """What was lost of a group by year, beside all plantings of its crop in that year."""
    by_year: dict[int, list[LostSeen]] = {}
    for one in (loss for of in members for loss in of.losses):
        by_year.setdefault(one.year, []).append(one)
    for year, losses in sorted(by_year.items()):
        gone = [one for one in losses if one.share == 1.0]
        yield LostInYear(
            year,
            len(gone),
            of_crop[key.crop, key.product, year],
            max((one.share for one in losses if one.share < 1.0), default=0.0),
            tuple(dict.fromkeys(one.cause for one in losses)),
        )


def rounded(variance: float) -> float:
    """A variance with a deviation in hundredths: a record of one crop then rarely moves the figures of the others."""
    return float(round(math.sqrt(variance), 2) ** 2)


def _groups(seen: Iterable[tuple[Planting, PlantingFigures, Seen]]) -> list[_Group]:
    found: dict[GroupKey, _Group] = {}
    for planting, figures, of in seen:
        key = group_key(planting, figures)
        named = found.setdefault(key, _Group(key, planting.variety, figures, []))
        named.seen.append(of)
        if key.variety:
            every = key._replace(variety="")
            plain = PlantingFigures(figures.crop, None)
            found.setdefault(every, _Group(every, "", plain, [])).seen.append(of)
    return list(found.values())


def _has_varieties(group: _Group, groups: list[_Group]) -> bool:
    return any(other is not group and other.key._replace(variety="") == group.key for other in groups)


def _years(group: _Group) -> Iterator[tuple[SeenKind, tuple[YearSeen, ...]]]:
    """The years of a group by kind: each year once, with the mean of its plantings."""
    times: dict[tuple[SeenKind, int], list[tuple[float, float | None, float | None]]] = {}
    for seen in group.seen:
        for one in seen.times:
            times.setdefault((one.kind, one.year), []).append((one.seen, one.expected, one.factor))
    by_kind: dict[SeenKind, list[YearSeen]] = {}
    for (kind, year), found in sorted(times.items(), key=lambda item: item[0][1]):
        by_kind.setdefault(kind, []).append(
            YearSeen(
                year,
                len(found),
                math.fsum(seen for seen, _, _ in found) / len(found),
                _mean(expected for _, expected, _ in found),
                _mean(factor for _, _, factor in found),
            )
        )
    yield from ((kind, tuple(years)) for kind, years in by_kind.items())
    yields = _yield_years(group)
    if yields:
        yield "yield", yields


def _mean(numbers: Iterable[float | None]) -> float | None:
    known = [one for one in numbers if one is not None]
    return math.fsum(known) / len(known) if known else None


def _yield_years(group: _Group) -> tuple[YearSeen, ...]:
    """Yields by year, a plant or metre: all that was picked over all plants, since a large plot tells more than a small one."""
    every = [one for seen in group.seen for one in seen.yields]
    found = []
    for year in sorted({one.year for one in every}):
        of = [one for one in every if one.year == year]
        units, grams = math.fsum(one.units for one in of), math.fsum(one.grams for one in of)
        known = [one for one in of if one.expected is not None]
        expected = math.fsum(one.expected or 0.0 for one in known)
        factor = math.fsum(one.grams for one in known) / expected if expected else None
        if units:
            found.append(
                YearSeen(year, len(of), grams / units, expected / units if expected else None, factor)
            )
    return tuple(found)


def _per(group: _Group, by: str) -> float | None:
    """Mean over the years of the grams picked a plant or a metre of row. [g]"""
    every = [one for seen in group.seen for one in seen.yields]
    means = []
    for year in sorted({one.year for one in every}):
        of = [one for one in every if one.year == year]
        over = math.fsum(getattr(one, by) for one in of)
        if over:
            means.append(math.fsum(one.grams for one in of) / over)
    return math.fsum(means) / len(means) if means else None


def _own_years(
    group: _Group, kind: LearnedKind, years: tuple[YearSeen, ...], within: float, learning: Learning
) -> OwnYears:
    field = yield_field(group.figures) if kind == "yield" else FIELDS[kind]
    published = _published(group.figures, field)
    factors = [(one.year, one.factor) for one in years if one.factor is not None]
    shrunk, learned = None, None
    if factors:
        low, high = (published.low, published.high) if published is not None else (None, None)
        value = published.value if published is not None and published.value is not None else 0.0
        between = variance_between(value, low, high, USUAL_BETWEEN[kind])
        shrunk = shrink([factor for _, factor in factors], 1.0, within, between)
        learned = _figure(kind, field, shrunk, value or None, [year for year, _ in factors])
    elif kind == "yield":  # none is published: the years alone, in kilograms
        kilograms = [one.seen / 1000 for one in years]
        mean = math.fsum(kilograms) / len(kilograms)
        shrunk = alone(kilograms, within * mean**2)
        plain = _figure(kind, field, Shrunk(1.0, 1.0, 0.0), shrunk.value, [one.year for one in years])
        learned = plain._replace(low=max(shrunk.low, 0.0), high=shrunk.high)
    chosen = learning.chosen(group.key.crop, group.name, kind)
    known = len({one.year for one in years if one.factor is not None}) if factors else len(years)
    own_words = _is_experience(group.figures, field)
    wanted = chosen if chosen is not None else known >= YEARS_ENOUGH and not own_words
    by_plant, by_metre = (_per(group, "plants"), _per(group, "metres")) if kind == "yield" else (None, None)
    used = wanted and learned is not None and learning.use != "never"
    return OwnYears(
        group.key, group.name, kind, field, years, shrunk, learned, used, chosen, by_plant, by_metre
    )


def _figure(
    kind: LearnedKind, field: str, shrunk: Shrunk, published: float | None, years: list[int]
) -> LearnedFigure:
    value, low, high = (
        None if published is None else max(published * one, 0.0)
        for one in (shrunk.value, shrunk.low, shrunk.high)
    )
    if field == "germination" and value is not None and low is not None and high is not None:
        value, low, high = max(min(value, 1.0), 0.001), min(low, 1.0), min(high, 1.0)
    elif field in ("days_to_maturity", "harvest_days"):  # whole days are told
        value, low, high = (None if one is None else float(round(one)) for one in (value, low, high))
    return LearnedFigure(kind, field, shrunk.value, value, low, high, min(years), max(years))


def _published(figures: PlantingFigures, field: str) -> Figure | None:
    """A figure with its range: the variety's own before the crop's; None where there is none, or it is a table."""
    own = figures.variety
    if own is not None:
        found = next((one for one in own.figures if one.field == field), None)
        if found is not None:
            return found.as_figure()
    of_crop = getattr(figures.crop, field, None) if figures.crop is not None else None
    return of_crop if isinstance(of_crop, Figure) and of_crop.value is not None else None


def _is_experience(figures: PlantingFigures, field: str) -> bool:
    """Whether the gardener gave the variety a figure from experience: that stands until another one is chosen."""
    own = figures.variety
    return own is not None and any(one.field == field and not one.source for one in own.figures)
