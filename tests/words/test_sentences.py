"""Every sentence of the catalogue is whole, listed for translators, and can be translated."""

from __future__ import annotations

import ast
import datetime as dt
import gettext
import io
import tomllib
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from typing import Any

import pytest
from babel.messages import Catalog
from babel.messages.mofile import write_mo
from checks.faults import CASES, YEAR, Case, beans, made
from checks.shade import in_a_yard, shading
from making import bed, planting, rectangle
from words.extract import TEMPLATE, TOP, sources, template
from words.pseudo import is_whole, pseudo_language, untranslated
from words.reading import Message, ReadingError, read

from planner import resources
from planner.checks import Finding, check_all, check_light
from planner.checks.cover_pests import SERIOUS
from planner.checks.other_start import with_other_starts
from planner.crops import load_catalogue
from planner.crops.neighbours import rules
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import load
from planner.words import say, say_count, use_language, use_translations
from planner.words.tables import OFTEN, TEXTS, shared_notes, table_words, texts_of

SAMPLES = sorted(resources.sample_folder().glob("*.bedwright"))
CHECKS = TOP / "planner" / "checks"
#: Functions of the frame that may join strings, and why.
JOINING = {
    "finding.py": {"key_of": "a key, which no user sees", "_key_words": "a part of such a key"},
    "phrases.py": {"significant": "the format of a number"},
}


# -- in the code ----------------------------------------------------------------------------------


def test_messages_are_literals_and_their_parts_are_named() -> None:
    wrong = []
    for path in sources():
        for call in read(path).calls():
            for message in call.messages:
                if call.function in ("say", "say_in_context"):
                    right = message.fields == call.parts
                elif call.function == "say_count":
                    right = message.fields | {"count"} == call.parts
                else:
                    right = True
                if not right:
                    wrong.append((call.place, message.text, sorted(call.parts)))
    assert len(sources()) > 200
    assert wrong == []


def _functions(tree: ast.AST, within: str = "") -> Iterator[tuple[str, ast.AST]]:
    """All nodes of a module, each with the name of the outermost function or class it is in."""
    for node in ast.iter_child_nodes(tree):
        named = isinstance(node, (ast.FunctionDef, ast.ClassDef))
        name = within or (node.name if named else "")
        yield name, node
        yield from _functions(node, name)


def _joins_strings(node: ast.AST) -> bool:
    """Whether an expression glues strings: an f-string, a + or % with a literal, or ``format`` of one."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, (ast.Add, ast.Mod)):
        return any(
            isinstance(side, ast.Constant) and isinstance(side.value, str) for side in (node.left, node.right)
        )
    if isinstance(node, ast.Attribute):
        return node.attr == "format" and isinstance(node.value, ast.Constant)
    return isinstance(node, ast.JoinedStr)


def test_checks_join_no_strings() -> None:
    paths = sorted(CHECKS.rglob("*.py"))
    joined = []
    for path in paths:
        allowed = JOINING.get(path.name, {}) if path.parent.name == "frame" else {}
        for function, node in _functions(ast.parse(path.read_text("utf-8"))):
            if function not in allowed and _joins_strings(node):
                joined.append(f"{path.name}:{getattr(node, 'lineno', 0)}")
    assert len(paths) > 50
    assert joined == []


def test_the_template_for_translators_lists_every_sentence() -> None:
    assert TEMPLATE.read_text("utf-8") == template(), "run: python -m tests.words.extract"


def test_the_template_lists_the_messages_of_the_code_and_nothing_else() -> None:
    messages = {m for path in sources() for call in read(path).calls() for m in call.messages}
    for name, fields in TEXTS.items():
        table = tomllib.loads((TOP / "resources" / name).read_text("utf-8"))
        messages |= {Message(text) for text in texts_of(table, fields)}
    crops = sorted((TOP / "resources" / "crops").glob("*.toml"))
    messages |= {Message(note) for note in shared_notes(tomllib.loads(f.read_text("utf-8")) for f in crops)}
    text = template()
    listed = text.count("\nmsgid ") - 1
    unbroken = text.replace('"\n"', "")
    assert listed == len({(m.text, m.context) for m in messages})
    for message in messages:
        for line in filter(None, (message.text, message.plural)):
            assert line.replace('"', '\\"').replace("\n", "\\n") in unbroken, line


@pytest.mark.parametrize(
    "call",
    ["say(text)", "say('a' + name)", "say(f'a {name}')", "say('{a}', **parts)", "say(_RULE)", "later(text)"],
)
def test_a_message_that_is_no_literal_is_refused(call: str, tmp_path: Path) -> None:
    path = tmp_path / "rule.py"
    path.write_text(
        f"from planner.words import later, say\n\n_RULE = 'a'\n\n\ndef f(text, name, parts):\n    {call}\n"
    )
    with pytest.raises(ReadingError):
        list(read(path).calls())


def test_messages_of_a_constant_are_read_by_field_and_key(tmp_path: Path) -> None:
    path = tmp_path / "rule.py"
    path.write_text(
        "from planner.words import later, say\n\n"
        "_KINDS = {'a': Words(name=later('{x} a'), more=later('{y}')), 'b': Words(name=later('{x} b'), more=later('{z}'))}\n"
        "say(_KINDS[kind].name, x=1)\n"
    )
    *_, call = (one for one in read(path).calls() if one.function == "say")
    assert {message.text for message in call.messages} == {"{x} a", "{x} b"}
    assert {message.fields for message in call.messages} == {call.parts}


def test_a_part_of_a_message_is_a_plain_name() -> None:
    with pytest.raises(ReadingError, match="no plain name"):
        _ = Message("{day:%d}").fields


# -- in another language --------------------------------------------------------------------------


def names_in(garden: Garden) -> frozenset[str]:
    """Names in a garden, and what crops, pests and rules of neighbours are called in the tables shipped with the program."""
    catalogue = load_catalogue().in_english(garden.site.english)
    own = chain(garden.beds, garden.structures, garden.varieties, garden.benches)
    return frozenset(
        {
            *(one.name for one in own if one.name),
            *(planting.variety for planting in garden.plantings if planting.variety),
            *(str(value) for one in garden.conflicts for value in one.values.values()),
            *(name for crop in catalogue.crops.values() for name in (crop.name, crop.family)),
            *SERIOUS,
            garden.climate.zone or "-",
            *(line for rule in rules(catalogue) for line in (rule.mechanism, rule.note) if line),
        }
    )


def texts(found: tuple[Finding, ...], plan: Plan) -> Iterator[str]:
    """All texts of some findings that a user reads."""
    for one in found:
        yield from (one.text, one.rule)
        for fix in with_other_starts(plan, one, one.candidates(plan)):
            yield from filter(None, (fix.text, fix.gain))


def assert_whole(garden: Garden, year: int) -> int:
    """Assert that all findings of a garden are whole in the pseudo-language; return how many texts there are."""
    names = names_in(garden)
    with pseudo_language():
        plan = Plan(garden, year)
        found = list(texts(check_all(plan, lore=True), plan))
    for text in found:
        assert is_whole(text), text
        assert untranslated(text, names) == "", text
    return len(found)


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_all_findings_of_the_samples_are_whole_sentences(file: Path) -> None:
    garden = load(file)
    assert sum(assert_whole(garden, year) for year in garden.years()) > 8


@pytest.mark.parametrize("case", [pytest.param(case, id=case.name) for case in CASES])
def test_findings_of_every_fault_are_whole_sentences(case: Case) -> None:
    assert assert_whole(case.faulty(), YEAR) >= 2


def in_autumn(days: int) -> dict[str, Any]:
    """First and last day of a planting that grows so long from 20 July on."""
    first = dt.date(2026, 7, 20)
    return {"first": first, "last": first + dt.timedelta(days=days - 1)}


def beet_behind_beans() -> Garden:
    """Beetroot that loses to beans a share of the day's sun, rather than hours."""
    return e.change_planting(shading(), "p2", crop="beetroot", support=None)


