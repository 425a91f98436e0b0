"""Marks in the Markdown of the manual: names of places, and what the program fills in.

``{#planting.variety #planting.start}``
    Names of the place where it stands: a heading, a paragraph or an entry of a list.  By these names F1 finds it.
``{picture:year}``
    A picture that the program makes of itself.
``{generated:rules frost}``
    Text that is made of code and tables: what generates it, and a word for it.
``{action:turn year}``
    A command of the menus as it is on the screen, with its keys; ``{key:undo}`` without the menu.
``{label:Make a series of it…}``
    Words on the screen, in the language that the program speaks.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_NAMES = re.compile(r"\{(#[\w.-]+(?: #[\w.-]+)*)\}")
_FILLED = re.compile(r"\{(picture|generated|action|key|label|value):([^{}]+)\}")
_BOLD = re.compile(r"\*\*(.+?)\*\*")


def names_in(line: str) -> tuple[str, ...]:
    """Names of the places in a line.

    Examples
    --------
    >>> names_in("- {#bed.name #bed.kind} **Name**")
    ('bed.name', 'bed.kind')
    """
    return tuple(name.removeprefix("#") for found in _NAMES.finditer(line) for name in found.group(1).split())


def with_anchors(text: str) -> str:
    """Markdown whose names are anchors of HTML, each at the beginning of its line.

    Examples
    --------
    >>> with_anchors("## Bed {#bed}")
    '## <a id="bed" name="bed"></a>Bed'
    """
    return "\n".join(_anchored(line) for line in text.split("\n"))


def _anchored(line: str) -> str:
    names = names_in(line)
    if not names:
        return line
    anchors = "".join(f'<a id="{name}" name="{name}"></a>' for name in names)
    begin, rest = re.match(r"([#-]+ |\d+\. |)(.*)", _NAMES.sub("", line)).groups()  # type: ignore[union-attr]
    return f"{begin}{anchors}{rest.strip()}"


def filled(text: str, fill: Callable[[str, str], str]) -> str:
    """Markdown in which the program has filled in what it has to say.

    Parameters
    ----------
    text : str
    fill : callable
        Called with the kind of a mark and its word.
    """
    return _FILLED.sub(lambda found: fill(found.group(1), found.group(2).strip()), text)


def marks_in(text: str) -> tuple[tuple[str, str], ...]:
    """Kind and word of everything that is to be filled in."""
    return tuple((found.group(1), found.group(2).strip()) for found in _FILLED.finditer(text))


def plain(line: str) -> str:
    """A line of Markdown without any marks: for contents, searches and tests.

    Examples
    --------
    >>> plain("- {#bed.name} **Name** of the [bed](#bed)")
    'Name of the bed'
    """
    line = _FILLED.sub("", _NAMES.sub("", line))
    line = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", line)
    line = re.sub(r"<[^>]+>|\|", " ", re.sub(r"\*\*|`", "", line)).replace("\\", "")
    line = re.sub(r"(?<!\w)\*|\*(?!\w)", "", line)
    return " ".join(re.sub(r"^[\s#>-]+|^\d+\. ", "", line.strip()).split())


def first_bold(line: str) -> str:
    """The first words in bold letters of a line; empty for none."""
    found = _BOLD.search(line)
    return found.group(1) if found is not None else ""


def heading(line: str) -> tuple[int, str]:
    """Level of a heading (1 to 6) and its plain words; 0 and nothing where a line is none."""
    found = re.match(r"(#{1,6}) (.+)", line)
    return (len(found.group(1)), plain(found.group(2))) if found is not None else (0, "")


def escaped(text: str) -> str:
    """A text of the program as Markdown that says just that.

    Examples
    --------
    >>> escaped("a_b *c*")
    'a\\\\_b \\\\*c\\\\*'
    """
    return re.sub(r"([\\`*_\[\]<>|])", r"\\\1", text)
