"""The English words in which records are typed."""

from __future__ import annotations

from planner.garden.records import Harm
from planner.importing.record_vocabulary import Vocabulary

_CAUSES: dict[str, Harm] = {
    **dict.fromkeys(
        ("aphids", "aphid", "greenfly", "blackfly", "whitefly", "caterpillars", "caterpillar", "beetles", "mites", "thrips",
         "wireworm", "wireworms", "leatherjackets", "earwigs", "woodlice", "flea beetle", "flea beetles", "carrot fly",
         "carrot root fly", "cabbage root fly", "onion fly", "cabbage white", "cabbage whites", "leek moth", "red spider mite",
         "pea moth", "asparagus beetle", "potato beetle", "cutworm", "cutworms", "ants", "wasps", "sawfly"), "pest"),
    **dict.fromkeys(
        ("blight", "blighted", "mildew", "rust", "mould", "mold", "botrytis", "clubroot", "canker", "scab", "wilt", "virus", "rot",
         "blossom end rot", "damping off", "damped off", "white rot", "leaf spot", "powdery mildew", "downy mildew", "black leg",
         "blackleg"), "disease"),
    **dict.fromkeys(("pigeons", "pigeon", "sparrows", "crows", "blackbirds", "blackbird", "pheasants", "jays", "magpies"), "birds"),
    **dict.fromkeys(("snails", "snail"), "slugs"),
    **dict.fromkeys(("mice", "mouse", "gophers"), "voles"),
    **dict.fromkeys(("gales", "gusts"), "wind"),
    **dict.fromkeys(
        ("deer", "rabbits", "rabbit", "badgers", "badger", "moles", "mole", "rats", "cat", "cats", "dog", "fox", "squirrels",
         "hare", "hares"), "something else"),
}  # fmt: skip
_PER_HEAD = ("piece", "pieces", "fruit", "fruits", "head", "heads", "root", "roots", "bulb", "bulbs", "clove", "cloves", "tuber",
             "tubers", "cob", "cobs", "ear", "ears", "pod", "pods")  # fmt: skip
_FED = ("hens", "chickens", "ducks", "geese", "pigs", "goats", "sheep")

