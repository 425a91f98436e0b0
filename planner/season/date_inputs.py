"""What the dates of one planting depend on, and what follows from it at once."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import NamedTuple

from planner.crops import Crop
from planner.crops.cover_effects import GLASS_WORDS, sheltered_by
from planner.garden import Climate, Done, Observed, Outcome, PinnedDates, Planting
from planner.garden.edits.ticks import REPEATED, YEARLY
from planner.garden.planting import work_on
from planner.garden.planting_figures import PlantingFigures
from planner.season import practice
from planner.season.frosts import Frosts
from planner.season.planting_dates import Dated
from planner.season.thermal_time import Response
from planner.season.usual_weather import UsualWeather, weather_of
from planner.words import say

#: Responses of crops without figures: of what bears frost, and of what frost kills (estimate). [deg C]
COOL, WARM = Response(4.0, 20.0, 35.0), Response(8.0, 26.0, 40.0)


class DateInputs(NamedTuple):
    """Everything that the dates of a planting depend on.

    Attributes
    ----------
    planting : Planting
    figures : PlantingFigures
    climate : Climate
    frosts : Frosts
        Of the growing year the planting belongs to.
    harvest_frosts : Frosts
        Of the growing year whose harvest is wanted; another one only where the crop stays for years.
    year : tuple of (date, date), optional
        First and last day of that growing year; None: records and pinned harvests of any year count.
    southern : bool
        Spring comes in September.
    done : tuple of Done
        Work on the planting that is known to be done.
    observed : tuple of Observed
        Stages of it that were seen.
    outcome : Outcome, optional
        How it ended, where that is known.
    shelter : tuple of str
        Kinds of shelter it grows in, as ``planner.crops.cover_effects`` names them; empty in the open.
    kept_above : float, optional
        Least temperature that heated glass is kept at. [deg C]
    latitude : float, optional
        For the length of the day. [degrees north]
    """

    planting: Planting
    figures: PlantingFigures
    climate: Climate
    frosts: Frosts
    harvest_frosts: Frosts
    year: tuple[dt.date, dt.date] | None = None
    southern: bool = False
    done: tuple[Done, ...] = ()
    observed: tuple[Observed, ...] = ()
    outcome: Outcome | None = None
    shelter: tuple[str, ...] = ()
    kept_above: float | None = None
    latitude: float | None = None


class DateContext(NamedTuple):
    """The inputs of one planting, with what every rule of dates looks up in them.

    Attributes
    ----------
    planting, figures, climate, frosts, harvest_frosts, year, southern, observed, outcome, shelter, kept_above, latitude
        As in :class:`DateInputs`.
    pins : PinnedDates
        Dates given by hand.
    crop : Crop or None
        None where the catalogue does not have it.
    name : str
        The crop as shown.
    start : str
        How it starts, one of :data:`planner.crops.crop.START_WORDS`.
    stays_for_years : bool
    tender : bool
        Frost kills it.
    sheltered : bool
        Under glass: frost neither kills it nor ends its harvest.
    outside : UsualWeather or None
        The usual weather of the place; None where neither monthly means nor both frosts are known.
    weather : UsualWeather or None
        The same where it grows: under glass where it is sheltered, else in the open.
    response : Response
        How fast it develops by temperature.
    slows : bool
        Short days slow it.
    done : mapping of str to date
        Day on which each kind of work was done; yearly work of a crop that stays only in ``year``.
    done_before : mapping of str to date
        The latest day before ``year`` on which yearly work was done on a crop that stays.
    """

    planting: Planting
    figures: PlantingFigures
    climate: Climate
    frosts: Frosts
    harvest_frosts: Frosts
    year: tuple[dt.date, dt.date] | None
    southern: bool
    observed: tuple[Observed, ...]
    outcome: Outcome | None
    shelter: tuple[str, ...]
    kept_above: float | None
    sheltered: bool
    latitude: float | None
    pins: PinnedDates
    crop: Crop | None
    name: str
    start: str
    stays_for_years: bool
    tender: bool
    outside: UsualWeather | None
    weather: UsualWeather | None
    response: Response
    slows: bool
    done: Mapping[str, dt.date]
    done_before: Mapping[str, dt.date]

    def number(self, field: str) -> float | None:
        """A figure of the variety, else of the crop; None where it is unknown or does not apply."""
        return self.figures.number(field)

    def source(self, field: str) -> str:
        """Key of the source of a figure; ``own variety`` where the variety replaces it, the garden with its years where that does."""
        learned = self.figures.learned_source(field)
        if learned:
            return learned
        own = self.figures.variety
        if own is not None and own.number(field) is not None:
            return "own variety"
        figure = getattr(self.crop, field, None) if self.crop else None
        return figure.source or "" if figure is not None else ""

    def note_unknown(self, field: str, words: str) -> tuple[str, ...]:
        """Sentence about a figure that is not known; nothing where it does not apply to the crop.

        Parameters
        ----------
        field : str
        words : str
            The sentence.
        """
        figure = getattr(self.crop, field, None) if self.crop else None
        if figure is None or figure.applies:
            return (words,)
        return ()

    def given_day(self, kind: str, pin: dt.date | None, what: str) -> Dated | None:
        """The day on which work was done, else the pinned one; None where it is to be worked out.

        Parameters
        ----------
        kind : str
            One of :data:`planner.garden.planting.Work`.
        pin : date, optional
        what : str
            The reason, as ``Sown on this day``.
        """
        if kind in self.done:
            return Dated(self.done[kind], what, "", "done")
        if pin is not None:
            return Dated(pin, say("Set by hand"), "", "by hand")
        return None

    def done_on_cover(self, kind: str, cover: str) -> dt.date | None:
        """The day on which work on a kind of cover was done: its own record before one that names no cover."""
        return self.done.get(work_on(kind, cover), self.done.get(kind))

    def in_year(self, day: dt.date) -> bool:
        """Whether a day lies in the growing year whose harvest is wanted."""
        return in_year(self.year, day)


def in_year(year: tuple[dt.date, dt.date] | None, day: dt.date) -> bool:
    """Whether a day lies in a growing year; always where none is given."""
    return year is None or year[0] <= day <= year[1]


def context_of(inputs: DateInputs) -> DateContext:
    """Look up once what the rules of dates need of their inputs."""
    planting, figures, year = inputs.planting, inputs.figures, inputs.year
    crop = figures.crop
    stays = practice.stays_for_years(crop)
    tender = practice.tender(crop)
    sheltered = any(kind in GLASS_WORDS for kind in inputs.shelter)
    kept_above = inputs.kept_above if sheltered else None
    outside = weather_of(inputs.climate, inputs.latitude, inputs.southern)
    return DateContext(
        planting=planting,
        figures=figures,
        climate=inputs.climate,
        frosts=inputs.frosts,
        harvest_frosts=inputs.harvest_frosts,
        year=year,
        southern=inputs.southern,
        observed=inputs.observed,
        outcome=inputs.outcome,
        shelter=inputs.shelter,
        kept_above=kept_above,
        sheltered=sheltered,
        latitude=inputs.latitude,
        pins=planting.pinned_dates,
        crop=crop,
        name=crop.name if crop else planting.crop,
        start=practice.start_of(planting, figures),
        stays_for_years=stays,
        tender=tender,
        outside=outside,
        weather=outside.under(sheltered_by(inputs.shelter)).kept_above(kept_above)
        if outside is not None and inputs.shelter
        else outside,
        response=_response(figures, tender),
        slows=_slows(crop, practice.start_of(planting, figures), tender),
        done=_done(inputs.done, year if stays else None),
        done_before=_done_before(inputs.done, year) if stays else {},
    )


def _done(done: tuple[Done, ...], year: tuple[dt.date, dt.date] | None) -> Mapping[str, dt.date]:
    """The day of each kind of work, of yearly work that in a growing year; of what is done again the first."""
    found: dict[str, dt.date] = {}
    for one in done:
        if one.kind in YEARLY and not in_year(year, one.date):
            continue
        before = found.get(one.work)
        found[one.work] = min(before, one.date) if before is not None and one.kind in REPEATED else one.date
    return found


def _done_before(done: tuple[Done, ...], year: tuple[dt.date, dt.date] | None) -> Mapping[str, dt.date]:
    """The latest day of each kind of yearly work before a growing year."""
    if year is None:
        return {}
    before = sorted(
        (one for one in done if one.kind in YEARLY and one.date < year[0]), key=lambda one: one.date
    )
    return {one.work: one.date for one in before}


def _response(figures: PlantingFigures, tender: bool) -> Response:
    """How fast the crop develops by temperature: its own figures, else those of its kind."""
    usual = WARM if tender else COOL
    base, best = figures.number("base_temperature"), figures.number("best_temperature")
    ceiling = figures.number("ceiling_temperature")
    base = usual.base if base is None else base
    best = max(usual.best if best is None else best, base + 1)
    return Response(base, best, max(usual.ceiling if ceiling is None else ceiling, best))


def _slows(crop: Crop | None, start: str, tender: bool) -> bool:
    """Whether short days slow it: as its crop says, else whatever bears frost; not a planted bulb, which has its stores."""
    if crop is not None and crop.day_length_to_bulb is not None and start in practice.LIFTED:
        return False
    flag = crop.slows_in_short_days if crop is not None else None
    return flag.value if flag is not None and flag.value is not None else not tender
