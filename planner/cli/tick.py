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

if TYPE_CHECKING:
    from planner.plan import Plan
    from planner.season.tasks import Task

NAME = "tick"
HELP = "Tick work off with the day on which it was done"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, work, day, and what says on which planting it was done."""
    add_garden_and_year(parser)
    parser.add_argument("work", metavar="WORK", help="its kind, as 'earth up': a word of tasks --json")
    parser.add_argument("on", metavar="D", type=day, help="the day, as 2026-04-12 or 12 Apr")
    parser.add_argument(
        "--planting", metavar="ID", help="the planting or dressing, by its id in tasks --json"
    )
    add_beds(parser, "the planting in this bed, by name or id")
    parser.add_argument("--crop", metavar="NAME", help="the planting of this crop, by name or key")
    parser.add_argument("--cover", metavar="KIND", help="of work on covers: the cover, as fleece")
    parser.add_argument("--undo", action="store_true", help="take the tick of that day's year back")


def run(args: argparse.Namespace) -> int:
    """Write the record into the garden file."""
    from planner.garden import edits
    from planner.storage import read, save

    plan, date = plan_at(args, "D", args.on)
    task = _task(plan, args)
    known = read(args.file)
    if args.undo:
        garden = edits.untick(known.garden, task.subject, args.work, date, task.cover)
        words = "taken back"
    else:
        garden = edits.tick(known.garden, task.subject, args.work, date, task.cover)
        words = f"done on {date}"
    if garden is not known.garden:
        save(garden, args.file, known)
    print_lines(f"{args.file}: {task.text.removesuffix('.')}: {words}")
    return 0


def _task(plan: Plan, args: argparse.Namespace) -> Task:
    """The one task that is meant."""
    from planner.amounts.bed_tasks import dressing_task
    from planner.amounts.tasks import planting_tasks

    beds = {bed.id for bed in beds_named(plan, args.bed)} if args.bed else None
    crop = plan.catalogue.named(args.crop) if args.crop else None
    if args.crop and crop is None:
        raise UsageError(f"there is no crop '{args.crop}'", args.file, "bedwright crops lists them")
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
    found = [
        task
        for task in work
        if task.kind == args.work and (args.cover is None or task.material == args.cover)
    ]
    if len({(task.subject, task.cover) for task in found}) > 1:
        raise _ambiguous(args, found)
    if not found:
        kinds = sorted({task.kind for task in work})
        mend = f"There is {either(kinds)}" if kinds else "bedwright tasks lists the work"
        raise UsageError(f"no work '{args.work}' is planned there", args.file, mend)
    return found[0]


def _ambiguous(args: argparse.Namespace, found: list[Task]) -> UsageError:
    """That work of this kind is planned on several plantings, dressings or covers."""
    if len({task.subject for task in found}) == 1:
        kinds = [task.material for task in found]
        return UsageError(
            f"'{args.work}' is work on {len(kinds)} covers: {', '.join(kinds)}",
            args.file,
            "Name one with --cover",
        )
    if args.work == "spread":
        places = [f"{task.text.removesuffix('.')} ({task.dressing})" for task in found]
        return UsageError(
            f"'spread' is work on {len(places)} dressings: {'; '.join(places[:5])}",
            args.file,
            "Name one by its id with --planting",
        )
    places = [f"{task.crop} in {task.bed_name}" for task in found]
    return UsageError(
        f"'{args.work}' is work on {len(places)} plantings: {'; '.join(places[:5])}",
        args.file,
        "Name one with --bed, --crop or --planting",
    )
