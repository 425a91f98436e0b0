"""Conflicts of joined gardens, in sentences."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from planner.garden.beds import Bed, Structure
from planner.garden.conflicts import Conflict
from planner.garden.edits.conflicts import thing_of
from planner.garden.garden import Garden
from planner.garden.household import StorePlace
from planner.garden.materials import Dressing, ShedItem
from planner.garden.offers import Offer, PlantingStock
from planner.garden.planting import Planting
from planner.garden.raising import Bench
from planner.garden.records import RecordBase
from planner.garden.trials import Trial
from planner.garden.varieties import Lot, OwnCrop, OwnSource, Variety
from planner.garden.wishes import Wish
from planner.words import day_words, join_list, later, say

#: Longest value that is shown whole. [characters]
LONGEST_SHOWN = 60

#: What the fields of things are called.
FIELD_NAMES = {
    "center": later("place of its middle"),
    "hidden": later("whether it is hidden"),
    "page": later("page"),
    "path": later("file"),
    "sha256": later("content of its file"),
    "strength": later("strength of its colours"),
    "turn": later("angle by which it is turned"),
    "access": later("sides it is reached from"),
    "agency": later("publisher"),
    "amount": later("amount"),
    "apart": later("crops it is kept apart from"),
    "arrangement": later("spacing"),
    "author": later("author"),
    "back_after": later("years until its family may come back"),
    "bearing_up": later("top of the plan"),
    "bed": later("bed"),
    "beds": later("beds it may stand in"),
    "beside": later("crops it stands beside"),
    "by": later("written down by"),
    "came_from": later("where it came from"),
    "cause": later("cause"),
    "cells": later("cells"),
    "clear_height": later("clear height"),
    "clearance": later("ground kept free"),
    "count": later("number counted"),
    "counted": later("day counted"),
    "cover": later("cover"),
    "covers": later("covers"),
    "crop": later("crop"),
    "crop_names": later("names of crops"),
    "crops": later("crops kept there"),
    "currency": later("currency"),
    "day": later("day"),
    "depth": later("depth"),
    "done": later("day it was done"),
    "drip_lines": later("drip lines"),
    "earliest": later("earliest first harvest"),
    "eats": later("own amounts eaten"),
    "elevation": later("height above the sea"),
    "entries": later("plantings compared"),
    "family": later("family"),
    "figures": later("figures"),
    "finding": later("finding"),
    "first": later("first day"),
    "first_frost": later("first frost"),
    "first_month": later("first month"),
    "first_year": later("first year"),
    "foot": later("foot of the arch"),
    "frost_free": later("free of frost"),
    "germination": later("germination"),
    "grams": later("grams"),
    "ground": later("kind of bed"),
    "growth_form": later("form of growth"),
    "harm": later("harm"),
    "height": later("height"),
    "humidity": later("humidity"),
    "importance": later("how much it matters"),
    "kept_above": later("temperature it is kept above"),
    "kind": later("kind"),
    "known_as": later("name in calendars"),
    "last": later("last day"),
    "last_frost": later("last frost"),
    "last_year": later("last year"),
    "latest": later("latest first harvest"),
    "latin": later("Latin name"),
    "latitude": later("latitude"),
    "layout_weights": later("what counts in a layout"),
    "learned": later("use of the garden's own figures"),
    "length": later("length"),
    "life_cycle": later("life cycle"),
    "like": later("what it is like"),
    "litres": later("litres"),
    "locked": later("whether it is locked"),
    "longitude": later("longitude"),
    "look_again": later("day to look again"),
    "lost": later("share that was lost"),
    "lost_counts": later("whether lost plantings count"),
    "lot": later("packet of seed"),
    "material": later("material"),
    "measure": later("what is measured"),
    "mesh": later("mesh"),
    "monthly_maximum": later("monthly maximum"),
    "monthly_minimum": later("monthly minimum"),
    "name": later("name"),
    "notes": later("notes"),
    "number": later("number"),
    "opacity": later("light held back"),
    "ordered": later("ordered"),
    "origin": later("origin"),
    "outline": later("place and shape"),
    "packed": later("year packed"),
    "in_part": later("whether less of it may be planted"),
    "parts": later("beds it may be divided over"),
    "path_width": later("narrowest path"),
    "persons": later("persons"),
    "photographs": later("photographs"),
    "picked_for": later("where it went"),
    "pieces": later("pieces"),
    "pinned": later("place kept"),
    "pinned_dates": later("dates set by hand"),
    "place": later("place"),
    "planting": later("planting"),
    "plot": later("plot"),
    "price": later("price"),
    "product": later("what it is harvested for"),
    "purpose": later("purpose"),
    "question": later("question"),
    "raising": later("way of raising"),
    "rate": later("grams a square metre"),
    "reach": later("reach"),
    "reason": later("reason"),
    "repeats": later("planting it repeats"),
    "replaces": later("planting it replaces"),
    "response": later("what was done about it"),
    "risk": later("risk of frost"),
    "saved_from": later("planting it was saved from"),
    "seeds": later("seeds"),
    "series": later("series"),
    "share": later("share"),
    "shares_ground": later("shares its ground"),
    "shop": later("where it is sold"),
    "since": later("there since"),
    "soil": later("soil"),
    "soil_rule": later("warmth of the soil by which it is begun"),
    "sold": later("sold in this size"),
    "sowing": later("way of sowing"),
    "sown": later("seeds sown"),
    "start": later("start"),
    "state": later("state of its tubers or plants"),
    "station": later("weather station"),
    "stem": later("clear stem"),
    "support": later("support"),
    "task": later("task"),
    "temperature": later("temperature"),
    "tended_by": later("tended by"),
    "text": later("text"),
    "time_zone": later("time zone"),
    "timing": later("season"),
    "title": later("title"),
    "uncut": later("not cut yet"),
    "unit": later("unit"),
    "units": later("units"),
    "until": later("last day it is eaten"),
    "value": later("value"),
    "variety": later("variety"),
    "walk": later("walking order"),
    "weight": later("weight"),
    "why": later("why it ended"),
    "width": later("width"),
    "wish": later("wish it meets"),
    "words": later("words"),
    "year": later("year"),
    "years": later("years"),
    "zone": later("hardiness zone"),
}


def conflict_words(garden: Garden, conflict: Conflict, crop_name: Callable[[str], str] = str) -> str:
    """Say what a conflict is about, without a full stop: "carrot in North: notes is "a" here, "b" in the other".

    Parameters
    ----------
    garden : Garden
        That holds the conflict.
    conflict : Conflict
    crop_name : callable
        Name of a crop by its key.
    """
    thing = thing_of(garden, conflict)
    name = thing_words(garden, conflict, crop_name)
    if conflict.removed:
        return (
            say("{thing}: removed in the other garden, changed in this one", thing=name)
            if conflict.kept == "mine"
            else say("{thing}: removed in this garden, changed in the other; it was kept", thing=name)
        )
    here = thing.model_dump(mode="json") if thing is not None else {}
    return join_list(
        [_field_words(name, field, here.get(field), other) for field, other in conflict.values.items()]
    )


def thing_words(garden: Garden, conflict: Conflict, crop_name: Callable[[str], str] = str) -> str:
    """Name the thing that a conflict is about: "carrot in North"."""
    thing = thing_of(garden, conflict)
    if isinstance(thing, (Bed, Bench)):
        return thing.name
    if isinstance(thing, Structure):
        return thing.name or thing.kind
    if isinstance(thing, Planting):
        return say("{crop} in {bed}", crop=crop_name(thing.crop), bed=garden.beds_by_id[thing.bed].name)
    if isinstance(thing, Variety):
        return say("the variety {name}", name=thing.name)
    if isinstance(thing, OwnCrop):
        return say("the own crop {name}", name=thing.name)
    if isinstance(thing, OwnSource):
        return say("the own source {name}", name=thing.title)
    if isinstance(thing, StorePlace):
        return say("the place {name}", name=thing.name)
    if isinstance(thing, Lot):
        return say("the seed of {crop}", crop=crop_name(thing.crop))
    if isinstance(thing, (PlantingStock, Offer)):
        kind = say("{kind} of {crop}", kind=thing.kind, crop=crop_name(thing.crop))
        return say("the offer of {what}", what=kind) if isinstance(thing, Offer) else kind
    if isinstance(thing, Dressing):
        return say("the {material} on {bed}", material=thing.kind, bed=garden.beds_by_id[thing.bed].name)
    if isinstance(thing, ShedItem):
        return say("the {material} in the shed", material=thing.name or thing.kind)
    if isinstance(thing, Trial):
        return say("the trial {question}", question=thing.question)
    if isinstance(thing, Wish):
        return say("the wish for {crop}", crop=crop_name(thing.crop))
    if isinstance(thing, RecordBase):
        return say("the record of {day}", day=day_words(thing.day))
    if conflict.part == "notes":
        return say("the note on {year}", year=conflict.key)
    if conflict.part == "waived":
        return say("an accepted finding")
    if conflict.part == "household":
        return say("the household")
    if conflict.part == "weather":
        return say("the years of weather")
    return say("the climate") if conflict.part == "climate" else say("the garden")


def _field_words(thing: str, field: str, here: Any, other: Any) -> str:
    name = say(FIELD_NAMES[field]) if field in FIELD_NAMES else field
    if _is_short(here) and _is_short(other):
        return say(
            "{thing}: {field} is {here} in this garden, {other} in the other",
            thing=thing,
            field=name,
            here=_shown(here),
            other=_shown(other),
        )
    return say("{thing}: {field} differs between this garden and the other", thing=thing, field=name)


def _is_short(value: Any) -> bool:
    return not isinstance(value, (dict, list)) and len(str(value)) <= LONGEST_SHOWN


def _shown(value: Any) -> str:
    if value is None or value == "":
        return say("not given")
    if isinstance(value, bool):
        return say("yes") if value else say("no")
    return f"“{value}”" if isinstance(value, str) else f"{value:g}"
