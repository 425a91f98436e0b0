"""The manual: whole in both languages, every link leads somewhere, and what comes from the code is what the code says."""

from __future__ import annotations

import argparse
import io
import re
from functools import cache, partial
from html.parser import HTMLParser

import pypdfium2
import pytest

from planner.checks import check_all
from planner.checks.registry import CHECKS, LIGHT
from planner.cli.command_words import command_text, commands_of, help_of
from planner.cli.parser import make_parser
from planner.crops import Catalogue
from planner.garden.conflict_words import FIELD_NAMES
from planner.manual import file_format, generated, html, pdf
from planner.manual.book import CHAPTERS, Book, chapter_text, read_book
from planner.manual.generated import generators
from planner.manual.html import book_html, pictures_of
from planner.manual.listed_rules import listed_rules, rule_of
from planner.manual.marks import first_bold, marks_in, names_in
from planner.manual.pdf import book_pdf
from planner.manual.words import LANGUAGES, ManualWords, _table
from planner.plan import Plan
from planner.resources import resource, sample_folder
from planner.storage.files import load

LINK = re.compile(r"\]\(#([^)]+)\)")


@cache
def book(language: str) -> Book:
    def of_menu(_words: ManualWords, name: str) -> str:
        return f"**{name}**"

    return read_book(
        language,
        generators({"action": of_menu, "key": of_menu, "commands": partial(command_text, make_parser())}),
    )


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_link_leads_to_a_place(language: str) -> None:
    places = book(language).places
    lost = [
        (chapter.name, name)
        for chapter in book(language).chapters
        for name in LINK.findall(chapter.markdown)
        if name not in places
    ]
    assert lost == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_place_has_one_name_for_itself_and_says_something(language: str) -> None:
    sections = [section for chapter in book(language).chapters for section in chapter.sections]
    names = [name for section in sections for name in section.names]
    assert sorted(names) == sorted(set(names))
    assert [section.names for section in sections if section.level == 0 and len(section.text) < 8] == []


@pytest.mark.parametrize("name", CHAPTERS)
def test_both_languages_have_the_same_places_and_marks_in_the_same_order(name: str) -> None:
    english, german = chapter_text("en", name), chapter_text("de", name)

    def of(text: str) -> list[tuple[str, ...]]:
        return [found for line in text.split("\n") if (found := names_in(line))]

    assert of(german) == of(english)
    pictures = [re.sub(r" .*", "", word) for kind, word in marks_in(german) if kind == "picture"]
    assert pictures == [re.sub(r" .*", "", word) for kind, word in marks_in(english) if kind == "picture"]
    others = [mark for mark in marks_in(german) if mark[0] != "picture"]
    assert sorted(others) == sorted(mark for mark in marks_in(english) if mark[0] != "picture")
    if not re.fullmatch(r"\s*", german.partition("\n")[2]):
        assert german != english


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_check_has_a_section_and_its_rules(language: str) -> None:
    places = book(language).places
    rules = {rule.check: rule for rule in listed_rules()}
    for check in (*CHECKS, *LIGHT):
        section = places[f"check.{check.replace(' ', '-')}"]
        assert len(section.text) > 40, check
        assert check in rules
    for rule in listed_rules():
        assert rule.figures or rule.sources or rule.of_crop or rule.check == "neighbours", rule
        assert f"rule.{rule.name}" in places
        assert places[f"rule.{rule.name}"].chapter == "checks"


def test_a_listed_rule_names_its_figures_and_publications(catalogue: Catalogue) -> None:
    rules = {rule.name: rule for rule in listed_rules()}
    assert rules["light.rule"].figures == ("sun_hours",)
    assert "hardiness" in rules["frost_spring.rule"].figures
    assert rules["frost_spring.rule"].severities == ("stop", "mind")
    assert rules["rotation.rule1"].sources == ("isu_rotation",)
    assert rules["access.rule_reach"].sources == ("practice",)
    section = book("en").places["rule.rotation.rule1"]
    assert catalogue.sources["isu_rotation"].title in section.text


