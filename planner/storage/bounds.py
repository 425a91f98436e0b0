"""How much a garden file may hold, judged before anything is made of it."""

from __future__ import annotations

import re
from typing import Any

from planner.garden import Garden
from planner.storage.file_error import FileError
from planner.words import later, say, whole_words

#: Most tables, lists and separated values of a file.  A garden of 3,000 plantings has some 10,000 tables.
MOST_TABLES, MOST_LISTS, MOST_VALUES = 500_000, 1_000_000, 2_500_000

#: Longest text or number; a difference between joined gardens may be so long. [bytes]
LONGEST_TEXT = 1_000_000
# Lists of numbers may be longer without a quote between.
_LONG_TEXT = re.compile(rb'"[^"\n\[\]]{%d}' % (LONGEST_TEXT + 1))

#: Most things of each part of a garden.
MOST_THINGS = {
    name: next((rule.max_length for rule in field.metadata if hasattr(rule, "max_length")), None)
    for name, field in Garden.model_fields.items()
}
_TOO_MANY = {
    "{": later("holds {number} tables; {most} is the most that is read"),
    "[": later("holds {number} lists; {most} is the most that is read"),
    ",": later("holds {number} values; {most} is the most that is read"),
}
_MEND = later("Use an undamaged copy, or divide the garden")


def refuse_too_many(content: bytes | str, where: str) -> None:
    """Refuse a file that would fill the memory, by counting signs.

    Brackets and commas within texts are counted too, so the limits are wide.

    Parameters
    ----------
    content : bytes or str
        Of the file.
    where : str
        Name of the file.

    Raises
    ------
    FileError
    """
    for sign, most in (("{", MOST_TABLES), ("[", MOST_LISTS), (",", MOST_VALUES)):
        number = content.count(sign) if isinstance(content, str) else content.count(sign.encode())
        if number > most:
            raise FileError(
                say(
                    _TOO_MANY[sign],
                    number=whole_words(number),
                    most=whole_words(most),
                ),
                where,
                say(_MEND),
            )
    if len(content) > LONGEST_TEXT:
        whole = content.encode("utf-8", "surrogatepass") if isinstance(content, str) else content
        if found := _LONG_TEXT.search(whole):
            line = whole.count(b"\n", 0, found.start()) + 1
            raise FileError(
                say(
                    "holds a text or number of more than {most} bytes in line {line}, the most that is read",
                    most=whole_words(LONGEST_TEXT),
                    line=line,
                ),
                where,
                say(_MEND),
            )


def refuse_too_many_things(fields: dict[str, Any], where: str) -> None:
    """Refuse a garden with more beds, plantings or other things than one may hold.

    Parameters
    ----------
    fields : dict
        The file's content.
    where : str
        Name of the file.

    Raises
    ------
    FileError
    """
    for name, most in MOST_THINGS.items():
        things = fields.get(name)
        if most is not None and isinstance(things, list) and len(things) > most:
            raise FileError(
                say(
                    "{name}: {number} of them; {most} is the most",
                    name=name,
                    number=whole_words(len(things)),
                    most=whole_words(most),
                ),
                where,
                say(_MEND),
            )
