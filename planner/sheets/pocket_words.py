"""All sentences of the pocket page: the page gets them as data, and fills in their parts."""

from __future__ import annotations

from typing import get_args

from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.records import AmountUnit, PickedFor
from planner.garden.site import UnitSystem
from planner.garden.units import OUNCE
from planner.garden.volumes import POUND
from planner.listings.phrases import BY_HAND
from planner.listings.record_words import DONE_TASKS, KIND_WORDS, PICKED_FOR_WORDS, done_words
from planner.listings.share_words import chosen_share_words
from planner.words import capital, later, say, say_in_context
from planner.words.dates import month_words

#: Kinds of notes in the order in which the page offers them: what is written most often first.
KINDS = (
    "note", "picked", "done", "seen", "came up", "flowering", "ripe", "first picking", "last picking", "ended",
    "measured", "lesson",
)  # fmt: skip
#: Shares that are offered of what is harmed. [0 to 1]
SHARES = (0.05, 0.1, 0.25, 1 / 3, 0.5, 0.75, 1.0)
_UNITS = {
    "g": later("g"),
    "kg": later("kg"),
    "oz": later("oz"),
    "lb": later("lb"),
    "l": later("l"),
    "pieces": later("pieces"),
    "bunches": later("bunches"),
}


def page_words() -> dict[str, str]:
    """Sentences by the names under which the page's script asks for them; parts in braces are filled in there."""
    return {
        **_places(),
        **_forms(),
        **_notes(),
        "day_month_year": say("{day} {month} {year}", day="{day}", month="{month}", year="{year}"),
        "what_words": say("{what}: {words}", what="{what}", words="{words}"),
        "pair": say("{first}, {second}", first="{first}", second="{second}"),
    }


def _places() -> dict[str, str]:
    return {
        "work": say("Work"),
        "beds": say("Beds"),
        "notes": say("Notes"),
        "notes_number": say("Notes ({count})", count="{count}"),
        "pages": say("Pages"),
        "day_shown": say("Day shown"),
        "today": say("Today"),
        "day_before": say("A day earlier"),
        "day_after": say("A day later"),
        "week_before": say("A week earlier"),
        "week_after": say("A week later"),
        "no_work": say("No work in this week."),
        "indoors": say("Indoors: shed and benches"),
        "done_before": say("done before"),
        "no_work_here": say("No work here in this week."),
        "out_of_year": say(
            "This page was made for {first} to {last}. Make a new one for other days.",
            first="{first}",
            last="{last}",
        ),
        "by_hand": say("{mark} set by hand", mark=BY_HAND),
        "care": say("Take care"),
        "care_first": say("Local rules and licensed practice come before what is said here."),
        "plan": say("Plan of the garden on {day}. The list below names the same beds.", day="{day}"),
        "larger": say("Larger"),
        "smaller": say("Smaller"),
        "no_beds": say("This garden has no beds yet."),
        "growing": say("Growing now"),
        "to_come": say("To come"),
        "over": say_in_context("past", "Over"),
        "nothing_grows": say("Nothing grows here on this day."),
        "from_to": say("{first} to {last}", first="{first}", last="{last}"),
        "this_week": say("Work of this week"),
        "about_bed": say("About this bed"),
        "details": say("Details"),
        "place_in": say("{name} in {bed}", name="{name}", bed="{bed}"),
        "title": say("{place} · {garden}", place="{place}", garden="{garden}"),
        "back": say("Back to all beds"),
        "days_planned": say("Days planned"),
        "made": say("Made on {day} from the plan of {year}.", day="{day}", year="{year}"),
        "about": say("About this page"),
        "about_words": say(
            "This page is one file. It fetches nothing and sends nothing. What you write stays in this browser until you save "
            "it as a file. Bedwright at home takes that in: in its window by File, Take notes from outside, or by bedwright records "
            "GARDEN --take FILE -o NEW. Take notes home in good time: clearing the browser’s data removes them."
        ),
        "sources": say("Sources of the cautions"),
    }


def _forms() -> dict[str, str]:
    return {
        "write": say("Write down"),
        "write_about": say("Write down: {place}", place="{place}"),
        "pick": say("Picked, how much?"),
        "pick_help": say("Nothing to weigh or count? Tick the box."),
        "change_note": say("Change a note"),
        "kind": say("What"),
        "place": say("Where"),
        "garden": say("the whole garden"),
        "on_day": say("Day"),
        "amount": say("How much"),
        "unit": say("Unit"),
        "went": say("Where it went"),
        "harm": say("Harm"),
        "share": say("How much of it is harmed"),
        "lost": say("How much of what was there is gone"),
        "share_unknown": say("not said"),
        "cause": say("What it might be"),
        "count": say("Seedlings counted"),
        "sown": say("Of how many seeds"),
        "why": say("Why it ended"),
        "measure": say("What was measured"),
        "value": say("Number"),
        "words_note": say("Words"),
        "words_more": say("Words, if any"),
        "keep": say("Keep"),
        "cancel": say("Cancel"),
        "needs_words": say("Write some words first."),
        "needs_amount": say("Give a number greater than 0."),
        "needs_value": say("Give a number."),
        "needs_count": say("Give a whole number, or none."),
        "needs_measure": say("Say what was measured."),
        "needs_planting": say("Choose what grows there: this is about one planting."),
        "needs_day": say("Give the day."),
        "done_on": say("done on {day}", day="{day}"),
    }


