"""The command line.

Every command asks the same :class:`planner.plan.Plan` as the desk does.  Errors go to standard
error as one line and end with exit code 2.  What takes long to import is imported where it is used.
"""

from __future__ import annotations

import argparse
import contextlib
import datetime as dt
import difflib
import json
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TextIO

from planner import __version__, resources
from planner.errors import BedwrightError

if TYPE_CHECKING:
    from planner.garden import Bed, Garden
    from planner.importing.weather_cells import Unit
    from planner.plan import Plan

SUFFIX = ".bedwright"
#: Years a garden file may speak of.
YEARS = (1800, 2400)
#: Units of a weather table, as typed.
_UNITS: dict[str, Unit] = {"c": "C", "f": "F", "tenths": "tenths C"}


class UsageError(BedwrightError):
    """A command line that is not understood, or cannot be done as it stands."""


class OutputError(BedwrightError):
    """Something that cannot be written."""


# -- commands ----------------------------------------------------------------------------------


def open_desk(args: argparse.Namespace) -> int:
    """Open the desk with a garden, a sample, or neither."""
    path: str | None = args.file
    if args.sample is not None:
        if path is not None:
            raise UsageError("a file and a sample cannot both be opened", "open", "Name one of them")
        path = sample(args.sample).stem
    elif path is not None and not Path(path).is_file():
        what = "is a folder, not a garden file" if Path(path).is_dir() else "there is no such file"
        raise UsageError(what, path, "Check the name; bedwright new makes a garden from a sample")
    shown = any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
    if sys.platform.startswith("linux") and not shown:
        raise UsageError(
            "there is no display to open a window on",
            mend="Start it on a desktop; bedwright sheets and bedwright amounts need none",
        )
    try:
        from planner.desk import app
    except ImportError as error:
        raise UsageError(
            f"the window's parts do not load ({error})", mend="Run: python3 planner/bootstrap.py run"
        ) from None
    code: int = app.run(path, args.sample is not None)
    return code


def new(args: argparse.Namespace) -> int:
    """Start a garden from a sample."""
    from planner.storage import load, save

    not_there(args.file)
    save(load(sample(args.sample)), args.file)
    say(f"{args.file}: begun from the sample {args.sample}")
    return 0


def amounts(args: argparse.Namespace) -> int:
    """Plants, rows and seed of a growing year."""
    from planner.amounts import amounts as work_out
    from planner.listings.tables import AMOUNT_COLUMNS, amount_rows, csv_text

    plan = plan_of(args)
    warn_of_unknown_crops(plan)
    parts = work_out(plan)
    if args.json:
        say(json.dumps(amount_rows(parts), indent=2))
    elif args.csv is not None:
        write_out(csv_text(amount_rows(parts), AMOUNT_COLUMNS), args.csv, args.file)
    elif parts:
        from planner.listings.text import amounts_text

        say(*amounts_text(plan, parts))
    else:
        say(f"{plan.garden.site.name}: nothing is planted in {plan.year}.{_years_planted(plan.garden)}")
    return 0


def tasks(args: argparse.Namespace) -> int:
    """The dated work of a year or a span of days."""
    from planner.listings.work import task_rows, tasks_text, work_between

    plan, first, last = plan_and_days(args)
    found = work_between(plan, first, last)
    warn_of_unknown_crops(plan)
    if args.json:
        say(json.dumps(task_rows(plan, found), indent=2))
    elif args.ics is not None:
        from planner.listings.calendar import calendar

        if not found:
            mend = "Ask for other days; bedwright tasks without --ics says what is not known"
            raise UsageError(f"no work falls on {first} to {last}", args.file, mend)
        write_out(calendar(plan.garden, found), args.ics, args.file)
    else:
        say(*tasks_text(plan, found, first, last))
    return 0


