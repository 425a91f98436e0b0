"""What the program itself says in the manual, in the language of the manual.

The program speaks one language at a time (:mod:`planner.words`), and the manual may be read in another.  Sentences that
come from the code (rules, commands, fields) are said by the catalogue where the manual is in the program's language, else
by ``resources/manual/LANGUAGE/words.toml``, which translates them.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from planner.resources import resource
from planner.words import spoken_language, translated

#: Languages in which there is a manual, with what each calls itself.
LANGUAGES: Mapping[str, str] = {"en": "English", "de": "Deutsch"}


@cache
def _table(language: str) -> Mapping[str, str]:
    import tomllib

    path = resource("manual", language, "words.toml")
    return tomllib.loads(path.read_text("utf-8"))["words"] if path.is_file() else {}


class ManualWords:
    """Says sentences of the program in the language of a manual.

    Parameters
    ----------
    language : str
        A key of :data:`LANGUAGES`.
    """

    def __init__(self, language: str) -> None:
        self.language = language
        self._spoken = spoken_language().split("-")[0]

    @property
    def is_spoken(self) -> bool:
        """Whether the program itself speaks the language of the manual."""
        return self._spoken == self.language

    def say(self, message: str, **parts: Any) -> str:
        """A sentence, by its English wording, with its parts filled in."""
        return self.template(message).format_map(parts)

    def template(self, message: str) -> str:
        """A sentence, by its English wording, with its parts still in braces."""
        if self._spoken == self.language:
            said = translated(message)
            if said != message or self.language == "en":
                return said
        return _table(self.language).get(message, message)

    def knows(self, message: str) -> bool:
        """Whether there is a wording in this language."""
        return self.language == "en" or self.template(message) != message or message in _table(self.language)
