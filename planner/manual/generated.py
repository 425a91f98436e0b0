"""What the manual takes from code and tables: rules of checks with their sources, neighbours, publications, numbers."""

from __future__ import annotations

import importlib
import re
from collections import Counter
from collections.abc import Mapping
from functools import cache, partial

from planner.crops import Catalogue, load_catalogue
from planner.crops.cautions import cautions
from planner.crops.coverage import provenance_of
from planner.crops.figures import Provenance
from planner.crops.neighbours import Rule, Selector, rules
from planner.listings.figure_words import GROUPS
from planner.manual.book import Generator, ManualError
from planner.manual.file_format import format_text
from planner.manual.listed_rules import ListedRule, listed_rules
from planner.manual.marks import escaped
from planner.manual.words import ManualWords
from planner.words import later, translated

#: Grades of findings as the list of findings calls them.
SEVERITY_WORDS = {"stop": later("stop"), "mind": later("warning"), "note": later("worth knowing")}
#: How figures come about.
BASIS_WORDS: dict[Provenance, str] = {
    "printed": later("printed in a publication"),
    "chosen": later("chosen inside a printed range"),
    "derived": later("worked out from print"),
    "practice": later("common practice"),
    "estimate": later("estimate"),
}
_PLAIN_SOURCES = {
    "practice": later("common practice, without a publication"),
    "estimate": later("an estimate of ours"),
    "geometry": later("geometry alone"),
}
_GRADES = {
    "trial": later("seen in a trial"),
    "advice": later("advice of experts"),
    "laboratory": later("seen in the laboratory only"),
    "lore": later("handed down"),
}
_MAY_BE = later("May be: {grades}.")
_RESTS_ON = later("Rests on {sources}.")
_FIGURE = later("the crop's figure “{figure}” ({shares})")
#: How many crops have a figure that came about so.
_SHARES: dict[Provenance, str] = {
    "printed": later("printed for {count}"),
    "chosen": later("chosen for {count}"),
    "derived": later("derived for {count}"),
    "practice": later("practice for {count}"),
    "estimate": later("estimate for {count}"),
}
_OF_CROP = later("the source of the crop's own figure, else common practice")
_EACH_ITSELF = later(
    "Each pair has a rule of its own, with its source: see [all rules of neighbours](#neighbours.rules)."
)
_EFFECTS = {
    "good": later("{one} does {other} good: {how}"),
    "bad": later("{one} does {other} harm: {how}"),
    "none": later("{one} beside {other}, tried without result: {how}"),
}
_WITHIN = later("within {reach} m")
_SAME_GROUND = later("on the same ground, before or after")


def generators(more: Mapping[str, Generator] | None = None) -> dict[str, Generator]:
    """All generators, and those that only the caller has: commands, keys.

    Parameters
    ----------
    more : mapping, optional
    """
    catalogue = load_catalogue()
    return {
        "rules": partial(_rules, catalogue),
        "neighbours": partial(_neighbours, catalogue),
        "sources": partial(_sources, catalogue),
        "coverage": partial(_coverage, catalogue),
        "cautions": partial(_cautions, catalogue),
        "format": format_text,
        "value": _value,
        "label": _label,
        **(more or {}),
    }


def _rules(catalogue: Catalogue, words: ManualWords, check: str) -> str:
    """The rules of a check as a list, each with how grave it may be and what it rests on."""
    found = [rule for rule in listed_rules() if rule.check == check]
    return "\n".join(_rule(catalogue, words, rule) for rule in found)


def _rule(catalogue: Catalogue, words: ManualWords, rule: ListedRule) -> str:
    sentence = re.sub(r"\{(\w+)\}", "…", words.template(rule.rule))
    stop = "" if sentence.endswith("…") else "."
    parts = [f"- {{#rule.{rule.name}}} **{escaped(sentence)}{stop}**"]
    if rule.severities:
        grades = " / ".join(words.say(SEVERITY_WORDS[each]) for each in rule.severities)
        parts.append(words.say(_MAY_BE, grades=grades))
    grounds = [_figure(catalogue, words, field) for field in rule.figures]
    grounds += [
        words.say(_PLAIN_SOURCES[key]) if key in _PLAIN_SOURCES else escaped(catalogue.source_line(key))
        for key in rule.sources
    ]
    if rule.name.startswith("neighbours.") or rule.name.startswith("neighbours_trees."):
        parts.append(words.say(_EACH_ITSELF))
        return " ".join(parts)
    if rule.of_crop:
        grounds = [words.say(_OF_CROP)]
    if grounds:
        parts.append(words.say(_RESTS_ON, sources="; ".join(grounds)))
    return " ".join(parts)