def check(args: argparse.Namespace) -> int:
    """What the plan of a year gives to think about; 1 where something will fail as it stands."""
    from planner.checks import check_all
    from planner.listings.findings import finding_rows, findings_text

    plan = plan_of(args)
    warn_of_unknown_crops(plan)
    found = check_all(plan, lore=args.lore, light=not args.no_light)
    if args.json:
        say(json.dumps(finding_rows(plan, found), indent=2))
    else:
        say(*findings_text(plan, found))
    return 1 if any(one.severity == "stop" and not one.waived for one in found) else 0


def sun(args: argparse.Namespace) -> int:
    """Hours of direct sun of beds on a day, and of plantings over a span."""
    from planner.listings.sun import bed_rows, planting_rows, sun_lines
    from planner.listings.work import growing_year
    from planner.plan import Plan

    plan = plan_of(args)
    if args.year is None:
        plan = Plan(plan.garden, growing_year(plan.garden.site, args.date))
    beds = beds_named(plan, args.bed) if args.bed else list(plan.beds)
    found = bed_rows(plan, beds, args.date)
    standing: list[dict[str, object]] = []
    if args.span is not None:
        first, last = args.span
        if last < first:
            raise UsageError(f"the span's last day {last} is before its first {first}", mend="Swap the two")
        standing = planting_rows(plan, beds, first, last)
    if args.json:
        say(json.dumps([*found, *standing], indent=2))
    else:
        say(*sun_lines(plan, args.date, found, standing))
    return 0


def weather(args: argparse.Namespace) -> int:
    """What a table of daily weather says of a place: frost dates by risk, zone, monthly means."""
    from planner.importing.weather_columns import columns_of
    from planner.importing.weather_table import read_weather
    from planner.listings.weather import weather_lines, weather_record
    from planner.season.climate_from_weather import weather_statistics
    from planner.storage import load, save

    if (args.into is None) != (args.output is None):
        raise UsageError(
            "--into and -o belong together", mend="Name a garden file and the new file for what is found"
        )
    if args.output is not None:
        not_there(args.output)
    garden = load(args.into) if args.into is not None else None
    southern = args.south or (garden is not None and garden.site.southern)
    unit = _UNITS[args.unit] if args.unit is not None else None
    columns, given = columns_of(Path(args.csv), args.date, args.min, args.max, unit)
    table = read_weather(Path(args.csv), columns if given else None)
    found, name = weather_statistics(table, southern), Path(args.csv).name
    if args.json:
        say(json.dumps(weather_record(table, found, columns, southern), indent=2))
    else:
        say(*weather_lines(name, table, found, columns, southern))
    if garden is not None:
        climate = found.climate(garden.climate, f"daily weather table {name[:100]}")
        save(garden.with_(climate=climate), args.output)
        if not args.json:
            say("", f"{args.output}: {garden.site.name} with these frost dates, zone and means")
    return 0


def sheets(args: argparse.Namespace) -> int:
    """Write bed sheets, or week sheets, as PDF."""
    if not args.weeks and (args.first or args.last):
        raise UsageError("--from and --to go with --weeks", mend="Add --weeks, or leave the days out")
    plan, first, last = plan_and_days(args)
    beds = beds_named(plan, args.bed) if args.bed else None
    not_onto_itself(args.output, args.file)
    warn_of_unknown_crops(plan)
    today = dt.date.today()
    try:
        if args.weeks:
            from planner.sheets.week_sheets import write_week_sheets

            chosen = {bed.id for bed in beds} if beds is not None else None
            write_week_sheets(plan, args.output, first, last, paper=args.paper, today=today, beds=chosen)
        else:
            from planner.sheets.bed_sheets import write_bed_sheets

            write_bed_sheets(plan, args.output, beds=beds, paper=args.paper, today=today)
    except OSError as error:
        raise OutputError(
            f"cannot be written: {error.strerror or error}", args.output, "Name another file or folder"
        ) from None
    words = f"week sheets for {first} to {last}" if args.weeks else f"bed sheets for {plan.year}"
    say(f"{args.output}: {words}")
    return 0


