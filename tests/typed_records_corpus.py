"""Lines as a gardener types them, each with the records it means; written by hand before the reader was.

A line's records are the fields given to ``add_records``; a fault is a part of the one line that asks back.
The day on which they are typed is Wednesday, 10 June 2026.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from planner.garden import Bed, Garden, Planting, Site
from planner.garden.outlines import Rectangle

TODAY = dt.date(2026, 6, 10)
YESTERDAY = dt.date(2026, 6, 9)
Fields = dict[str, Any]


def record(kind: str, about: str = "", day: dt.date = TODAY, **fields: Any) -> Fields:
    """Fields of a record about a planting, about a bed (``@north``), or about the garden."""
    place = {"bed": about[1:]} if about.startswith("@") else {"planting": about} if about else {}
    return {"kind": kind, "day": day, **place, **fields}


def june(day: int) -> dt.date:
    """A day of June 2026."""
    return dt.date(2026, 6, day)


def may(day: int) -> dt.date:
    """A day of May 2026."""
    return dt.date(2026, 5, day)


def picked(planting: str, value: float, unit: str = "g", day: dt.date = TODAY, **fields: Any) -> Fields:
    """Fields of a picking."""
    return record("picked", planting, day, amount={"value": value, "unit": unit}, **fields)


_SOWN = [record("done", key, YESTERDAY, task="sow") for key in ("beet", "turnip", "kohl")]

#: Lines about :func:`plot`.
PLOT: dict[str, list[Fields]] = {
    "sown: beds 5 to 7 on Tuesday": _SOWN,
    "sown: beds 5-7 on Tuesday": _SOWN,
    "sown: beds 5 – 7 on tue": _SOWN,
    "sown beds 5, 6 and 7 yesterday": _SOWN,
    "sown Bed 5 to Bed 7 on 9 June": _SOWN,
    "Bed 5 sown on 8 June": [record("done", "beet", june(8), task="sow")],
    "sown all in Bed 1 on 7 June": [
        record("done", "chard", june(7), task="sow"),
        record("done", "radish", june(7), task="sow"),
    ],
    "sown chard in Bed 1 on Sunday": [record("done", "chard", june(7), task="sow")],
    "thinned carrot in Bed 4": [record("done", "car", task="thin")],
    "carrot Bed 4 thinned 2026-06-01": [record("done", "car", june(1), task="thin")],
    "earthed up potatoes in West 1": [record("done", "pot", task="earth up")],
    "set out tomato in North on 20 May": [record("done", "tom", may(20), task="set out")],
    "cleared lettuce in Bed 2": [record("done", "let2", task="clear")],
    "fed tomato in North": [record("done", "tom", task="feed")],
    "covered carrot in Bed 4 with netting": [record("done", "car", task="cover on", cover="netting")],
    "uncovered carrot in Bed 4": [record("done", "car", task="cover off")],
    "watered beds 1 to 3": [record("done", f"@b{n}", words="watered") for n in (1, 2, 3)],
    "weeded West 1 yesterday": [record("done", "@w1", YESTERDAY, words="weeded")],
    "done: cleaned the water butt": [record("done", words="cleaned the water butt")],
    "picked 1.2 kg tomato in North, given away": [picked("tom", 1200, picked_for="given away")],
    "picked 1,2 kg tomatoes in North": [picked("tom", 1200)],
    "picked 350g of tomato in North today, bottled": [picked("tom", 350, picked_for="bottled")],
    "picked 1/2 kg tomato in North": [picked("tom", 500)],
    "picked ½ kg tomato in North": [picked("tom", 500)],
    "picked 1 kg 250 g tomato in North": [picked("tom", 1250)],
    "picked a bunch of radish in Bed 1": [picked("radish", 1, "bunches")],
    "picked half a kilo of tomatoes in North": [picked("tom", 500)],
    "picked 3 bunches radish in Bed 1": [picked("radish", 3, "bunches")],
    "picked 12 tomatoes in North": [picked("tom", 12, "pieces")],
    "tomato in North: picked 800 g": [picked("tom", 800)],
    "harvested 2 kg carrots in Bed 4, fed to animals": [picked("car", 2000, picked_for="fed to animals")],
    "picked 1 kg each of carrot in Bed 4 and tomato in North": [picked("car", 1000), picked("tom", 1000)],
    "picked 900 g in Bed 4": [picked("car", 900)],
    "slugs on lettuce in Bed 2, half of it": [record("seen", "let2", harm="slugs", share=0.5)],
    "slugs on lettuce in Bed 2, 20 %": [record("seen", "let2", harm="slugs", share=0.2)],
    "half of lettuce in Bed 2 lost to slugs": [record("seen", "let2", harm="slugs", lost=0.5)],
    "lettuce in Bed 2, 30 % lost, slugs": [record("seen", "let2", harm="slugs", lost=0.3)],
    "BED 2: SLUGS, HALF": [record("seen", "@b2", harm="slugs", share=0.5)],
    "slugs on lettuce Oak Leaf in South": [record("seen", "oak", harm="slugs")],
    "slugs on all lettuce in South": [record("seen", key, harm="slugs") for key in ("oak", "cap")],
    "slugs on all lettuce": [record("seen", key, harm="slugs") for key in ("let2", "oak", "cap")],
    "slugs in beds 1 to 3, look again on 15 June": [
        record("seen", f"@b{n}", harm="slugs", look_again=june(15)) for n in (1, 2, 3)
    ],
    "slugs in Bed 2, look again in 5 days": [record("seen", "@b2", harm="slugs", look_again=june(15))],
    "slugs everywhere": [record("seen", harm="slugs")],
    "aphids on dwarf bean in Bed 3": [record("seen", "bean", harm="pest", cause="aphids")],
    "beans in Bed 3: black aphids, a third": [
        record("note", "bean", words="black aphids, a third"),
    ],
    "blight on potatoes in West 1, a quarter of it, on 8 June": [
        record("seen", "pot", june(8), harm="disease", cause="blight", share=0.25)
    ],
    "pigeons on kohlrabi in Bed 7, all of it": [
        record("seen", "kohl", harm="birds", cause="pigeons", share=1.0)
    ],
    "frost in North on 2 May": [record("seen", "@north", may(2), harm="frost")],
    "hoed and weeded North": [record("done", "@north", words="hoed and weeded")],
    "aphids and caterpillars on kohlrabi": [
        record("seen", "kohl", harm="pest", cause="aphids and caterpillars")
    ],
    "slugs - half - in Bed 2": [record("seen", "@b2", harm="slugs", share=0.5)],
    "lesson Red Lantern: stop it early": [record("lesson", crop="tomato", words="stop it early")],
    "hail on 1 June: pea sized": [record("seen", day=june(1), harm="hail", words="pea sized")],
    "carrot up in Bed 4 on 3 May": [record("came up", "car", may(3))],
    "carrots came up in Bed 4, 60 %": [record("came up", "car", share=0.6)],
    "carrot up in Bed 4, 43 of 60": [record("came up", "car", count=43, sown=60)],
    "carrot Long Hallow up in Bed 4 on 3.5.": [record("came up", "car", may(3))],
    "carrot up": [record("came up", "car")],
    "leek in flower in South": [record("flowering", "leek")],
    "tomato ripe in North": [record("ripe", "tom")],
    "first picking of tomato in North on 3 June": [record("first picking", "tom", june(3))],
    "last picking lettuce in Bed 2": [record("last picking", "let2")],
    "lettuce in Bed 2 bolted": [record("ended", "let2", why="bolted")],
    "lettuce in Bed 2 failed: dried out": [record("ended", "let2", why="failed", words="dried out")],
    "tomato in North killed by frost on 21 May": [record("ended", "tom", may(21), why="frozen")],
    "measured height 43 cm of tomato in North": [
        record("measured", "tom", measure="height", value=43.0, unit="cm")
    ],
    "measured: fruit 14, tomato in North": [record("measured", "tom", measure="fruit", value=14.0)],
    "measured soil temperature -1.5 °C in Bed 4 yesterday": [
        record("measured", "@b4", YESTERDAY, measure="soil temperature", value=-1.5, unit="°C")
    ],
    "note North: soil very dry": [record("note", "@north", words="soil very dry")],
    "North: soil very dry": [record("note", "@north", words="soil very dry")],
    "note: first swallow": [record("note", words="first swallow")],
    "note first swallow": [record("note", words="first swallow")],
    "note tomato in North, by Ana: leaves curl": [record("note", "tom", words="leaves curl", by="Ana")],
    "note North on 3 June: hoed at 10:30": [record("note", "@north", june(3), words="hoed at 10:30")],
    "lesson carrot: sow thinner": [record("lesson", crop="carrot", words="sow thinner")],
    "lesson Bed 4: wet in spring": [record("lesson", "@b4", words="wet in spring")],
    "lesson carrot in Bed 4: too wet there": [record("lesson", "@b4", crop="carrot", words="too wet there")],
    "lesson cabbage family: net at once": [record("lesson", family="Brassicaceae", words="net at once")],
    "lesson: order seed in January": [record("lesson", words="order seed in January")],
}

#: What is asked back of lines about :func:`plot`.
PLOT_FAULTS: dict[str, str] = {
    "": "nothing is typed",
    "   ": "nothing is typed",
    "sown: beds 3 to 9": "no bed 9",
    "sown Bed 12": "no bed 12",
    "sown: beds 7 to 5": "7 to 5",
    "sown: beds 3 to 7 on Tuesday": "nothing is to be sown in Bed 4",
    "sown Bed 1": "chard or radish",
    "slugs on lettuce": "Bed 2 or South",
    "slugs on lettuce in South": "Oak Leaf or Little Cap",
    "slugs on kale in Bed 2": "'kale' is not in Bed 2",
    "slugs in West": "West",
    "picked tomato in North": "how much",
    "picked 5 tomato in North kg": "kg",
    "picked 5 tubes of tomato in North": "tubes",
    "picked 1.2 kg in South": "several crops",
    "picked 1 kg in Herb round": "nothing grows in Herb round",
    "picked 1 kg carrot and tomato in Bed 4 and North": "each",
    "wobble the carrot": "wobble",
    "watered North to South": "between",
    "slugs on cabbage family": "cabbage family",
    "measured height 43 cm of tomato in North, slugs": "slugs",
    "carrot in Bed 4": "what happened",
    "slugs and frost on lettuce in Bed 2": "two things",
    "slugs on lettuce in Bed 2, 120 %": "120",
    "carrot up in Bed 4 on 31 June": "no calendar has",
    "carrot up in Bed 4 on 12 July 2027": "to come",
    "carrot up in Bed 4 on 3 May on Tuesday": "two days",
    "note": "words",
    "note North": "words",
    "ripe in Herb round": "nothing grows in Herb round",
    "measured height of tomato in North": "number",
    "failed in the garden": "which planting",
}
#: Lines about :func:`numbered`, whose beds are called 1 to 9.
NUMBERED: dict[str, list[Fields]] = {
    "slugs in 3": [record("seen", "@n3", harm="slugs")],
    "slugs in beds 3 to 5": [record("seen", f"@n{n}", harm="slugs") for n in (3, 4, 5)],
    "slugs in 3 and 4, 20 %": [record("seen", f"@n{n}", harm="slugs", share=0.2) for n in (3, 4)],
    "picked 3 bunches carrot in 4": [picked("car", 3, "bunches")],
    "picked 3 kg in bed 4 on 3 June": [picked("car", 3000, day=june(3))],
    "carrot up in bed 4 on 3 May": [record("came up", "car", may(3))],
    "4: dry": [record("note", "@n4", words="dry")],
}
NUMBERED_FAULTS: dict[str, str] = {
    "slugs 4": "4",
    "slugs in 12": "no bed 12",
    "slugs in beds 4 and 12": "no bed 12",
}

#: Lines about :func:`scripts`, whose beds are called in other scripts.
SCRIPTS: dict[str, list[Fields]] = {
    "slugs in Грядка 2": [record("seen", "@ru", harm="slugs")],
    "slugs in ГРЯДКА 2, half": [record("seen", "@ru", harm="slugs", share=0.5)],
    "note 畑: dry": [record("note", "@ja", words="dry")],
    "畑: 乾いている": [record("note", "@ja", words="乾いている")],
    "slugs in ערוגה on 3 June": [record("seen", "@he", june(3), harm="slugs")],
    "slugs in धनिया, half": [record("seen", "@hi", harm="slugs", share=0.5)],
    "slugs in müller's beet": [record("seen", "@de", harm="slugs")],
    "slugs in MÜLLER’S BEET": [record("seen", "@de", harm="slugs")],
    "slugs in mu\u0308ller's beet": [record("seen", "@de", harm="slugs")],
}

#: Lines about :func:`plot` in feet and inches.
FEET: dict[str, list[Fields]] = {
    "picked 8 oz tomato in North": [picked("tom", 226.796185)],
    "picked 2 lb 3 oz tomato in North": [picked("tom", 992.233309375)],
    "picked 1 1/2 lbs tomato in North": [picked("tom", 680.388555)],
    "tomato in North picked 3 pounds on 6/4": [picked("tom", 1360.77711, day=june(4))],
    "measured height 4 ft 6 in of tomato in North": [
        record("measured", "tom", measure="height", value=54.0, unit="in")
    ],
}


def _bed(key: str, name: str, number: int) -> Bed:
    return Bed(id=key, name=name, outline=Rectangle(center=(3.0 * number, 0.0), length=2.0, width=1.2))


def _planting(key: str, bed: str, crop: str, first: dt.date, last: dt.date, **fields: Any) -> Planting:
    return Planting(id=key, bed=bed, crop=crop, year=2026, first=first, last=last, **fields)


def plot(**site: Any) -> Garden:
    """A garden with beds called by words, and by words with numbers."""
    names = {"north": "North", "south": "South", **{f"b{n}": f"Bed {n}" for n in range(1, 8)}}
    names |= {"herb": "Herb round", **{f"w{n}": f"West {n}" for n in range(1, 4)}}
    end = dt.date(2026, 10, 10)
    plantings = (
        _planting("tom", "north", "tomato", may(20), end, variety="Red Lantern", start="raised"),
        _planting("let2", "b2", "lettuce", dt.date(2026, 4, 20), dt.date(2026, 7, 10)),
        _planting("oak", "south", "lettuce", may(1), dt.date(2026, 7, 10), variety="Oak Leaf"),
        _planting("cap", "south", "lettuce", may(1), dt.date(2026, 7, 10), variety="Little Cap"),
        _planting("leek", "south", "leek", may(10), end),
        _planting("chard", "b1", "chard", june(6), end, start="sown"),
        _planting("radish", "b1", "radish", june(7), dt.date(2026, 7, 20), start="sown"),
        _planting("bean", "b3", "dwarf_bean", june(8), end, start="sown"),
        _planting("car", "b4", "carrot", dt.date(2026, 4, 10), end, variety="Long Hallow", start="sown"),
        _planting("beet", "b5", "beetroot", june(9), end, start="sown"),
        _planting("turnip", "b6", "turnip", june(5), end, start="sown"),
        _planting("kohl", "b7", "kohlrabi", june(10), end, start="sown"),
        _planting("pot", "w1", "potato", dt.date(2026, 4, 15), end, start="tubers"),
    )
    beds = tuple(_bed(key, name, number) for number, (key, name) in enumerate(names.items()))
    return Garden(site=Site(latitude=52.0, **site), beds=beds, plantings=plantings)


def numbered() -> Garden:
    """A garden whose beds are called 1 to 9."""
    beds = tuple(_bed(f"n{n}", str(n), n) for n in range(1, 10))
    car = _planting("car", "n4", "carrot", dt.date(2026, 4, 10), dt.date(2026, 10, 10), start="sown")
    return Garden(site=Site(latitude=52.0), beds=beds, plantings=(car,))


def scripts() -> Garden:
    """A garden whose beds are called in other scripts."""
    names = {"ru": "Грядка 2", "ja": "畑", "he": "ערוגה", "hi": "धनिया", "de": "Müller's Beet"}
    return Garden(beds=tuple(_bed(key, name, n) for n, (key, name) in enumerate(names.items())))