@cache
def _labels() -> Mapping[str, str]:
    return {field: label for _, fields in GROUPS for field, label in fields}


def _figure(catalogue: Catalogue, words: ManualWords, field: str) -> str:
    counts = Counter(provenance_of(crop, field) for crop in catalogue.crops.values())
    shares = ", ".join(
        words.say(template, count=counts[basis]) for basis, template in _SHARES.items() if counts[basis]
    )
    label = words.say(_labels().get(field, field.replace("_", " ")))
    return words.say(_FIGURE, figure=escaped(label), shares=shares)


def _neighbours(catalogue: Catalogue, words: ManualWords, grade: str) -> str:
    """All rules of neighbours of a grade."""
    return "\n".join(_neighbour(catalogue, words, rule) for rule in rules(catalogue) if rule.grade == grade)


def _neighbour(catalogue: Catalogue, words: ManualWords, rule: Rule) -> str:
    one, other = _selected(catalogue, rule.a), _selected(catalogue, rule.b)
    if rule.on == "a":
        one, other = other, one
    bold, beside, far = f"**{one}**", f"**{other}**", f"{rule.reach:g}"
    text = words.say(_EFFECTS[rule.effect], one=bold, other=beside, how=escaped(rule.mechanism))
    reach = words.say(_WITHIN, reach=far) if rule.reach else words.say(_SAME_GROUND)
    note = f"; {escaped(rule.note)}" if rule.note else ""
    source = catalogue.source_in_brief(rule.source) or rule.source
    return f"- {text} ({reach}{note}). {escaped(source)}."


def _selected(catalogue: Catalogue, selector: Selector) -> str:
    if selector.kind != "crop":
        return escaped(selector.latin)
    return ", ".join(escaped(catalogue.crops[key].name) for key in selector.names if key in catalogue.crops)


def _sources(catalogue: Catalogue, words: ManualWords, _: str) -> str:
    """All publications."""
    lines = sorted(source.citation for key, source in catalogue.sources.items() if key not in _PLAIN_SOURCES)
    return "\n".join(f"- {escaped(line)}." for line in lines)


def _cautions(catalogue: Catalogue, words: ManualWords, _: str) -> str:
    """All cautions, each with its source."""
    return "\n".join(
        f"- {escaped(words.say(caution.text))} ({escaped(catalogue.source_in_brief(caution.source) or caution.source)})"
        for caution in cautions(catalogue).values()
    )


def _coverage(catalogue: Catalogue, words: ManualWords, _: str) -> str:
    """How the figures of all crops came about, as a sentence."""
    from planner.crops.crop import ENTRY_FIELDS

    counts = Counter(
        provenance_of(crop, field) for crop in catalogue.crops.values() for field in ENTRY_FIELDS
    )
    return ", ".join(
        f"{_number(words, counts[basis])} {words.say(text)}" for basis, text in BASIS_WORDS.items()
    )


def _label(_words: ManualWords, word: str) -> str:
    """Words on the screen, in the language of the program, whatever that of the manual is."""
    return f"*{escaped(translated(word).replace('&', ''))}*"


def _value(words: ManualWords, word: str) -> str:
    """A number of the program: the name of a constant, and the unit in which it is written.

    Parameters
    ----------
    words : ManualWords
    word : str
        ``checks.crowding_needs.UNDER %``: a constant below ``planner``, or one value of it (``costs.UNMET[must]``), and
        nothing, ``%``, ``cm`` or another unit; ``points`` of what is earned or paid are without a sign.
    """
    name, _, unit = word.partition(" ")
    module, _, constant = f"planner.{name}".rpartition(".")
    constant, _, key = constant.rstrip("]").partition("[")
    try:
        value = getattr(importlib.import_module(module), constant)
        value = value[key] if key else value
    except (ImportError, AttributeError, LookupError) as error:
        raise ManualError(f"there is no {name} in the program", word) from error
    number = round(float(value) * (100 if unit in ("%", "cm") else 1), 3)
    if unit == "points":
        return _number(words, abs(number))
    text = _number(words, number)
    return f"{text}\u00a0{unit}" if unit else text


def _number(words: ManualWords, number: float) -> str:
    """A number as the language of the manual writes it."""
    text = f"{number:,.0f}" if number == int(number) else f"{number:,g}"
    return text.translate(str.maketrans(",.", ".,")) if words.language == "de" else text
