"""The rules of all checks, read from the code that judges by them: what the manual lists can say nothing else.

Each finding is made with its rule and the source of that rule (``planting_finding``, ``bed_finding``, ``Finding``).  Those
calls are read, without being run: the rule's sentence, the figures and publications that it rests on, and how grave a
finding by it may be.
"""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import FunctionType, ModuleType

from planner import checks
from planner.checks.frame.finding import SEVERITIES, Finding
from planner.crops.crop import ENTRY_FIELDS

#: Calls that make a finding, with the places of check, severity, rule and source among their arguments.
_MAKERS = {"planting_finding": (0, 1, 4, 5), "bed_finding": (0, 1, 4, 5)}
_KEYWORDS = ("check", "severity", "rule", "source")
#: Sources that are no publications.
_PLAIN_SOURCES = ("practice", "estimate", "geometry")
#: Functions that say a sentence of the catalogue, and which of their arguments is listed.
_SAYING = {"say": 0, "say_count": 1}


@dataclass(frozen=True)
class ListedRule:
    """A rule by which a check judges.

    Attributes
    ----------
    check : str
        Name of the check.
    name : str
        Stable name: the module and the name of the rule in it, as ``frost_spring.hardy``.
    rule : str
        The sentence, in English, with its parts in braces.
    figures : tuple of str
        Fields of a crop whose sources are those of the rule.
    sources : tuple of str
        Keys of publications, ``practice`` or ``estimate``.
    severities : tuple of str
        How grave a finding by it may be; empty where it depends on more than one place tells.
    of_crop : bool
        Its source is that of a figure of the crop which is known only when it is judged.
    """

    check: str
    name: str
    rule: str
    figures: tuple[str, ...]
    sources: tuple[str, ...]
    severities: tuple[str, ...]
    of_crop: bool = False

    def holds(self, said: str, finding_rule: str) -> bool:
        """Whether a finding was judged by it.

        Parameters
        ----------
        said : str
            The rule's sentence in the language of the finding, with its parts in braces.
        finding_rule : str
            The rule that the finding names.

        Examples
        --------
        >>> ListedRule("a", "a.b", "At least {n} years", (), (), ()).holds("At least {n} years", "At least 3 years")
        True
        """
        pattern = "".join(
            ".+" if part.startswith("{") else re.escape(part) for part in re.split(r"(\{\w+\})", said)
        )
        return re.fullmatch(pattern, finding_rule) is not None


@cache
def listed_rules() -> tuple[ListedRule, ...]:
    """All rules, in the order of modules and lines; a rule of several findings once.

    Empty where the program's code cannot be read.
    """
    found: dict[tuple[str, str], ListedRule] = {}
    folder = Path(checks.__file__).parent
    for path in sorted([*folder.glob("*.py"), folder / "frame" / "failed.py"]):
        if not path.is_file():
            continue
        if "Finding(" not in (text := path.read_text("utf-8")) and "_finding(" not in text:
            continue
        name = ".".join((checks.__name__, *path.relative_to(folder).with_suffix("").parts))
        for rule in _Reader(importlib.import_module(name), path.stem, text).rules():
            known = found.get((rule.check, rule.name))
            found[rule.check, rule.name] = rule if known is None else _together(known, rule)
    return tuple(found.values())


def rule_of(finding: Finding, said: dict[str, str]) -> ListedRule | None:
    """The listed rule by which a finding was judged; None where each pair has its own.

    A sentence that is not found, since it depends on a number, is one of the first rule of its check.

    Parameters
    ----------
    finding : Finding
    said : dict
        Sentences of the rules in the language of the finding, by name of rule.
    """
    of_check = [rule for rule in listed_rules() if rule.check == finding.check]
    found = next((rule for rule in of_check if rule.holds(said[rule.name], finding.rule)), None)
    if found is None and of_check and (of_check[0].figures or of_check[0].sources):
        return of_check[0]
    return found


def _together(one: ListedRule, other: ListedRule) -> ListedRule:
    def both(first: tuple[str, ...], second: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*first, *second)))

    severities = both(one.severities, other.severities)
    return ListedRule(
        one.check,
        one.name,
        one.rule,
        both(one.figures, other.figures),
        both(one.sources, other.sources),
        tuple(each for each in SEVERITIES if each in severities),
        one.of_crop and other.of_crop,
    )