def _notes() -> dict[str, str]:
    return {
        "kept": say("Kept: {what}", what="{what}"),
        "removed": say("Removed: {what}", what="{what}"),
        "put_back": say("Put back"),
        "none_yet": say("Nothing is written down yet. Tick off work, or write something down at a bed."),
        "save": say("Save as a file"),
        "share_file": say("Share"),
        "show_text": say("Show as text"),
        "copy": say("Copy the text"),
        "copied": say("Copied. Paste it into a file named notes.json, or into a message to yourself."),
        "not_copied": say("It could not be copied. Mark the text and copy it by hand."),
        "text_label": say("All notes as text"),
        "saved": say("Saved as {file}. At home: File, Take notes from outside.", file="{file}"),
        "shared": say("Shared as {file}.", file="{file}"),
        "not_shared": say("It was not shared. Save it as a file instead."),
        "at_home": say("in the garden already"),
        "was_saved": say("saved on {day}", day="{day}"),
        "not_saved": say("not saved yet"),
        "clear": say("Remove those that are saved"),
        "clear_home": say("Remove those that are in the garden"),
        "really": say("Really remove {count}?", count="{count}"),
        "change": say("Change"),
        "remove": say("Remove"),
        "change_of": say("Change: {what}", what="{what}"),
        "remove_of": say("Remove: {what}", what="{what}"),
        "by": say("Written by"),
        "by_help": say("Your name, if several write: it goes with every new note."),
        "storage_off": say(
            "This browser keeps nothing for this page. Notes last only until it is closed: save them as a file before."
        ),
        "storage_full": say(
            "This browser has no more room. The last note lasts only until the page is closed: save the notes now."
        ),
        "storage_damaged": say(
            "What this browser had kept was damaged. It is set aside, and a new list begun."
        ),
        "too_many": say("The notes fill a file. Save them, take them in at home, and remove them here."),
        "picked_words": say("picked {amount}", amount="{amount}"),
        "picked_went": say("picked {amount}, {where}", amount="{amount}", where="{where}"),
        "amount_words": say("{number} {unit}", number="{number}", unit="{unit}"),
        "came_up_of": say("came up, {count} of {sown}", count="{count}", sown="{sown}"),
        "came_up_count": say("came up, seedlings: {count}", count="{count}"),
        "ended_words": say("ended: {why}", why="{why}"),
        "harm_share": say("{harm}, {share} of it", harm="{harm}", share="{share}"),
        "harm_lost": say("{harm}, {share} of what was there gone", harm="{harm}", share="{share}"),
        "perhaps": say("{harm}, perhaps {cause}", harm="{harm}", cause="{cause}"),
        "measured_words": say(
            "{measure} {value} {unit}", measure="{measure}", value="{value}", unit="{unit}"
        ),
        "gone": say("something that is not on this page"),
    }


def page_choices(units: UnitSystem) -> dict[str, object]:
    """What can be chosen in the page's forms: pairs of a word of the file and what is shown.

    Parameters
    ----------
    units : {"metric", "feet_inches"}
        Whether masses are typed in grams or in pounds.
    """
    masses: list[tuple[str, AmountUnit, float]]
    if units == "metric":
        masses = [("kg", "g", 1000.0), ("g", "g", 1.0)]
    else:
        masses = [("lb", "g", POUND), ("oz", "g", OUNCE)]
    plain: list[tuple[str, AmountUnit, float]] = [
        ("pieces", "pieces", 1.0),
        ("bunches", "bunches", 1.0),
        ("l", "l", 1.0),
    ]
    return {
        "kinds": [(kind, capital(say(KIND_WORDS[kind]))) for kind in KINDS],
        "harms": [(word, say(HARM_WORDS[word])) for word in HARM_WORDS],
        "whys": [(word, say(WHY_WORDS[word])) for word in WHY_WORDS],
        "went": [(word, say(PICKED_FOR_WORDS[word])) for word in get_args(PickedFor)],
        "tasks": {word: done_words(word) for word in DONE_TASKS},
        "shares": [(share, chosen_share_words(share)) for share in SHARES],
        "units": [(key, say(_UNITS[key]), unit, factor) for key, unit, factor in (*masses, *plain)],
        "decimal": say_in_context("decimal sign", "."),
        "months": [month_words(month, short=True) for month in range(1, 13)],
    }
