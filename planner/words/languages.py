"""Which language the program speaks: what was chosen, else that of the system."""

from __future__ import annotations

from collections.abc import Mapping

#: The languages that are complete, by their codes, each by its own name.
LANGUAGES = {"en": "English", "de": "Deutsch"}
#: Names of environment variables that say which language is wished, the first that does counts: ours, then those of gettext (POSIX).
VARIABLES = ("BEDWRIGHT_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


def wished_language(environment: Mapping[str, str], chosen: str = "") -> str:
    """The code of the language to speak; English where none that is wished is there.

    Parameters
    ----------
    environment : mapping of str to str
        Of the process.
    chosen : str
        In the program's own settings: only the program's own variable counts more.

    Examples
    --------
    >>> wished_language({"LANG": "de_AT.UTF-8"}), wished_language({"LANG": "fr_FR"}), wished_language({}, "de")
    ('de', 'en', 'de')
    """
    ours, *others = VARIABLES
    wishes = [environment.get(ours, ""), chosen, *(environment.get(name, "") for name in others)]
    for wish in filter(None, wishes):
        for one in wish.split(":"):  # LANGUAGE is a list
            code = one.replace("-", "_").split("_")[0].split(".")[0].lower()
            if code in LANGUAGES:
                return code
        if wish != environment.get("LANGUAGE"):
            return "en"
    return "en"
