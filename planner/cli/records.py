"""``bedwright records``: what happened in the garden; notes from outside and typed lines taken into a copy of its file."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_beds, add_json, add_tables, year
from planner.cli.errors import UsageError
from planner.cli.output import (
    is_table,
    print_error,
    print_lines,
    print_report,
    refuse_bom_alone,
    refuse_existing,
    terminal_room,
    write_table,
)
from planner.cli.suggestions import either
from planner.words import join_list, say, say_count

if TYPE_CHECKING:
    from planner.listings.record_texts import RecordChoice
    from planner.plan import Plan

NAME = "records"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "List what happened; with --add write down typed lines, with --take read notes from the pocket page; without -o only show what would come"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, which records, the kind of output, and files of notes with the new garden file."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    parser.add_argument(
        "words", metavar="WORDS", nargs="*", help=say("only records in which all these words are")
    )
    parser.add_argument(
        "--year", metavar="Y", type=year, help=say("only of this growing year; all years where not given")
    )
    add_beds(parser, say("only of these beds and what grows in them, by name or id"))
    parser.add_argument("--crop", metavar="NAME", help=say("only of this crop, by name or key"))
    parser.add_argument(
        "--kind",
        metavar="WORD",
        nargs="+",
        action="extend",
        help=say("only of these kinds: done, picked, note ..."),
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)
    kinds.add_argument(
        "--take",
        metavar="NOTES",
        nargs="+",
        action="extend",
        help=say("files of notes that the pocket page saved"),
    )
    kinds.add_argument(
        "--add",
        metavar="LINE",
        nargs="+",
        action="extend",
        help=say(
            "what happened, as 'peas in West 4: first picking 12 June', a line each; - reads lines from standard input"
        ),
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="NEW",
        help=say("with --add and --take: the new garden file; never overwritten"),
    )
    parser.add_argument(
        "--sure",
        action="store_true",
        help=say("with --add and -o: also what may be a slip of the pen, as 600 kg of a few plants"),
    )
    parser.add_argument(
        "--renamed",
        action="store_true",
        help=say("with --take: the garden had another name or place when the page was made"),
    )
    parser.add_argument(
        "--again",
        action="store_true",
        help=say("with --take: also notes that were taken before and whose records were removed since"),
    )


def run(args: argparse.Namespace) -> int:
    """List records, write down lines, or take notes; 1 where a note could not be taken, 2 where a line was not understood."""
    refuse_bom_alone(args)
    if args.take:
        return _take(args)
    for option, given in (("--renamed", args.renamed), ("--again", args.again)):
        if given:
            raise UsageError(
                say("{option} goes with --take", option=option),
                fix=say("Name a file of notes with --take NOTES"),
            )
    if args.add:
        return _add(args)
    if args.sure:
        raise UsageError(say("--sure goes with --add"), fix=say("Say what happened with --add LINE"))
    if args.output is not None:
        raise UsageError(
            say("-o goes with --add or --take"),
            fix=say("Say what happened with --add LINE, or name a file of notes with --take NOTES"),
        )
    from planner.listings.records import chosen_records, records_lines
    from planner.listings.reports.records import RECORD_COLUMNS, happened_record, records_report

    plan = _plan(args)
    found = chosen_records(plan, _choice(args, plan))
    if args.json:
        print_report(records_report(plan, found))
    elif is_table(args):
        rows = [happened_record(plan, one).table_row() for one in found]
        write_table(rows, RECORD_COLUMNS, args, args.file, NAME)
    else:
        print_lines(*records_lines(plan, found, terminal_room()))
    return 0


def _plan(args: argparse.Namespace) -> Plan:
    """The plan of the garden file named, in any year: records are of all years."""
    import datetime as dt

    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load

    garden = load(args.file)
    return Plan(garden, usual_year(garden, dt.date.today()))


def _choice(args: argparse.Namespace, plan: Plan) -> RecordChoice:
    """The records that are meant."""
    from planner.listings.record_texts import RecordChoice
    from planner.season.spans import year_span

    return RecordChoice(
        beds=_beds(args, plan) if args.bed else None,
        crops=_crops(args, plan) if args.crop else None,
        kinds=_kinds(args) if args.kind else None,
        days=year_span(plan.garden.site, args.year) if args.year is not None else None,
        words=args.words,
    )


def _beds(args: argparse.Namespace, plan: Plan) -> set[str]:
    """Ids of the beds named, those among them that are no longer in use."""
    from planner.cli.named_beds import beds_named
    from planner.garden.named_beds import beds_called

    found: set[str] = set()
    for name in args.bed:
        found.update(bed.id for bed in beds_called(plan.garden.beds, name) or beds_named(plan, [name]))
    return found


def _crops(args: argparse.Namespace, plan: Plan) -> tuple[str, ...]:
    crop = plan.catalogue.named(args.crop)
    if crop is not None:
        return (crop.key,)
    if any(planting.crop == args.crop for planting in plan.garden.plantings):
        return (args.crop,)
    raise UsageError(
        say("there is no crop '{crop}'", crop=args.crop), args.file, say("bedwright crops lists them")
    )


def _kinds(args: argparse.Namespace) -> tuple[str, ...]:
    from planner.garden.records import RECORD_MODELS

    for kind in args.kind:
        if kind not in RECORD_MODELS:
            raise UsageError(
                say("there is no kind of record '{kind}'", kind=kind),
                "--kind",
                say("Possible are {either}", either=either(list(RECORD_MODELS))),
            )
    return tuple(args.kind)


def _refuse_choices(args: argparse.Namespace, option: str, fix: str) -> None:
    """Refuse choices of records, and a file that is there, where something is written down."""
    if any((args.words, args.bed, args.crop, args.kind, args.year is not None)):
        raise UsageError(say("choices of records do not go with {option}", option=option), fix=fix)
    if args.output is not None:
        refuse_existing(args.output)


def _add(args: argparse.Namespace) -> int:
    """Show what typed lines mean, and write the garden with their records where a file is named."""
    import datetime as dt

    from planner.cli.typed_lines import add_lines, lines_to_add
    from planner.plan import Plan
    from planner.season.spans import growing_year
    from planner.storage import load, save

    _refuse_choices(args, "--add", say("Leave them out, and say in the line itself what it is about"))
    lines, today = lines_to_add(args.add), dt.date.today()
    garden = load(args.file)
    plan, refused, doubtful = add_lines(Plan(garden, growing_year(garden.site, today)), lines, today)
    if refused:
        end = say_count(
            "{count} line was not understood; nothing is written",
            "{count} lines were not understood; nothing is written",
            refused,
        )
        print_error(say("{end}.", end=end))
        return 2
    if args.output is not None and doubtful and not args.sure:
        end = say_count(
            "{count} line may be a slip of the pen; nothing is written",
            "{count} lines may be slips of the pen; nothing is written",
            doubtful,
        )
        print_error(say("{end}. Type it anew, or add --sure to write it as it is.", end=end))
        return 2
    if args.output is not None:
        save(plan.garden, args.output)
        print_lines("", say("{file}: {garden} with these records", file=args.output, garden=garden.site.name))
    return 0


def _take(args: argparse.Namespace) -> int:
    """Show what taking notes would do, and write the garden with them where a file is named."""
    from planner.importing.note_words import note_lines, summary_words
    from planner.importing.notes import preview, take
    from planner.importing.notes_file import load_notes
    from planner.storage import save

    _refuse_choices(args, "--take", say("Leave them out: all notes are looked at"))
    plan = _plan(args)
    found = preview(plan.garden, [load_notes(path) for path in args.take], again=args.again)
    if found.other_gardens and not args.renamed:
        index, name = found.other_gardens[0]
        raise UsageError(
            say(
                "its notes are of the garden '{name}', not of '{site}'", name=name, site=plan.garden.site.name
            ),
            args.take[index],
            say("Where that is the same garden under another name or place, add --renamed"),
        )
    head = say("{files}: {notes}", files=join_list(args.take), notes=summary_words(found))
    print_lines(head, *note_lines(plan, found, args.take))
    if args.output is not None:
        if found.new:
            save(take(plan.garden, found), args.output)
            end = say("{file}: {garden} with all that is new", file=args.output, garden=plan.garden.site.name)
        else:
            end = say("{file} is not written: no note is new", file=args.output)
        print_lines("", end)
    if found.of_status("removed"):
        print_lines(say("With --again notes are taken whose records were removed."))
    return 1 if found.of_status("conflict") or found.of_status("broken") else 0
