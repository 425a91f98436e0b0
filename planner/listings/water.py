"""The water that beds need, as lines: the year, the weeks, a tank and drip lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

import numpy as np

from planner.amounts.drip import drip_beds, drip_zones
from planner.amounts.tank import Tank
from planner.amounts.watering import BedWatering
from planner.garden import Bed
from planner.garden.site import UnitSystem
from planner.garden.units import show_length, show_spacing
from planner.garden.volumes import show_depth_of_water, show_water
from planner.listings.phrases import days_in_short
from planner.plan import Plan
from planner.plan.water import BedWater, GardenWater, garden_water
from planner.words import join_list, number_words, say, say_count


def basis_words(water: GardenWater) -> list[str]:
    """What the need rests on, a sentence each: the recorded years, or that it is rough.

    Parameters
    ----------
    water : GardenWater
    """
    weather = water.weather
    if weather.rough:
        return [
            say(
                "Rough: no daily weather is kept, so the need is told from mean temperatures and before rain; read a daily weather table for the years of your place."
            )
        ]
    first, last = weather.years[0], weather.years[-1]
    lines = [
        say_count(
            "From {count} recorded year, {first} to {last}.",
            "From {count} recorded years, {first} to {last}.",
            len(weather.years),
            first=str(first),
            last=str(last),
        )
    ]
    if not weather.rain_known:
        lines.append(say("No rain was recorded: the need is told before rain."))
    if weather.filled:
        lines.append(
            say_count(
                "{count} missing day is filled by the mean of the day, and taken as dry.",
                "{count} missing days are filled by the means of their days, and taken as dry.",
                weather.filled,
            )
        )
    if weather.left_out:
        lines.append(
            say_count(
                "{count} year is left out: too many of its days are missing.",
                "{count} years are left out: too many of their days are missing.",
                weather.left_out,
            )
        )
    return lines


def every_words(days: float) -> str:
    """How often to water: ``every day``, ``every 3 days``.

    Parameters
    ----------
    days : float
        By soil and roots, at least 1.
    """
    whole = max(round(days), 1)
    return say("every day") if whole == 1 else say_count("every {count} day", "every {count} days", whole)


def bed_rows(water: GardenWater, beds: Iterable[BedWater], units: UnitSystem) -> list[tuple[str, ...]]:
    """Of each bed its name, need of the median and the dry year, the thirstiest week with its need, and how often.

    Parameters
    ----------
    water : GardenWater
    beds : iterable of BedWater
    units : {"metric", "feet_inches"}
    """
    rows: list[tuple[str, ...]] = []
    for one in beds:
        sums = one.litres.sum(axis=0)
        week = int(one.dry.argmax())
        monday = water.weeks[week]
        rows.append(
            (
                one.bed.name,
                show_water(float(np.median(sums)), units),
                show_water(float(np.quantile(sums, 0.8)), units),
                days_in_short(monday, monday + dt.timedelta(days=6)),
                show_water(float(one.dry[week]), units),
                every_words(float(one.interval[week])),
            )
        )
    return rows


def bed_heads() -> tuple[str, ...]:
    """Heads of :func:`bed_rows`."""
    return (
        say("bed"),
        say("a year"),
        say("dry year"),
        say("thirstiest week"),
        say("in it, when dry"),
        say("water"),
    )


def table_lines(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows under heads, in columns; the first is set to the left, the others too."""
    widths = [max(len(heads[place]), *(len(row[place]) for row in rows)) for place in range(len(heads))]
    return [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in (heads, *rows)
    ]


