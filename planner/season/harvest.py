"""When a planting is harvested, and whether it ripens in time."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.frosts import day_within, shift, zone_minimum
from planner.season.heat import (
    COOL_BASE,
    INDOORS,
    WARM_BASE,
    days_for,
    emergence,
    emergence_outdoors,
    heat_between,
)
from planner.season.planting_dates import Dated
from planner.season.warmth import Warmth


class Ripening(Warmth):
    """The harvest of one planting."""

    def harvest(self, sow: Dated | None, on: Dated | None) -> tuple[Dated | None, Dated | None]:
        pins = self.planting.pinned_dates
        kind = "lift and cure" if "lift and cure" in self.done else "pick"
        first = self.fixed(kind, pins.first_harvest, "Harvested from")
        last = self.fixed("", pins.last_harvest, "")
        if self.stays_for_years:  # days given by hand are those of one year
            first = first if first is not None and self.this_year(first.day) else None
            last = last if last is not None and self.this_year(last.day) else None
        if self.planting.purpose == "green manure" and first is None:
            return None, None
        if self.planting.purpose == "seed" and first is None:
            self.missing.append(
                f"{self.name} is grown for seed: days to ripe seed are not known; give its harvest by hand"
            )
            return None, None
        if first is None:
            first = self.first_of_year(on) if self.stays_for_years else self.first_harvest(sow, on)
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
        if days >= practice.LONG_CROP:
            return self.by_day_length(on.day, days) or self.by_days(sow, on, days)
        self.heat = self.heat_sum(on.day, days)
        first = self.by_heat(on.day, days) or self.by_days(sow, on, days)
        return self.by_warmth(on.day, days, first.day) or first

    def by_days(self, sow: Dated | None, on: Dated, days: float) -> Dated:
        """Harvest by the days to maturity, and what winter and short days do to them."""
        counted = self.crop.maturity_from.value if self.crop and self.crop.maturity_from else None
        plain = shift(on.day, days)
        why = f"{days:g} days after {'sowing' if self.start == 'sown' else 'setting out'}"
        if self.start == "raised" and counted == "sowing" and sow is not None:
            whole = self.number("days_to_maturity") or 0
            plain, why = max(shift(sow.day, whole), on.day), f"{whole:g} days after sowing"
        source = self.source("days_to_maturity")
        up = self.emerge(sow, on) if self.start == "sown" else None
        if (
            up is not None
            and up.origin == "worked out"
            and shift(up.day, practice.AFTER_EMERGENCE * days) > plain
        ):
            plain, why = (
                shift(up.day, practice.AFTER_EMERGENCE * days),
                f"{why}, and it comes up late in the cold",
            )
        if days >= practice.LONG_CROP or self.asked.sheltered:
            return Dated(plain, why, source)
        over = self.after_winter(on.day, plain, days)
        if over is not None:
            return over
        if self.falls_short(on.day, plain):
            plain = shift(plain, practice.FALL_FACTOR)
            why += f", and {practice.FALL_FACTOR} for the short days of autumn"
        long = self.in_long_days(plain)
        return Dated(long, why if long == plain else "When the days are long again", source)

    def emerge(self, sow: Dated | None, on: Dated | None) -> Dated | None:
        if self.start in ("standing", "bought"):
            return None
        begun = sow or on
        if begun is None:
            return None
        tubers = self.start == "tubers"
        series = self.crop.emergence_days if self.crop and (sow is not None or tubers) else None
        source = self.source("emergence_days")
        if self.start == "raised":
            days = emergence(series, INDOORS)
            if days is not None:
                return Dated(shift(begun.day, days), f"{days:.0f} days at {INDOORS:.0f} °C", source)
        else:
            outdoors = emergence_outdoors(series, self.asked.climate, begun.day)
            if outdoors is not None:
                why = f"{outdoors} days, judged by the mean air temperature"
                return Dated(shift(begun.day, outdoors), why, source)
        usual = practice.TUBERS_EMERGE if tubers else practice.EMERGENCE
        return Dated(shift(begun.day, usual), f"About {usual} days", "estimate")

    def by_day_length(self, on: dt.date, days: float) -> Dated | None:
        """Harvest of cloves, which ripen in long days wherever they are planted; None of what does not."""
        if self.stays_for_years or self.start not in practice.LIFTED:
            return None
        longest = self.longest_after(on)
        frost, window = self.frosts.last_after(shift(longest, -250)), self.window(autumn=True)
        ripe = shift(longest, -practice.BEFORE_LONGEST)
        if frost is not None and frost <= longest:
            ripe = max(ripe, shift(frost, practice.AFTER_FROST))
        if (longest - on).days > 183:
            if shift(on, days) <= ripe:
                return None
            return Dated(ripe, "Planted in autumn, it ripens as the days grow long", "practice")
        autumn = self.frosts.first_after(shift(on, -365))
        if autumn is not None and window is not None:
            ripe = min(ripe, shift(autumn, 7 * window[0] + days))
        later = shift(ripe, practice.SPRING_CLOVES_LATER)
        if later < shift(on, practice.SPRING_CLOVES):
            self.doubts.append(
                f"{self.name} has little time to grow before the days shorten: its bulbs stay small"
            )
        at = max(later, shift(on, practice.SPRING_CLOVES))
        return Dated(at, "Planted in spring, it ripens soon after what was planted in autumn", "practice")

    def in_long_days(self, plain: dt.date) -> dt.date:
        """The day bulbs are ripe: what autumn's short days would ripen waits for the long ones."""
        if self.planting.crop not in practice.LONG_DAY_BULBS or self.start != "sets":
            return plain
        longest = self.longest_after(shift(plain, -90))
        return plain if abs((longest - plain).days) <= 90 else max(plain, longest)

    def after_winter(self, on: dt.date, plain: dt.date, days: float) -> Dated | None:
        """Harvest of a crop that autumn catches small: it grows on when the crop is started in spring."""
        if practice.tender(self.crop):
            return None  # the frost ends it
        frost = self.frosts.first_after(shift(on, -60))
        if frost is None:
            return None
        late = shift(plain, practice.FALL_FACTOR) if self.falls_short(on, plain) else plain
        bears = 42 if practice.very_hardy(self.crop) else practice.LIGHT_FROST
        begun = -84 if self.kept_over_winter(frost) else -56
        if late <= shift(frost, bears) or on < shift(frost, begun):
            return None
        behind = self.frosts.last_after(frost)
        if on > frost and behind is not None and behind <= shift(on, practice.WINTER_OVER):
            return None  # that winter is over, or nearly
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

    def kept_over_winter(self, frost: dt.date) -> bool:
        """Whether the gardener gave it a last day beyond the winter."""
        return self.planting.last is not None and self.planting.last > shift(frost, practice.BEYOND_WINTER)

    def by_heat(self, on: dt.date, days: float) -> Dated | None:
        """Harvest by degree-days: the heat of its usual season is reached again."""
        climate = self.asked.climate
        if not climate.by_heat or self.in_autumn():
            return None
        usual = self.window_day()
        base = WARM_BASE if practice.tender(self.crop) else COOL_BASE
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
        set_late = on is not None and self.longest_after(shift(on.day, -120)) <= on.day
        if set_late and self.planting.crop in practice.SUMMER_SET:
            days = min(days, practice.BEAR_AFTER_WINTER)
        if on is not None and at < shift(on.day, days - 30):
            return None  # too young yet
        return Dated(at, f"Each year, {words}", self.source("days_to_maturity"))

    def cut_by_frost(self, first: Dated, last: Dated | None, on: Dated | None) -> Dated | None:
        """End the harvest of a crop that frost kills, and say where it does not ripen in time."""
        if on is None or self.asked.sheltered or self.stays_for_years:
            return last
        frost = self.frosts.first_after(on.day)
        if frost is None:
            return last
        kills = practice.tender(self.crop)
        limit = frost if kills else shift(frost, practice.LIGHT_FROST)
        shoots = practice.frost_cuts_shoots(self.planting.crop, self.start)
        hardy = not shoots and (
            self.bears_winter()
            or practice.very_hardy(self.crop)
            or self.crop is None
            or self.crop.hardiness is None
        )
        wintered = first.day > shift(frost, practice.BEYOND_WINTER)
        if first.day > limit and not hardy and (kills or not wintered):
            self.ripens = False
            self.doubts.append(
                f"{self.name} would ripen on {first.day:%d %b}, after the first autumn frost ({frost:%d %b})"
            )
        if kills and last is not None and last.origin == "worked out" and last.day >= frost > first.day:
            why = f"The first autumn frost ends the harvest (risk {self.frosts.risk} %)"
            return Dated(shift(frost, -1), why, "practice")
        return last

    def bears_winter(self) -> bool:
        """Whether it bears the coldest night of the garden's zone, and so grows on."""
        cold, bears = zone_minimum(self.asked.climate.zone), self.number("least_night_temperature")
        return (
            not practice.tender(self.crop)
            and cold is not None
            and bears is not None
            and bears <= cold + practice.BEARS
        )
