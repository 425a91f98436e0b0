"""What the keys of garden files and of the crops' tables are called where a user reads them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planner.words.catalogue import later, say, say_in_context

#: Work on plantings and beds.
WORK_WORDS: Mapping[str, str] = {
    "chit": later("chit"),
    "sow": later("sow"),
    "prick out": later("prick out"),
    "pot on": later("pot on"),
    "harden off": later("harden off"),
    "film down": later("film down"),
    "set out": later("set out"),
    "support up": later("support up"),
    "cover on": later("cover on"),
    "vent": later("vent"),
    "thin": later("thin"),
    "mulch": later("mulch"),
    "earth up": later("earth up"),
    "earth up again": later("earth up again"),
    "tie in": later("tie in"),
    "pinch out": later("pinch out"),
    "stop": later("stop"),
    "feed": later("feed"),
    "cover off": later("cover off"),
    "film up": later("film up"),
    "pick": later("pick"),
    "lift": later("lift"),
    "lift and cure": later("lift and cure"),
    "cut back": later("cut back"),
    "prune": later("prune"),
    "divide": later("divide"),
    "renew": later("renew"),
    "lift and store": later("lift and store"),
    "clear": later("clear"),
    "sow the next": later("sow the next"),
}
#: Everything else that has one meaning.
KEY_WORDS: Mapping[str, str] = {
    # How a planting starts, and in what state its plants come.
    "sown": later("sown"),
    "raised": later("raised"),
    "bought": later("bought"),
    "sets": later("sets"),
    "tubers": later("tubers"),
    "cloves": later("cloves"),
    "crowns": later("crowns"),
    "standing": later("standing"),
    "already growing": later("already growing"),
    "plants": later("plants"),
    "unsprouted": later("unsprouted"),
    "plugs": later("plugs"),
    "large plants": later("large plants"),
    "cuttings": later("cuttings"),
    "bought plants": later("bought plants"),
    "self-sown": later("self-sown"),
    "given": later("given"),
    # Covers, guards and supports.
    "fleece": later("fleece"),
    "netting": later("netting"),
    "film": later("film"),
    "cloche": later("cloche"),
    "low tunnel": later("low tunnel"),
    "brushwood": later("brushwood"),
    "collar": later("collar"),
    "slug ring": later("slug ring"),
    "vole basket": later("vole basket"),
    "hoops": later("hoops"),
    "flat": later("flat"),
    "sticks": later("sticks"),
    "stake": later("stake"),
    "cage": later("cage"),
    "net": later("net"),
    "frame": later("frame"),
    "arch": later("arch"),
    "tower": later("tower"),
    "wire": later("wire"),
    "strings": later("strings"),
    "panel": later("panel"),
    # Places.
    "open": later("open"),
    "container": later("container"),
    "under glass": later("under glass"),
    "wall": later("wall"),
    "fence": later("fence"),
    "hedge": later("hedge"),
    "tree": later("tree"),
    "shed": later("shed"),
    "glasshouse": later("glasshouse"),
    "tunnel": later("tunnel"),
    "board": later("board"),
    "path": later("path"),
    "gate": later("gate"),
    "tap": later("tap"),
    "lawn": later("lawn"),
    "other": later("other structure"),
    "cold frame": later("cold frame"),
    "south wall": later("south wall"),
    "cellar": later("cellar"),
    "fridge": later("fridge"),
    "clamp": later("clamp"),
    "dry room": later("dry room"),
    # Materials.
    "compost": later("compost"),
    "manure": later("manure"),
    "leaf mould": later("leaf mould"),
    "straw": later("straw"),
    "bark": later("bark"),
    "wood chip": later("wood chip"),
    "grass clippings": later("grass clippings"),
    "lime": later("lime"),
    "mulch film": later("mulch film"),
    "tunnel film": later("tunnel film"),
    "climbing net": later("climbing net"),
    "hoop": later("hoop"),
    "post": later("post"),
    "stick": later("stick"),
    "pole": later("pole"),
    "rail": later("rail"),
    "string": later("string"),
    "peg": later("peg"),
    "tie": later("tie"),
    "drip line": later("drip line"),
    "water pipe": later("water pipe"),
    "drip branch": later("branch of a drip line"),
    "drip stop": later("stop of a drip line"),
    "pressure reducer": later("pressure reducer with filter"),
    "potting mix": later("potting mix"),
    "cell tray": later("cell tray"),
    "seed tray": later("seed tray"),
    "pot": later("pot"),
    "seed": later("seed"),
    "cells": later("cells of a tray"),
    "pots": later("pots"),
    "blocks": later("blocks"),
    "pricked out": later("pricked out"),
    "nursery bed": later("nursery bed"),
    # Soil.
    "sand": later("sand"),
    "loamy sand": later("loamy sand"),
    "sandy loam": later("sandy loam"),
    "loam": later("loam"),
    "silt loam": later("silt loam"),
    "silt": later("silt"),
    "sandy clay loam": later("sandy clay loam"),
    "clay loam": later("clay loam"),
    "silty clay loam": later("silty clay loam"),
    "sandy clay": later("sandy clay"),
    "silty clay": later("silty clay"),
    "clay": later("clay"),
    "peat": later("peat"),
    # Crops.
    "annual": later("annual"),
    "biennial": later("biennial"),
    "perennial": later("perennial"),
    "rosette": later("rosette"),
    "root": later("root"),
    "bulb": later("bulb"),
    "head": later("head"),
    "bush": later("bush"),
    "upright": later("upright"),
    "climber": later("climber"),
    "sprawler": later("sprawler"),
    "grass": later("grass"),
    "fern": later("fern"),
    "cane": later("cane"),
    "shrub": later("shrub"),
    "mat": later("mat"),
    "flower": later("flower"),
    "very hardy": later("very hardy"),
    "frost-tolerant": later("frost-tolerant"),
    "tender": later("tender"),
    "warm-loving": later("warm-loving"),
    "short-day": later("short-day"),
    "long-day": later("long-day"),
    "day-neutral": later("day-neutral"),
    "at once": later("at once"),
    "after weeks": later("after weeks"),
    "with frost": later("with frost"),
    "with bolting": later("with bolting"),
    "stands": later("stands"),
    "dies back": later("dies back"),
    "yearly": later("yearly"),
    "itself": later("itself"),
    "another variety": later("another variety"),
    "better with another variety": later("better with another variety"),
    "male plant": later("male plant"),
    "kilogram": later("kilogram"),
    "piece": later("piece"),
    "bunch": later("bunch"),
    "stem": later("stem"),
    "leaves": later("leaves"),
    "young leaves": later("young leaves"),
    "heads": later("heads"),
    "stalks": later("stalks"),
    "shoots": later("shoots"),
    "roots": later("roots"),
    "young roots": later("young roots"),
    "bulbs": later("bulbs"),
    "green bulbs": later("green bulbs"),
    "fruit": later("fruit"),
    "green fruit": later("green fruit"),
    "pods": later("pods"),
    "green seed": later("green seed"),
    "dry seed": later("dry seed"),
    "flowers": later("flowers"),
    "buds": later("buds"),
    "grain": later("grain"),
    "rhizomes": later("rhizomes"),
    "green manure": later("green manure"),
    "none": later("none"),
    # Animals, and whom a plant harms.
    "pigeons": later("pigeons"),
    "birds": later("birds"),
    "rabbits": later("rabbits"),
    "deer": later("deer"),
    "mice": later("mice"),
    "voles": later("voles"),
    "rats": later("rats"),
    "squirrels": later("squirrels"),
    "slugs": later("slugs"),
    "badgers": later("badgers"),
    "cats": later("cats"),
    "people": later("people"),
    "dogs": later("dogs"),
    "horses": later("horses"),
    "livestock": later("livestock"),
    "poultry": later("poultry"),
    # Pests that a cover keeps off.
    "Colorado potato beetle": later("Colorado potato beetle"),
    "aphids": later("aphids"),
    "asparagus beetle": later("asparagus beetle"),
    "bean beetle": later("bean beetle"),
    "bean seed fly": later("bean seed fly"),
    "birds at sowing": later("birds at sowing"),
    "black bean aphid": later("black bean aphid"),
    "cabbage root fly": later("cabbage root fly"),
    "cabbage white butterflies": later("cabbage white butterflies"),
    "carrot fly": later("carrot fly"),
    "celery leaf miner": later("celery leaf miner"),
    "cucumber beetle": later("cucumber beetle"),
    "flea beetle": later("flea beetle"),
    "flea beetles": later("flea beetles"),
    "frit fly": later("frit fly"),
    "leaf miner": later("leaf miner"),
    "leafhoppers that carry aster yellows": later("leafhoppers that carry aster yellows"),
    "leek moth": later("leek moth"),
    "onion fly": later("onion fly"),
    "pea moth": later("pea moth"),
    "snails": later("snails"),
    "sparrows": later("sparrows"),
    "squash bug": later("squash bug"),
    "squash vine borer": later("squash vine borer"),
    "wasps": later("wasps"),
    "whitefly": later("whitefly"),
    # Poisonous parts of plants.
    "bulbs most, leaves and stems": later("bulbs most, leaves and stems"),
    "corms most, the whole plant": later("corms most, the whole plant"),
    "kernels of the stones, chewed": later("kernels of the stones, chewed"),
    "leaves and flowers, much of them": later("leaves and flowers, much of them"),
    "leaves and roots": later("leaves and roots"),
    "leaves and stalks, whose sap burns skin in sunlight": later(
        "leaves and stalks, whose sap burns skin in sunlight"
    ),
    "leaves and stems": later("leaves and stems"),
    "leaves as almost the only fodder": later("leaves as almost the only fodder"),
    "leaves, most of all of seedlings": later("leaves, most of all of seedlings"),
    "leaves, much of them": later("leaves, much of them"),
    "leaves, stems and berries": later("leaves, stems and berries"),
    "leaves, stems and stones": later("leaves, stems and stones"),
    "leaves, stems, seeds, roots and unripe berries": later("leaves, stems, seeds, roots and unripe berries"),
    "raw berries": later("raw berries"),
    "raw seed": later("raw seed"),
    "sap": later("sap"),
    "sap, which hurts skin, and bulbs when eaten": later("sap, which hurts skin, and bulbs when eaten"),
    "seed and young plants": later("seed and young plants"),
    "seeds": later("seeds"),
    "the plant": later("the plant"),
    "the whole plant": later("the whole plant"),
    "the whole plant and its sap": later("the whole plant and its sap"),
    "the whole plant, and the water of the vase": later("the whole plant, and the water of the vase"),
    "tubers turned green, and sprouts": later("tubers turned green, and sprouts"),
    "unripe berries and leaves": later("unripe berries and leaves"),
    "whole plant": later("whole plant"),
    "whole plant, bulbs most": later("whole plant, bulbs most"),
    # How a figure is known.
    "printed": later("printed"),
    "chosen": later("chosen"),
    "derived": later("derived"),
    "practice": later("practice"),
    "estimate": later("estimate"),
    "missing": later("missing"),
    "does not apply": later("does not apply"),
    # Months and seasons.
    "winter": later("winter"),
    "spring": later("spring"),
    "summer": later("summer"),
    "autumn": later("autumn"),
    # Layouts.
    "must": later("must"),
    "should": later("should"),
    "could": later("could"),
}


def key_words(key: str) -> str:
    """What a key is called; the key itself where it is the user's own word.

    Parameters
    ----------
    key : str
        A word of a garden file, as ``low tunnel``; of the ambiguous ones that of a thing.

    Examples
    --------
    >>> key_words("low tunnel"), key_words("beech mast")
    ('low tunnel', 'beech mast')
    """
    if key == "feed":
        return say_in_context("what is spread", "feed")
    return say(KEY_WORDS[key]) if key in KEY_WORDS else key


def work_words(kind: str) -> str:
    """What a kind of work is called where it is to be done.

    Parameters
    ----------
    kind : str
        As ``set out``.

    Examples
    --------
    >>> work_words("set out")
    'set out'
    """
    if kind == "spread":
        return say_in_context("work", "spread")
    return say(WORK_WORDS[kind]) if kind in WORK_WORDS else kind


def property_words(field: str, word: str) -> str:
    """A word that a field of a crop may have, where the same word means other things elsewhere.

    Parameters
    ----------
    field : str
        Of the crop, as ``nutrient_demand``.
    word : str
    """
    match field, word:
        case "nutrient_demand", "light":
            return say_in_context("demand of food", "light")
        case "nutrient_demand", "moderate":
            return say_in_context("demand of food", "moderate")
        case "nutrient_demand", "heavy":
            return say_in_context("demand of food", "heavy")
        case "light_to_germinate", "light":
            return say_in_context("germinates in", "light")
        case "light_to_germinate", "dark":
            return say_in_context("germinates in", "dark")
        case "light_to_germinate", "either":
            return say_in_context("germinates in", "either")
        case "pollination", "self":
            return say_in_context("pollinated by", "self")
        case "pollination", "insect":
            return say_in_context("pollinated by", "insect")
        case "pollination", "wind":
            return say_in_context("pollinated by", "wind")
        case "pollination", "none":
            return say_in_context("pollinated by", "none")
        case "maturity_from", "sowing":
            return say_in_context("counted from", "sowing")
        case "maturity_from", "setting out":
            return say_in_context("counted from", "setting out")
        case "harvest_unit", "head":
            return say_in_context("counted in", "head")
        case _:
            return key_words(word)


def key_typed(field: str, text: str) -> str:
    """The key that a typed word of a field of a crop means, in English or in the program's language; else the text itself.

    Parameters
    ----------
    field : str
        Of the crop.
    text : str

    Examples
    --------
    >>> key_typed("hardiness", "Tender"), key_typed("maturity_from", "sowing"), key_typed("hardiness", "fluffy")
    ('tender', 'sowing', 'fluffy')
    """
    typed = text.strip().casefold()
    several = (
        "light",
        "moderate",
        "heavy",
        "dark",
        "either",
        "self",
        "insect",
        "wind",
        "sowing",
        "setting out",
    )
    for key in (*several, *KEY_WORDS):
        if typed in (key, property_words(field, key).casefold()):
            return key
    for key, words in (("yes", say("yes")), ("no", say("no"))):
        if typed in (key, words.casefold()):
            return key
    return text.strip()


def key_list(keys: Iterable[str]) -> str:
    """Several keys, with commas between them."""
    return ", ".join(key_words(key) for key in keys)


def check_words(check: str) -> str:
    """What a check is called where its findings are listed.

    Parameters
    ----------
    check : str
    """
    match check:
        case "acidity":
            return say_in_context("check", "acidity")
        case "bench":
            return say_in_context("check", "bench")
        case "bolting":
            return say_in_context("check", "bolting")
        case "cover":
            return say_in_context("check", "cover")
        case "crowding":
            return say_in_context("check", "crowding")
        case "depth":
            return say_in_context("check", "depth")
        case "frost":
            return say_in_context("check", "frost")
        case "join":
            return say_in_context("check", "join")
        case "light":
            return say_in_context("check", "light")
        case "losses":
            return say_in_context("check", "losses")
        case "neighbours":
            return say_in_context("check", "neighbours")
        case "outside":
            return say_in_context("check", "outside")
        case "overlap":
            return say_in_context("check", "overlap")
        case "path":
            return say_in_context("check", "path")
        case "reach":
            return say_in_context("check", "reach")
        case "rotation":
            return say_in_context("check", "rotation")
        case "season":
            return say_in_context("check", "season")
        case "seed purity":
            return say_in_context("check", "seed purity")
        case "water":
            return say_in_context("check", "water")
        case "soil warmth":
            return say_in_context("check", "soil warmth")
        case "standing":
            return say_in_context("check", "standing")
        case "stock":
            return say_in_context("check", "stock")
        case "store":
            return say_in_context("check", "store")
        case "support":
            return say_in_context("check", "support")
        case _:
            return check