def without_names(garden: Garden) -> Garden:
    """A garden whose structures have no names."""
    return garden.with_(structures=tuple(one.with_(name="") for one in garden.structures))


SHADED = {
    "hours, by two walls": (lambda: in_a_yard(5.5), "needs 5.5 h"),
    "hours, by two walls without names": (lambda: without_names(in_a_yard(5.5)), "to the south"),
    "share of the day's sun": (lambda: in_a_yard(6.0, height=2.5), "of an open place"),
    "share in the darkest weeks": (
        lambda: in_a_yard(6.0, height=1.7, **in_autumn(60)),
        "in the darkest weeks",
    ),
    "hours, by another planting": (shading, "which keeps"),
    "share, by another planting": (beet_behind_beans, "which keeps"),
}


@pytest.mark.parametrize("case", sorted(SHADED))
def test_findings_of_light_are_whole_sentences(case: str) -> None:
    make, words = SHADED[case]
    found = [one.text for one in check_light(Plan(make(), YEAR))]
    assert any(words in text for text in found), found
    assert assert_whole(make(), YEAR) >= 2


def test_a_fix_that_ends_more_says_so_in_a_whole_sentence() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(3)]
    old = [
        planting(f"p{i}", bed="b0", crop="pea", year=2026 - i, start="sown", first=f"{2026 - i}-04-10")
        for i in (1, 2)
    ]
    near = {"shares_ground": True, "arrangement": {"kind": "places", "points": [(0.0, 0.05)]}}
    document = made(*beds, *old, beans("p3", bed="b0"), beans("p4", bed="b0", **near))
    with pseudo_language():
        gains = [fix.gain for one in check_all(Plan(document, YEAR)) for fix in one.fixes]
    assert any("ｅｎｄｓ" in gain for gain in gains)
    assert all(is_whole(gain) for gain in gains if gain)


def test_the_language_before_comes_back() -> None:
    with pseudo_language():
        assert say("kale") == "⟦ｋａｌｅ⟧"
    assert say("kale") == "kale"


def test_a_language_with_three_plural_forms() -> None:
    catalog = Catalog(locale="pl")
    forms = ("{count} dzień", "{count} dni", "{count} dni wiele")
    catalog.add(("{count} day", "{count} days"), forms)
    catalog.add("all", "całość")
    file = io.BytesIO()
    write_mo(file, catalog)
    file.seek(0)
    before = use_translations(gettext.GNUTranslations(file))
    try:
        assert [say_count("{count} day", "{count} days", n) for n in (1, 3, 12)] == [
            "1 dzień",
            "3 dni",
            "12 dni wiele",
        ]
        assert say("all") == "całość"
        assert say("untranslated {name}", name="bed") == "untranslated bed"
    finally:
        use_translations(before)


def test_a_language_without_a_catalogue_is_english() -> None:
    before = use_translations(gettext.NullTranslations())
    try:
        use_language("xx")
        assert say("all") == "all"
    finally:
        use_translations(before)


def test_notes_that_many_figures_have_are_in_the_catalogue() -> None:
    tables = [{"a": [{"note": "often"}, {"note": "once"}]}, {"b": {"c": {"note": "often"}}}]
    assert shared_notes(tables * (OFTEN // 2)) == ["often"]
    use_language("de")
    try:
        assert table_words("planted as tubers, not sown") == "als Knolle gepflanzt, nicht gesät"
        assert table_words("a note of one figure") == "a note of one figure"
    finally:
        use_language("en")