def crops(args: argparse.Namespace) -> int:
    """What is known of crops, with the sources."""
    from planner.crops import load_catalogue
    from planner.crops.search import find, near
    from planner.listings.text import crop_lines, crop_record

    catalogue = load_catalogue()
    words = " ".join(args.words)
    found = find(catalogue, words) if words else tuple(catalogue.crops.values())
    if not found:
        close = [crop.name for crop in near(catalogue, words)]
        mend = f"Did you mean {_either(close)}?" if close else "bedwright crops lists all there are"
        raise UsageError(f"no crop is called '{words}'", mend=mend)
    if args.coverage:
        from planner.crops.cautions import cautions
        from planner.crops.coverage import coverage
        from planner.crops.neighbours import rules
        from planner.listings.crop_coverage import coverage_lines, coverage_record

        for read in (rules, cautions):  # a fault in them is said here too
            read(catalogue)
        report = coverage(found)
        say(*([json.dumps(coverage_record(report), indent=2)] if args.json else coverage_lines(report)))
    elif args.json:
        say(json.dumps([crop_record(catalogue, crop) for crop in found], indent=2))
    elif len(found) == 1:
        say(*crop_lines(catalogue, found[0]))
    else:
        from planner.listings.tables import aligned

        rows = [(crop.name, crop.latin, crop.family, crop.key) for crop in found]
        say(*aligned(("crop", "Latin name", "family", "key"), rows, indent=""))
        say("", f"{len(found)} crops. Name one to see its figures: bedwright crops {found[0].key}")
    return 0


def schema(args: argparse.Namespace) -> int:
    """The JSON Schema of a garden file."""
    from planner.storage import garden_schema

    say(json.dumps(garden_schema(), indent=2))
    return 0


# -- what the commands share -------------------------------------------------------------------


def plan_of(args: argparse.Namespace) -> Plan:
    """The plan of the garden file named, in the year named."""
    from planner.plan import Plan
    from planner.storage import load

    garden = load(args.file)
    return Plan(garden, args.year if args.year is not None else usual_year(garden, dt.date.today()))


def plan_and_days(args: argparse.Namespace) -> tuple[Plan, dt.date, dt.date]:
    """The plan of the garden file named, and the days named: the whole growing year where none are.

    Without a year it is the one in which the first of the days lies.
    """
    from planner.listings.work import growing_year
    from planner.plan import Plan

    plan = plan_of(args)
    day = args.first or args.last
    if args.year is None and day is not None:
        plan = Plan(plan.garden, growing_year(plan.garden.site, day))
    return plan, args.first or plan.span.first, args.last or plan.span.last


def usual_year(garden: Garden, today: dt.date) -> int:
    """The latest growing year that has plantings, else the current one."""
    planted = garden.years()
    if planted:
        return planted[-1]
    return today.year - (today.month < garden.site.year_begins)


def _years_planted(garden: Garden) -> str:
    years = ", ".join(str(year) for year in garden.years())
    return f" Years with plantings: {years}." if years else ""


def samples() -> dict[str, Path]:
    """The sample gardens by name."""
    return {path.stem: path for path in sorted(resources.sample_folder().glob(f"*{SUFFIX}"))}


def sample(name: str) -> Path:
    """Path of a sample garden."""
    known = samples()
    path = known.get(name.removesuffix(SUFFIX))
    if path is None:
        close = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
        hint = f"Did you mean {close[0]}? " if close else ""
        raise UsageError(
            f"there is no sample '{name}'", mend=f"{hint}Samples are: {', '.join(known) or 'none'}"
        )
    return known[path.stem]


def beds_named(plan: Plan, names: Iterable[str]) -> list[Bed]:
    """Beds in use of these names or ids, each once, in the garden's order; all beds of one name."""
    wanted: set[str] = set()
    for name in names:
        found = [bed.id for bed in plan.beds if name == bed.id or name.casefold() == bed.name.casefold()]
        if not found:
            raise _no_bed(plan, name)
        wanted.update(found)
    return [bed for bed in plan.beds if bed.id in wanted]


