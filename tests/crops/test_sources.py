"""The shipped sources: each in bibliographic form, one key a work, none unused."""

from __future__ import annotations

import re
import tomllib
from collections import defaultdict
from functools import lru_cache
from pathlib import Path

import pytest

from planner import resources
from planner.crops.catalogue import load_catalogue
from planner.crops.sources import ANONYMOUS, Source

ROOT = Path(__file__).parents[2]
#: Keys that name no publication: practice, estimate, what follows from plain geometry, and folklore.
NO_PUBLICATION = {"practice", "estimate", "geometry", "folk"}
#: Keys whose figures are recalled ranges of many bulletins.
MANY = {"ext_general"}

#: "Watts RL 1912. ..." or "Watts RL, Jones AB et al. 1912. ...": an author and a year before the title.
AUTHOR_AND_YEAR = re.compile(
    r"^\w[\w'-]+( [A-Z]{1,3})?([,;] .{0,80})?( et al\.?)?( eds?)? (1[5-9]|20)\d\d[.:]? "
)
#: A year in brackets or a date at the end of a title.
DATE = re.compile(r"\((1[5-9]|20)\d\d\)$|\d{1,2} [A-Z][a-z]+ (1[5-9]|20)\d\d$")
#: Addresses of pages: a scheme, www, or a name with a domain.
ADDRESS = re.compile(
    r"https?:|www\.|\b[\w-]+\.(com|org|net|edu|gov|uk|ca|us|info|io|ie|nz|au)\b|\.\w{2,}/\w", re.I
)
#: Words about how sure we are; they belong to ``uncertain`` and not to ``note``.
DOUBT = re.compile(r"from memory|believed|not shown|title given by us|title in our words", re.I)
#: How a publication came to be read; belongs to ``read_in``.
SECOND_HAND = re.compile(r"\bread (in|as|second hand)\b|as quoted|reprint", re.I)


def shipped() -> dict[str, Source]:
    return dict(load_catalogue().sources)


def published() -> dict[str, Source]:
    return {key: source for key, source in shipped().items() if key not in NO_PUBLICATION}


def plain(text: str) -> str:
    """Text without case, punctuation and articles, to compare titles by."""
    words = re.findall(r"\w+", text.casefold())
    return " ".join(word for word in words if word not in ("a", "an", "the", "and", "of"))


@lru_cache(maxsize=1)
def words_elsewhere() -> frozenset[str]:
    """Every word of the program, its resources and its tests, but for the sources themselves."""
    files = [
        *(ROOT / "planner").rglob("*.py"),
        *(path for path in resources.resource().rglob("*.toml") if path.name != "sources.toml"),
        *(path for path in (ROOT / "tests").rglob("*.py") if path != Path(__file__)),
        *(ROOT / "tests" / "reference").glob("*.*"),
    ]
    return frozenset(word for path in files for word in re.findall(r"\w+", path.read_text(encoding="utf-8")))


# -- faults that a source may have ---------------------------------------------------------------


def faults_of(key: str, source: Source) -> list[str]:
    """What of a source is not in bibliographic form."""
    found = []
    if not source.author and not source.agency:
        found.append("has neither author nor agency")
    if (source.year is None) != source.undated:
        found.append("has neither year nor undated, or both")
    if source.year is not None and not 1500 <= source.year <= 2026:
        found.append("its year is none")
    if AUTHOR_AND_YEAR.search(source.title):
        found.append("its title begins with author and year")
    if DATE.search(source.title):
        found.append("its title ends with a date")
    if source.author and re.search(r"\w [A-Z]{1,3}, \w", source.author):
        found.append("its authors are not divided by semicolons")
    if source.author.startswith(ANONYMOUS) and not source.uncertain:
        found.append("is anonymous without a word on what is uncertain")
    if any(ADDRESS.search(text) for text in (source.read_in, source.title, source.note)):
        found.append("holds an address")
    if source.read_in and not re.match(r"[a-zA-Z]", source.read_in):
        found.append("what it was read in is not said in words")
    if DOUBT.search(source.note):
        found.append("its note speaks of what is uncertain")
    if SECOND_HAND.search(source.note):
        found.append("its note says where it was read")
    return [f"{key}: {fault}" for fault in found]


def works_under_two_keys(sources: dict[str, Source]) -> list[list[str]]:
    """Keys of the same work: same title, first author or agency, and year."""
    by_work = defaultdict(list)
    for key, source in sources.items():
        who = plain((source.author or source.agency).split("; ")[0])
        by_work[plain(source.title), who, source.year].append(key)
    return [keys for keys in by_work.values() if len(keys) > 1]


# -- the shipped ones ----------------------------------------------------------------------------


def test_every_source_is_in_bibliographic_form():
    assert [fault for key, source in published().items() for fault in faults_of(key, source)] == []


def test_no_work_stands_under_two_keys():
    assert works_under_two_keys(published()) == []


def test_no_key_holds_several_works():
    """Titles of several works used to stand in one entry, divided by semicolons with a date each."""
    several = re.compile(r"\d{4}; [A-Z]")
    assert [key for key, source in published().items() if several.search(source.title)] == []


def test_no_source_is_unused():
    assert sorted(set(shipped()) - words_elsewhere()) == []