ENGLISH = Vocabulary(
    tasks={
        "sown": ("sow",), "sowed": ("sow",), "sow": ("sow",), "planted": ("set out", "sow"), "planted out": ("set out",),
        "set out": ("set out",), "transplanted": ("set out",), "pricked out": ("prick out",), "potted on": ("pot on",),
        "potted up": ("pot on",), "hardened off": ("harden off",), "thinned": ("thin",), "mulched": ("mulch",),
        "earthed up": ("earth up",), "hilled": ("earth up",), "hilled up": ("earth up",), "earthed up again": ("earth up again",),
        "tied in": ("tie in",), "tied up": ("tie in",), "pinched out": ("pinch out",), "fed": ("feed",),
        "staked": ("support up",), "supported": ("support up",), "covered": ("cover on",), "uncovered": ("cover off",),
        "cover off": ("cover off",), "vented": ("vent",), "opened": ("vent",), "pruned": ("prune",), "cut back": ("cut back",),
        "divided": ("divide",), "cleared": ("clear",), "lifted": ("lift and store", "lift and cure"), "chitted": ("chit",),
        "pulled up": ("clear",), "pulled out": ("clear",), "grubbed out": ("clear",),
    },
    free=("watered", "weeded", "hoed", "dug", "dug up", "dug over", "forked", "raked", "mowed", "composted", "netted", "limed",
          "edged", "swept", "cleaned", "repaired", "mended", "aired", "turned", "sprayed", "dusted", "inspected", "potted",
          "saved seed", "saved seeds", "collected seed", "cut", "cut off", "pulled", "pulled off", "trimmed", "shaded",
          "washed", "strimmed", "built", "replaced", "dried", "stored"),
    harms={
        "pest": "pest", "pests": "pest", "disease": "disease", "diseases": "disease", "birds": "birds", "bird": "birds",
        "slugs": "slugs", "slug": "slugs", "voles": "voles", "vole": "voles", "frost": "frost", "frosted": "frost",
        "hail": "hail", "wind": "wind", "gale": "wind", "storm": "wind", "drought": "drought",
        "something else": "something else",
    },
    causes=_CAUSES,
    ends={
        "failed": "failed", "died": "failed", "dead": "failed", "died off": "failed", "gone": "failed", "eaten": "eaten", "all eaten": "eaten",
        "finished": "harvested", "all finished": "harvested", "is over": "harvested", "are over": "harvested", "frozen": "frozen",
        "killed by frost": "frozen", "resown": "resown", "sown anew": "resown", "bolted": "bolted", "ran to seed": "bolted",
        "gone to seed": "bolted", "went to seed": "bolted", "made room": "made room", "cleared to make room": "made room",
        "to make room": "made room", "ended: harvested": "harvested", "all harvested": "harvested",
    },
    losses={"rotted": "failed", "rotten": "failed", "went rotten": "failed", "gone rotten": "failed",
            "did not survive": "failed", "didn't survive": "failed", "did not make it": "failed", "didn't make it": "failed", "rotted off": "failed", "rotted away": "failed", "withered": "failed", "dried up": "failed",
            "wilted and died": "failed", "keeled over": "failed", "perished": "failed"},
    missing=("did not come up", "didn't come up", "not come up", "never came up", "has not come up", "have not come up",
             "haven't come up", "hasn't come up", "did not germinate", "didn't germinate", "never germinated", "failed to germinate", "failed to come up", "failed to emerge", "did not emerge",
             "none came up", "nothing came up", "no germination"),
    stages={
        "came up": "came up", "come up": "came up", "coming up": "came up", "up": "came up", "emerged": "came up",
        "germinated": "came up", "showing": "came up", "sprouted": "came up", "coming through": "came up", "in flower": "flowering",
        "flowering": "flowering", "flowers": "flowering", "flowered": "flowering", "in bloom": "flowering",
        "blossoming": "flowering", "in blossom": "flowering", "ripe": "ripe", "ripened": "ripe", "ripening": "ripe",
        "first picking": "first picking", "first pick": "first picking", "first picked": "first picking",
        "first harvest": "first picking", "last picking": "last picking", "last picked": "last picking",
        "last pick": "last picking", "last harvest": "last picking", "finished picking": "last picking",
    },
    heads={
        "done": "done", "did": "done", "work": "done", "seen": "seen", "saw": "seen", "harm": "seen", "harm seen": "seen",
        "damage": "seen", "damaged": "seen", "ate": "seen", "took": "seen", "attacked": "seen", "nibbled": "seen", "hit": "seen",
        "destroyed": "ended", "killed": "ended", "lost": "ended", "picked": "picked", "pick": "picked",
        "harvested": "picked", "gathered": "picked", "picking": "picked", "harvest": "picked", "ended": "ended",
        "measured": "measured", "counted": "measured", "note": "note", "noted": "note", "lesson": "lesson",
        "learned": "lesson", "learnt": "lesson",
    },
    gathering=("lifted", "dug", "dug up", "cut", "pulled", "pulled up", "ate", "eaten", "took"),
    taking=("ate", "took", "had", "got", "eaten", "have had"),
    part_words=("few", "fewer", "some", "several", "most", "mostly", "many", "much", "lot", "lots", "nearly", "almost", "part", "parts", "partly",
                "rest", "remainder", "others", "other", "odd", "majority", "minority", "bulk", "number", "couple", "except",
                "handful", "loads", "plenty", "virtually", "practically", "half-dead", "bits"),
    piece_words=("row", "rows", "end", "ends", "edge", "edges", "side", "corner", "corners", "patch", "patches", "bit", "tray", "trays",
                 "block", "blocks", "batch", "clump", "clumps", "or", "except", "apart", "bar", "strip", "section", "left", "survived", "remain",
                 "remained", "alive", "surviving", "near", "nearest", "closest", "beside", "along", "under", "behind", "places", "patchy",
                 "spots", "ones", "those", "front", "back", "middle", "centre", "outer", "inner",
                 "tips", "tops", "leaf", "leaves", "foliage", "shoots", "stems", "stalks", "runners", "tendrils", "buds", "blossom", "growth",
                 "branch", "branches", "haulm", "haulms"),
    adjectives=("dead", "rotten"),
    more_words=("more", "another", "further"),
    waiting=("yet", "still", "properly"),
    giving={"gave": "given away", "sold": ""},
    finishing=("dried", "stored", "washed", "cleaned", "trimmed", "aired"),
    loose_units={
        "stone": "14 lb", "stones": "14 lb",
        **dict.fromkeys(("bag", "bags", "sack", "sacks", "packet", "packets", "pack", "packs", "punnet", "punnets", "basket", "baskets", "bucket",
                         "buckets", "crate", "crates", "box", "boxes", "trug", "trugs", "bowl", "bowls", "jar", "jars", "handful",
                         "handfuls", "barrow", "barrows", "barrowload", "barrowloads", "pinch", "tub", "tubs", "carton", "cartons"), ""),
    },
    other_years=("next year", "next time", "next season"),
    all_gathered=("dug", "dug up", "pulled", "cut"),
    measures={"high": "height", "tall": "height", "in height": "height", "long": "length", "in length": "length",
              "wide": "width", "across": "width", "thick": "thickness", "deep": "depth"},
    measured=("rain", "rainfall", "rained", "soil temperature", "temperature"),
    ordinals={"first": "first picking", "last": "last picking"},
    picked_for={
        "kept": "kept", "given away": "given away", "gave away": "given away", "gave them away": "given away",
        "gave it away": "given away", "bottled": "bottled", "preserved": "bottled",
        "fed to animals": "fed to animals", "for animals": "fed to animals",
        **{f"{before} {animals}": "fed to animals" for animals in _FED
           for before in ("for the", "for", "to the", "to", "fed to the", "fed to")},
    },
    units={
        **{word: f"mass {word}" for word in ("g", "gram", "grams", "kg", "t", "oz", "ounce", "ounces", "lb", "lbs", "pound", "pounds")},
        **dict.fromkeys(("kilo", "kilos", "kilogram", "kilograms"), "mass kg"),
        **{word: f"volume {word}" for word in ("l", "litre", "litres", "liter", "liters")},
        **{word: f"length {word}" for word in ("m", "cm", "mm", "ft", "foot", "feet", "inch", "inches")},
        "\"": "length in", "'": "length ft", "″": "length in", "′": "length ft",
        **dict.fromkeys(_PER_HEAD, "pieces"), **dict.fromkeys(("bunch", "bunches"), "bunches"),
        **dict.fromkeys(("seed", "seeds"), "seeds"), **dict.fromkeys(("plant", "plants", "seedling", "seedlings"), "plants"),
    },
    covers={
        "fleece": "fleece", "netting": "netting", "net": "netting", "film": "film", "cloche": "cloche", "cloches": "cloche",
        "low tunnel": "low tunnel", "brushwood": "brushwood", "collars": "collar", "slug rings": "slug ring",
    },
    cover_on=("on", "over", "put on", "put over"),
    cover_off=("off", "taken off", "removed", "away"),
    shares={
        "half": 0.5, "a half": 0.5, "one half": 0.5, "a third": 1 / 3, "one third": 1 / 3, "two thirds": 2 / 3,
        "a quarter": 0.25, "one quarter": 0.25, "three quarters": 0.75, "all of it": 1.0, "all of them": 1.0,
    },
    numbers={
        "a dozen": 12, "dozen": 12, "half a dozen": 6, "two dozen": 24, "a couple": 2, "a pair": 2, "a pair of": 2, "pair of": 2, "a couple of": 2, "twenty": 20,
        **{word: number for number, word in enumerate(
            ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"), start=1)},
        "one and a half": 1.5, "two and a half": 2.5, "three and a half": 3.5,
    },
    coming=("tomorrow", "the day after tomorrow", "next", "coming", "next week", "next month", "next year", "next time", "next season"),
    vague_days=("the other day", "the other week", "recently", "lately", "last week",
                "this week", "last month", "this month", "last year", "some time", "sometime", "yesterday week", "today week", "the weekend", "weekend",
                "at the weekend", "last weekend", "a few days ago", "some days ago", "a while ago", "a few weeks ago", "in spring", "in summer",
                "in autumn", "in winter", "last spring", "last summer", "last autumn", "last winter", "week", "weeks", "month",
                "months", "days", "ago", "st", "nd", "rd", "th", "sat", "sun"),
    parts_of_month=("early", "early in", "mid", "mid-", "middle of", "the middle of", "late", "late in", "end", "end of",
                    "the end of", "beginning of", "the beginning of", "start of", "the start of"),
    small={
        "bed": "bed word", "beds": "bed word", "to": "to", "until": "to", "till": "to", "through": "to", "-": "to", "–": "to",
        "—": "to", "−": "to", "and": "and", "&": "and", "+": "and", ",": "and", ";": "and", "all": "all", "every": "all", "everything": "all",
        "each": "each", "all told": "all told", "altogether": "all told", "in total": "all told", "by": "by", "of": "of", "out of": "of", "look again": "look again", "%": "percent", "percent": "percent",
        "per cent": "percent", "garden": "garden", "everywhere": "garden", "whole garden": "garden", "all beds": "garden",
        "family": "family word", **dict.fromkeys(("died down", "died back", "dying down", "dying back"), "unknown"), "made room for": "room for", "to make room for": "room for", "cleared to make room for": "room for", "since": "since", "again": "again", "once more": "again",
        **dict.fromkeys(("no", "not", "not one", "not a single", "none", "never", "nothing", "didn't", "haven't", "hasn't", "isn't", "aren't", "wasn't", "weren't",
                         "without"), "not"),
        **dict.fromkeys(("in", "at"), "in"),
        **dict.fromkeys(
            ("on", "the", "a", "an", "it", "its", "them", "they", "there", "was", "were", "is", "are", "been", "has", "have", "had",
             "we", "i", "our", "my", "some", "about", "from", "for", "with", "this", "put", ".", "!", "°"), "filler"),
    },
)  # fmt: skip
