"""Sentences a user sees, in the language of the program.

Each sentence is whole, in English in the code, with named parts::

    say("{crop} in {bed} is set out on {day}, before the last frost", crop=name, bed=bed.name, day=day)
    say_count("{count} row is too close", "{count} rows are too close", count)

``resources/languages/bedwright.pot`` lists all of them for translators; the tests hold that it is complete.
"""

from __future__ import annotations

import gettext
from typing import Any

from planner.resources import resource

DOMAIN = "bedwright"

_translations: gettext.NullTranslations = gettext.NullTranslations()


def use_language(language: str) -> None:
    """Speak a language from now on; English where there is no catalogue for it.

    To be called once at the start: facts that are cached hold sentences.

    Parameters
    ----------
    language : str
        A code such as ``de`` or ``pt_BR``.
    """
    folder = str(resource("languages"))
    use_translations(gettext.translation(DOMAIN, folder, [language], fallback=True))


def use_translations(translations: gettext.NullTranslations) -> gettext.NullTranslations:
    """Take another catalogue, and return the one before."""
    global _translations
    before, _translations = _translations, translations
    return before


def spoken_language() -> str:
    """The language of the sentences, as RFC 5646 writes it: ``en``, ``pt-BR``."""
    return _translations.info().get("language", "").replace("_", "-") or "en"


def say(message: str, **parts: Any) -> str:
    """A sentence in the program's language.

    Parameters
    ----------
    message : str
        The English sentence, with its parts in braces.  A literal, or a constant made by :func:`later`.
    **parts
        By name.

    Examples
    --------
    >>> say("{crop} is hardy", crop="Kale")
    'Kale is hardy'
    """
    return _translations.gettext(message).format_map(parts)


def say_in_context(context: str, message: str, **parts: Any) -> str:
    """A word, sign or sentence that means several things, in the program's language.

    Parameters
    ----------
    context : str
        Which of them is meant: for translators.  A literal.
    message : str
        A literal.
    **parts
        By name.
    """
    return _translations.pgettext(context, message).format_map(parts)


def say_count(one: str, more: str, count: int, **parts: Any) -> str:
    """A sentence that depends on a number, in the plural form of the program's language.

    Parameters
    ----------
    one, more : str
        The English sentence of one, and of none or several.  Literals.
    count : int
        Is also the part ``count`` of the sentence.
    **parts
        By name.

    Examples
    --------
    >>> say_count("{count} row", "{count} rows", 1), say_count("{count} row", "{count} rows", 3)
    ('1 row', '3 rows')
    """
    return _translations.ngettext(one, more, count).format_map({"count": count, **parts})


def in_language(text: str) -> str:
    """A text that is not in the code, as those of the shipped tables, in the program's language."""
    return _translations.gettext(text)


def translated(message: str) -> str:
    """A sentence that :func:`later` has put into the catalogue, in the program's language, with its parts in braces.

    For what shows sentences themselves, as the manual does.
    """
    return _translations.gettext(message)


def later(message: str) -> str:
    """A sentence for the catalogue that is said later, by :func:`say`: for constants."""
    return message