def test_keys_that_name_no_publication_carry_no_author_and_no_year():
    for key in NO_PUBLICATION:
        source = shipped()[key]
        assert (source.author, source.agency, source.year, source.undated) == ("", "", None, False), key
        assert source.citation == source.title


def test_general_ranges_are_recalled_wherever_a_figure_names_them():
    """No single page stands behind them, so none counts as published."""
    wrong = []

    def walk(value: object, path: str) -> None:
        if isinstance(value, dict):
            if value.get("source") in MANY and not value.get("recalled"):
                wrong.append(path)
            for name, part in value.items():
                walk(part, f"{path}.{name}")
        elif isinstance(value, list):
            for part in value:
                walk(part, path)

    for path in (*resources.resource().glob("crops/*.toml"), *resources.resource().glob("*.toml")):
        walk(tomllib.loads(path.read_text(encoding="utf-8")), path.stem)
    assert wrong == []


def test_every_citation_names_who_and_when():
    for key, source in published().items():
        who = source.author or source.agency
        head = who if str(source.year) in who.split() else f"{who} {source.year or 'n.d.'}"
        assert source.citation.startswith(head), key
        assert source.title in source.citation
        assert ".." not in source.citation.replace("n.d..", "n.d.").replace("et al..", "et al."), key
        assert source.in_brief.strip(), key


# -- the tests can fail --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "fault"),
    [
        ({"title": "Soil Culture", "year": 1858}, "neither author nor agency"),
        ({"title": "Soil Culture", "author": "Walden JH"}, "neither year nor undated"),
        ({"title": "Soil Culture", "author": "Walden JH", "year": 1858, "undated": True}, "or both"),
        ({"title": "Soil Culture", "author": "Walden JH", "year": 18}, "its year is none"),
        (
            {"title": "Watts RL 1912. Vegetable Gardening", "agency": "x", "year": 1912},
            "begins with author and year",
        ),
        (
            {"title": "Sale PJM, Low AB et al. 1979. Growth", "agency": "x", "year": 1979},
            "begins with author and year",
        ),
        ({"title": "Growing peas, 21 March 1997", "agency": "x", "year": 1997}, "ends with a date"),
        ({"title": "Growth", "author": "Sale PJM, Low AB", "year": 1979}, "semicolons"),
        ({"title": "Growth", "author": "Anon.", "year": 1979}, "anonymous"),
        ({"title": "Peas", "agency": "x", "undated": True, "read_in": "example.org/peas"}, "address"),
        ({"title": "Peas", "agency": "x", "undated": True, "read_in": "https://example.org"}, "address"),
        ({"title": "Peas", "agency": "x", "undated": True, "note": "year from memory"}, "uncertain"),
        ({"title": "Peas", "agency": "x", "undated": True, "note": "read in a reprint"}, "where it was read"),
    ],
)
def test_a_source_out_of_form_is_found(table, fault):
    assert any(fault in line for line in faults_of("key", Source.model_validate(table)))


def test_a_work_under_two_keys_is_found():
    first = Source(title="A Dictionary of Modern Gardening", author="Johnson GW; Landreth D", year=1847)
    again = Source(title="Dictionary of modern gardening.", author="Johnson GW", year=1847)
    other = Source(title="A Dictionary of Modern Gardening", author="Johnson GW", year=1877)
    assert works_under_two_keys({"one": first, "two": again, "three": other}) == [["one", "two"]]


def test_an_unused_key_would_be_found():
    assert "watts1912" in words_elsewhere()
    assert "_".join(("no", "such", "key", "1912")) not in words_elsewhere()


# -- how a source is cited -----------------------------------------------------------------------


def test_a_citation_gives_author_year_title_agency_table_and_what_is_doubtful():
    source = Source(
        title="Seed Saving Chart",
        author="Anon.",
        agency="Seed House",
        undated=True,
        table="rows to tomato",
        read_in="a copy on a farm's page",
        uncertain="the year is not shown",
    )
    assert source.citation == (
        "Anon. n.d. Seed Saving Chart. Seed House. rows to tomato. "
        "Read in a copy on a farm's page. Uncertain: the year is not shown"
    )


@pytest.mark.parametrize(
    ("table", "brief"),
    [
        (
            {"title": "Okra", "agency": "Texas A&M AgriLife Extension, E-513", "year": 2010},
            "Texas A&M AgriLife Extension 2010",
        ),
        (
            {"title": "Okra", "agency": "Cornell University, Geneva", "undated": True},
            "Cornell University, Geneva",
        ),
        ({"title": "Soil Culture", "author": "Walden JH", "year": 1858}, "Walden 1858"),
        ({"title": "Chinese cabbage", "author": "Anon.", "undated": True}, "Chinese cabbage"),
        (
            {
                "title": "Seeds",
                "author": "Allen RG; Pereira LS; Raes D",
                "agency": "Paper 5:1-9",
                "year": 1998,
            },
            "Allen and others 1998",
        ),
        (
            {"title": "Limonene", "author": "Conboy NJA et al.", "agency": "PLoS ONE 14(3):e1", "year": 2019},
            "Conboy and others 2019",
        ),
        ({"title": "Outlook 2009", "year": 2009}, "Outlook 2009"),
    ],
)
def test_in_brief_is_who_and_when(table, brief):
    assert Source.model_validate(table).in_brief == brief
