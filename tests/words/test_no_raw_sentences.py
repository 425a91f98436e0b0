"""No sentence of the rooms below the window goes past the catalogue of sentences."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from words.extract import FUNCTIONS, TOP

ROOMS = (
    "amounts", "checks", "cli", "garden", "ground", "importing", "light", "listings", "plan", "proposal", "season", "sheets", "storage",
)  # fmt: skip
#: A sentence, or a part of one beside what is filled in.
_SENTENCE = re.compile(r"[A-Z][a-z]+ [a-z]{2,}|[A-Za-z]{2,},? [a-z]{2,},? [a-z]{2,}")
_PART = re.compile(r"[A-Za-z]{2,} [a-z]{2,}|(?:^|\s)[a-z]{3,}(?:\s|$)")
#: What no user reads: mark-up, patterns, commands of PDF.
_MARKUP = re.compile(r"[<>{}\\]|beginbfchar|/[A-Z]\w+ |^/|\(\?")
#: Calls that are told to a programmer or take keys.
_FOR_PROGRAMMERS = {
    "AssertionError", "FactError", "Field", "LookupError", "RuntimeError", "TypeError", "batch_fact", "cast", "compile", "fact", "cached",
}  # fmt: skip
#: Modules of files' and commands' own words, and why.
_FILES_OF_KEYS = {
    "listings/reports": "the JSON of reports and the columns of tables, which programs read",
    "importing/record_english.py": "English as it is typed",
    "importing/record_german.py": "German as it is typed",
    "importing/record_phrases.py": "English and German as they are typed",
    "importing/record_line.py": "English and German as they are typed",
    "importing/ground_columns.py": "headings of tables in two languages",
    "cli/command_words.py": "mark-up of the manual's page of commands",
    "amounts/seeds.py": "a fault that no garden can hold: the file's reader refuses it before",
    "proposal/search.py": "a fault of the search itself",
    "checks/soil.py": "Latin names of crops",
    "importing/own_figures.py": "units as they are typed",
    "sheets/steps.py": "keys of steps",
    "sheets/sheet_font.py": "commands of PDF",
    "sheets/pdf_metadata.py": "names that PDF has for its facts",
    "proposal/puzzle.py": "faults of a layout, which tests ask for",
}
#: Texts that are keys or names, and no words for a reader.
_ALLOWED = {
    "sow the next", "Bedwright garden file", "Head of a journal of unsaved work.", "bedwright garden", "earth up again", "lift and cure",
    "lift and store", "pick all at once", "length of picking", "after three years", "look again on", "covers and supports",
    "better with another variety", "cabbage white butterflies", "IBM Plex Sans, DejaVu Sans, Noto Sans, sans-serif", "Zea mays",
    "Juglans nigra", "Value error, ", "bed, length, width, crop", "crop, variety, seeds", "crop, variety, days to maturity", "not by warmth",
    "number of seeds", "grams of seed", "days to harvest", "seeds to the gram", "sandy clay loam", "silty clay loam", "fed to animals",
    # why nothing helps a wish: listings.proposal has the words for it
    "there is no bed for it in any way", "it is longer than the beds, in all its parts", "rules forbid it that hold whatever comes",
}  # fmt: skip


def raw_texts(path: Path, source: str) -> Iterator[str]:
    """Texts of a module that look like a reader's, and are not said by the catalogue."""
    tree = ast.parse(source)
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Constant) and isinstance(node.value, str)) or node.value in _ALLOWED:
            continue
        shape = _PART if isinstance(parents[node], ast.JoinedStr) else _SENTENCE
        if shape.search(node.value) and not _MARKUP.search(node.value) and not _is_no_text(node, parents):
            yield f"{path.as_posix()}:{node.lineno}: {node.value}"


def _is_no_text(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> bool:
    """Whether a text is documentation, said, told to a programmer, or the key of something."""
    first = True
    while (parent := parents.get(node)) is not None:
        if isinstance(parent, ast.Expr | ast.Assert | ast.Compare | ast.MatchValue) and first:
            return True
        if isinstance(parent, ast.Subscript) and node is parent.slice:
            return True
        if isinstance(parent, ast.Dict) and any(node is key for key in parent.keys):
            return True
        if isinstance(parent, ast.keyword) and parent.arg == "description":
            return True
        if isinstance(parent, ast.Call):
            called = getattr(parent.func, "id", None) or getattr(parent.func, "attr", "")
            if called in {*FUNCTIONS, *_FOR_PROGRAMMERS}:
                return True
        first = first and isinstance(parent, ast.JoinedStr | ast.Tuple | ast.Set | ast.List)
        node = parent
    return False


def test_no_sentence_goes_past_the_catalogue() -> None:
    found = []
    for room in ROOMS:
        for path in sorted((TOP / "planner" / room).rglob("*.py")):
            short = path.relative_to(TOP / "planner")
            if not any(short.as_posix().startswith(keys) for keys in _FILES_OF_KEYS):
                found += raw_texts(short, path.read_text("utf-8"))
    assert not found, "\n".join(found)


def test_a_raw_sentence_is_found() -> None:
    text = (
        '"""Its module."""\nfrom planner.words import say\ndef f(n):\n    """Its function."""\n'
        '    show(f"{n} beds", f"{n} of the beds", "Rename it now", "key", say("Open it now"), of["a key of it"])\n'
    )
    found = [line.partition(": ")[2] for line in raw_texts(Path("f.py"), text)]
    assert sorted(found) == [" beds", " of the beds", "Rename it now"]