class _Reader:
    """The rules of one module."""

    def __init__(self, module: ModuleType, stem: str, text: str) -> None:
        self._values = vars(module)
        self._stem = stem
        self._tree = ast.parse(text)
        self._functions = {
            node.name: node for node in ast.walk(self._tree) if isinstance(node, ast.FunctionDef)
        }

    def rules(self) -> Iterator[ListedRule]:
        for function in self._functions.values():
            for node in ast.walk(function):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                    arguments = self._arguments(node)
                    if arguments is not None:
                        yield from self._of_call(function, *arguments)

    def _arguments(self, node: ast.Call) -> tuple[ast.expr, ...] | None:
        """Check, severity, rule and source of a call that makes a finding."""
        assert isinstance(node.func, ast.Name)
        if node.func.id == "Finding":
            named = {part.arg: part.value for part in node.keywords}
            return tuple(named[name] for name in _KEYWORDS) if "rule" in named else None
        places = _MAKERS.get(node.func.id)
        return tuple(node.args[place] for place in places) if places and len(node.args) > 5 else None

    def _of_call(
        self, function: ast.FunctionDef, check: ast.expr, severity: ast.expr, rule: ast.expr, source: ast.expr
    ) -> Iterator[ListedRule]:
        name = self._values.get(check.id) if isinstance(check, ast.Name) else None
        if not isinstance(name, str):
            name = "failed" if self._stem == "failed" else self._stem
        figures, sources = self._rests_on(function, source)
        of_crop = any(
            isinstance(node, ast.Attribute) and node.attr == "source" and isinstance(node.value, ast.Name)
            for node in ast.walk(source)
        )
        graves = [node.value for node in ast.walk(severity) if isinstance(node, ast.Constant)]
        for wider in (function, self._tree):  # a variable, or a function of its own
            if not set(SEVERITIES) & set(graves):
                graves = [node.value for node in ast.walk(wider) if isinstance(node, ast.Constant)]
        severities = tuple(each for each in SEVERITIES if each in graves)
        for key, sentence in self._sentences(rule):
            yield ListedRule(
                name, f"{self._stem}.{key}", sentence, figures, sources, severities, of_crop and not figures
            )

    def _sentences(self, rule: ast.expr) -> Iterator[tuple[str, str]]:
        """The sentences that the argument of a rule may say, each with its name."""
        for node in ast.walk(rule):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name)):
                continue
            if node.func.id in _SAYING and isinstance(node.args[0], ast.Name):
                constant = node.args[0].id
                yield constant.strip("_").lower(), str(self._values[constant])
            elif node.func.id in self._functions:  # the rule has a function of its own
                said = [
                    str(argument.value)
                    for call in ast.walk(self._functions[node.func.id])
                    if isinstance(call, ast.Call)
                    and isinstance(call.func, ast.Name)
                    and call.func.id in _SAYING
                    # Of sentences that depend on a number the one of several.
                    and isinstance(argument := call.args[_SAYING[call.func.id]], ast.Constant)
                ]
                for number, sentence in enumerate(each for each in said if re.search(r"[a-z]{3} ", each)):
                    yield f"{node.func.id.strip('_')}{number + 1}", sentence

    def _rests_on(
        self, function: ast.FunctionDef, source: ast.expr
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Figures and publications that the argument of a source names."""
        parts: list[ast.AST] = [source]
        names = {node.id for node in ast.walk(source) if isinstance(node, ast.Name)}
        parts += [
            node.value
            for node in ast.walk(function)
            if isinstance(node, ast.Assign)
            and any(isinstance(name, ast.Name) and name.id in names for name in ast.walk(node.targets[0]))
        ]
        figures: dict[str, None] = {}
        sources: dict[str, None] = {}
        for part in parts:
            for node in ast.walk(part):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                    if node.func.attr == "source":
                        figures |= {
                            each.value: None
                            for argument in node.args
                            for each in ast.walk(argument)
                            if isinstance(each, ast.Constant) and isinstance(each.value, str)
                        }
                elif isinstance(node, ast.Attribute) and node.attr in ENTRY_FIELDS:
                    figures[node.attr] = None
                elif isinstance(node, ast.Constant) and node.value in ENTRY_FIELDS:
                    figures[str(node.value)] = None
                elif isinstance(node, ast.Constant) and node.value in _PLAIN_SOURCES:
                    sources[str(node.value)] = None
                elif isinstance(node, ast.Name):
                    value = self._values.get(node.id)
                    if isinstance(value, str) and node.id.endswith("SOURCE"):
                        sources[value] = None
                    elif isinstance(value, FunctionType):  # which looks the figure up
                        named = value.__code__.co_names
                        texts = [each for each in value.__code__.co_consts if isinstance(each, str)]
                        figures |= {each: None for each in texts if each in ENTRY_FIELDS}
                        sources |= {
                            str(self._values[each]): None
                            for each in named
                            if each.endswith("SOURCE") and each in self._values
                        }
        return tuple(figures), tuple(sources)