def _no_bed(plan: Plan, name: str) -> UsageError:
    if any(name == bed.id or name.casefold() == bed.name.casefold() for bed in plan.garden.beds):
        return UsageError(f"bed '{name}' is not in use in {plan.year}", mend="Give another --year")
    by_plain = {bed.name.casefold(): bed.name for bed in plan.beds}
    close = difflib.get_close_matches(name.casefold(), by_plain, n=3, cutoff=0.65)
    if close:
        mend = f"Did you mean {_either([by_plain[near] for near in close])}?"
    else:
        some = [bed.name for bed in plan.beds[:10]]
        mend = f"Beds are: {', '.join(some)}{' and more' if len(plan.beds) > 10 else ''}" if some else ""
    return UsageError(f"there is no bed '{name}'", plan.garden.site.name, mend)


def warn_of_unknown_crops(plan: Plan) -> None:
    """Name on standard error the crops that the catalogue does not have, and what may be meant."""
    from planner.crops.search import near

    beds: dict[str, list[str]] = {}
    for planting in plan.plantings:
        if plan.figures_of(planting).crop is None:
            beds.setdefault(planting.crop, []).append(plan.bed_of(planting).name)
    for crop, names in beds.items():
        close = near(plan.catalogue, crop, 1)
        hint = f"did you mean '{close[0].key}'?" if close else "bedwright crops lists what there is."
        complain(f"{', '.join(dict.fromkeys(names))}: '{crop}' is not in the catalogue; {hint}")


def not_there(path: str) -> None:
    """Refuse to write over a file that is there."""
    if os.path.lexists(path):
        raise UsageError("is there already and is not overwritten", path, "Name a new file")


def not_onto_itself(output: str, garden_file: str) -> None:
    """Refuse to write over the garden that is read."""
    with contextlib.suppress(OSError):
        if os.path.samefile(output, garden_file):
            raise UsageError("is the garden file itself and is not overwritten", output, "Name another file")


def write_out(text: str | bytes, output: str, garden_file: str) -> None:
    """Write a file, text in UTF-8; ``-`` is standard output."""
    if output == "-":
        say(text, end="") if isinstance(text, str) else _say_bytes(text)
        return
    not_onto_itself(output, garden_file)
    try:
        Path(output).write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    except OSError as error:
        raise OutputError(
            f"cannot be written: {error.strerror or error}", output, "Name another file or folder"
        ) from None


def _either(names: Sequence[str]) -> str:
    quoted = [f"'{name}'" for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"


# -- output ------------------------------------------------------------------------------------


#: Control characters a name may hold, which could steer a terminal or turn the line about.
_NOT_SHOWN = dict.fromkeys([0x1B, *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A)], "?")
_JOINERS = "\u200c\u200d"


def say(*lines: str, end: str = "\n") -> None:
    """Print lines on standard output, with ``?`` for what it cannot print."""
    try:
        _print(sys.stdout, "\n".join(lines).translate(_NOT_SHOWN) + end)
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(f"standard output cannot be written: {error.strerror or error}") from None


def _say_bytes(data: bytes) -> None:
    """Write a file's bytes to standard output, as they are."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(f"standard output cannot be written: {error.strerror or error}") from None


def complain(text: str) -> None:
    """Print one line on standard error."""
    with contextlib.suppress(OSError):
        _print(
            sys.stderr, "bedwright: " + "".join(sign if sign.isprintable() else "?" for sign in text) + "\n"
        )


def _print(stream: TextIO | None, text: str) -> None:
    if stream is None:  # a program without a console
        return
    encoding = stream.encoding or "utf-8"
    stream.write(text.encode(encoding, "replace").decode(encoding))
    stream.flush()


def _close_output() -> None:
    """Point standard output at nothing, so that its last flush at exit does not complain."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, sys.stdout.fileno())
        os.close(nothing)


# -- reading the command line ------------------------------------------------------------------


