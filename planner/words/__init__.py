"""The catalogue of sentences a user sees, and numbers and dates as a language writes them."""

from planner.words.catalogue import (
    later,
    say,
    say_count,
    say_in_context,
    spoken_language,
    translated,
    use_language,
    use_translations,
)
from planner.words.dates import MONTHS, SHORT_MONTHS, day_words, full_day_words
from planner.words.languages import LANGUAGES, wished_language
from planner.words.lists import capital, join_list, uncapital
from planner.words.numbers import number_words, percent

__all__ = [
    "LANGUAGES",
    "MONTHS",
    "SHORT_MONTHS",
    "capital",
    "day_words",
    "full_day_words",
    "join_list",
    "later",
    "number_words",
    "percent",
    "say",
    "say_count",
    "say_in_context",
    "spoken_language",
    "translated",
    "uncapital",
    "use_language",
    "use_translations",
    "wished_language",
]