def tank_words(tank: Tank, units: UnitSystem) -> str:
    """What a tank is good for, in a sentence.

    Parameters
    ----------
    tank : Tank
    units : {"metric", "feet_inches"}
    """
    volume = show_water(tank.volume, units)
    if tank.weeks:
        return say_count(
            "Tank: {volume} hold the need of the driest {count} week of a dry year. Draw a shed or glasshouse for what its roof gathers.",
            "Tank: {volume} hold the need of the driest {count} weeks of a dry year. Draw a shed or glasshouse for what its roof gathers.",
            tank.weeks,
            volume=volume,
        )
    share = number_words(100 * tank.met, 0)
    gathered = show_water(tank.yearly, units)
    if tank.enough:
        return say(
            "Tank: with {volume} it lasts in eight years of ten; the roofs gather {gathered} a year and meet {share} % of the need.",
            volume=volume,
            gathered=gathered,
            share=share,
        )
    return say(
        "Tank: the roofs gather {gathered} a year, less than is needed; with {volume} they meet {share} % of the need, and a larger one catches hardly more.",
        gathered=gathered,
        volume=volume,
        share=share,
    )


def drip_lines_words(plan: Plan) -> list[str]:
    """Drip lines by zone, a line each; empty without any."""
    units = plan.garden.site.units
    lines = []
    for number, zone in enumerate(drip_zones(plan), 1):
        length = sum(part.length for one in zone.beds for part in one.plantings)
        emitters = sum(part.emitters for one in zone.beds for part in one.plantings)
        spacings = sorted({one.spacing for one in zone.beds})
        lines.append(
            say(
                "Zone {number}: {beds}; {length} of drip line with {emitters} emitters {spacing} apart, {flow} an hour.",
                number=str(number),
                beds=join_list(one.bed.name for one in zone.beds),
                length=show_length(length, units),
                emitters=number_words(emitters, 0),
                spacing=join_list(show_spacing(one, units) for one in spacings),
                flow=show_water(zone.flow, units),
            )
        )
    return lines


def watering_words(one: BedWatering, units: UnitSystem) -> str:
    """The watering of a bed in a week, in a line: how deep, how much, how often, how long the lines run.

    Parameters
    ----------
    one : BedWatering
    units : {"metric", "feet_inches"}
    """
    words = say(
        "{depth}, {volume} in the week, {often}",
        depth=show_depth_of_water(one.millimetres, units),
        volume=show_water(one.litres, units),
        often=every_words(one.every),
    )
    if one.hours is not None:
        words = say("{words}; drip lines {time}", words=words, time=run_time(one.hours))
    return words


def watered_beds_words(found: Sequence[BedWatering], units: UnitSystem) -> str:
    """Watering of a week among its work, in a line: what it takes in all, and of each bed.

    Parameters
    ----------
    found : sequence of BedWatering
        Of the week.
    units : {"metric", "feet_inches"}
    """
    beds = [
        say(
            "{bed} {volume} {often}",
            bed=one.bed.name,
            volume=show_water(one.litres, units),
            often=every_words(one.every),
        )
        for one in found
    ]
    total = show_water(sum(one.litres for one in found), units)
    return say("Water, {volume} in all: {beds}", volume=total, beds=", ".join(beds))


def bed_water_lines(plan: Plan, bed: Bed) -> list[str]:
    """What is said of water on a bed's sheet: its year, its thirstiest week, and its drip lines; empty where no daily weather is kept.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    """
    water = garden_water(plan) if plan.garden.weather.years else None
    one = water.bed(bed.id) if water is not None else None
    if water is None or one is None or one.litres.max() < 1.0:
        return []
    units = plan.garden.site.units
    _, median, dry, week, most, often = bed_rows(water, [one], units)[0]
    lines = [
        say("{median} in the median year, {dry} in a dry one.", median=median, dry=dry),
        say("Thirstiest week {days}, in a dry year: {volume}, {often}.", days=week, volume=most, often=often),
    ]
    drip = next((found for found in drip_beds(plan) if found.bed.id == bed.id), None)
    if drip is not None:
        words = say(
            "Drip lines: {length} with emitters {spacing} apart.",
            length=show_length(sum(part.length for part in drip.plantings), units),
            spacing=show_spacing(drip.spacing, units),
        )
        hours = drip.hours(float(one.dry.max()), week_of=water.weeks[int(one.dry.argmax())])
        if hours is not None:
            words = say("{words} In that week they run {time}.", words=words, time=run_time(hours))
        lines.append(words)
    return lines


