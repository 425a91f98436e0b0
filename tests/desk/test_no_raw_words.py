"""No text of the window goes past the catalogue of sentences."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from words.extract import FUNCTIONS, TOP

from planner.listings.record_words import KIND_WORDS
from planner.words.keys import KEY_WORDS, WORK_WORDS

DESK = TOP / "planner" / "desk"
#: Whole sentences, words with a capital, and words beside what is filled in.
_TEXT = re.compile(r"[A-Za-z]{2,} [A-Za-z]{2,}|&?[A-Z][a-z&]{2,}…?\Z")
_PART = re.compile(r"(?:^|[ (])[A-Za-z]{2,}(?:[ ,.:)]|$)")
#: Style sheets and mark-up, which hold no words.
_MARKUP = re.compile(r"[<>{}]|px;|stop: |; (?:background|border|color|image|padding)|(?:Ctrl|Shift|Alt)\+")
#: Functions whose arguments name things in the program: the first of these, all of those.
_FIRST_IS_NAME = {"Entry", "Switch", "Made", "Submenu", "menu", "cast"}
_ALL_ARE_NAMES = {"check_in_group", "enable", "QLockFile", "QSettings", "TypeVar", "partial"}
#: Texts that are no words of a user: names, and keys that no table of keys has.
_ALLOWED = {
    "Bedwright", " – Bedwright", "Fusion", "Form", "Rows", "View", "Page", "rule.", "check.", "page.", "action.", "tool structure:", "plot edge", "IBM Plex Sans", "Polygon", "from planner.desk.model.layout_process import serve; serve()",
    "by hand", "worked out", "count back", "field rows", "for the store", "eaten fresh", "harvest raised", "autumn planting",
    "after three years", "other day", "not begun", "made room", "map form", "came up", "to buy", "on hand",
}  # fmt: skip
#: Names of the actions in the menus, as lists of them have them.
_ACTIONS = {
    node.args[0].value
    for node in ast.walk(ast.parse((DESK / "main_window" / "menus.py").read_text("utf-8")))
    if isinstance(node, ast.Call)
    and getattr(node.func, "id", "") in _FIRST_IS_NAME
    and node.args
    and isinstance(node.args[0], ast.Constant)
} | {f"tool {tool}" for tool in ("select", "rectangle", "polygon", "circle", "measure")}
_KEYS = {*_ACTIONS, *KEY_WORDS, *WORK_WORDS, *KIND_WORDS, *_ALLOWED}


def raw_texts(path: Path) -> Iterator[str]:
    """Texts of a module that look like a user's, and are not said by the catalogue."""
    tree = ast.parse(path.read_text("utf-8"))
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    for node in ast.walk(tree):
        if not (isinstance(node, ast.Constant) and isinstance(node.value, str)) or node.value in _KEYS:
            continue
        parent = parents[node]
        shape = _PART if isinstance(parent, ast.JoinedStr) else _TEXT
        if shape.search(node.value) and not _MARKUP.search(node.value) and not _is_name(node, parents):
            yield f"{path.relative_to(DESK).as_posix()}:{node.lineno}: {node.value}"


def _is_name(node: ast.AST, parents: dict[ast.AST, ast.AST]) -> bool:
    """Whether a text is documentation, said, told to a programmer, or the name of something in the program."""
    first = True
    while (parent := parents.get(node)) is not None:
        if isinstance(parent, ast.Expr | ast.Assert | ast.Compare) and first:
            return True
        if isinstance(parent, ast.keyword) and parent.arg == "merge":
            return True
        if isinstance(parent, ast.Subscript) and node is parent.slice:
            return True
        if isinstance(parent, ast.Call):
            called = getattr(parent.func, "id", None) or getattr(parent.func, "attr", "")
            if called in {*FUNCTIONS, *_ALL_ARE_NAMES, "ValueError"}:
                return True
            if called in _FIRST_IS_NAME and parent.args and node is parent.args[0]:
                return True
        first = first and isinstance(parent, ast.JoinedStr | ast.Tuple)
        node = parent
    return False


def test_no_text_goes_past_the_catalogue() -> None:
    found = [text for path in sorted(DESK.rglob("*.py")) for text in raw_texts(path)]
    assert not found, "\n".join(found)


def test_a_raw_text_is_found(tmp_path: Path) -> None:
    path = DESK / "nowhere.py"
    with pytest.MonkeyPatch.context() as patch:
        text = 'from planner.words import say\ndef f(n):\n    show(f"{n} beds", "Rename", "all of them", say("Open it"))\n'
        patch.setattr(Path, "read_text", lambda _path, _encoding: text)
        found = [line.partition(": ")[2] for line in raw_texts(path)]
    assert sorted(found) == [" beds", "Rename", "all of them"]
