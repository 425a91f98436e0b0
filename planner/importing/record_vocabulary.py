"""What a language gives to the reader of typed records: tables of phrases, and what a phrase that tells what happened means."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from planner.garden.records import EndedWhy, Harm

_NOTHING: Mapping[str, str] = {}


class Verb(NamedTuple):
    """What happened.

    Attributes
    ----------
    kind : str
        Kind of the record.
    tasks : tuple of str
        Of work on a planting: the tasks that it may mean; the first that the planting has.
    harm, cause, why : str
        Of harm that was seen, and of an end; empty where they are still to be said.
    measure, cover : str
        What was measured, and with what was covered, where the word says it.
    free : bool
        Free work, which the word itself names.
    told : bool
        The words themselves are kept in the record: it says more than its kind does.
    gathers : bool
        With an amount of the crop it is a picking: ``dug 12 kg of potatoes``.
    lost : bool
        Of harm: the share that is told is gone, and not only damaged.
    missing : bool
        It did not come up: of a part the rest came up.
    picked_for : str
        Of a picking: where it went, where the word says so.
    """

    kind: str
    tasks: tuple[str, ...] = ()
    harm: str = ""
    cause: str = ""
    why: str = ""
    measure: str = ""
    cover: str = ""
    free: bool = False
    told: bool = False
    gathers: bool = False
    lost: bool = False
    missing: bool = False
    picked_for: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it is only the head of a kind: ``done``, ``seen``, ``ended``."""
        heads = (Verb("done"), Verb("seen"), Verb("ended"))
        return self._replace(gathers=False) in heads


class Vocabulary(NamedTuple):
    """Phrases of a language, each with its meaning.

    Attributes
    ----------
    tasks : mapping of str to tuple of str
        The tasks that work on a planting may mean.
    free : iterable of str
        Free work that the word itself names.
    harms, causes : mapping of str to Harm
        Harm by its own name, and by its cause.
    ends : mapping of str to EndedWhy
    losses : mapping of str to EndedWhy
        Ends whose words are kept: ``rotted``.
    missing : iterable of str
        Words of what did not come up; they are kept.
    stages, heads : mapping of str to str
        Kinds of records.
    gathering : iterable of str
        Words, of this and of the other tables, that are a picking where an amount of the crop stands with them.
    taking : iterable of str
        Words for what animals do that leaves nothing of what they had: ``ate``; all of it so is an end.
    part_words, piece_words, more_words : iterable of str
        Single words that say that a part of a planting is meant and not how much; those that say so even beside a number,
        which counts something else than plants: ``2 rows``; and those of a number that adds to one told before.
    waiting : iterable of str
        Words that say that something may still come: ``not up yet``.
    adjectives : iterable of str
        Ends that right before a crop say which of its plants are meant: ``dead leeks``.
    giving : mapping of str to str
        Words for what was done with a picking, with where it went; the words are kept: ``gave Anna 2 kg``.
    finishing : iterable of str
        Free work that is done to what was picked or lifted: ``lifted and dried``.
    loose_units : mapping of str to str
        Words for an amount that is not known, with what one weighs where that is known.
    carried : iterable of str
        What is carried to a bed in a bucket or a barrow.
    other_years : iterable of str
        Words of a resolution, that are no day: ``next year``.
    all_gathered : iterable of str
        Those of them that end a planting where all of it is said to be so: ``all potatoes dug``.
    measures : mapping of str to str
        What a number with its unit in front measures: ``40 cm high``.
    measured : iterable of str
        What may stand on either side of its number: ``rain``.
    ordinals : mapping of str to str
        Stages of picking, by the words that make a picking one of them.
    picked_for, units, covers : mapping of str to str
    cover_on, cover_off : iterable of str
        What stands behind a cover that was put on, or taken off.
    shares, numbers : mapping of str to float
    vague_days, coming : iterable of str
        Words for a time that is not one day, and for one that is still to come.
    parts_of_month : iterable of str
        Words before a month that make it such a time.
    small : mapping of str to str
        Sorts of small words.
    crops : mapping of str to str
        Keys of crops by their names.
    kinds : iterable of str
        Words that stand for any crop that is planted and whose name ends with them or with their singular.
    articled : iterable of str
        Nouns before which a single small ``a`` is an article, and no letter of a planting.
    """

    tasks: Mapping[str, tuple[str, ...]] = {}
    free: Iterable[str] = ()
    harms: Mapping[str, Harm] = {}
    causes: Mapping[str, Harm] = {}
    ends: Mapping[str, EndedWhy] = {}
    losses: Mapping[str, EndedWhy] = {}
    missing: Iterable[str] = ()
    stages: Mapping[str, str] = _NOTHING
    heads: Mapping[str, str] = _NOTHING
    gathering: Iterable[str] = ()
    taking: Iterable[str] = ()
    part_words: Iterable[str] = ()
    piece_words: Iterable[str] = ()
    more_words: Iterable[str] = ()
    waiting: Iterable[str] = ()
    adjectives: Iterable[str] = ()
    giving: Mapping[str, str] = _NOTHING
    finishing: Iterable[str] = ()
    loose_units: Mapping[str, str] = _NOTHING
    carried: Iterable[str] = ()
    other_years: Iterable[str] = ()
    all_gathered: Iterable[str] = ()
    measures: Mapping[str, str] = _NOTHING
    measured: Iterable[str] = ()
    ordinals: Mapping[str, str] = _NOTHING
    picked_for: Mapping[str, str] = _NOTHING
    units: Mapping[str, str] = _NOTHING
    covers: Mapping[str, str] = _NOTHING
    cover_on: Iterable[str] = ()
    cover_off: Iterable[str] = ()
    shares: Mapping[str, float] = {}
    numbers: Mapping[str, float] = {}
    vague_days: Iterable[str] = ()
    coming: Iterable[str] = ()
    parts_of_month: Iterable[str] = ()
    small: Mapping[str, str] = _NOTHING
    crops: Mapping[str, str] = _NOTHING
    kinds: Iterable[str] = ()
    articled: Iterable[str] = ()