def test_findings_lead_to_the_rule_by_which_they_were_judged() -> None:
    said = {rule.name: rule.rule for rule in listed_rules()}
    seen = set()
    for name in ("hollow_lane", "red_mesa"):
        garden = load(sample_folder() / f"{name}.bedwright")
        for finding in check_all(
            Plan(garden, max(one.year for one in garden.plantings)), lore=True, light=False
        ):
            rule = rule_of(finding, said)
            if rule is None:
                assert finding.check == "neighbours"  # each pair has a sentence of its own
                continue
            assert rule.check == finding.check
            seen.add(rule.name)
    assert len(seen) > 5


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_command_and_argument_is_told_in_the_language_of_the_manual(language: str) -> None:
    words, places = ManualWords(language), book(language).places
    unknown = []
    for name, command in commands_of(make_parser()).items():
        assert f"command.{name}" in places
        said = [(command.description or "").removesuffix(".")]
        said += [
            help_of(action)
            for action in command._actions
            if action.help not in (None, argparse.SUPPRESS) and not isinstance(action, argparse._HelpAction)
        ]
        unknown += [(name, text) for text in said if not words.knows(text)]
    assert unknown == []


def test_what_the_code_says_has_german_words_and_no_others_are_kept() -> None:
    own = {
        value
        for module in (generated, file_format, html, pdf)
        for held in vars(module).values()
        for value in (held.values() if isinstance(held, dict) else (held,))
        if isinstance(value, str) and value in _table("de")
    }
    wanted = {rule.rule for rule in listed_rules()} | set(FIELD_NAMES.values()) | own
    wanted |= {
        generated._labels().get(field, field.replace("_", " "))
        for rule in listed_rules()
        for field in rule.figures
    }
    wanted |= set(generated.SEVERITY_WORDS.values()) | set(generated.BASIS_WORDS.values())
    wanted |= {caution.text for caution in generated.cautions(generated.load_catalogue()).values()}
    for command in commands_of(make_parser()).values():
        wanted |= {(command.description or "").removesuffix("."), *map(help_of, command._actions)}
    words = ManualWords("de")
    assert sorted(text for text in wanted if text != argparse.SUPPRESS and not words.knows(text))[:20] == [
        "show this help message and exit"
    ]
    assert sorted(set(_table("de")) - wanted) == []
    for english, german in _table("de").items():
        assert set(re.findall(r"\{\w+\}", english)) == set(re.findall(r"\{\w+\}", german)), english


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.links: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        self.ids.add(found.get("id") or "")
        if tag == "a" and (found.get("href") or "").startswith("#"):
            self.links.add((found["href"] or "")[1:])


def test_the_page_is_whole_by_itself() -> None:
    text = book_html(book("de"), {"sheet": b"\x89PNG"})
    reader = _Reader()
    reader.feed(text)
    assert reader.links <= reader.ids
    assert 'lang="de"' in text
    assert text.count("data:image/png") == 1
    assert "http" not in text.replace("https://json-schema.org", "")
    assert "{#" not in text
    assert "{picture" not in text


def test_the_pdf_has_bookmarks_and_says_what_the_page_says() -> None:
    chapters = tuple(one for one in book("en").chapters if one.name in ("start", "checks", "figures"))
    part = Book("en", chapters, book("en").words)
    data = book_pdf(part, {})
    assert data == book_pdf(part, {})
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    marks = [mark.get_title() for mark in document.get_toc()]
    assert "Crowding" in marks
    assert chapters[0].title in marks
    text = "".join(page.get_textpage().get_text_range() for page in document)
    assert "no plant stands nearer to the edge" in " ".join(text.split())
    assert "{#" not in text


def test_words_on_the_screen_are_sentences_of_the_program() -> None:
    listed = (resource("languages") / "bedwright.pot").read_text("utf-8")
    labels = {
        word for name in CHAPTERS for kind, word in marks_in(chapter_text("en", name)) if kind == "label"
    }
    assert len(labels) > 10
    assert [word for word in sorted(labels) if f'msgid "{word}"' not in listed] == []
    assert "*Make a series of it…*" in book("de").chapter("plant").markdown


def test_words_are_found_whatever_their_case_and_the_title_comes_first() -> None:
    found = book("en").found("ROTATION")
    assert found[0].names[0] == "check.rotation"
    assert book("de").found("fruchtfolge")[0].names[0] == "check.rotation"
    assert book("en").found("no such words at all") == []
    assert book("en").nearest("planting.no_such_field") == "planting"


def test_pictures_are_named_with_words_for_those_who_do_not_see_them() -> None:
    for chapter in book("en").chapters:
        for kind, word in marks_in(chapter.written):
            assert kind != "picture" or len(word.split()) > 3, word
        assert len(pictures_of(chapter.markdown)) == len(set(pictures_of(chapter.markdown)))


def test_a_field_of_a_list_begins_with_its_name_in_bold() -> None:
    for name in ("details", "pages"):
        for line in chapter_text("en", name).split("\n"):
            if line.startswith("- {#"):
                assert first_bold(line), line
