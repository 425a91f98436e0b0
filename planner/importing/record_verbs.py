"""What happened, as the words of a typed line say it together: ``lost to slugs``, ``picked the first``, ``40 cm high``."""

from __future__ import annotations

import itertools
from typing import NoReturn

from planner.garden.harm_words import ENDED_BY
from planner.importing.record_items import BEHIND_COLON, BEHIND_COLON_AS, LineItems
from planner.importing.record_line import RecordLineError
from planner.importing.record_losses import loss_of, part_told
from planner.importing.record_measures import amount_of
from planner.importing.record_phrases import (
    ALL_GATHERED,
    FINISHING,
    MEASURES,
    ORDINALS,
    TAKING,
    WAITING,
    Item,
)
from planner.importing.record_vocabulary import Verb
from planner.listings.record_words import KIND_WORDS
from planner.words import join_list, say


def verb_of(line: LineItems) -> Verb:
    """What happened; its items are taken out.  What ends a part of a planting is a loss.

    Raises
    ------
    RecordLineError
        Where nothing is said of that, or several things are, or not how much of it was lost.
    """
    items = line.of_sort("verb")
    for item in line.of_sort("room for"):
        raise RecordLineError(
            say("'{words}' says for what room was made, not what was cleared", words=line.typed(item)),
            fix=say("Type one like: peas in North cleared to make room"),
        )
    over = [item for item in items if item.value == Verb("ended", why="harvested")]
    if over and len(over) < len(items):  # pulled up, all finished: the other word says what happened
        for item in over:
            line.replace(item, item._replace(sort="unknown", value=line.typed(item)))
        items = line.of_sort("verb")
    for item in items:
        if line.text(item) in FINISHING and any(
            one.value.gathers or one.value.kind == "picked" for one in items
        ):
            line.replace(item, item._replace(sort="unknown", value=line.typed(item)))
    items = line.of_sort("verb")
    _name_whom(line, items)
    verb = _told(line, items)
    of_part = loss_of(line, verb, items)
    if of_part is not verb:
        line.drop(items)
    return of_part


def _name_whom(line: LineItems, items: list[Item]) -> None:
    """Keep to whom a picking went: ``gave Anna 2 kg``, ``sold 2 kg to the shop``."""
    if not any(item.value.kind == "picked" and item.value.told for item in items):
        return
    given = False
    for at, item in enumerate(list(line.items)):
        behind = next((one for one in line.items[at + 1 :] if one.sort != "filler"), None)
        to_whom = item.sort == "to" and behind is not None and behind.sort == "unknown"
        if to_whom or (item.sort == "unknown" and given):
            line.replace(item, item._replace(sort="whom"))
            given = True
        elif item.sort != "filler":
            given = item.sort == "verb" and item.value.kind == "picked" and item.value.told


def _told(line: LineItems, items: list[Item]) -> Verb:
    """What the items that say what happened mean together."""
    verbs = list(dict.fromkeys(item.value for item in items))
    closed = [verb for verb in verbs if not verb.is_open]
    if any(verb.kind == "measured" for verb in closed) and line.items and items[0].value.kind == "measured":
        line.drop(items[:1])
        return Verb("measured")
    told = (
        _not_so(line, verbs)
        or _gathered(line, items)
        or _stage_of_picking(line, items)
        or _harmed(line, verbs)
        or _measured_by_unit(line)
        or _looked_at(line, items)
    )
    if told is not None:
        if not told.told:
            line.drop(items)
        return told
    if closed and len(verbs) > 1:
        kinds = {verb.kind for verb in closed}
        verbs = closed if all(v.kind in kinds for v in verbs) else verbs
    if verbs and {verb._replace(cause="") for verb in verbs} == {verbs[0]._replace(cause="")}:
        causes = [verb.cause for verb in verbs if verb.cause]
        verbs = [verbs[0]._replace(cause=join_list(causes))]
    if not verbs:
        _refuse_nothing_said(line)
    if len(verbs) > 1:
        words = [line.text(item) for item in items]
        raise RecordLineError(
            say("{words} are two things", words=join_list(words)), fix=say("Type a line for each")
        )
    verb: Verb = verbs[0]
    if not verb.free and not verb.told:
        line.drop(items)
    if verb == Verb("done") and not line.words:
        line.refuse_unknown()
        raise RecordLineError(say("what was done is missing"), fix=say(BEHIND_COLON))
    if verb.kind in ("note", "lesson") and not line.words:
        raise RecordLineError(
            say("the words of the {kind} are missing", kind=say(KIND_WORDS[verb.kind])),
            fix=say(BEHIND_COLON),
        )
    if verb.kind == "seen" and not verb.harm:
        line.refuse_unknown()
        raise RecordLineError(
            say("what was seen is missing"),
            fix=say("Name it: slugs, aphids, mildew, frost; or 'something else' and words behind a colon"),
        )
    if verb.kind == "ended" and not verb.why and part_told(line) is None:
        line.refuse_unknown()
        raise RecordLineError(
            say("why it ended is missing"), fix=say("Type failed, eaten, frozen, bolted or cleared")
        )
    return verb


