"""The sentences in the code of the program, read without running it."""

from __future__ import annotations

import ast
import string
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from words.extract import TOP, functions_of


class ReadingError(Exception):
    """A message that cannot be read from the code."""


@dataclass(frozen=True)
class Message:
    """A sentence of the catalogue: its context, its text, and that of its plural."""

    text: str
    plural: str = ""
    context: str = ""

    @property
    def fields(self) -> frozenset[str]:
        """Names of its parts.

        Raises
        ------
        ReadingError
            Where a part is formatted, or no plain name.
        """
        found = set()
        for text in (self.text, self.plural):
            for _, name, form, conversion in string.Formatter().parse(text):
                if name is not None and (form or conversion or not name.isidentifier()):
                    raise ReadingError(f"part '{name}' of '{text}' is no plain name")
                if name is not None:
                    found.add(name)
        return frozenset(found)


@dataclass(frozen=True)
class MessageCall:
    """A call of a function of the catalogue, with the messages it may translate, and the names of its parts."""

    place: str
    function: str
    messages: tuple[Message, ...]
    parts: frozenset[str] = field(default_factory=frozenset)


class Module:
    """A module of the program, parsed."""

    def __init__(self, path: Path) -> None:
        self.place = path.relative_to(TOP).as_posix() if path.is_relative_to(TOP) else path.name
        self.tree = ast.parse(path.read_text("utf-8"))
        self.functions = functions_of(self.tree)
        self.constants: dict[str, ast.expr] = {}
        self.imported: dict[str, tuple[str, str]] = {}
        for node in self.tree.body:
            if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
                self.constants[node.targets[0].id] = node.value
            elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.value:
                self.constants[node.target.id] = node.value
            elif isinstance(node, ast.ImportFrom) and node.module:
                for name in node.names:
                    self.imported[name.asname or name.name] = node.module, name.name

    def calls(self) -> Iterator[MessageCall]:
        """All calls of functions of the catalogue.

        Raises
        ------
        ReadingError
            Where a message is neither a literal nor a constant made by ``later``.
        """
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                function = self.functions.get(node.func.id)
                if function is not None:
                    yield self._call(node, function)

    def _call(self, node: ast.Call, function: str) -> MessageCall:
        place = f"{self.place}:{node.lineno}"
        names = [part.arg for part in node.keywords]
        if None in names or any(isinstance(part, ast.Starred) for part in node.args):
            raise ReadingError(f"{place}: parts are given by name, one by one")
        wanted = {"say": 1, "later": 1, "say_in_context": 2, "say_count": 3}[function]
        if len(node.args) != wanted:
            raise ReadingError(f"{place}: {function} takes {wanted} arguments besides the parts")
        if function == "say":
            messages = tuple(self._messages(node.args[0], place))
        elif function == "later":
            messages = (Message(_literal(node.args[0], place)),)
        elif function == "say_count":
            messages = (Message(_literal(node.args[0], place), _literal(node.args[1], place)),)
        else:
            messages = (Message(_literal(node.args[1], place), context=_literal(node.args[0], place)),)
        parts = {name for name in names if name is not None}
        if function == "say_count":
            parts.add("count")
        return MessageCall(place, function, messages, frozenset(parts))

    def _messages(self, node: ast.expr, place: str) -> Iterator[Message]:
        """What the argument of ``say`` may be: a literal, or what ``later`` made in a constant."""
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield Message(node.value)
            return
        field, base = "", node
        while isinstance(base, (ast.Attribute, ast.Subscript)):
            if isinstance(base, ast.Attribute) and not field:
                field = base.attr
            base = base.value
        if not isinstance(base, ast.Name):
            raise ReadingError(f"{place}: the message is neither a literal nor a constant")
        module, value = self._constant(base.id, place)
        found = list(module._made_later(value, field if base is not node else ""))
        if not found:
            raise ReadingError(f"{place}: nothing in {base.id} is made by later")
        yield from found

    def _constant(self, name: str, place: str) -> tuple[Module, ast.expr]:
        """A constant of this module, or of the one it is imported from."""
        if name in self.constants:
            return self, self.constants[name]
        if name in self.imported:
            source, there = self.imported[name]
            path = TOP / (source.replace(".", "/") + ".py")
            if path.is_file():
                return read(path)._constant(there, place)
        raise ReadingError(f"{place}: {name} is no constant of a module")

    def _made_later(self, value: ast.expr, field: str) -> Iterator[Message]:
        """The messages in a constant: all of them, or those of one field where it has it."""
        chosen: list[ast.expr] = [
            part.value
            for node in ast.walk(value)
            if isinstance(node, ast.Call)
            for part in node.keywords
            if field and part.arg == field
        ]
        for root in chosen or [value]:
            for node in ast.walk(root):
                called = node.func if isinstance(node, ast.Call) else None
                if isinstance(called, ast.Name) and self.functions.get(called.id) == "later":
                    yield Message(_literal(node.args[0], self.place))


def _literal(node: ast.expr, place: str) -> str:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    raise ReadingError(f"{place}: the message is no literal")


@cache
def read(path: Path) -> Module:
    """A module, read once."""
    return Module(path)
