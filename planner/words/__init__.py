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
from planner.words.dates import (
    MONTHS,
    SHORT_MONTHS,
    day_words,
    full_day_words,
    moment_words,
    month_words,
    weekday_words,
)
from planner.words.keys import check_words, key_list, key_typed, key_words, property_words, work_words
from planner.words.languages import LANGUAGES, wished_language
from planner.words.lists import capital, join_list, uncapital
from planner.words.numbers import number_words, percent, short_number, whole_words
from planner.words.tables import table_words

__all__ = [
    "LANGUAGES",
    "MONTHS",
    "SHORT_MONTHS",
    "capital",
    "check_words",
    "day_words",
    "full_day_words",
    "join_list",
    "key_list",
    "key_typed",
    "key_words",
    "later",
    "moment_words",
    "month_words",
    "number_words",
    "percent",
    "property_words",
    "say",
    "say_count",
    "say_in_context",
    "short_number",
    "spoken_language",
    "table_words",
    "translated",
    "uncapital",
    "use_language",
    "use_translations",
    "weekday_words",
    "whole_words",
    "wished_language",
    "work_words",
]
