"""List all sentences of the program for translators, in ``resources/languages/bedwright.pot``.

Run it in the top folder after a sentence was added, changed or translated::

    .venv/bin/python -m tests.words.extract

It also brings ``resources/languages/*/LC_MESSAGES/bedwright.po`` in step, where translators write, and makes of it the ``.mo`` that
the program reads.
"""

from __future__ import annotations

import ast
import datetime as dt
import io
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from babel.messages import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from planner.words.tables import TEXTS, shared_notes, texts_of

TOP = Path(__file__).resolve().parents[2]
TEMPLATE = TOP / "resources" / "languages" / "bedwright.pot"
#: Functions of the catalogue, and which of their arguments are messages, plural forms and contexts.
FUNCTIONS: dict[str, Any] = {"say": (1,), "later": (1,), "say_count": (1, 2), "say_in_context": ((1, "c"), 2)}
#: Comments on the line before a message that begins so go along with it.
_COMMENT = "For translators:"
_HEADER = """\
# Sentences of Bedwright, for translators.
# Made by tests/words/extract.py; do not edit by hand."""
#: Lines of the header that change from day to day and from version to version.
_ANY_DAY = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)
_CHANGING = ('"POT-Creation-Date', '"Project-Id-Version', '"Generated-By')


@cache
def sources() -> tuple[Path, ...]:
    """All modules that say sentences of the catalogue: other functions called ``say`` are none of ours."""
    found = []
    for path in sorted((TOP / "planner").rglob("*.py")):
        text = path.read_text("utf-8")
        if "planner.words" in text and functions_of(ast.parse(text)):
            found.append(path)
    return tuple(found)


def functions_of(tree: ast.Module) -> dict[str, str]:
    """Names by which a module calls functions of the catalogue, with those functions."""
    return {
        name.asname or name.name: name.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("planner.words")
        for name in node.names
        if name.name in FUNCTIONS
    }


@cache
def template() -> str:
    """The template as it should be."""
    catalog = Catalog(header_comment=_HEADER)
    for path in sources():
        with path.open("rb") as file:
            place = [(path.relative_to(TOP).as_posix(), 0)]
            for _, ids, comments, context in extract(
                "python", file, FUNCTIONS, (_COMMENT,), {"encoding": "utf-8"}
            ):
                if not ids:  # a line that is taken away
                    continue
                message = catalog.add(ids, locations=place, auto_comments=comments, context=context)
                message.flags.discard("python-format")  # a % is a % here
    for name, fields in TEXTS.items():
        for message in texts_of(tomllib.loads((TOP / "resources" / name).read_text("utf-8")), fields):
            catalog.add(message, locations=[(f"resources/{name}", 0)]).flags.discard("python-format")
    crops = sorted((TOP / "resources" / "crops").glob("*.toml"))
    for note in shared_notes(tomllib.loads(path.read_text("utf-8")) for path in crops):
        catalog.add(note, locations=[("resources/crops", 0)]).flags.discard("python-format")
    text = io.BytesIO()
    write_po(text, catalog, sort_output=True, include_lineno=False, width=120)
    lines = text.getvalue().decode().splitlines(keepends=True)
    return "".join(line for line in lines if not line.startswith(_CHANGING))


def translations() -> list[Path]:
    """The files that translators write, one a language."""
    return sorted(TEMPLATE.parent.glob("*/LC_MESSAGES/bedwright.po"))


def language_of(path: Path) -> str:
    """The code of the language of a translators' file."""
    return path.parent.parent.name


def in_step(path: Path) -> tuple[Catalog, str]:
    """A translators' file with just the sentences that the program says, as a catalogue and as the text it should have."""
    language = language_of(path)
    with io.BytesIO(path.read_bytes()) as file:
        catalog = read_po(file, locale=language)
    with io.BytesIO(template().encode()) as file:
        catalog.update(read_po(file), no_fuzzy_matching=True)
    catalog.obsolete.clear()
    catalog.header_comment = f"# Sentences of Bedwright: {language}."
    catalog.fuzzy = False
    text = io.BytesIO()
    write_po(text, catalog, sort_output=True, include_lineno=False, width=120)
    lines = text.getvalue().decode().splitlines(keepends=True)
    return catalog, "".join(line for line in lines if not line.startswith(_CHANGING))


def compiled(catalog: Catalog) -> bytes:
    """What the program reads of a catalogue: the same whenever it is made."""
    catalog.creation_date = _ANY_DAY
    file = io.BytesIO()
    write_mo(file, catalog)
    return file.getvalue()


def main() -> None:
    """Write the template anew, and bring what is translated in step with it."""
    TEMPLATE.parent.mkdir(exist_ok=True)
    TEMPLATE.write_text(template(), encoding="utf-8")
    for path in translations():
        _, text = in_step(path)
        path.write_text(text, encoding="utf-8")
        catalog, _ = in_step(path)
        path.with_suffix(".mo").write_bytes(compiled(catalog))
        left = [
            one for one in catalog if one.id and not (all(one.string) if one.pluralizable else one.string)
        ]
        print(f"{language_of(path)}: {len(left)} of {len(catalog)} sentences are not translated")


if __name__ == "__main__":
    main()