def _refuse_nothing_said(line: LineItems) -> NoReturn:
    """Ask what happened, naming the amount where there is one."""
    used: list[Item] = []
    amount = amount_of(line, used)
    if amount is not None:
        words = line.part[used[0].start : used[-1].end]
        raise RecordLineError(
            say("what happened is missing: {amount} may be picked, sown or given", amount=words),
            fix=say(
                "Type one like: picked {amount} {place}",
                amount=words,
                place=line.place or say("tomato in North"),
            ),
        )
    line.refuse_unknown()
    line.refuse_left(Verb(""))
    raise RecordLineError(
        say("what happened is missing"),
        fix=say("Begin with sown, picked, slugs, up, note or another word of the list of kinds"),
    )


def _not_so(line: LineItems, verbs: list[Verb]) -> Verb | None:
    """``no peas came up``; of anything else that did not happen only a note can tell."""
    turned = line.turned_around()
    waits = next((item for item in line.of_sort("unknown") if line.text(item) in WAITING), None)
    never_came = any(verb.missing for verb in verbs)
    if waits is not None and (never_came or turned):
        raise RecordLineError(
            say("'{word}' leaves open whether it will", word=line.typed(waits)),
            fix=say(BEHIND_COLON_AS, example=line.as_note),
        )
    if not turned:
        return None
    if [verb.kind for verb in verbs] == ["came up"]:
        if not line.of_sort("all"):
            return Verb("ended", why="failed", told=True, missing=True)
        raise RecordLineError(
            say("'{words}': how much of it?", words=line.part.strip()),
            fix=say("Type what came up as a share or a number: half, 30 %, 6 of 24"),
        )
    raise RecordLineError(
        say(
            "'{word}' turns it around, and only a note tells what did not happen", word=line.typed(turned[0])
        ),
        fix=say(BEHIND_COLON_AS, example=line.as_note),
    )


def _gathered(line: LineItems, items: list[Item]) -> Verb | None:
    """A picking that another word than ``picked`` tells of, by its amount; or the end of what is all gathered."""
    verbs = [item.value for item in items]
    if any(verb.kind != "picked" and not verb.gathers and verb.kind != "done" for verb in verbs):
        return None
    used: list[Item] = []
    amount = amount_of(line, used)
    if amount is None:
        ends = verbs and all(line.text(item) in ALL_GATHERED for item in items) and line.of_sort("all")
        return Verb("ended", why="harvested") if ends else None
    behind = [item for item in line.items if item.start >= used[-1].end and item.sort not in ("of", "filler")]
    if behind and behind[0].sort == "unknown":
        return None
    gathers = bool(verbs) and all(verb.gathers or verb.kind == "picked" for verb in verbs)
    if line.of_sort("ordinal") and gathers:
        return None
    given: Verb | None = next((verb for verb in verbs if verb.kind == "picked" and verb.told), None)
    if given is not None and line.of_sort("share", "percent"):
        raise RecordLineError(
            say("how much of it was given away is not told in numbers"),
            fix=say("Type a line for what was kept and one for what was given away, each with its amount"),
        )
    if given is not None:
        line.drop([item for item in items if item.value is not given])
        return given
    return Verb("picked") if gathers or line.of_sort("for") else None


def _stage_of_picking(line: LineItems, items: list[Item]) -> Verb | None:
    """``picked the first peas``; with what else happened first the word says no more than that."""
    ordinals, verbs = line.of_sort("ordinal"), [item.value for item in items]
    stages = {verb.kind for verb in verbs} & {"first picking", "last picking"}
    if len(stages) == 1 and all(verb.kind in (*stages, "picked") for verb in verbs):
        line.drop(ordinals)
        return Verb(stages.pop())
    if ordinals and not verbs and _is_first_of_crop(line, ordinals[0]):
        line.drop(ordinals)
        return Verb(ORDINALS[line.text(ordinals[0])])
    if not ordinals or not verbs:
        return None
    if all(verb.kind == "picked" or verb.gathers for verb in verbs):
        line.drop(ordinals)
        return Verb(ORDINALS[line.text(ordinals[0])])
    if all(verb.kind in ("came up", "flowering", "ripe") for verb in verbs):
        line.drop([item for item in ordinals if ORDINALS[line.text(item)] == "first picking"])
    return None


