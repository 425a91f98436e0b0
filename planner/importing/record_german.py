"""The German words in which records are typed: those of the most usual kinds, and the names of usual crops."""

from __future__ import annotations

from planner.importing.record_vocabulary import Vocabulary

_MONTHS = ("Ende", "Anfang", "Mitte")

GERMAN = Vocabulary(
    tasks={
        "gesät": ("sow",), "ausgesät": ("sow",), "gepflanzt": ("set out", "sow"), "ausgepflanzt": ("set out",),
        "gesteckt": ("sow", "set out"), "gelegt": ("sow", "set out"), "pikiert": ("prick out",), "umgetopft": ("pot on",),
        "abgehärtet": ("harden off",), "vereinzelt": ("thin",), "gemulcht": ("mulch",), "angehäufelt": ("earth up",),
        "angebunden": ("tie in",), "ausgegeizt": ("pinch out",), "gedüngt": ("feed",), "abgedeckt": ("cover on",),
        "aufgedeckt": ("cover off",), "abgeräumt": ("clear",), "geschnitten": ("prune", "cut back"), "geteilt": ("divide",),
    },
    free=("gegossen", "gejätet", "gehackt", "umgegraben"),
    harms={"Schnecken": "slugs", "Wühlmäuse": "voles", "Wühlmäusen": "voles", "Vögel": "birds", "Vögeln": "birds",
           "Hagel": "hail", "Frost": "frost", "Sturm": "wind", "Trockenheit": "drought"},
    causes={"Blattläuse": "pest", "Blattläusen": "pest", "Raupen": "pest", "Erdflöhe": "pest", "Möhrenfliege": "pest",
            "Kohlweißling": "pest", "Mehltau": "disease", "Krautfäule": "disease", "Rost": "disease", "Tauben": "birds",
            "Amseln": "birds", "Mäuse": "voles", "Mäusen": "voles", "Rehe": "something else", "Rehen": "something else"},
    ends={"gefressen": "eaten", "aufgefressen": "eaten", "erfroren": "frozen", "eingegangen": "failed", "tot": "failed", "weg": "failed",
          "geschossen": "bolted"},
    losses={"verfault": "failed", "vertrocknet": "failed"},
    missing=("nicht aufgegangen", "nicht gekeimt"),
    stages={"aufgegangen": "came up", "gekeimt": "came up", "aufgelaufen": "came up", "blühen": "flowering",
            "blüht": "flowering", "reif": "ripe", "erste Ernte": "first picking", "letzte Ernte": "last picking"},
    heads={"vernichtet": "ended", "zerstört": "ended", "geerntet": "picked", "Ernte": "picked", "gepflückt": "picked", "Notiz": "note", "gemessen": "measured"},
    gathering=("gefressen",),
    taking=("gefressen", "aufgefressen", "vernichtet", "zerstört"),
    part_words=("einige", "einigen", "manche", "manchen", "paar", "wenige", "mehrere", "meisten", "fast", "beinahe", "viele", "vielen",
                "Teil", "Rest"),
    piece_words=("Reihe", "Reihen", "Rand", "Ecke", "Blätter", "Laub", "Triebe", "oder", "übrig", "außer"),
    adjectives=("tote",),
    more_words=("weitere", "noch"),
    waiting=("noch",),
    giving={"verkauft": ""},
    carried=("Kompost", "Mist", "Rindenmulch", "Stroh", "Sand", "Kalk", "Erde"),
    loose_units=dict.fromkeys(("Tüte", "Tüten", "Päckchen", "Schale", "Schalen", "Korb", "Körbe", "Eimer", "Schubkarre", "Schubkarren", "Sack", "Säcke", "Kiste", "Kisten", "Handvoll"), ""),
    other_years=("nächstes Jahr",),
    measures={"hoch": "height", "lang": "length", "breit": "width"},
    measured=("Regen",),
    ordinals={"erste": "first picking", "ersten": "first picking", "letzte": "last picking", "letzten": "last picking"},
    picked_for={"verschenkt": "given away", "eingekocht": "bottled", "an die Hühner": "fed to animals"},
    units={"Kilo": "mass kg", "Gramm": "mass g", "Liter": "volume l", **dict.fromkeys(("Stück", "Köpfe", "Knollen", "Stiel", "Stiele", "Stängel"), "pieces"),
           **dict.fromkeys(("Bund", "Bündel"), "bunches"), "Pflanzen": "plants"},
    shares={"Hälfte": 0.5, "die Hälfte": 0.5, "halbe": 0.5, "halben": 0.5, "halber": 0.5, "halbes": 0.5, "ein Drittel": 1 / 3, "zwei Drittel": 2 / 3, "ein Viertel": 0.25},
    numbers={word: number for number, word in enumerate(
        ("zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn"), start=2)},
    coming=("nächstes Jahr", "morgen", "übermorgen", "nächste Woche", "nächsten"),
    vague_days=("neulich", "letzte Woche", "diese Woche", "letzten Monat"),
    parts_of_month=_MONTHS,
    small={
        "Beet": "bed word", "Beete": "bed word", "Beeten": "bed word", "bis": "to", "und": "and", "alle": "all", "je": "each", "von": "of", "wieder nachsehen": "look again",
        "Prozent": "percent", "seit": "since", **dict.fromkeys(("nicht", "kein", "keine", "keinen", "nichts"), "not"), "wieder": "again", "noch einmal": "again", "überall": "garden",
        **dict.fromkeys(("am", "im", "auf", "vom", "der", "die", "das", "den", "dem", "an"), "filler"),
    },
    crops={
        **dict.fromkeys(("Möhre", "Möhren", "Karotte", "Karotten"), "carrot"), **dict.fromkeys(("Tomate", "Tomaten"), "tomato"),
        **dict.fromkeys(("Kartoffel", "Kartoffeln"), "potato"), **dict.fromkeys(("Erbse", "Erbsen"), "pea"),
        **dict.fromkeys(("Kohl", "Weißkohl"), "cabbage"), **dict.fromkeys(("Erdbeere", "Erdbeeren"), "strawberry"),
        **dict.fromkeys(("Lauch", "Porree"), "leek"), **dict.fromkeys(("Zwiebel", "Zwiebeln"), "onion"),
        "Knoblauch": "garlic", **dict.fromkeys(("Salat", "Kopfsalat"), "lettuce"), "Radieschen": "radish",
        **dict.fromkeys(("Rote Bete", "Rote Beete"), "beetroot"), "Mangold": "chard", "Spinat": "spinach", "Zucchini": "courgette",
        **dict.fromkeys(("Gurke", "Gurken"), "cucumber"), **dict.fromkeys(("Kürbis", "Kürbisse"), "winter_squash"),
        **dict.fromkeys(("Buschbohne", "Buschbohnen"), "dwarf_bean"), **dict.fromkeys(("Stangenbohne", "Stangenbohnen"), "climbing_bean"),
        **dict.fromkeys(("Pastinake", "Pastinaken"), "parsnip"), "Sellerie": "celeriac", "Grünkohl": "kale", "Basilikum": "basil",
        "Petersilie": "parsley", "Schnittlauch": "chives", "Zuckermais": "sweet_corn",
    },
    kinds=("bohne", "bohnen", "salat", "salate", "kohl", "zwiebel", "zwiebeln", "erbse", "erbsen", "beere", "beeren", "kürbis",
           "kürbisse", "rübe", "rüben", "rettich", "rettiche"),
)  # fmt: skip
