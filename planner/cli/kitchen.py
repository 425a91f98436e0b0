"""``bedwright kitchen``: who eats from a garden, how much, and where its harvest is kept."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.named_places import named_place
from planner.cli.output import print_lines
from planner.cli.suggestions import either
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Garden

NAME = "kitchen"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Say who eats from a garden, how much, and where its harvest is kept")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file and what is to be changed."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    parser.add_argument("--persons", metavar="N", help=say("how many eat; a child may count half"))
    parser.add_argument(
        "--eats",
        metavar=("CROP", "KG"),
        nargs="+",
        action="append",
        default=[],
        help=say(
            "what one person eats of a crop in a year, or with the word week in a week; - takes it back"
        ),
    )
    parser.add_argument(
        "--place",
        metavar=("NAME", "KIND"),
        nargs="+",
        action="append",
        default=[],
        help=say(
            "a place to keep a harvest: its name, cellar, fridge, clamp, dry room or shed, and its temperature in winter"
        ),
    )
    parser.add_argument(
        "--keep-in",
        metavar=("CROP", "PLACE"),
        nargs=2,
        action="append",
        default=[],
        help=say("keep a crop in this place and no other; - for where it keeps best"),
    )
    parser.add_argument(
        "--no-place", metavar="NAME", action="append", default=[], help=say("a place no more used")
    )


def run(args: argparse.Namespace) -> int:
    """Write the household into the garden file, and print it."""
    from planner.crops import load_catalogue
    from planner.garden.own_catalogue import own_catalogue
    from planner.listings.household import household_lines
    from planner.storage import read, save

    known = read(args.file)
    garden = _with_persons(known.garden, args.persons)
    for words in args.eats:
        garden = _with_eaten(garden, words)
    for words in args.place:
        garden = _with_place(garden, words)
    for words in args.keep_in:
        garden = _with_crop_kept(garden, words)
    for name in args.no_place:
        garden = _without_place(garden, name)
    if garden is not known.garden:
        save(garden, args.file, known)
    print_lines(*household_lines(garden, own_catalogue(load_catalogue(), garden)))
    return 0


def _number(text: str, option: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise UsageError(
            say("'{text}' is no number", text=text), option, say("Write one like 2 or 2.5")
        ) from None


def _with_persons(garden: Garden, text: str | None) -> Garden:
    from planner.garden import edits

    return garden if text is None else edits.change_household(garden, persons=_number(text, "--persons"))


def _with_eaten(garden: Garden, words: list[str]) -> Garden:
    from planner.garden import edits

    per = words[2] if len(words) > 2 else "year"
    if not 2 <= len(words) <= 3 or per not in ("week", "year"):
        raise UsageError(
            say("'{names}' is no amount", names=" ".join(words)),
            "--eats",
            say("Write it like: --eats potato 60"),
        )
    crop = _crop(garden, words[0], "--eats")
    amount = None if words[1] == "-" else _number(words[1], "--eats")
    return edits.set_eaten(garden, crop, amount, per)


def _crop(garden: Garden, name: str, option: str) -> str:
    """Key of the crop with a name."""
    from planner.crops import load_catalogue
    from planner.garden.own_catalogue import own_catalogue

    crop = own_catalogue(load_catalogue(), garden).named(name)
    if crop is None:
        raise UsageError(
            say("there is no crop '{name}'", name=name), option, say("bedwright crops lists them")
        )
    return crop.key


def _with_place(garden: Garden, words: list[str]) -> Garden:
    from typing import get_args

    from planner.garden import edits
    from planner.garden.household import StoreKind
    from planner.garden.units import parse_temperature

    if not 2 <= len(words) <= 3:
        raise UsageError(
            say("'{names}' is no place", names=" ".join(words)),
            "--place",
            say("Write it like: --place Cellar cellar 7"),
        )
    kinds = get_args(StoreKind)
    if words[1] not in kinds:
        raise UsageError(
            say("'{words}' is no kind of place", words=words[1]),
            "--place",
            say("Write {either}", either=either(kinds)),
        )
    old = next((one for one in garden.store_places if one.name.casefold() == words[0].casefold()), None)
    temperature = parse_temperature(words[2], garden.site.units) if len(words) == 3 else None
    fields = {"name": words[0], "kind": words[1], "temperature": temperature}
    return edits.put_store_place(garden, old.id if old is not None else None, **fields)[0]


def _without_place(garden: Garden, name: str) -> Garden:
    from planner.garden import edits

    place = named_place(garden, name, "--no-place")
    return edits.remove_store_place(garden, place.id)


def _with_crop_kept(garden: Garden, words: list[str]) -> Garden:
    """Keep a crop in one place and nowhere else; a dash takes that back."""
    from planner.garden import edits

    crop = _crop(garden, words[0], "--keep-in")
    chosen = None if words[1] == "-" else named_place(garden, words[1], "--keep-in")
    return edits.keep_in(garden, crop, chosen.id if chosen is not None else None)
