"""Lists of names in a sentence, and its first letter."""

from __future__ import annotations

from collections.abc import Iterable

from planner.words.catalogue import say, spoken_language

#: Languages that write every noun with a capital.
_CAPITAL_NOUNS = ("de",)


def join_list(names: Iterable[str]) -> str:
    """Names in a sentence, each once.

    Examples
    --------
    >>> join_list(["pea", "leek", "pea", "kale"])
    'pea, leek and kale'
    """
    once = list(dict.fromkeys(names))
    if len(once) < 2:
        return "".join(once)
    head = once[0]
    for name in once[1:-1]:
        head = say("{names}, {name}", names=head, name=name)
    return say("{names} and {last}", names=head, last=once[-1])


def capital(text: str) -> str:
    """A sentence with a capital.

    Examples
    --------
    >>> capital("kale is hardy")
    'Kale is hardy'
    """
    return text[:1].upper() + text[1:]


def uncapital(text: str) -> str:
    """Words that stood alone, as part of a sentence; an abbreviation stays as it is, and so do the nouns of German.

    Examples
    --------
    >>> uncapital("Between rows"), uncapital("EPPO code")
    ('between rows', 'EPPO code')
    """
    if text[1:2].isupper() or spoken_language() in _CAPITAL_NOUNS:
        return text
    return text[:1].lower() + text[1:]
