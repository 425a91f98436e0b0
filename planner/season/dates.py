"""Dates of a planting for every way it may start.

Forward from the last spring frost at the chosen risk with the crop's windows, or backward from a
wanted first harvest or from the first autumn frost.  What was really done comes before what was
pinned by hand, that before what is worked out; every later date follows from the earlier ones.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.crops import Crop
from planner.garden import Climate, Done, Planting
from planner.garden.known import Known
from planner.season import ways
from planner.season.climate import Frosts, autumn_equinox_after, day_within, midsummer, shift
from planner.season.covers import cover_days
from planner.season.days import Dated, Dates
from planner.season.heat import (
    COOL_BASE,
    INDOORS,
    WARM_BASE,
    days_for,
    emergence,
    heat_between,
    mean_on,
)

FALL_SOURCE = "vce426334"


@dataclass(frozen=True)
class Asked:
    """What the dates of a planting depend on.

    Attributes
    ----------
    planting : Planting
    facts : Known
    climate : Climate
    frosts : Frosts
        Of the growing year the planting belongs to.
    harvest_frosts : Frosts
        Of the growing year asked for, where the planting stands for years.
    southern : bool
        Spring comes in September.
    done : tuple of Done
    sheltered : bool
        Under glass: frost neither kills it nor ends its harvest.
    """

    planting: Planting
    facts: Known
    climate: Climate
    frosts: Frosts
    harvest_frosts: Frosts
    southern: bool = False
    done: tuple[Done, ...] = ()
    sheltered: bool = False


def work_out(asked: Asked) -> Dates:
    """The dates of a planting."""
    return _Work(asked).dates()


def count_back(first_frost: dt.date, days: float, indoors: float, harvest: float, tender: bool) -> dt.date:
    """Latest sowing that is harvested before the first autumn frost.

    Days to harvest, days indoors, harvest period and a fall factor of 14 days for the short days of
    autumn, with 14 more for a crop that frost kills (Virginia Cooperative Extension 426-334).

    Examples
    --------
    >>> count_back(dt.date(2026, 10, 16), days=50, indoors=0, harvest=14, tender=True)
    datetime.date(2026, 7, 16)
    """
    factor = ways.FALL_FACTOR * (2 if tender else 1)
    return shift(first_frost, -(days + indoors + harvest + factor))


class _Work:
    """One planting being worked out, step by step."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.planting, self.facts, self.frosts = asked.planting, asked.facts, asked.frosts
        self.crop: Crop | None = asked.facts.crop
        self.name = self.crop.name if self.crop else self.planting.crop
        self.start = ways.start_of(self.planting, self.crop)
        self.stands = ways.stands_for_years(self.crop)
        self.done = {done.kind: done.date for done in asked.done}
        self.missing: list[str] = []
        self.doubts: list[str] = []
        self.ripens = True
        self.autumn = False

    # -- figures --------------------------------------------------------------------------------

    def number(self, field: str) -> float | None:
        return self.facts.number(field)

    def source(self, field: str) -> str:
        own = self.facts.variety
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

    def dates(self) -> Dates:
        pins = self.planting.pinned_dates
        raised = self.start == "raised"
        sow_pin = pins.sow or (self.planting.first if self.start == "sown" else None)
        sow = self.fixed("sow", sow_pin, "Sown") if raised or self.start == "sown" else None
        out: Dated | None = None
        if self.start != "sown":
            out = self.fixed("set out", pins.set_out or self.planting.first, "Set out")
        if self.start == "sown":
            sow = on = sow or self.first_day()
        elif raised:
            weeks = self.number("weeks_to_raise")
            if out is None and sow is not None and weeks is not None:
                why = f"{weeks:g} weeks after sowing"
                out = Dated(shift(sow.day, 7 * weeks), why, self.source("weeks_to_raise"))
            on = out = out or self.first_day()
            if sow is None and out is not None:
                weeks = self.need("weeks_to_raise", "time to raise is", "when to sow is not known")
                if weeks is not None:
                    why = f"{weeks:g} weeks before setting out"
                    sow = Dated(shift(out.day, -7 * weeks), why, self.source("weeks_to_raise"))
        elif self.start == "standing":
            on = out
        else:
            on = out = out or self.first_day()
        self.check_window(on)
        harvest = self.harvest(sow, on)
        return self.assembled(sow, out, on, harvest)

    def first_day(self) -> Dated | None:
        """The day it takes its plot, where neither done nor pinned."""
        wanted = self.planting.pinned_dates.first_harvest
        if wanted is not None:
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
        if self.stands or self.start not in ("sown", *ways._LIFTED) or days is None or days < ways.LONG_CROP:
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
            at = shift(at, -ways.FALL_FACTOR)
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
        harvest = min(self.number("harvest_days") or 0, ways.COUNTED_HARVEST)
        at = count_back(frost, days, 0, harvest, ways.tender(self.crop))
        why = (
            f"Counted back from the first autumn frost ({frost:%d %b}): {days:g} days to harvest, "
            f"{harvest:g} of harvest, fall factor {ways.FALL_FACTOR}"
            + (f", {ways.FALL_FACTOR} more for a crop frost kills" if ways.tender(self.crop) else "")
        )
        return Dated(at, why, FALL_SOURCE)

    def growing_days(self, say: bool = False) -> float | None:
        """Days on its plot until the first harvest."""
        days = self.number("days_to_maturity")
        if days is None:
            return None
        counted = self.crop.maturity_from.value if self.crop and self.crop.maturity_from else None
        indoors = 7 * (self.number("weeks_to_raise") or 0)
        if self.start == "sown" and counted == "setting out":
            return days + indoors
        if self.start in ("raised", "bought") and counted == "sowing":
            return max(days - indoors, round(days / 3))
        return days

    def check_window(self, on: Dated | None) -> None:
        """Say where a day given by hand leaves the crop's window, or the soil is too cold."""
        if on is None:
            return
        if on.origin != "worked out" and not self.stands and not self.asked.sheltered:
            begin, end, frost = self.window(False), self.window(False, "until"), self.frosts.last
            if (
                begin
                and frost is not None
                and on.day < shift(frost, 7 * begin[0])
                and not self.autumn_fits(on)
            ):
                self.doubts.append(
                    f"{self.name} starts on {on.day:%d %b}, before its window opens on "
                    f"{shift(frost, 7 * begin[0]):%d %b}"
                )
            elif end and frost is not None and on.day > shift(frost, 7 * end[0]) and not self.autumn_fits(on):
                self.doubts.append(
                    f"{self.name} starts on {on.day:%d %b}, after its usual window (until "
                    f"{shift(frost, 7 * end[0]):%d %b})"
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
        return shift(frost, 7 * begin[0] - 7) <= on.day <= shift(frost, 7 * end[0] + 7)

    # -- the harvest ------------------------------------------------------------------------------

    def harvest(self, sow: Dated | None, on: Dated | None) -> tuple[Dated | None, Dated | None]:
        pins = self.planting.pinned_dates
        kind = "lift and cure" if "lift and cure" in self.done else "pick"
        first = self.fixed(kind, pins.first_harvest, "Harvested from")
        last = self.fixed("", pins.last_harvest, "")
        if self.planting.purpose == "green manure" and first is None:
            return None, None
        if self.planting.purpose == "seed" and first is None:
            self.missing.append(
                f"{self.name} is grown for seed: days to ripe seed are not known; give its harvest by hand"
            )
            return None, None
        if first is None:
            first = self.first_of_year(on) if self.stands else self.first_harvest(sow, on)
        if first is None:
            return None, None
        if last is None:
            days = self.need("harvest_days", "length of harvest is", "when it is over is not known")
            if days is not None:
                why = f"{days:g} days of harvest"
                last = Dated(shift(first.day, max(days - 1, 0)), why, self.source("harvest_days"))
        if last is not None and last.day < first.day:
            last = Dated(first.day, "The first harvest is later than the last one given by hand")
        return first, self.cut_by_frost(first, last, on)

    def first_harvest(self, sow: Dated | None, on: Dated | None) -> Dated | None:
        days = self.growing_days()
        if days is None:
            self.need("days_to_maturity", "days to maturity are", "its harvest is not known")
            return None
        if on is None:
            return None
        heat = self.by_heat(on.day, days)
        if heat is not None:
            return heat
        counted = self.crop.maturity_from.value if self.crop and self.crop.maturity_from else None
        plain = shift(on.day, days)
        why = f"{days:g} days after {'sowing' if self.start == 'sown' else 'setting out'}"
        if self.start == "raised" and counted == "sowing" and sow is not None:
            whole = self.number("days_to_maturity") or 0
            plain, why = max(shift(sow.day, whole), on.day), f"{whole:g} days after sowing"
        source = self.source("days_to_maturity")
        if days >= ways.LONG_CROP or self.asked.sheltered:
            return Dated(plain, why, source)
        over = self.after_winter(on.day, plain, days)
        if over is not None:
            return over
        if self.falls_short(on.day, plain):
            plain = shift(plain, ways.FALL_FACTOR)
            why += f", and {ways.FALL_FACTOR} for the short days of autumn"
        return Dated(plain, why, source)

    def falls_short(self, on: dt.date, harvest: dt.date) -> bool:
        """Whether it was started after midsummer and ripens when nights are longer than days."""
        southern = self.asked.southern
        longest = day_within("12-21" if southern else "06-21", shift(on, -200))
        return longest <= on and harvest >= autumn_equinox_after(on, southern)

    def after_winter(self, on: dt.date, plain: dt.date, days: float) -> Dated | None:
        """Harvest of a crop that autumn catches small: it grows on when the crop is started in spring."""
        frost = self.frosts.first_after(shift(on, -60))
        if frost is None or on < shift(frost, -56) or plain <= shift(frost, 42):
            return None
        spring = self.frosts.last_after(on)
        if spring is None:
            return None
        weeks = self.window(False)
        resume = shift(spring, 7 * (weeks[0] if weeks else -4))
        if resume <= on:
            return None
        grown = max(0, (frost - on).days)
        at = shift(resume, max(days - grown, days / 3))
        why = (
            f"{days:g} days of growth, {grown} of them before the first frost; "
            f"it stands still over winter and grows on from {resume:%d %b}"
        )
        return Dated(max(at, plain), why, "practice")

    def by_heat(self, on: dt.date, days: float) -> Dated | None:
        """Harvest by degree-days: the heat of its usual season is reached again."""
        climate = self.asked.climate
        if not climate.by_heat or days >= ways.LONG_CROP or self.in_autumn():
            return None
        usual = self.window_day()
        base = WARM_BASE if ways.tender(self.crop) else COOL_BASE
        if usual is None:
            return None
        heat = heat_between(climate, usual.day, round(days), base)
        if not heat:
            return None
        found = days_for(climate, on, heat, base)
        if found is None:
            self.ripens = False
            self.doubts.append(f"{self.name} does not find the {heat:.0f} degree-days it needs")
            return None
        why = f"{found} days: {heat:.0f} degree-days over {base:.1f} °C, as in its usual season"
        return Dated(shift(on, found), why, self.source("days_to_maturity"))

    def first_of_year(self, on: Dated | None) -> Dated | None:
        """First harvest of the growing year asked for, of a planting that stands for years."""
        days, window = self.growing_days(), self.window(False)
        last = self.asked.harvest_frosts.last
        if days is None:
            self.need("days_to_maturity", "days to maturity are", "its harvest is not known")
            return None
        if window is not None and last is not None:
            usual = shift(last, 7 * window[0] + days)
            begins = shift(last, -200)
            at = day_within(f"{usual:%m-%d}", begins)
            words = "the season that follows from its usual planting"
        elif on is not None:
            at = shift(on.day, days)
            words = "the same days as in its first year"
            while self.asked.harvest_frosts.last is not None and at < shift(last or at, -200):
                at = shift(at, 365)
        else:
            return None
        if on is not None and at < shift(on.day, days - 30):
            return None  # too young yet
        return Dated(at, f"Each year, {words}", self.source("days_to_maturity"))

    def cut_by_frost(self, first: Dated, last: Dated | None, on: Dated | None) -> Dated | None:
        """End the harvest of a crop that frost kills, and say where it does not ripen in time."""
        if on is None or self.asked.sheltered or self.stands:
            return last
        frost = self.frosts.first_after(on.day)
        if frost is None:
            return last
        kills = ways.tender(self.crop)
        limit = frost if kills else shift(frost, ways.LIGHT_FROST)
        hardy = ways.very_hardy(self.crop) or self.crop is None or self.crop.hardiness is None
        wintered = first.day > shift(frost, 120)
        if first.day > limit and not hardy and (kills or not wintered):
            self.ripens = False
            self.doubts.append(
                f"{self.name} would ripen on {first.day:%d %b}, after the first autumn frost ({frost:%d %b})"
            )
        if kills and last is not None and last.origin == "worked out" and last.day >= frost > first.day:
            why = f"The first autumn frost ends the harvest (risk {self.frosts.risk} %)"
            return Dated(shift(frost, -1), why, "practice")
        return last

    # -- all together -----------------------------------------------------------------------------

    def assembled(
        self,
        sow: Dated | None,
        out: Dated | None,
        on: Dated | None,
        harvest: tuple[Dated | None, Dated | None],
    ) -> Dates:
        first, last = harvest
        clear = self.clear_day(on, first, last)
        up = self.emerge(sow, on)
        flower = self.flower(up, out, first)
        if clear is not None and first is not None and clear.day < first.day and not self.stands:
            self.doubts.append(
                f"{self.name} is cleared on {clear.day:%d %b}, before its first harvest ({first.day:%d %b})"
            )
        pins = self.planting.pinned_dates
        prick, harden = self.indoor_steps(sow, out, up)
        thin = self.fixed("thin", pins.thin, "Thinned")
        if (
            thin is None
            and self.start == "sown"
            and up is not None
            and ways.is_thinned(self.planting, self.facts)
        ):
            thin = Dated(shift(up.day, ways.THINNING), f"{ways.THINNING} days after it comes up", "practice")
        support = None
        if self.planting.support is not None:
            support = self.fixed("support up", pins.support_up, "Put up")
            if support is None and on is not None:
                support = Dated(on.day, "With sowing or setting out, before roots can be hurt", "practice")
        return Dates(
            start=self.start,
            stands=self.stands,
            sow=sow,
            prick_out=prick,
            harden_off=harden,
            set_out=out,
            emerge=up,
            thin=thin,
            support_up=support,
            mulch=self.mulch(on),
            earth_up=self.earth_up(on),
            flower=flower,
            first_harvest=first,
            last_harvest=last,
            clear=clear,
            covers=cover_days(self.planting, self.crop, self.done, on, flower, first, clear, self.stands),
            ripens=self.ripens,
            missing=tuple(self.missing),
            doubts=tuple(self.doubts),
        )

    def clear_day(self, on: Dated | None, first: Dated | None, last: Dated | None) -> Dated | None:
        clear = self.fixed("clear", self.planting.last, "Cleared")
        if clear is not None or self.stands:
            return clear
        if self.planting.purpose == "green manure" or self.number("days_to_maturity") is None:
            return self.dug_in(on)
        if last is not None:
            if not self.ripens and first is not None and ways.tender(self.crop) and on is not None:
                frost = self.frosts.first_after(on.day)
                if frost is not None and last.day > frost:
                    return Dated(max(frost, on.day), "Killed by the first autumn frost", "practice")
            return Dated(last.day, "When the harvest is over")
        return None

    def dug_in(self, on: Dated | None) -> Dated | None:
        """When a green manure is dug in: before it flowers, or in spring where it stands over winter."""
        if on is None:
            return None
        days = self.number("days_to_maturity")
        frost = self.frosts.first_after(shift(on.day, -60))
        late = frost is not None and on.day > shift(frost, -70)
        spring = self.frosts.last_after(shift(on.day, 60))
        if late and spring is not None and ways.very_hardy(self.crop):
            why = f"{ways.DIGGING_IN} days before the last spring frost, ahead of the next crop"
            return Dated(shift(spring, -ways.DIGGING_IN), why, "practice")
        if days is None:
            if self.planting.purpose == "green manure":
                self.missing.append(f"No days to flower are known for {self.name}: give its last day by hand")
            return None
        return Dated(shift(on.day, days), "When it comes into flower", self.source("days_to_maturity"))

    def emerge(self, sow: Dated | None, on: Dated | None) -> Dated | None:
        if self.start in ("standing", "bought"):
            return None
        begun = sow or on
        if begun is None:
            return None
        warm = INDOORS if self.start == "raised" else mean_on(self.asked.climate, begun.day)
        days = emergence(self.crop.emergence_days if self.crop else None, warm) if sow is not None else None
        if days is None:
            return Dated(shift(begun.day, ways.EMERGENCE), f"About {ways.EMERGENCE} days", "estimate")
        why = f"{days:.0f} days at {warm:.0f} °C" + (
            "" if self.start == "raised" else ", the mean air temperature"
        )
        return Dated(shift(begun.day, days), why, self.source("emergence_days"))

    def indoor_steps(
        self, sow: Dated | None, out: Dated | None, up: Dated | None
    ) -> tuple[Dated | None, Dated | None]:
        if self.start != "raised" or out is None:
            return None, None
        pins = self.planting.pinned_dates
        harden = self.fixed("harden off", pins.harden_off, "Begun")
        if harden is None:
            why = f"{ways.HARDENING} days before setting out"
            at = shift(out.day, -ways.HARDENING)
            harden = Dated(max(at, sow.day) if sow else at, why, "practice")
        prick = self.fixed("prick out", pins.prick_out, "Pricked out")
        weeks = self.number("weeks_to_raise") or 0
        if prick is None and up is not None and weeks >= ways.PRICKED_FROM:
            at = shift(up.day, ways.PRICKING)
            if at < harden.day:
                prick = Dated(at, f"{ways.PRICKING} days after it comes up", "practice")
        return prick, harden

    def flower(self, up: Dated | None, out: Dated | None, first: Dated | None) -> Dated | None:
        needs = self.crop is not None and self.crop.needs_pollination is not None
        if not needs or self.crop is None or not self.crop.needs_pollination or first is None:
            return None
        if not self.crop.needs_pollination.value or self.stands:
            return None
        begin = out or up
        if begin is None or first.day <= begin.day:
            return None
        days = (first.day - begin.day).days * ways.FLOWERING
        why = f"About half way from {'setting out' if out else 'coming up'} to the first harvest"
        return Dated(shift(begin.day, days), why, "estimate")

    def mulch(self, on: Dated | None) -> Dated | None:
        if "mulch" in self.done:
            return Dated(self.done["mulch"], "Mulched on this day", "", "done")
        last = self.asked.harvest_frosts.last
        if self.stands and last is not None:
            at = shift(last, -ways.SPRING_MULCH)
            if on is None or at > on.day:
                return Dated(at, f"{ways.SPRING_MULCH} days before the last spring frost", "practice")
        if self.start == "cloves" and on is not None and self.frosts.last is not None:
            spring = self.frosts.last_after(on.day)
            if spring is not None and (spring - on.day).days > 100:
                return Dated(shift(on.day, ways.MULCHING), f"{ways.MULCHING} days after planting", "practice")
        return None

    def earth_up(self, on: Dated | None) -> Dated | None:
        if "earth up" in self.done:
            return Dated(self.done["earth up"], "Earthed up on this day", "", "done")
        if self.planting.crop not in ways.EARTHED or self.start != "tubers" or on is None:
            return None
        return Dated(shift(on.day, ways.EARTHING), f"{ways.EARTHING} days after planting", "practice")