def run_time(hours: float) -> str:
    """How long lines run: ``40 min``, ``2.5 h``."""
    if hours < 1.0:
        return say("{minutes} min", minutes=str(max(5, round(hours * 12) * 5)))
    return say("{hours} h", hours=number_words(hours, 1))


def rain_words(plan: Plan, found: Sequence[BedWatering], recorded: int | None = None) -> str:
    """What of the rain is reckoned in a week, in a sentence.

    Parameters
    ----------
    plan : Plan
    found : sequence of BedWatering
        Of the week.
    recorded : int, optional
        Calendar year of the recorded year that it is of.
    """
    units = plan.garden.site.units
    if recorded is not None:
        return say("As in {year}, by its recorded weather.", year=str(recorded))
    rain = next((one.rain for one in found if one.rain is not None), None)
    if rain is None:
        example = say("rain 12 mm") if units == "metric" else say("rain 0.5 in")
        if not plan.garden.weather.years:
            return say(
                "By mean temperatures, before rain; write rain down, as {example}, and it is taken off.",
                example=example,
            )
        return say(
            "As in the median of the recorded years; write rain down, as {example}, and it is taken off.",
            example=example,
        )
    return say("{rain} of rain written down are taken off.", rain=show_depth_of_water(rain, units))


def week_lines(
    plan: Plan, monday: dt.date, found: Sequence[BedWatering], recorded: int | None = None
) -> list[str]:
    """The watering of a week, a line a bed.

    Parameters
    ----------
    plan : Plan
    monday : date
    found : sequence of BedWatering
        Of that week.
    recorded : int, optional
        Calendar year of the recorded year that it is of.
    """
    units = plan.garden.site.units
    days = days_in_short(monday, monday + dt.timedelta(days=6))
    if not found:
        return [say("{days}: nothing is to be watered", days=days)]
    total = sum(one.litres for one in found)
    head = say("{days}: {volume} in all", days=days, volume=show_water(total, units))
    width = max(len(one.bed.name) for one in found)
    return [
        head,
        *(f"  {one.bed.name:{width}}  {watering_words(one, units)}" for one in found),
        rain_words(plan, found, recorded),
    ]


def water_lines(plan: Plan, water: GardenWater, beds: Sequence[BedWater], tank: Tank) -> list[str]:
    """The year of the beds, a tank and the drip lines.

    Parameters
    ----------
    plan : Plan
    water : GardenWater
    beds : sequence of BedWater
        Those that are listed.
    tank : Tank
    """
    units = plan.garden.site.units
    lines = [say("Water of {year}", year=str(plan.year)), *basis_words(water)]
    if not beds:
        return [*lines, say("Nothing grows in {year}.", year=str(plan.year))]
    lines += ["", *table_lines(bed_heads(), bed_rows(water, beds, units))]
    sums = np.sum([one.litres for one in beds], axis=0).sum(axis=0)
    lines += [
        "",
        say(
            "In all {median} in the median year, {dry} in a dry one, of which eight years of ten need less.",
            median=show_water(float(np.median(sums)), units),
            dry=show_water(float(np.quantile(sums, 0.8)), units),
        ),
        tank_words(tank, units),
        *drip_lines_words(plan),
    ]
    assumed = [one.bed.name for one in beds if one.texture_assumed]
    if assumed:
        lines.append(
            say(
                "The soil of {beds} is not known: loam, in containers potting mix, is taken.",
                beds=join_list(assumed)
                if len(assumed) <= 4
                else say_count("{count} bed", "{count} beds", len(assumed)),
            )
        )
    kin = sorted(
        {
            crop.name if (crop := plan.figures_of(part.planting).crop) is not None else part.planting.crop
            for one in beds
            for part in one.plantings
            if part.inputs.row.kin
        }
    )
    if kin:
        lines.append(say("By the figures of their nearest kin, an estimate: {crops}.", crops=join_list(kin)))
    return lines
