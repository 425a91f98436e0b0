"""Lines as growers put them, each with what it must yield, may not be taken for, or must ask; written before the reader was changed.

They were written in one go, by the kinds of record, and dealt by turns to two halves (:func:`half`): one was looked at
while the reader was mended, the other was kept back and read once at the end.  Words of a record are held by the words
that may not be lost.  The day on which they are typed is Wednesday, 16 September 2026.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from planner.garden import Bed, Garden, Planting, Site
from planner.garden.outlines import Rectangle

TODAY = dt.date(2026, 9, 16)
YESTERDAY = dt.date(2026, 9, 15)
Wanted = dict[str, Any]


def _day(month: int, day: int) -> dt.date:
    return dt.date(2026, month, day)


def _wanted(kind: str, about: str = "", day: dt.date = TODAY, **fields: Any) -> Wanted:
    """What a record must be: about a planting, a bed (``@north``) or the garden."""
    place = {"bed": about[1:]} if about.startswith("@") else {"planting": about} if about else {}
    return {"kind": kind, "day": day, **place, **fields}


def _picked(planting: str, value: float, unit: str = "g", day: dt.date = TODAY, **fields: Any) -> Wanted:
    return _wanted("picked", planting, day, amount={"value": value, "unit": unit}, **fields)


#: Lines by the kinds of record, with the records they give, or parts of the question.
TAKEN: dict[str, list[Wanted] | tuple[str, ...]] = {
    # work
    "sowed carrots in West 1 on 12 April": [_wanted("done", "car", _day(4, 12), task="sow")],
    "carrots sown 12 Apr": [_wanted("done", "car", _day(4, 12), task="sow")],
    "planted out the leeks on 3 June": [_wanted("done", "lee", _day(6, 3), task="set out")],
    "cabbages planted out in Kale bed, 4th of May": [_wanted("done", "cab", _day(5, 4), task="set out")],
    "thinned the carrots this morning": [_wanted("done", "car", task="thin")],
    "earthed up potatoes again on Monday": [_wanted("done", "pot", _day(9, 14), task="earth up again")],
    "weeded East 2 last Friday": [_wanted("done", "@e2", _day(9, 11), words=["weeded"])],
    "hoed between the onions yesterday": [_wanted("done", "oni", YESTERDAY, words=["hoed", "between"])],
    "watered the tomatoes, two cans each, this morning": [
        _wanted("done", "tom", words=["watered", "two cans each"])
    ],
    "mulched West 3 with straw on 1 Sept": [_wanted("done", "@w3", _day(9, 1), words=["mulched", "straw"])],
    "strawberry runners potted up on 1 Aug": [
        _wanted("done", "str", _day(8, 1), words=["runners", "potted up"])
    ],
    "saved seed of the peas on 2 August": [_wanted("done", "pea", _day(8, 2), words=["saved seed"])],
    "turned the compost heap yesterday": [_wanted("done", day=YESTERDAY, words=["turned the compost heap"])],
    "East 2 dug over on 2026-08-08": [_wanted("done", "@e2", _day(8, 8), words=["dug over"])],
    # harm
    "slugs ate half of the lettuce in North": [_wanted("seen", "le1", harm="slugs", lost=0.5)],
    "peas in West 4 eaten by voles on 12 May": [
        _wanted("ended", "pea", _day(5, 12), why="eaten", words=["voles"])
    ],
    "half the cabbages eaten by pigeons on 8 Aug": [
        _wanted("seen", "cab", _day(8, 8), harm="birds", lost=0.5, words=["pigeons"])
    ],
    "blackfly on the runner beans": [_wanted("seen", "run", harm="pest", words=["blackfly"])],
    "runner beans: slugs 50 % on 12 June": [_wanted("seen", "run", _day(6, 12), harm="slugs", share=0.5)],
    "carrot fly in West 1, a third of the carrots": [
        _wanted("seen", "car", harm="pest", share=1 / 3, words=["carrot fly"])
    ],
    "voles took a quarter of the potatoes": [_wanted("seen", "pot", harm="voles", lost=0.25)],
    "lost a third of the leeks to rust": [_wanted("seen", "lee", harm="disease", lost=1 / 3, words=["rust"])],
    "blight on tomatoes last night": [_wanted("seen", "tom", YESTERDAY, harm="disease", words=["blight"])],
    "mildew on the courgettes since Friday": [
        _wanted("seen", "cou", _day(9, 11), harm="disease", words=["mildew", "since Friday"])
    ],
    "slug damage on strawberries a week ago": [_wanted("seen", "str", _day(9, 9), harm="slugs")],
    "two thirds of the cabbages have caterpillars": [
        _wanted("seen", "cab", harm="pest", share=2 / 3, words=["caterpillars"])
    ],
    # weather of the garden
    "frost -2 last night": [_wanted("seen", day=YESTERDAY, harm="frost", words=["-2"])],
    "hail on 3 July, lots of it": [_wanted("seen", day=_day(7, 3), harm="hail", words=["lots of it"])],
    "first frost this morning": [_wanted("seen", harm="frost", words=["first"])],
    "25 mm of rain yesterday": [_wanted("measured", day=YESTERDAY, measure="rain", value=25.0, unit="mm")],
    "gale on 2 Sept, tore the netting": [
        _wanted("seen", day=_day(9, 2), harm="wind", words=["tore the netting"])
    ],
    # came up
    "peas up on 20 April": [_wanted("came up", "pea", _day(4, 20))],
    "parsnips came up 5 May, about half": [_wanted("came up", "par", _day(5, 5), share=0.5)],
    "beetroot germinated on May 9, 80 %": [_wanted("came up", "bee", _day(5, 9), share=0.8)],
    "first leeks showing 2 May": [_wanted("came up", "lee", _day(5, 2))],
    "17 of 20 runner beans up on 28 May": [_wanted("came up", "run", _day(5, 28), count=17, sown=20)],
    "parsnips did not come up": [_wanted("ended", "par", why="failed", words=["did not come up"])],
    # stages
    "potatoes in flower 20 June": [_wanted("flowering", "pot", _day(6, 20))],
    "runner beans flowering since Monday": [_wanted("flowering", "run", _day(9, 14), words=["since Monday"])],
    "first ripe tomato on 8 Aug": [_wanted("ripe", "tom", _day(8, 8))],
    "the tomatoes are ripe": [_wanted("ripe", "tom")],
    "first strawberries ripe Aug 8": [_wanted("ripe", "str", _day(8, 8))],
    "peas first picking 12 June": [_wanted("first picking", "pea", _day(6, 12))],
    "picked the first peas on 12 June": [_wanted("first picking", "pea", _day(6, 12))],
    "last picking of the courgettes yesterday": [_wanted("last picking", "cou", YESTERDAY)],
    "first picking of runner beans on 12 July, 400 g": [
        _wanted("first picking", "run", _day(7, 12)),
        _picked("run", 400, day=_day(7, 12)),
    ],
    "the last peas picked on the 20th of July": [_wanted("last picking", "pea", _day(7, 20))],
    # picked
    "picked two kilos of chard": [_picked("cha", 2000)],
    "harvested 3 kg of potatoes on 8/8": [_picked("pot", 3000, day=_day(8, 8))],
    "1.5 kg courgettes picked on Tuesday": [_picked("cou", 1500, day=YESTERDAY)],
    "picked a dozen cucumbers, gave them away": [_picked("cuc", 12, "pieces", picked_for="given away")],
    "picked 2 kg tomatoes and bottled them": [_picked("tom", 2000, picked_for="bottled")],
    "fed 2 kg of courgettes to the hens": [_picked("cou", 2000, picked_for="fed to animals")],
    "three bunches of radish from East 4 on 1 June": ("what happened",),  # an amount may be sown as well
    "lifted 158 bulbs of garlic on 20 July": [_picked("gar", 158, "pieces", day=_day(7, 20))],
    "cut 2 cabbages this morning": [_picked("cab", 2, "pieces")],
    "pulled half a kilo of carrots a fortnight ago": [_picked("car", 500, day=_day(9, 2))],
    "harvested the last courgettes yesterday, 800 g": [
        _wanted("last picking", "cou", YESTERDAY),
        _picked("cou", 800, day=YESTERDAY),
    ],
    "we ate 300 g of strawberries on Sunday": [_picked("str", 300, day=_day(9, 13))],
    "dug 12 kg of potatoes in West 3 on 12 Sept, a few scabby": [
        _picked("pot", 12000, day=_day(9, 12), words=["a few scabby"])
    ],
    "1 Sept 20 kg potatoes": ("what happened",),
    # ended
    "the cucumbers died on 30 Aug": [_wanted("ended", "cuc", _day(8, 30), why="failed")],
    "lost the cucumbers to mildew": [_wanted("ended", "cuc", why="failed", words=["mildew"])],
    "lettuce in South bolted on 8th of August": [_wanted("ended", "le2", _day(8, 8), why="bolted")],
    "lost the runner beans to frost yesterday": [_wanted("ended", "run", YESTERDAY, why="frozen")],
    "pulled up the peas on 25 July, all finished": [
        _wanted("done", "pea", _day(7, 25), task="clear", words=["all finished"])
    ],
    "all potatoes dug 12 Sept": [_wanted("ended", "pot", _day(9, 12), why="harvested")],
    "basil failed, too cold": [_wanted("ended", "bas", why="failed", words=["too cold"])],
    # measured, notes, lessons
    "leeks 40 cm high on 8 Aug": [
        _wanted("measured", "lee", _day(8, 8), measure="height", value=40.0, unit="cm")
    ],
    "soil temperature in West 1 was 9 °C on 2 April": [
        _wanted("measured", "@w1", _day(4, 2), measure="soil temperature", value=9.0, unit="°C")
    ],
    "onions falling over on 8 Aug": [_wanted("note", "oni", _day(8, 8), words=["falling over"])],
    "tomatoes in East 3: leaves yellow at the bottom": [_wanted("note", "tom", words=["leaves yellow"])],
    "note East 1: poles too short": [_wanted("note", "@e1", words=["poles too short"])],
    "lesson: sow parsnips later": [_wanted("lesson", words=["sow parsnips later"])],
    "lesson carrots: fleece from the first day": [
        _wanted("lesson", crop="carrot", words=["fleece from the first day"])
    ],
    "learnt: net the cabbages in May": [_wanted("lesson", words=["net the cabbages in May"])],
    "chard looks good again": [_wanted("note", "cha", words=["looks good again"])],
    "tied in tomatoes last Monday": [_wanted("done", "tom", _day(9, 14), task="tie in")],
    "netting over cabbages on 6 May": [_wanted("done", "cab", _day(5, 6), task="cover on", cover="netting")],
    "basil sown again on 1 Sept": [_wanted("done", "bas", _day(9, 1), task="sow", words=["again"])],
}

#: Lines that must be asked back, with parts of the question of which one must be in it.
ASKED: dict[str, tuple[str, ...]] = {
    "slugs on the lettuce": ("North or South",),
    "picked 3 kg of lettuce": ("North or South",),
    "radish sown on 3 May": ("North or East 4", "East 4 or North"),
    "picked 2 kg in East 4": ("several crops", "beetroot"),
    "first picking in West 1 on 3 July": ("carrot or parsnip", "carrot and parsnip"),
    "carrots picked on 3 Oct 2026, 2 kg": ("to come",),
    "tomatoes ripe tomorrow": ("tomorrow", "to come"),
    "leeks planted next Monday": ("next Monday", "next", "to come"),
    "slugs in West 9": ("West 9",),
    "weeded the Orchard yesterday": ("Orchard",),
    "hail at the end of May": ("end of May",),
    "peas sown in early April": ("early April",),
    "carrots thinned mid June": ("mid June",),
    "picked 2 kg chard the other day": ("the other day",),
    "onions lifted some time last week": ("last week",),
    "picked courgettes": ("how much",),
    "picked a handful of basil": ("handful",),
    "1 Sept 20 kg": ("what happened",),
    "20 kg": ("what happened",),
    "courgettes 12 on 3 Aug": ("12",),
    "slugs ate 130 % of the strawberries": ("130",),
    "potatoes blighted on 31 Sept": ("no calendar",),
    "picked 2 kg artichokes": ("artichoke",),
    "carrots 3 Aug and 5 Aug thinned": ("two days",),
    "voles": ("where", "which bed", "everywhere"),
}

#: Lines with a word that must not be taken for another: the records they give, or parts of the question.
TRAPS: dict[str, list[Wanted] | tuple[str, ...]] = {
    "slugs on spring onions": [_wanted("seen", "spo", harm="slugs")],
    "picked 2 kg onions": [_picked("oni", 2000)],
    "picked 3 kg pears yesterday": [_picked("trp", 3000, day=YESTERDAY)],
    "sweet peas in flower on 1 July": [_wanted("flowering", "swp", _day(7, 1))],
    "pea in West 4 in flower on 1 June": [_wanted("flowering", "pea", _day(6, 1))],
    "slugs in Kale bed": [_wanted("seen", "@kb", harm="slugs")],
    "weeded May on 3 June": [_wanted("done", "@my", _day(6, 3), words=["weeded"])],
    "slugs in May": [_wanted("seen", "@my", harm="slugs")],
    "first frost on 14 Sept": [_wanted("seen", day=_day(9, 14), harm="frost", words=["first"])],
    "lost label of the leeks": [_wanted("note", "lee", words=["lost label"])],
    "strawberry runners cut off on 8 Aug": [_wanted("done", "str", _day(8, 8), words=["runners", "cut off"])],
    "cabbage root fly on the cabbages, 10 %": [
        _wanted("seen", "cab", harm="pest", share=0.1, words=["cabbage root fly"])
    ],
    "carrot Long Hallow up on 4 May": [_wanted("came up", "car", _day(5, 4))],
    "leek moth in May": [_wanted("seen", "@my", harm="pest", words=["leek moth"])],
    "pea moth on the sweet peas": [_wanted("seen", "swp", harm="pest", words=["pea moth"])],
}

#: German lines of the most usual kinds.
GERMAN: dict[str, list[Wanted]] = {
    "Möhren gesät am 12. April": [_wanted("done", "car", _day(4, 12), task="sow")],
    "3 kg Tomaten geerntet": [_picked("tom", 3000)],
    "2,5 kg Kartoffeln geerntet am 8. August": [_picked("pot", 2500, day=_day(8, 8))],
    "Erbsen aufgegangen am 20.4.": [_wanted("came up", "pea", _day(4, 20))],
    "Kohl von Schnecken gefressen": [_wanted("ended", "cab", why="eaten", words=["Schnecken"])],
    "Hälfte der Erdbeeren von Schnecken gefressen": [_wanted("seen", "str", harm="slugs", lost=0.5)],
    "gestern Lauch gepflanzt": [_wanted("done", "lee", YESTERDAY, task="set out")],
    "Hagel am 3. Juli": [_wanted("seen", day=_day(7, 3), harm="hail")],
}


#: Lines about a part of a planting, which never end all of it: losses by share or number, and what must be asked.
PARTS: dict[str, list[Wanted] | tuple[str, ...]] = {
    # by share
    "half the leeks gone, voles": [_wanted("seen", "lee", harm="voles", lost=0.5)],
    "a third of the tomatoes dead": [_wanted("seen", "tom", harm="something else", lost=1 / 3, words=["dead"])],
    "half the cabbage failed": [_wanted("seen", "cab", harm="something else", lost=0.5, words=["failed"])],
    "a quarter of the beans frozen on 14 Sept": [_wanted("seen", "run", _day(9, 14), harm="frost", lost=0.25)],
    "half the lettuce in North bolted": [_wanted("seen", "le1", harm="something else", lost=0.5, words=["bolted"])],
    "two thirds of the basil rotted on 8 Aug": [
        _wanted("seen", "bas", _day(8, 8), harm="something else", lost=2 / 3, words=["rotted"])
    ],
    "nearly half the leeks died": [_wanted("seen", "lee", harm="something else", lost=0.5, words=["nearly"])],
    "mice had half the peas": [_wanted("seen", "pea", harm="voles", lost=0.5, words=["mice"])],
    "blackbirds ate a third of the strawberries": [
        _wanted("seen", "str", harm="birds", lost=1 / 3, words=["blackbirds"])
    ],
    "slugs damaged half the lettuce in North": [_wanted("seen", "le1", harm="slugs", share=0.5)],
    "half the runner beans did not come up": [_wanted("came up", "run", share=0.5)],
    "10 % of the leeks did not come up": [_wanted("came up", "lee", share=0.9)],
    # by number
    "lost 6 of the 24 cabbages to pigeons on 1 June": [
        _wanted("seen", "cab", _day(6, 1), harm="birds", lost=0.25, words=["pigeons"])
    ],
    "3 cucumber plants in Tunnel died on 1 July": [
        _wanted("seen", "cuc", _day(7, 1), harm="something else", lost=0.5, words=["died"])
    ],
    "lost 3 of 10 courgettes to slugs": [_wanted("seen", "cou", harm="slugs", lost=0.3)],
    "two out of six cucumbers died": [_wanted("seen", "cuc", harm="something else", lost=1 / 3, words=["died"])],
    "lost six cabbage plants in Kale bed": [_wanted("seen", "cab", harm="something else", lost=0.6)],
    "one tomato plant died": [_wanted("seen", "tom", harm="something else", lost=0.25, words=["died"])],
    "a tomato died of blight": [_wanted("seen", "tom", harm="disease", lost=0.25, words=["blight"])],
    "cucumbers in Tunnel, 2 died": [_wanted("seen", "cuc", harm="something else", lost=1 / 3, words=["died"])],
    "slugs nibbled 3 of 10 courgettes": [_wanted("seen", "cou", harm="slugs", share=0.3)],
    "4 of 20 runner beans did not come up": [_wanted("came up", "run", count=16, sown=20)],
    "lost 600 cabbages to pigeons": ("more than the 10 plants",),
    "lost 0 leeks": ("0 is none",),
    # all of it
    "mice ate all the peas": [_wanted("ended", "pea", why="eaten", words=["mice"])],
    "mice had every pea": [_wanted("ended", "pea", why="eaten", words=["mice"])],
    "all of the leeks died": [_wanted("ended", "lee", why="failed")],
    "leeks gone, voles": [_wanted("ended", "lee", why="eaten", words=["voles"])],
    "the courgette plants died": [_wanted("ended", "cou", why="failed")],
    "slugs ate holes in all the cabbages": [_wanted("seen", "cab", harm="slugs", words=["holes"])],
    # a part of no known size
    **dict.fromkeys(
        (
            "a few onions in West 2 rotted on 3 Aug", "some tomatoes died", "some of the leeks died",
            "the outer row of the carrots failed", "most of the leeks lost to voles", "nearly all the cabbage lost to pigeons",
            "almost all the cabbages lost to pigeons", "several courgettes died", "a row of carrots died", "one or two leeks died",
            "all the leeks in the outer row died", "the smallest leeks died", "all but two cucumbers died",
            "all the cucumbers died except two", "cucumbers died: only a few", "some runner beans did not come up",
            "not many peas came up", "not all the peas came up", "we lost most of the basil", "hail destroyed some of the chard",
            "leeks rotted, not much left", "2 rows of carrots failed", "2 more courgettes died", "every other leek died",
            "some lettuce in North bolted", "cabbages partly eaten by pigeons", "onions rotted in the wet corner",
            "onions near the path died", "leeks by the path died", "a tray of leeks died", "dead leeks in May", "carrots failed in places",
            "tomato leaves died", "strawberry runners died", "chard leaves eaten", "beans frozen at the tips",
            "lost 10 kg of potatoes to rot", "einige Zwiebeln verfault", "die meisten Tomaten tot", "more than half the leeks died",
        ),
        ("how much of it",),
    ),
    "a pair of cucumbers died": [_wanted("seen", "cuc", harm="something else", lost=1 / 3, words=["died"])],
    "ten dead leeks": [_wanted("seen", "lee", harm="something else", lost=10 / 38, words=["dead"])],
    "frost got half the beans": [_wanted("seen", "run", harm="frost", lost=0.5)],
    "half rotten onions": [_wanted("seen", "oni", harm="something else", lost=0.5, words=["rotten"])],
    "carrots failed to germinate": [_wanted("ended", "car", why="failed", words=["failed to germinate"])],
    "potatoes died down on 1 Sept": [_wanted("note", "pot", _day(9, 1), words=["died down"])],
    "onions died back": [_wanted("note", "oni", words=["died back"])],
    "made room for leeks": ("for what room was made",),
    "peas cleared to make room for leeks": ("for what room was made",),
    "not one onion rotted": ("turns it around",),
    "the leeks have not died": ("turns it around",),
    "carrots not up yet": ("leaves open",),
    "peas have not come up yet": ("leaves open",),
    "pulled up some of the peas": ("would end all of it",),
    "cleared a row of lettuce in North": ("would end all of it",),
    "lifted some potatoes": ("would end all of it",),
    "nearly all potatoes dug on 12 Sept": ("would end all of it",),
    "tomatoes almost finished": ("would end all of it",),
}  # fmt: skip

#: Lines of the third try: work in two words, seed behind a comma, what was given away, resolutions, amounts nobody knows.
MORE: dict[str, list[Wanted] | tuple[str, ...]] = {
    "sowed radish in North on 8 April, 2 g": [
        _wanted("done", "ra2", _day(4, 8), task="sow", amount={"value": 2.0, "unit": "g"})
    ],
    "carrots sown on 12 April, 3 g, in rain": [
        _wanted("done", "car", _day(4, 12), task="sow", amount={"value": 3.0, "unit": "g"}, words=["rain"])
    ],
    "set 40 leeks out": [_wanted("done", "lee", task="set out", amount={"value": 40.0, "unit": "pieces"})],
    "planted the leeks out on 3 June": [_wanted("done", "lee", _day(6, 3), task="set out")],
    "gave Anna 1.5 kg of tomatoes": [_picked("tom", 1500, picked_for="given away", words=["gave Anna"])],
    "gave 2 kg tomatoes to Anna": [_picked("tom", 2000, picked_for="given away", words=["to Anna"])],
    "sold 2 kg tomatoes": [_picked("tom", 2000, words=["sold"])],
    "sold 3 cabbages to the shop": [_picked("cab", 3, "pieces", words=["sold", "to the shop"])],
    "first courgette on 20 July": [_wanted("first picking", "cou", _day(7, 20))],
    "last cucumbers on 8 Sept": [_wanted("last picking", "cuc", _day(9, 8))],
    "tomato finished 12 Sept": [_wanted("ended", "tom", _day(9, 12), why="harvested")],
    "onions fell over on 8 Aug": [_wanted("note", "oni", _day(8, 8), words=["fell over"])],
    "picked 3 kg tomatoes, green": [_picked("tom", 3000, words=["green"])],
    "lifted and dried the onions, 8.4 kg": [_picked("oni", 8400, words=["dried"])],
    "dug and washed 5 kg of potatoes": [_picked("pot", 5000, words=["washed"])],
    "next year sow the beetroot earlier": ("no day on which something happened",),
    "next time net the cabbages": ("no day on which something happened",),
    "picked a carrier bag of tomatoes": ("carrier bag",),
    "picked two buckets of potatoes": ("buckets",),
    "picked a stone of potatoes": ("stone",),
    "sowed 2 packets of radish in North": ("packets",),
    "picked 3 punnets of strawberries": ("punnets",),
    "sowed carrots in March": ("March",),
    "weeded East 2 yesterday week": ("yesterday week",),
    "picked -3 kg tomatoes": ("less than nothing",),
    "carrots picked, -2 kg": ("less than nothing",),
    "slugs on carrots in North": ("there is butterhead lettuce and radish",),
}


def half(lines: dict[str, Any], held_back: bool) -> dict[str, Any]:
    """Every second line: those looked at while the reader was mended, or those held back."""
    return dict(list(lines.items())[1 if held_back else 0 :: 2])


def _bed(key: str, name: str, number: int) -> Bed:
    return Bed(id=key, name=name, outline=Rectangle(center=(3.0 * number, 0.0), length=2.0, width=1.2))


def _planting(key: str, bed: str, crop: str, **fields: Any) -> Planting:
    first = fields.pop("first", _day(4, 10))
    last = fields.pop("last", _day(11, 10))
    return Planting(id=key, bed=bed, crop=crop, year=2026, first=first, last=last, **fields)


def holding() -> Garden:
    """A garden of compound names: two kinds of onion, two of pea, pears, a bed called May and one called Kale bed."""
    names = {f"w{n}": f"West {n}" for n in range(1, 6)} | {f"e{n}": f"East {n}" for n in range(1, 5)}
    names |= {"kb": "Kale bed", "my": "May", "wall": "Wall bed", "herb": "Herb round"}
    names |= {"north": "North", "south": "South", "tun": "Tunnel"}
    plantings = (
        _planting("car", "w1", "carrot", variety="Long Hallow", start="sown"),
        _planting("par", "w1", "parsnip", start="sown"),
        _planting("oni", "w2", "onion", start="sets"),
        _planting("spo", "w2", "spring_onion", start="sown"),
        _planting("pot", "w3", "potato", start="tubers"),
        _planting("pea", "w4", "pea", first=_day(4, 5), last=_day(7, 30), start="sown"),
        _planting("gar", "w5", "garlic", last=_day(7, 25)),
        _planting("run", "e1", "runner_bean", first=_day(5, 15), start="sown"),
        _planting("str", "e2", "strawberry"),
        _planting("tom", "e3", "tomato", first=_day(5, 20), variety="Red Lantern", start="raised"),
        _planting("bas", "e3", "basil", first=_day(5, 20), start="sown"),
        _planting("cha", "e4", "chard", start="sown"),
        _planting("bee", "e4", "beetroot", start="sown"),
        _planting("ra1", "e4", "radish", last=_day(6, 20), start="sown"),
        _planting("cab", "kb", "cabbage", first=_day(5, 4), start="raised"),
        _planting("lee", "my", "leek", first=_day(6, 3), start="raised"),
        _planting("trp", "wall", "trained_pear"),
        _planting("swp", "herb", "sweet_pea", start="sown"),
        _planting("le1", "north", "lettuce", start="raised"),
        _planting("ra2", "north", "radish", start="sown"),
        _planting("le2", "south", "lettuce", start="raised"),
        _planting("cou", "south", "courgette", first=_day(5, 25), start="raised"),
        _planting("cuc", "tun", "cucumber", first=_day(5, 25), start="raised"),
    )
    beds = tuple(_bed(key, name, number) for number, (key, name) in enumerate(names.items()))
    return Garden(site=Site(latitude=52.0), beds=beds, plantings=plantings)