class Parser(argparse.ArgumentParser):
    """A parser whose complaints are one line."""

    def error(self, message: str) -> NoReturn:
        """Complain."""
        raise UsageError(message, mend=f"Help: {self.prog} --help")


def _year(text: str) -> int:
    if not text.isascii() or not text.isdigit() or not YEARS[0] <= int(text) <= YEARS[1]:
        raise argparse.ArgumentTypeError(f"'{text}' is no year; write one from {YEARS[0]} to {YEARS[1]}")
    return int(text)


def _date(text: str) -> dt.date:
    with contextlib.suppress(ValueError):
        day = dt.datetime.strptime(text, "%Y-%m-%d").date()
        if text.isascii() and len(text) == 10 and YEARS[0] <= day.year <= YEARS[1]:
            return day
    raise argparse.ArgumentTypeError(f"'{text}' is no day; write it as 2026-04-12")


def make_parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    parser = Parser(
        prog="bedwright",
        description="Plan what grows in which bed, how much of it, and when.",
        epilog="Without a command the desk opens. bedwright COMMAND --help tells more.",
    )
    parser.add_argument("--version", action="version", version=f"Bedwright {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, run: Callable[[argparse.Namespace], int], text: str) -> argparse.ArgumentParser:
        made: argparse.ArgumentParser = commands.add_parser(name, help=text, description=f"{text}.")
        made.set_defaults(run=run)
        return made

    def garden_and_year(made: argparse.ArgumentParser) -> None:
        made.add_argument("file", metavar="FILE", help="a garden file")
        text = "growing year; the latest that has plantings where not given"
        made.add_argument("--year", metavar="Y", type=_year, help=text)

    def days(made: argparse.ArgumentParser) -> None:
        for option, name, text in (("--from", "first", "first day"), ("--to", "last", "last day")):
            made.add_argument(
                option,
                dest=name,
                metavar="D",
                type=_date,
                help=f"{text}, as 2026-04-12; the year's where not given",
            )

    made = command("open", open_desk, "Open the desk")
    made.add_argument("file", metavar="FILE", nargs="?", help="a garden file; none: where one left off")
    made.add_argument("--sample", metavar="NAME", help="a copy of a sample garden instead")
    made = command("new", new, "Start a garden file from a sample")
    made.add_argument("file", metavar="FILE", help="the garden file to make; never overwritten")
    made.add_argument(
        "--sample", metavar="NAME", required=True, help=f"one of {', '.join(samples()) or 'none'}"
    )
    made = command("amounts", amounts, "List plants, rows and seed of a year, bed by bed")
    garden_and_year(made)
    kinds = made.add_mutually_exclusive_group()
    kinds.add_argument("--json", action="store_true", help="as JSON, one object a planting")
    kinds.add_argument("--csv", metavar="OUT", help="into a CSV file; - is standard output")
    made = command("tasks", tasks, "List the dated work of a year, week by week")
    garden_and_year(made)
    days(made)
    kinds = made.add_mutually_exclusive_group()
    kinds.add_argument("--json", action="store_true", help="as JSON, one object a piece of work")
    kinds.add_argument("--ics", metavar="OUT", help="into a calendar file; - is standard output")
    made = command("check", check, "List what a plan gives to think about; exit 1 when something will fail")
    garden_and_year(made)
    made.add_argument("--json", action="store_true", help="as JSON, one object a finding")
    made.add_argument("--lore", action="store_true", help="neighbours by lore too, and the good ones")
    made.add_argument(
        "--no-light", action="store_true", help="without hours of direct sun: quicker in a very large garden"
    )
    made = command("sun", sun, "Hours of direct sun of beds on a day, shadows of plants included")
    garden_and_year(made)
    made.add_argument("--date", metavar="D", type=_date, required=True, help="the day, as 2026-06-21")
    made.add_argument("--bed", metavar="NAME", nargs="+", action="extend", help="beds by name or id; all")
    made.add_argument(
        "--span", metavar=("A", "B"), nargs=2, type=_date, help="plantings too, over these days"
    )
    made.add_argument("--json", action="store_true", help="as JSON, one object a bed and planting")
    made = command("weather", weather, "Work out frost dates, zone and monthly means from daily weather")
    made.add_argument("csv", metavar="CSV", help="a table with a day and its minimum and maximum a line")
    for option, text in (("--date", "day"), ("--min", "minimum"), ("--max", "maximum")):
        made.add_argument(option, metavar="COL", help=f"heading of the {text}; guessed where not given")
    made.add_argument("--unit", choices=list(_UNITS), help="degrees C or F, or tenths of C; guessed")
    made.add_argument("--south", action="store_true", help="the place lies south of the equator")
    made.add_argument("--json", action="store_true", help="as JSON")
    made.add_argument("--into", metavar="FILE", help="a garden file to take over what is found")
    made.add_argument("-o", "--output", metavar="NEW", help="the new garden file; never overwritten")
    made = command("sheets", sheets, "Write bed sheets to scale, or week sheets, as PDF")
    garden_and_year(made)
    made.add_argument("--weeks", action="store_true", help="the work week by week instead of the beds")
    days(made)
    made.add_argument("-o", "--output", metavar="OUT.pdf", required=True, help="the PDF to write")
    text = "beds by name or id; all of one name; every bed where not given"
    made.add_argument("--bed", metavar="NAME", nargs="+", action="extend", help=text)
    made.add_argument("--paper", choices=["a4", "letter"], default="a4", help="a4 where not given")
    made = command("crops", crops, "Show what is known of a crop, with sources")
    made.add_argument(
        "words", metavar="WORDS", nargs="*", help="a name or part of one; all crops where not given"
    )
    made.add_argument("--json", action="store_true", help="as JSON")
    text = "how many figures are published, practice, estimate or missing instead"
    made.add_argument("--coverage", action="store_true", help=text)
    command("schema", schema, "Print the JSON Schema of a garden file")
    return parser


COMMANDS = ("open", "new", "amounts", "tasks", "check", "sun", "weather", "sheets", "crops", "schema")


def with_command(arguments: list[str]) -> list[str]:
    """The arguments, beginning with a command: ``open`` is meant where none is given."""
    first = arguments[0] if arguments else ""
    if first in (*COMMANDS, "-h", "--help", "--version"):
        return arguments
    is_path = first.startswith("-") or any(sign in first for sign in "./\\") or os.path.exists(first)
    if first and not is_path:
        close = difflib.get_close_matches(first, COMMANDS, n=1)
        mend = f"Did you mean {close[0]}?" if close else f"Commands are: {', '.join(COMMANDS)}"
        raise UsageError(f"there is no command and no file '{first}'", mend=mend)
    return ["open", *arguments]


def main(argv: Sequence[str] | None = None) -> int:
    """Do what a command line asks.

    Parameters
    ----------
    argv : sequence of str, optional
        Arguments without the program's name; those of the process by default.

    Returns
    -------
    int
        Exit code: 0, or 2 after an error, which has been printed as one line.
    """
    try:
        args: Any = make_parser().parse_args(with_command(list(sys.argv[1:] if argv is None else argv)))
        code: int = args.run(args)
    except SystemExit as end:  # of --help and --version
        return end.code if isinstance(end.code, int) else 0
    except BedwrightError as error:
        if isinstance(error, OutputError):
            _close_output()
        text = str(error)
        complain(text[:-1] if text.endswith("?.") else text)
        return 2
    except BrokenPipeError:  # whoever read has seen enough
        _close_output()
        return 141
    except KeyboardInterrupt:
        complain("stopped.")
        return 130
    except Exception as error:
        if os.environ.get("BEDWRIGHT_TRACEBACK"):
            raise
        what = " ".join(f"{type(error).__name__}: {error}".split())
        complain(f"a fault in the program itself: {what}. Files are as they were; please report it.")
        return 2
    return code