def _is_taken(line: LineItems, item: Item) -> bool:
    """Whether ``all`` is what was eaten, and not where: ``ate all the peas``, not ``ate holes in all the cabbages``."""
    return any(line.text(one) in TAKING for one in line.beside(item)[:1])


def _is_first_of_crop(line: LineItems, ordinal: Item) -> bool:
    """Whether a line says nothing but the first or last of a crop, or how much: ``last of the courgettes, 2 kg``."""
    behind = [item for item in line.behind(ordinal) if item.sort != "filler"]
    of = bool(behind) and behind[0].sort == "of"
    named = behind[1:] if of else behind
    amounts = line.of_sort("number", "unit")
    alone = not line.of_sort("unknown", "share", "percent", "since", "not", "cover")
    told = not amounts or (of and [item.sort for item in amounts] == ["number", "unit"])
    if not (alone and told and named and named[0].sort in ("crop", "variety")):
        return False
    if of:
        line.drop(behind[:1])
    return True


def _harmed(line: LineItems, verbs: list[Verb]) -> Verb | None:
    """Harm and what it did: seen where it says how much of it, else the end."""
    harms = [verb for verb in verbs if verb.kind == "seen" and verb.harm]
    did = [verb for verb in verbs if verb not in harms]
    had = (
        [item for item in line.of_sort("filler", "unknown") if line.text(item) in TAKING]
        if harms and not did
        else []
    )
    taken = bool(had) or any(line.text(item) in TAKING for item in line.of_sort("verb"))
    if not (did or had) or not harms or len({one.harm for one in harms}) > 1:
        return None
    if any(verb.kind not in ("seen", "ended") for verb in did):
        return None
    items = [item for item in line.of_sort("verb") if item.value in harms]
    for one, behind in itertools.pairwise(line.items):
        if one.sort == "to" and behind in items:  # lost to slugs
            line.drop([one])
    ended = [verb for verb in did if verb.kind == "ended"]
    causes = join_list([one.cause for one in harms if one.cause])
    part = part_told(line)
    whole = part.share == 1.0 if part is not None else bool(line.of_sort("all"))
    if part is None and not ended:
        whole = any(_is_taken(line, item) for item in line.of_sort("all"))
    if part is not None and whole:
        line.drop(part.items)
    if (not ended and not (taken and whole)) or (part is not None and not whole):
        return harms[0]._replace(
            cause=causes, lost=bool(ended) or (taken and part is not None and not part.vague)
        )
    own = [verb.why for verb in ended if verb.why not in ("", "failed")]
    if len(set(own)) > 1:
        return None
    line.add_words(join_list([line.typed(item) for item in items]))
    return Verb("ended", why=own[0] if own else ENDED_BY[harms[0].harm])


def _measured_by_unit(line: LineItems) -> Verb | None:
    """``40 cm high``, ``25 mm of rain``, ``soil temperature 9 °C``."""
    if line.of_sort("verb") or not line.of_sort("number"):
        return None
    for at, item in enumerate(line.items):
        behind_unit = at > 1 and line.sort_at(at - 1) == "unit" and line.sort_at(at - 2) == "number"
        if item.sort == "measure" and behind_unit:
            line.drop([item])
            return Verb("measured", measure=MEASURES[line.text(item)])
        if item.sort == "measured":
            line.drop([item])
            return Verb("measured", measure=line.text(item))
    return None


def _looked_at(line: LineItems, items: list[Item]) -> Verb | None:
    """A note of what was seen on a bed or planting: at least two words, since one alone may be a slip of the hand."""
    if any(not item.value.is_open for item in items) or line.of_sort("number", "unit", "share", "percent"):
        return None
    if not line.of_sort("bed", "crop", "variety", "planting"):
        return None
    if any(item.value.kind == "ended" for item in items) and part_told(line, narrowed=False) is not None:
        return None
    words = [item for item in line.items if item.sort == "unknown" or item in items]
    pairs = itertools.pairwise(words)
    several = any(" " in line.typed(item) for item in words)
    if several or any(not line.part[one.end : other.start].strip() for one, other in pairs):
        for item in items:
            line.replace(item, item._replace(sort="unknown", value=line.typed(item)))
        return Verb("note")
    return None
