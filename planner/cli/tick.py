"""``bedwright tick``: tick work off with the day on which it was really done."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_beds, add_garden_and_year, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import print_lines
from planner.cli.plans import plan_at
from planner.cli.suggestions import either
from planner.words import full_day_words, join_list, say, say_count

if TYPE_CHECKING:
    from planner.plan import Plan
    from planner.season.tasks import Task

#: So many plantings are listed where it is not clear which one is meant.
_MOST_LISTED = 8
NAME = "tick"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Tick work off with the day on which it was done")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, work, day, and what says on which planting it was done."""
    add_garden_and_year(parser)
    parser.add_argument("work", metavar="WORK", help=say("its kind, as 'earth up': a word of tasks --json"))
    parser.add_argument("on", metavar="D", type=day, help=say("the day, as 2026-04-12 or 12 Apr"))
    parser.add_argument(
        "--planting", metavar="ID", help=say("the planting or dressing, by its id in tasks --json")
    )
    add_beds(parser, say("the planting in this bed, by name or id"))
    parser.add_argument("--crop", metavar="NAME", help=say("the planting of this crop, by name or key"))
    parser.add_argument("--cover", metavar="KIND", help=say("of work on covers: the cover, as fleece"))
    parser.add_argument(
        "--undo",
        action="store_true",
        help=say("take the tick of that day's year back; of work that is done again that of the day"),
    )


def run(args: argparse.Namespace) -> int:
    """Write the record into the garden file."""
    from planner.garden import edits
    from planner.storage import read, save

    plan, date = plan_at(args, "D", args.on)
    task = _task(plan, args)
    known = read(args.file)
    if args.undo:
        garden = edits.untick(known.garden, task.subject, args.work, date, task.cover, bool(task.every))
        words = say("taken back")
    else:
        garden = edits.tick(known.garden, task.subject, args.work, date, task.cover, bool(task.every))
        words = say("done on {day}", day=date)
    if garden is not known.garden:
        save(garden, args.file, known)
    print_lines(say("{file}: {work}: {done}", file=args.file, work=task.text.removesuffix("."), done=words))
    return 0


def _task(plan: Plan, args: argparse.Namespace) -> Task:
    """The one task that is meant; those of other growing years only where their planting is named by its id."""
    from planner.amounts.bed_tasks import dressing_task
    from planner.amounts.tasks import planting_tasks

    beds = {bed.id for bed in beds_named(plan, args.bed)} if args.bed else None
    crop = plan.catalogue.named(args.crop) if args.crop else None
    if args.crop and crop is None:
        raise UsageError(
            say("there is no crop '{crop}'", crop=args.crop), args.file, say("bedwright crops lists them")
        )
    meant = [
        planting
        for planting in plan.garden.plantings
        if args.planting in (None, planting.id)
        and (beds is None or planting.bed in beds)
        and (crop is None or planting.crop == crop.key)
    ]
    work = [task for planting in meant for task in planting_tasks(plan, planting)]
    ids = {planting.id for planting in meant}
    work += [
        dressing_task(plan, one)
        for one in plan.garden.dressings
        if args.planting in (None, one.id)
        and (beds is None or one.bed in beds)
        and (crop is None or one.planting in ids)
    ]
    every = [
        task
        for task in work
        if task.kind == args.work and (args.cover is None or task.material == args.cover)
    ]
    found = every if args.planting is not None else _of_the_year(plan, every)
    if len({(task.subject, task.cover) for task in found}) > 1:
        raise _ambiguous(args, found)
    if every and not found:
        raise UsageError(
            say("no work '{work}' is planned there in {year}", work=args.work, year=plan.year),
            args.file,
            say(
                "Of other years there is {plantings}; name one by its id with --planting",
                plantings=_listed(every),
            ),
        )
    if not work and crop is not None and beds is not None:
        stands = [plan.catalogue.name_of(one.crop) for one in plan.plantings if one.bed in beds]
        raise UsageError(
            say(
                "there is no {crop} in {beds}",
                crop=crop.name,
                beds=join_list([f"'{name}'" for name in args.bed]),
            ),
            args.file,
            say("In {year} there is {crops}", year=plan.year, crops=join_list(list(dict.fromkeys(stands))))
            if stands
            else say("Nothing is planted there in {year}", year=plan.year),
        )
    if not found:
        kinds = sorted({task.kind for task in work})
        mend = (
            say("There is {names}", names=either(kinds)) if kinds else say("bedwright tasks lists the work")
        )
        raise UsageError(say("no work '{work}' is planned there", work=args.work), args.file, mend)
    return next((task for task in found if task.is_open), found[0])


def _of_the_year(plan: Plan, tasks: list[Task]) -> list[Task]:
    """Work that falls in the growing year of the plan, or else belongs to a planting of that year."""
    within = [
        task
        for task in tasks
        if task.date <= plan.span.last and plan.span.first <= max(task.until, task.date)
    ]
    plantings = plan.garden.plantings_by_id
    return within or [
        task for task in tasks if task.subject in plantings and plantings[task.subject].year == plan.year
    ]


def _listed(tasks: list[Task]) -> str:
    """Work with its crop, bed, day and id, by which it is told apart."""
    each: dict[str, str] = {}
    for task in tasks:
        name = say("{crop} '{variety}'", crop=task.crop, variety=task.variety) if task.variety else task.crop
        name = name or task.text.removesuffix(".")
        each.setdefault(
            task.subject,
            say(
                "{crop} in {bed}, {day} ({id})",
                crop=name,
                bed=task.bed_name,
                day=full_day_words(task.date),
                id=task.subject,
            ),
        )
    shown = list(each.values())
    if len(shown) > _MOST_LISTED:
        more = len(shown) - _MOST_LISTED
        shown[_MOST_LISTED:] = [say_count("{count} more", "{count} more", more)]
    return "; ".join(shown)


def _ambiguous(args: argparse.Namespace, found: list[Task]) -> UsageError:
    """That work of this kind is planned on several plantings, dressings or covers."""
    subjects = {task.subject for task in found}
    if len(subjects) == 1:
        kinds = [task.material for task in found]
        return UsageError(
            say(
                "'{work}' is work on {number} covers: {names}",
                work=args.work,
                number=len(kinds),
                names=", ".join(kinds),
            ),
            args.file,
            say("Name one with --cover"),
        )
    if args.work == "spread":
        return UsageError(
            say(
                "'spread' is work on {count} dressings: {dressings}",
                count=len(subjects),
                dressings=_listed(found),
            ),
            args.file,
            say("Name one by its id with --planting"),
        )
    return UsageError(
        say(
            "'{work}' is work on {count} plantings: {plantings}",
            work=args.work,
            count=len(subjects),
            plantings=_listed(found),
        ),
        args.file,
        say("Name one with --bed, --crop or --planting and its id, which stands behind it"),
    )
