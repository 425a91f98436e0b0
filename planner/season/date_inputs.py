"""When a planting takes its plot: forward from a frost, or backward from a harvest."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import NamedTuple

from planner.crops import Crop
from planner.garden import Climate, Done, Planting
from planner.garden.edits.records import YEARLY
from planner.garden.planting_figures import PlantingFigures
from planner.season import practice
from planner.season.frosts import Frosts, autumn_equinox_after, longest_day_after, midsummer, shift
from planner.season.heat import mean_on
from planner.season.planting_dates import Dated

FALL_SOURCE = "vce426334"


class DateInputs(NamedTuple):
    """What the dates of a planting depend on.

    Attributes
    ----------
    planting : Planting
    facts : PlantingFigures
    climate : Climate
    frosts : Frosts
        Of the growing year the planting belongs to.
    harvest_frosts : Frosts
        Of the growing year asked for, where the planting stands for years.
    year : tuple of (date, date), optional
        First and last day of that growing year.
    southern : bool
        Spring comes in September.
    done : tuple of Done
    sheltered : bool
        Under glass: frost neither kills it nor ends its harvest.
    """

    planting: Planting
    figures: PlantingFigures
    climate: Climate
    frosts: Frosts
    harvest_frosts: Frosts
    year: tuple[dt.date, dt.date] | None = None
    southern: bool = False
    done: tuple[Done, ...] = ()
    sheltered: bool = False


def count_back(first_frost: dt.date, days: float, indoors: float, harvest: float, tender: bool) -> dt.date:
    """Latest sowing that is harvested before the first autumn frost.

    Days to harvest, days indoors, harvest period and a fall factor of 14 days for the short days of
    autumn, with 14 more for a crop that frost kills (Virginia Cooperative Extension 426-334).

    Examples
    --------
    >>> count_back(dt.date(2026, 10, 16), days=50, indoors=0, harvest=14, tender=True)
    datetime.date(2026, 7, 16)
    """
    factor = practice.FALL_FACTOR * (2 if tender else 1)
    return shift(first_frost, -(days + indoors + harvest + factor))


def days_on_plot(number: Callable[[str], float | None], crop: Crop | None, start: str) -> float | None:
    """Days from the start on the plot to the first harvest; None where they are not known.

    Parameters
    ----------
    number : callable
        Gives a figure of the variety or crop by its field.
    crop : Crop, optional
    start : str
        The way it starts there (:data:`planner.crops.crop.START_WORDS`).
    """
    days = number("days_to_maturity")
    if days is None:
        return None
    counted = crop.maturity_from.value if crop and crop.maturity_from else None
    indoors = 7 * (number("weeks_to_raise") or 0)
    if start == "sown" and counted == "setting out":
        return days + indoors
    if start in ("raised", "bought") and counted == "sowing":
        return max(days - indoors, round(days / 3))
    return days


def counted_harvest(number: Callable[[str], float | None]) -> float:
    """Days of harvest that are counted back from the frost."""
    return min(number("harvest_days") or 0, practice.COUNTED_HARVEST)


def latest_start(crop: Crop, start: str, first_frost: dt.date) -> dt.date | None:
    """The last day on which a crop is usefully started; None where its days to maturity are not known.

    This ends the window of a crop for which no last day is printed because only the autumn frost
    ends it (``sow_until`` or ``set_out_until`` that does not apply).
    """
    days = days_on_plot(crop.number, crop, start)
    if days is None:
        return None
    return count_back(first_frost, days, 0, counted_harvest(crop.number), practice.tender(crop))


class Starting:
    """What is known of one planting, and its first day."""

    def __init__(self, asked: DateInputs) -> None:
        self.asked = asked
        self.planting, self.figures, self.frosts = asked.planting, asked.figures, asked.frosts
        self.crop: Crop | None = asked.figures.crop
        self.name = self.crop.name if self.crop else self.planting.crop
        self.start = practice.start_of(self.planting, self.crop)
        self.stays_for_years = practice.stays_for_years(self.crop)
        self.done: dict[str, dt.date] = {
            done.kind: done.date
            for done in asked.done
            if not self.stays_for_years or done.kind not in YEARLY or self.this_year(done.date)
        }
        self.missing: list[str] = []
        self.doubts: list[str] = []
        self.ripens = True
        self.autumn = False

    def this_year(self, day: dt.date) -> bool:
        """Whether a day lies in the growing year asked for."""
        year = self.asked.year
        return year is None or year[0] <= day <= year[1]

    # -- figures --------------------------------------------------------------------------------

    def number(self, field: str) -> float | None:
        return self.figures.number(field)

    def source(self, field: str) -> str:
        own = self.figures.variety
        if own is not None and own.number(field) is not None:
            return "own variety"
        figure = getattr(self.crop, field, None) if self.crop else None
        return figure.source or "" if figure is not None else ""

    def need(self, field: str, words: str, then: str) -> float | None:
        value = self.number(field)
        if value is None:
            figure = getattr(self.crop, field, None) if self.crop else None
            if figure is None or figure.applies:
                self.missing.append(f"No {words} known for {self.name}: {then}")
        return value

    def fixed(self, kind: str, pin: dt.date | None, what: str) -> Dated | None:
        """The day that was really done, else pinned."""
        if kind in self.done:
            return Dated(self.done[kind], f"{what} on this day", "", "done")
        if pin is not None:
            return Dated(pin, "Given by hand", "", "by hand")
        return None

    # -- the start --------------------------------------------------------------------------------

    def first_day(self) -> Dated | None:
        """The day it takes its plot, where neither done nor pinned."""
        wanted = self.planting.pinned_dates.first_harvest
        # Autumn planting has its season: a harvest wanted the year after does not move it into summer.
        if wanted is not None and self.planting.timing != "autumn":
            back = self.back_from(wanted)
            if back is not None:
                return back
        if self.planting.timing == "count back":
            return self.counted_back()
        return self.window_day(say=True)

    def window(self, autumn: bool, end: str = "from") -> tuple[float, str] | None:
        """Weeks from the frost at which the window of the way it starts begins or ends."""
        field = "autumn" if autumn else "sow" if self.start == "sown" else "set_out"
        fields = [f"{field}_{end}"]
        if field == "sow" and self.crop and self.crop.usual_start in ("tubers", "sets", "cloves"):
            fields.append(f"set_out_{end}")
        if field == "set_out" and self.start in ("tubers", "sets", "cloves"):
            fields.append(f"sow_{end}")  # some tables print them as sown
        for name in fields:
            weeks = self.number(name)
            if weeks is not None:
                return weeks, name
        return None

    def in_autumn(self) -> bool:
        """Whether the planting starts in the crop's autumn window."""
        if self.planting.timing is not None:
            return self.planting.timing == "autumn"
        if self.window(autumn=True) is None:
            return False
        spring = self.window(autumn=False)
        if spring is None:
            return True
        days = self.number("days_to_maturity")
        if (
            self.stays_for_years
            or self.start not in ("sown", *practice.LIFTED)
            or days is None
            or days < practice.LONG_CROP
        ):
            return False
        last, first = self.frosts.last, self.frosts.first
        return last is not None and first is not None and shift(last, 7 * spring[0] + days) > first

    def window_day(self, say: bool = False) -> Dated | None:
        """The first day of the crop's usual window."""
        self.autumn = autumn = self.in_autumn()
        frost = self.frosts.autumn if autumn else self.frosts.last
        which = "first autumn frost" if autumn else "last spring frost"
        window = self.window(autumn)
        if window is None:
            if say:
                done = "sow" if self.start == "sown" else "set out"
                season = "autumn" if autumn else "spring"
                self.missing.append(
                    f"No {season} window to {done} {self.name} is known: give its day by hand"
                )
            return None
        if frost is None:
            if say:
                self.missing.append(
                    f"This garden has no frost to count from: give the first day of {self.name} by hand"
                    if self.frosts.frost_free
                    else f"The {which} is not given: when {self.name} starts is not known"
                )
            return None
        weeks, field = window
        when = f"{abs(weeks):g} weeks {'before' if weeks < 0 else 'after'}" if weeks else "On the day of"
        why = f"{when} the {which} ({frost:%d %b}, risk {self.frosts.risk} %)"
        return Dated(shift(frost, 7 * weeks), why, self.source(field))

    def back_from(self, wanted: dt.date) -> Dated | None:
        days = self.growing_days()
        if days is None:
            return None
        at = shift(wanted, -days)
        if at > midsummer(self.asked.southern, at.year) and self.falls_short(at, wanted):
            at = shift(at, -practice.FALL_FACTOR)
        why = f"{(wanted - at).days} days before the first harvest wanted on {wanted:%d %b}"
        return Dated(at, why, self.source("days_to_maturity"))

    def counted_back(self) -> Dated | None:
        """The latest start that is still picked before the first autumn frost."""
        days, frost = self.growing_days(), self.frosts.first
        if days is None:
            return None
        if frost is None:
            self.missing.append(f"The first autumn frost is not given: {self.name} cannot be counted back")
            return None
        harvest = counted_harvest(self.number)
        at = count_back(frost, days, 0, harvest, practice.tender(self.crop))
        why = (
            f"Counted back from the first autumn frost ({frost:%d %b}): {days:g} days to harvest, "
            f"{harvest:g} of harvest, fall factor {practice.FALL_FACTOR}"
            + (f", {practice.FALL_FACTOR} more for a crop frost kills" if practice.tender(self.crop) else "")
        )
        return Dated(at, why, FALL_SOURCE)

    def growing_days(self) -> float | None:
        """Days on its plot until the first harvest."""
        return days_on_plot(self.number, self.crop, self.start)

    def check_window(self, on: Dated | None) -> None:
        """Say where a day given by hand leaves the crop's window, or the soil is too cold."""
        if on is None:
            return
        if on.origin != "worked out" and not self.stays_for_years and not self.asked.sheltered:
            begin, end, frost = self.window(False), self.window(False, "until"), self.frosts.last
            fits = frost is None or self.autumn_fits(on)
            if begin and frost and not fits and on.day < shift(frost, 7 * begin[0] - practice.OUTSIDE):
                opens = f"{shift(frost, 7 * begin[0]):%d %b}"
                self.doubts.append(
                    f"{self.name} starts on {on.day:%d %b}, before its window opens on {opens}"
                )
            elif end and frost and not fits and on.day > shift(frost, 7 * end[0] + practice.OUTSIDE):
                closed = f"{shift(frost, 7 * end[0]):%d %b}"
                self.doubts.append(
                    f"{self.name} starts on {on.day:%d %b}, after its window closed on {closed}"
                )
        least = self.number("soil_least")
        if self.start == "sown" and least is not None and not self.asked.sheltered:
            mean = mean_on(self.asked.climate, on.day)
            if mean is not None and mean < least - 0.05:
                self.doubts.append(
                    f"The soil is about {mean:.0f} °C on {on.day:%d %b}, judged by the mean air temperature; "
                    f"{self.name} needs {least:g} °C to come up"
                )

    def autumn_fits(self, on: Dated) -> bool:
        begin, end, frost = self.window(True), self.window(True, "until"), self.frosts.autumn
        if begin is None or end is None or frost is None:
            return False
        early, late = 7 * begin[0] - 2 * practice.OUTSIDE, 7 * end[0] + 2 * practice.OUTSIDE
        return shift(frost, early) <= on.day <= shift(frost, late)

    def falls_short(self, on: dt.date, harvest: dt.date) -> bool:
        """Whether it was started after midsummer and ripens when nights are longer than days."""
        longest = self.longest_after(shift(on, -200))
        return longest <= on and harvest >= autumn_equinox_after(longest, self.asked.southern)

    def longest_after(self, day: dt.date) -> dt.date:
        """The next longest day on or after a day."""
        return longest_day_after(day, self.asked.southern)
