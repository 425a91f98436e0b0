"""What is translated: all of it, with the same parts, as the program reads it; crops by the names of the language."""

from __future__ import annotations

import gettext
import io
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from words.extract import compiled, in_step, language_of, translations

from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan import Plan
from planner.words import LANGUAGES, number_words, say, spoken_language, use_language, wished_language

FILES = translations()


@pytest.fixture
def english_again() -> Iterator[None]:
    yield
    use_language("en")


@pytest.mark.parametrize(
    ("environment", "chosen", "language"),
    [
        ({}, "", "en"),
        ({"LANG": "C.UTF-8"}, "", "en"),
        ({"LANG": "de_CH.UTF-8"}, "", "de"),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": "en_GB.UTF-8"}, "", "en"),
        ({"LANG": "en_GB.UTF-8", "LANGUAGE": "nl:de:en"}, "", "de"),
        ({"LANG": "en_GB.UTF-8"}, "de", "de"),
        ({"LANG": "de_DE.UTF-8"}, "en", "en"),
        ({"BEDWRIGHT_LANGUAGE": "en", "LANG": "de_DE.UTF-8"}, "de", "en"),
        ({"LANG": "xx"}, "", "en"),
    ],
)
def test_the_language_is_the_one_that_is_wished_and_there(environment, chosen, language):
    assert wished_language(environment, chosen) == language


def test_every_language_but_english_has_a_file():
    assert {language_of(path) for path in FILES} == set(LANGUAGES) - {"en"}


@pytest.mark.parametrize("path", FILES, ids=language_of)
def test_a_language_is_complete_and_as_the_program_reads_it(path: Path):
    catalog, text = in_step(path)
    assert path.read_text("utf-8") == text, "run: python -m tests.words.extract"
    left = [one.id for one in catalog if one.id and not (all(one.string) if one.pluralizable else one.string)]
    assert not left
    read = gettext.GNUTranslations(io.BytesIO(path.with_suffix(".mo").read_bytes()))
    assert compiled(catalog) == path.with_suffix(".mo").read_bytes()
    assert read.info()["language"] == language_of(path)


@pytest.mark.parametrize("path", FILES, ids=language_of)
def test_a_translation_has_the_parts_of_its_sentence(path: Path):
    catalog, _ = in_step(path)
    for one in catalog:
        if one.id and one.pluralizable:
            wanted = _parts(one.id[1])
            for form in one.string:
                assert wanted - {"count"} <= _parts(form) <= wanted | _parts(one.id[0]), one.id
            assert wanted <= _parts(one.string[-1]), one.id
        elif one.id:
            assert _parts(one.id) == _parts(one.string), one.id


def _parts(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def test_crops_are_called_as_the_language_calls_them(english_again: None):
    english = Plan(Garden(), 2026, load_catalogue()).catalogue
    use_language("de")
    german = Plan(Garden(), 2026, load_catalogue()).catalogue
    assert (spoken_language(), english.name_of("carrot"), german.name_of("carrot")) == (
        "de",
        "carrot",
        "Möhre",
    )
    assert german.named("Karotte") is None
    assert german.named("carrot") is german.named("möhre")
    assert set(german.crops) == set(english.crops)
    assert list(german.crops) != list(english.crops)
    assert number_words(2.5, 1) == "2,5"
    assert say("Undo") != "Undo"
    use_language("en")
    assert Plan(Garden(), 2026, load_catalogue()).catalogue.name_of("carrot") == "carrot"
