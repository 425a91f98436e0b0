"""Random records, trials and wishes, for tests over sequences of edits."""

from __future__ import annotations

import typing
from typing import Any

from random_values import CROPS, VARIETIES, YEARS, Draw

from planner.garden.planting import Purpose, Work
from planner.garden.records import ENDED_WHY, HARMS, RECORD_MODELS, STAGES, PickedFor
from planner.garden.trials import TrialEntry
from planner.garden.wishes import Importance, WishedGround, WishUnit

#: Kinds of records that are of a planting.
OF_A_PLANTING = ("came up", *STAGES, "picked", "ended")


def record_fields(draw: Draw, kind: str | None = None) -> dict[str, Any]:
    """Fields of a new record of some kind."""
    kind = kind or draw.one_of(RECORD_MODELS)
    fields: dict[str, Any] = {"kind": kind, "day": draw.day()}
    if kind in OF_A_PLANTING or draw.chance(0.5):
        fields["planting"] = draw.key(draw.garden.plantings)
    elif draw.chance(0.7):
        fields["bed"] = draw.key(draw.garden.beds)
    if draw.chance(0.2):
        fields["place"] = draw.point()
    if kind in ("note", "lesson", "done") or draw.chance(0.3):
        fields["words"] = draw.one_of(("Watered", "Möhren süß", "二回目"))
    if kind == "done" and draw.chance(0.5) and "planting" in fields:
        fields["task"] = draw.word(Work)
    return {**fields, **_measure(draw, kind)}


def _measure(draw: Draw, kind: str) -> dict[str, Any]:
    """What a kind of record tells besides its day, place and words."""
    match kind:
        case "seen":
            return {"harm": draw.one_of(HARMS), "share": round(draw.rng.random(), 2), "response": "Netted"}
        case "came up":
            lots = [None, *(lot.id for lot in draw.garden.stock)]
            return {"count": draw.rng.randint(0, 40), "sown": 40, "lot": draw.one_of(lots)}
        case "picked":
            unit = draw.one_of(("g", "pieces", "bunches"))
            return {
                "amount": {"value": draw.number(1, 900), "unit": unit},
                "picked_for": draw.one_of(typing.get_args(PickedFor)),
            }
        case "ended":
            return {"why": draw.one_of(ENDED_WHY)}
        case "measured":
            return {"measure": draw.name("height", "fruit"), "value": draw.number(0, 9), "unit": "m"}
        case "lesson":
            return {"crop": draw.one_of(("", *CROPS))}
    return {}


def trial_fields(draw: Draw) -> dict[str, Any]:
    """Fields of a trial."""
    keys = dict.fromkeys(draw.keys(draw.garden.plantings, 3))
    entries = [TrialEntry(planting=key, treatment=draw.one_of(("A", "B")), block="1") for key in keys if key]
    return {"question": draw.name("Which is earlier?"), "measure": "height", "entries": tuple(entries)}


def wish_fields(draw: Draw) -> dict[str, Any]:
    """Fields of a wish."""
    return {
        "year": draw.one_of(YEARS),
        "crop": draw.name(*CROPS),
        "variety": draw.one_of(VARIETIES),
        "amount": draw.one_of((None, 12.0, 0.5)),
        "unit": draw.word(WishUnit),
        "until": draw.day_or_none(),
        "purpose": draw.word(Purpose),
        "importance": draw.word(Importance),
        "start": draw.one_of((None, "sown", "raised")),
        "latest": draw.day_or_none(),
        "parts": draw.rng.randint(1, 3),
        "in_part": draw.chance(0.8),
        "beds": tuple(draw.keys(draw.garden.beds)) if draw.chance(0.3) else (),
        "ground": draw.one_of((None, *typing.get_args(WishedGround))),
        "beside": draw.one_of(((), CROPS[:1])),
        "apart": draw.one_of(((), CROPS[1:3])),
        "back_after": draw.one_of((None, 0.0, 2.0)),
        "like": draw.one_of((None, *(one.id for one in draw.garden.plantings))),
    }
