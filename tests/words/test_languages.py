"""What is translated: all of it, with the same parts, as the program reads it; crops by the names of the language."""

from __future__ import annotations

import gettext
import io
import string
from pathlib import Path

import pytest
from words.extract import compiled, in_step, language_of, translations

from planner.words import wished_language

FILES = translations()


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
