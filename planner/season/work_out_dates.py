"""Dates of a planting for every way it may start.

Forward from the last spring frost at the chosen risk with the crop's windows, or backward from a
wanted first harvest or from the first autumn frost.  What was really done comes before what was
pinned by hand, that before what is worked out; every later date follows from the earlier ones.
"""

from __future__ import annotations

from planner.season import practice
from planner.season.covers import cover_days
from planner.season.frosts import shift
from planner.season.planting_dates import Dated, Dates
from planner.season.ripening import Ripening
from planner.season.starting import DateInputs, count_back

__all__ = ["DateInputs", "count_back", "work_out"]


def work_out(asked: DateInputs) -> Dates:
    """The dates of a planting."""
    return _Work(asked).dates()


class _Work(Ripening):
    """One planting being worked out, step by step."""

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
        early = clear is not None and first is not None and clear.day < first.day
        if clear is not None and first is not None and early and self.ripens and not self.stays_for_years:
            self.doubts.append(
                f"{self.name} is cleared on {clear.day:%d %b}, before its first harvest ({first.day:%d %b})"
            )
        if clear is not None and last is not None and last.day > clear.day and last.origin == "worked out":
            last = Dated(clear.day, "Cleared then") if first is not None and first.day <= clear.day else None
        if on is not None and first is not None and first.day < on.day and not self.stays_for_years:
            self.doubts.append(
                f"{self.name} is harvested from {first.day:%d %b %Y}, before it starts ({on.day:%d %b %Y}): "
                "give its first day, or tick off when it was started"
            )
        pins = self.planting.pinned_dates
        prick, harden = self.indoor_steps(sow, out, up)
        thin = self.fixed("thin", pins.thin, "Thinned")
        if (
            thin is None
            and self.start == "sown"
            and up is not None
            and practice.is_thinned(self.planting, self.figures)
        ):
            at = shift(up.day, practice.THINNING)
            if on is not None and first is not None and first.origin == "worked out":
                at = max(up.day, min(at, shift(on.day, (first.day - on.day).days / 2)))
            thin = Dated(at, f"{(at - up.day).days} days after it comes up", "practice")
        support = None
        if self.planting.support is not None:
            support = self.fixed("support up", pins.support_up, "Put up")
            if support is None and on is not None:
                support = Dated(on.day, "With sowing or setting out, before roots can be hurt", "practice")
        return Dates(
            start=self.start,
            stays_for_years=self.stays_for_years,
            sow=sow,
            prick_out=prick,
            harden_off=harden,
            set_out=out,
            emerge=up,
            thin=thin,
            support_up=support,
            mulch=self.mulch(on),
            earth_up=self.earth_up(up),
            flower=flower,
            first_harvest=first,
            last_harvest=last,
            clear=clear,
            covers=cover_days(
                self.planting, self.crop, self.done, on, flower, first, clear, self.stays_for_years
            ),
            heat=self.heat,
            ripens=self.ripens,
            missing=tuple(self.missing),
            doubts=tuple(self.doubts),
        )

    def clear_day(self, on: Dated | None, first: Dated | None, last: Dated | None) -> Dated | None:
        clear = self.fixed("clear", self.planting.last, "Cleared")
        if clear is not None or self.stays_for_years:
            return clear
        if self.planting.purpose == "green manure" or self.number("days_to_maturity") is None:
            return self.dug_in(on)
        if last is not None:
            if not self.ripens and first is not None and practice.tender(self.crop) and on is not None:
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
        if late and spring is not None and practice.very_hardy(self.crop):
            why = f"{practice.DIGGING_IN} days before the last spring frost, ahead of the next crop"
            return Dated(shift(spring, -practice.DIGGING_IN), why, "practice")
        if days is None:
            if self.planting.purpose == "green manure":
                self.missing.append(f"No days to flower are known for {self.name}: give its last day by hand")
            return None
        return Dated(shift(on.day, days), "When it comes into flower", self.source("days_to_maturity"))

    def indoor_steps(
        self, sow: Dated | None, out: Dated | None, up: Dated | None
    ) -> tuple[Dated | None, Dated | None]:
        if self.start != "raised" or out is None:
            return None, None
        pins = self.planting.pinned_dates
        harden = self.fixed("harden off", pins.harden_off, "Begun")
        if harden is None:
            why = f"{practice.HARDENING} days before setting out"
            at = shift(out.day, -practice.HARDENING)
            harden = Dated(max(at, sow.day) if sow else at, why, "practice")
        prick = self.fixed("prick out", pins.prick_out, "Pricked out")
        weeks = self.number("weeks_to_raise") or 0
        if prick is None and up is not None and weeks >= practice.PRICKED_FROM:
            at = shift(up.day, practice.PRICKING)
            if at < harden.day:
                prick = Dated(at, f"{practice.PRICKING} days after it comes up", "practice")
        return prick, harden

    def flower(self, up: Dated | None, out: Dated | None, first: Dated | None) -> Dated | None:
        needs = self.crop is not None and self.crop.needs_pollination is not None
        if not needs or self.crop is None or not self.crop.needs_pollination or first is None:
            return None
        if not self.crop.needs_pollination.value:
            return None
        if self.stays_for_years:
            why = f"{practice.SETTING} days before the first harvest"
            return Dated(shift(first.day, -practice.SETTING), why, "estimate")
        begin = out or up
        if begin is None or first.day <= begin.day:
            return None
        if self.planting.crop in practice.PICKED_YOUNG and (first.day - begin.day).days > 2 * practice.YOUNG:
            return Dated(
                shift(first.day, -practice.YOUNG),
                f"{practice.YOUNG} days before the first harvest",
                "practice",
            )
        days = (first.day - begin.day).days * practice.FLOWERING
        why = f"About half way from {'setting out' if out else 'coming up'} to the first harvest"
        return Dated(shift(begin.day, days), why, "estimate")

    def mulch(self, on: Dated | None) -> Dated | None:
        if "mulch" in self.done:
            return Dated(self.done["mulch"], "Mulched on this day", "", "done")
        last = self.asked.harvest_frosts.last
        if self.stays_for_years and last is not None:
            at = shift(last, -practice.SPRING_MULCH)
            if on is None or at > on.day:
                return Dated(at, f"{practice.SPRING_MULCH} days before the last spring frost", "practice")
        if self.start == "cloves" and on is not None and self.frosts.last is not None:
            spring = self.frosts.last_after(on.day)
            if spring is not None and (spring - on.day).days > 100:
                return Dated(
                    shift(on.day, practice.MULCHING), f"{practice.MULCHING} days after planting", "practice"
                )
        return None

    def earth_up(self, up: Dated | None) -> Dated | None:
        if "earth up" in self.done:
            return Dated(self.done["earth up"], "Earthed up on this day", "", "done")
        if self.planting.crop not in practice.EARTHED or self.start != "tubers" or up is None:
            return None
        return Dated(
            shift(up.day, practice.EARTHING), f"{practice.EARTHING} days after it comes up", "practice"
        )
