"""Scenes with a peculiarity: shade, a tunnel, the southern half of the earth, a hot dry place, clubroot."""

from __future__ import annotations

from proposal.hand_made.climates import DRY, INLAND, MILD, SOUTHERN, UPLAND
from proposal.hand_made.scene import Scene

from planner.garden import edits

#: A foot. [m]
FOOT = 0.3048


def hedge_shadow() -> Scene:
    """A tall hedge along the south takes the sun of the beds behind it; a wall in the north gives warmth back."""
    s = Scene(
        "hedge_shadow",
        2027,
        {"latitude": 52.8, "longitude": -1.2, "soil": {"texture": "clay loam", "ph": 6.7}},
        MILD,
    )
    s.household(3)
    s.structure("hedge", -4.0, -0.8, 15.0, 0.8, 4.5)
    s.structure("wall", -1.3, 0.0, 0.3, 8.5, 3.0)  # of the neighbour, to the west
    s.structure("wall", -0.2, 8.5, 5.6, 0.3, 2.2)
    s.bed("Hedge foot", 0.0, 0.9, 5.0, 1.2)
    s.bed("Second", 0.0, 3.0, 5.0, 1.2)
    s.bed("Third", 0.0, 5.1, 5.0, 1.2)
    s.bed("Wall border", 0.0, 7.5, 5.0, 0.8)
    s.bed("East end", 6.0, 1.0, 1.2, 5.4)
    s.grew("Hedge foot", {2024: "lettuce", 2025: "chard", 2026: "kale"})
    s.grew("Second", {2024: "carrot", 2025: "potato", 2026: "pea"})
    s.grew("Third", {2024: "potato", 2025: "onion", 2026: "cabbage"})
    s.grew("Wall border", {2024: "cucumber", 2025: "dwarf_bean", 2026: "tomato"})
    s.grew("East end", {2024: "cabbage", 2025: "leek 0-2.7, carrot 2.7-5.4", 2026: "potato"})
    cucumber = s.wish("cucumber", 4, importance="must", beds=("Wall border",))
    tomato = s.wish("tomato", 5)
    lettuce = s.wish("lettuce", 20)
    chives = s.wish("chives", 12, start="bought")
    leaves = s.wish("leaf_lettuce", 1, "m2", earliest="08-20", importance="could")
    parsley = s.wish("parsley", 15)
    climbing = s.wish("climbing_bean", 2.4, "m")
    onion = s.wish("onion", 60, purpose="store")
    carrot = s.wish("carrot", 6, "m")
    beetroot = s.wish("beetroot", 5, "m")
    chard = s.wish("chard", 8)
    kale = s.wish("kale", 6)
    broccoli = s.wish("broccoli", 6)
    basil = s.wish("basil", 8, importance="could")
    spinach = s.wish("spinach", 1.5, "m2", latest="06-05", start="sown")
    corn = s.wish("sweet_corn", 9, importance="could")
    endive = s.wish("endive", 8, earliest="09-01", importance="could")
    s.wish("melon", 2, importance="could", beds=("Wall border", "Third"))
    # At the foot of the hedge only leaves will do, and those not of the cabbage or beet family, which were there.
    s.put(lettuce, "Hedge foot", "04-20", "07-01", at=(0, 2.0), rows=3, apart=0.28)
    s.put(parsley, "Hedge foot", "04-20", "11-10", at=(2.1, 3.6), rows=3, apart=0.3)
    s.put(chives, "Hedge foot", "04-20", at=(3.8, 4.8), rows=3, apart=0.25)
    # What is eaten in autumn cannot stand there: the hedge takes nearly all of the sun by September.
    # Onions and carrots together in the second bed, far enough from the hedge and low themselves.
    s.put(onion, "Second", "03-28", "08-15", at=(0, 1.8), rows=4, apart=0.12)
    s.put(carrot, "Second", "04-10", "09-15", at=(1.8, 3.3), rows=4, apart=0.06)
    s.put(spinach, "Second", "03-20", "06-05", at=(3.4, 5.0), rows=4)
    s.put(endive, "Second", "06-15", "10-25", at=(3.4, 5.0), rows=2, apart=0.38)
    # Tomatoes in the sunny third bed, at its east end: north of them lies the path, and the end of the border that is left to basil.
    s.put(beetroot, "Third", "04-20", "08-05", at=(0, 1.3), rows=4, apart=0.09)
    s.put(leaves, "Third", "08-08", "10-25", at=(0, 0.9), rows=5, apart=0.18)
    s.put(chard, "Third", "04-20", "11-01", at=(1.4, 2.6), rows=2, apart=0.3)
    s.put(tomato, "Third", "05-20", "10-10", at=(2.9, 5.0), rows=2, apart=0.7, between=0.6)
    # The wall is for cucumbers, three years after the last; basil has some of its warmth, and a block of corn its end.
    s.put(cucumber, "Wall border", "05-25", "09-30", at=(0, 2.0), rows=1, apart=0.5)
    s.put(basil, "Wall border", "05-25", "09-25", at=(2.2, 3.6), rows=2, apart=0.35)
    s.put(corn, "Wall border", "05-15", "09-20", at=(3.8, 4.95), rows=3, apart=0.36)
    # Beans climb at the north end of the last bed; kale and broccoli south of them, three years after its cabbages.
    s.put(climbing, "East end", "05-20", "10-05", at=(4.0, 5.4), rows=2, apart=0.17, between=0.6)
    s.put(kale, "East end", "06-10", "+02-28", at=(2.0, 3.6), rows=2, apart=0.5)
    s.put(broccoli, "East end", "05-05", "08-20", at=(0.6, 1.9), rows=2, apart=0.43)
    # Melons in the open are a gamble here: no.
    return s


def long_tunnel() -> Scene:
    """A tunnel with two beds in a cool place, and four beds in the open."""
    s = Scene(
        "long_tunnel",
        2027,
        {"latitude": 54.6, "longitude": -3.1, "soil": {"texture": "loam", "ph": 6.5}},
        UPLAND,
    )
    s.household(4)
    s.structure("tunnel", 0.0, 5.0, 9.0, 4.0, 2.4)
    s.bed("Tunnel south", 0.5, 5.5, 8.0, 1.2, kind="under glass")
    s.bed("Tunnel north", 0.5, 7.3, 8.0, 1.2, kind="under glass")
    for k, (x, y) in enumerate(((0.0, 2.0), (4.8, 2.0), (0.0, 0.0), (4.8, 0.0))):
        s.bed(f"Open {k + 1}", x, y, 4.0, 1.2)
    s.grew("Tunnel south", {2024: "cucumber", 2025: "sweet_pepper", 2026: "tomato"})
    s.grew(
        "Tunnel north", {2024: "tomato", 2025: "cucumber 0-4, lettuce 4-8", 2026: "melon 0-4, dwarf_bean 4-8"}
    )
    s.grew("Open 1", {2024: "potato", 2025: "onion", 2026: "cabbage"})
    s.grew("Open 2", {2024: "onion", 2025: "cabbage", 2026: "potato"})
    s.grew("Open 3", {2024: "cabbage", 2025: "potato", 2026: "pea"})
    s.grew("Open 4", {2024: "pea", 2025: "carrot", 2026: "onion"})
    # The tomatoes of last year stood well so, and are wished like that again.
    last = s.planting_of("Tunnel south", "tomato", 2026)
    way = {"kind": "rows", "rows": 2, "in_row_spacing": 0.6, "row_spacing": 0.6}
    s.garden = edits.change_planting(
        s.garden, last, arrangement=way, support={"kind": "stake", "height": 1.7}
    )
    tomato = s.wish("tomato", 12, importance="must", ground="under glass", like=last)
    pepper = s.wish("sweet_pepper", 8, ground="under glass")
    chilli = s.wish("chilli_pepper", 4, ground="under glass", importance="could")
    basil = s.wish("basil", 6, ground="under glass", beside=("tomato",))
    cucumber = s.wish("cucumber", 5, ground="under glass", apart=("tomato",))
    s.wish("melon", 3, ground="under glass", importance="could")
    leaves = s.wish("leaf_lettuce", 2, "m2", ground="under glass", latest="05-20")
    spinach = s.wish("spinach", 2, "m2", ground="under glass", latest="05-10")
    dwarf = s.wish("dwarf_bean", 10, "m")
    potato = s.wish("potato", 20, importance="must", purpose="store", ground="open")
    onion = s.wish("onion", 80, purpose="store")
    carrot = s.wish("carrot", 4, "m")
    cabbage = s.wish("cabbage", 6, parts=2)
    kale = s.wish("kale", 4, ground="open")
    leek = s.wish("leek", 24)
    pea = s.wish("pea", 6, "m")
    broad = s.wish("broad_bean", 20)
    beetroot = s.wish("beetroot", 3, "m")
    salad = s.wish("corn_salad", 3, "m2", ground="under glass", earliest="10-15", importance="could")
    s.wish("aubergine", 3, ground="under glass", importance="could")
    # Inside the north bed is the one without tomatoes or peppers for three years: all of that family goes there.
    s.put(tomato, "Tunnel north", "05-15", "10-15", at=(0, 3.6), rows=2, apart=0.6, between=0.6)
    s.put(basil, "Tunnel north", "06-01", "09-30", at=(3.7, 4.4), rows=3, apart=0.3)
    s.put(pepper, "Tunnel north", "05-25", "10-10", at=(4.5, 6.5), rows=2, apart=0.5, between=0.5)
    s.put(chilli, "Tunnel north", "05-25", "10-10", at=(6.6, 7.6), rows=2, apart=0.5, between=0.5)
    # The south bed has leaves and spinach while it is cool, then cucumbers and beans.
    s.put(leaves, "Tunnel south", "03-15", "05-25", at=(0, 2.2), rows=5, apart=0.2)
    s.put(cucumber, "Tunnel south", "06-01", "09-30", at=(0, 2.7), rows=1, apart=0.5)
    s.put(spinach, "Tunnel south", "02-25", "05-15", at=(4.9, 6.7), rows=4)
    s.put(dwarf, "Tunnel south", "05-25", "09-10", at=(2.9, 8.0), rows=2, apart=0.12, between=0.45)
    s.put(salad, "Tunnel south", "09-12", "+03-01", at=(5.0, 8.0), rows=6, apart=0.1)
    # Potatoes only where none, nor tomatoes, were for four years, with kale behind them.
    s.put(potato, "Open 4", "04-28", "09-25", at=(0, 3.0), rows=2, apart=0.3, between=0.6)
    s.put(kale, "Open 4", "06-10", "+03-01", at=(3.1, 4.0), rows=2, apart=0.45)
    s.put(cabbage, "Open 3", "05-20", "10-20", at=(0, 1.35), rows=2, apart=0.45, between=0.6)
    s.put(leek, "Open 3", "06-05", "+02-28", at=(1.45, 3.05), rows=2, apart=0.13)
    s.put(beetroot, "Open 3", "05-10", "09-30", at=(3.1, 4.0), rows=4, apart=0.1)
    s.put(pea, "Open 1", "04-15", "08-05", at=(0, 3.0), rows=2, between=0.6)
    s.put(carrot, "Open 1", "05-01", "10-05", at=(3.0, 4.0), rows=4, apart=0.06)
    s.put(onion, "Open 2", "04-10", "09-05", at=(0, 2.0), rows=4, apart=0.1)
    s.put(broad, "Open 2", "04-01", "08-20", at=(2.2, 4.0), rows=2, apart=0.18, between=0.6)
    # Melons do not ripen in this summer even under the tunnel: no.
    # Aubergines want four years from the tomatoes of 2024, and the south bed had peppers and tomatoes since: no.
    return s


def fern_terrace() -> Scene:
    """A terrace in the south of the earth: the sun stands in the north, so tall crops go to the southern beds."""
    s = Scene(
        "fern_terrace",
        2026,
        {"latitude": -41.3, "longitude": 173.2, "soil": {"texture": "silt loam", "ph": 6.6}},
        SOUTHERN,
    )
    s.household(2)
    for k in range(3):
        s.bed(f"Upper {k + 1}", 4.4 * k, 0.0, 3.6, 1.2)
        s.bed(f"Lower {k + 1}", 4.4 * k, 2.1, 3.6, 1.2)
    s.grew("Upper 1", {2023: "potato", 2024: "pea", 2025: "cabbage"})
    s.grew("Upper 2", {2023: "onion", 2024: "tomato", 2025: "beetroot"})
    s.grew("Upper 3", {2023: "carrot", 2024: "winter_squash", 2025: "lettuce"})
    s.grew("Lower 1", {2023: "cabbage", 2024: "potato", 2025: "onion"})
    s.grew("Lower 2", {2023: "pea", 2024: "kale", 2025: "carrot"})
    s.grew("Lower 3", {2023: "tomato", 2024: "lettuce", 2025: "dwarf_bean"})
    tomato = s.wish("tomato", 8, importance="must")
    corn = s.wish("sweet_corn", 15, beds=("Upper 1", "Upper 2", "Upper 3"))
    climbing = s.wish("climbing_bean", 4, "m")
    courgette = s.wish("courgette", 2)
    potato = s.wish("potato", 5_000, "g")
    onion = s.wish("onion", 50, purpose="store")
    garlic = s.wish("garlic", 36, earliest="+11-20")
    carrot = s.wish("carrot", 5, "m")
    lettuce = s.wish("lettuce", 12, latest="12-05")
    dwarf = s.wish("dwarf_bean", 3, "m")
    pea = s.wish("pea", 2.4, "m", latest="12-05")
    kale = s.wish("kale", 6, importance="could")
    leek = s.wish("leek", 30)
    beetroot = s.wish("beetroot", 4, "m")
    phacelia = s.wish("phacelia", 1.5, "m2", purpose="green manure", importance="could")
    # Upper beds lie in the south: tomatoes, corn and beans stand there and throw their shade over the bank.
    # Tomatoes go to the third, whose ground never had their family, and which is farthest from the potatoes.
    s.put(tomato, "Upper 3", "11-05", "04-20", rows=2, apart=0.9, between=0.6)
    s.put(corn, "Upper 1", "11-05", "03-20", at=(0, 1.5), rows=3, apart=0.3)
    s.put(climbing, "Upper 2", "11-10", "04-10", at=(0, 2.1), rows=2, apart=0.15, between=0.6)
    s.put(
        phacelia, "Upper 2", "10-15", "01-15", at=(2.2, 3.6), arrangement={"kind": "scatter", "density": 300}
    )
    # Leeks beside the corn, on ground without onions.
    s.put(leek, "Upper 1", "12-05", "06-25", at=(1.7, 3.6), rows=3, apart=0.17)
    # Carrots, then lettuce followed by dwarf beans, then peas followed by kale in the sunniest bed.
    s.put(carrot, "Lower 1", "10-05", "03-10", at=(0, 1.25), rows=4, apart=0.06)
    s.put(lettuce, "Lower 1", "09-15", "11-30", at=(1.3, 2.4), rows=4, apart=0.3)
    s.put(dwarf, "Lower 1", "12-05", "03-05", at=(1.3, 2.4), rows=3, apart=0.1)
    s.put(pea, "Lower 1", "08-20", "12-05", at=(2.4, 3.6), rows=2, between=0.6)
    s.put(kale, "Lower 1", "01-10", "06-30", at=(2.4, 3.6), rows=2, apart=0.4)
    # Potatoes where none of their family is on record; garlic is planted there in autumn and stays over into the next year.
    s.put(potato, "Lower 2", "10-05", "03-01", at=(0, 2.1), rows=2, apart=0.3, between=0.6)
    s.put(garlic, "Lower 2", "04-20", at=(0, 1.8), rows=3, apart=0.15)
    s.put(beetroot, "Lower 2", "10-05", "03-01", at=(2.2, 3.4), rows=4, apart=0.09)
    s.put(courgette, "Lower 3", "11-05", "04-10", at=(0, 1.6), rows=1, apart=0.8)
    s.put(onion, "Lower 3", "09-10", "02-05", at=(1.8, 3.5), rows=4, apart=0.13)
    return s


def dry_wash() -> Scene:
    """Six beds of 4 by 12 feet in a hot dry place, measured in feet and inches."""
    s = Scene(
        "dry_wash",
        2027,
        {
            "latitude": 35.2,
            "longitude": -106.4,
            "units": "feet_inches",
            "soil": {"texture": "sandy loam", "ph": 7.2},
        },
        DRY,
    )
    s.household(4)
    long, wide = 12 * FOOT, 4 * FOOT
    for k in range(3):
        s.bed(f"South {k + 1}", 15 * FOOT * k, 0.0, long, wide)
        s.bed(f"North {k + 1}", 15 * FOOT * k, 7 * FOOT, long, wide)
    s.grew("South 1", {2024: "tomato", 2025: "onion", 2026: "okra"})
    s.grew("South 2", {2024: "melon", 2025: "sweet_pepper", 2026: "lettuce"})
    s.grew("South 3", {2024: "sweet_corn", 2025: "winter_squash", 2026: "dwarf_bean"})
    s.grew("North 1", {2024: "onion", 2025: "dwarf_bean", 2026: "tomato"})
    s.grew("North 2", {2024: "carrot", 2025: "sweet_corn", 2026: "melon"})
    s.grew("North 3", {2024: "sweet_pepper", 2025: "beetroot", 2026: "cabbage"})
    tomato = s.wish("tomato", 8, importance="must")
    pepper = s.wish("sweet_pepper", 8)
    chilli = s.wish("chilli_pepper", 4, purpose="drying")
    okra = s.wish("okra", 12)
    melon = s.wish("melon", 3)
    watermelon = s.wish("watermelon", 2, importance="could")
    cowpea = s.wish("cowpea", 18 * FOOT, "m", purpose="drying")
    sweet_potato = s.wish("sweet_potato", 16, purpose="store")
    onion = s.wish("onion", 60)
    lettuce = s.wish("lettuce", 16, latest="05-15")
    spinach = s.wish("spinach", 20 * 0.0929, "m2", earliest="10-01")
    garlic = s.wish("garlic", 45)
    sunflower = s.wish("sunflower", 6, purpose="cutting", importance="could")
    s.wish("potato", 24, importance="could", back_after=4)
    # Tall ones in the north range: tomatoes, okra after the lettuce of spring, sunflowers at the corner.
    s.put(tomato, "North 3", "04-25", "10-20", rows=2, apart=0.9, between=0.6)
    s.put(lettuce, "North 1", "03-05", "05-12", at=(0, 2.0), rows=3, apart=0.33)
    s.put(okra, "North 1", "05-18", "10-10", at=(0, 2.2), rows=2, apart=0.36, between=0.6)
    s.put(sunflower, "North 1", "05-01", "09-10", at=(2.3, 3.65), rows=2, apart=0.45)
    s.put(pepper, "North 2", "05-01", "10-20", at=(0, 2.0), rows=2, apart=0.5, between=0.6)
    s.put(chilli, "North 2", "05-01", "10-20", at=(2.1, 3.1), rows=2, apart=0.5, between=0.6)
    # Melons over bed and path where no cucurbits were on record.
    s.put(melon, "South 1", "05-01", "09-15", at=(0, 1.8), rows=1, apart=0.6)
    s.put(watermelon, "South 1", "05-05", "09-20", at=(1.9, 3.65), rows=1, apart=0.8)
    # Onions are cured when the summer peaks; spinach follows in the first cool nights. Cowpeas feed the other half.
    s.put(onion, "South 2", "03-10", "07-25", at=(0, 1.6), rows=4, apart=0.1)
    s.put(spinach, "South 2", "09-12", "12-05", at=(0, 1.6), rows=5)
    s.put(cowpea, "South 2", "05-10", "09-10", at=(1.7, 3.65), rows=3, apart=0.1)
    # Sweet potatoes are lifted before garlic is planted on half of their ground, to stand over winter.
    s.put(sweet_potato, "South 3", "05-10", "10-05", at=(0, 3.6), rows=2, apart=0.45, between=0.6)
    s.put(garlic, "South 3", "10-18", at=(0, 2.3), rows=3, apart=0.15)
    # Potatoes would have to be lifted by June, and what follows them in the two beds without their family on record is
    # planted in May: no.
    return s


def club_end() -> Scene:
    """Clubroot has gone through the garden: cabbages are to come back after seven years only, and few beds are clean."""
    s = Scene(
        "club_end",
        2027,
        {"latitude": 50.6, "longitude": 11.4, "soil": {"texture": "clay loam", "ph": 6.8}},
        INLAND,
    )
    s.household(4)
    for k in range(4):
        s.bed(f"Hill {k + 1}", 4.4 * k, 2.1, 3.6, 1.2)
        s.bed(f"Pond {k + 1}", 4.4 * k, 0.0, 3.6, 1.2)
    s.grew("Hill 1", {2023: "potato", 2024: "cabbage 0-1.8, onion 1.8-3.6", 2025: "pea", 2026: "carrot"})
    s.grew("Hill 2", {2023: "kale", 2024: "potato", 2025: "onion", 2026: "dwarf_bean"})
    s.grew("Hill 3", {2023: "onion", 2024: "broccoli", 2025: "potato", 2026: "lettuce"})
    s.grew("Hill 4", {2023: "carrot", 2024: "brussels_sprouts", 2025: "leek", 2026: "tomato"})
    s.grew("Pond 1", {2023: "cabbage", 2024: "lettuce", 2025: "carrot", 2026: "potato"})
    s.grew("Pond 2", {2023: "pea", 2024: "tomato", 2025: "courgette", 2026: "leek"})
    s.grew("Pond 3", {2023: "dwarf_bean", 2024: "swede", 2025: "beetroot", 2026: "pea"})
    s.grew("Pond 4", {2023: "tomato", 2024: "onion", 2025: "lettuce", 2026: "beetroot"})
    clean = {"back_after": 7}
    cabbage = s.wish("cabbage", 2, "people", importance="must", **clean)
    sprouts = s.wish("brussels_sprouts", 6, **clean)
    kale = s.wish("kale", 8, **clean)
    swede = s.wish("swede", 4, "m", **clean)
    broccoli = s.wish("broccoli", 6, importance="could", parts=2, **clean)
    potato = s.wish("potato", 24, purpose="store")
    onion = s.wish("onion", 60, purpose="store")
    carrot = s.wish("carrot", 8, "m")
    parsnip = s.wish("parsnip", 4, "m")
    tomato = s.wish("tomato", 6)
    climbing = s.wish("climbing_bean", 3.5, "m")
    pea = s.wish("pea", 3.5, "m")
    lettuce = s.wish("lettuce", 15, latest="06-25")
    leek = s.wish("leek", 24)
    beetroot = s.wish("beetroot", 5, "m")
    squash = s.wish("winter_squash", 1)
    phacelia = s.wish("phacelia", 2, "m2", purpose="green manure", importance="could")
    s.wish("cauliflower", 8, importance="could", **clean)
    s.wish("radish", 3, "m", importance="could", **clean)
    # Clean of cabbages on record are Pond 2, Pond 4 and one half of Hill 1; nothing else goes there that has another place.
    s.put(cabbage, "Pond 2", "05-05", "09-20", at=(0, 1.8), rows=2, apart=0.45, between=0.6)
    s.put(sprouts, "Pond 2", "05-25", "12-20", at=(1.8, 3.6), rows=2, apart=0.6, between=0.6)
    s.put(kale, "Pond 4", "06-05", "12-20", at=(0, 2.0), rows=2, apart=0.5, between=0.6)
    s.put(swede, "Pond 4", "05-25", "11-20", at=(2.1, 3.5), rows=3, apart=0.15)
    s.put(broccoli, "Hill 1", "05-05", "08-20", at=(2.0, 3.4), rows=2, apart=0.45, between=0.6)
    # What needs no clean ground has the rest: the squash beside the broccoli, tomatoes and beans in the north range.
    s.put(
        squash,
        "Hill 1",
        "05-25",
        "10-05",
        at=(0, 1.8),
        arrangement={"kind": "places", "points": ((-0.9, 0),)},
    )
    s.put(tomato, "Hill 2", "05-22", "10-05", at=(0, 2.1), rows=2, apart=0.7, between=0.6)
    s.put(beetroot, "Hill 2", "04-20", "09-10", at=(2.3, 3.6), rows=4, apart=0.09)
    s.put(carrot, "Hill 3", "04-10", "09-20", at=(0, 2.0), rows=4, apart=0.06)
    s.put(parsnip, "Hill 3", "04-05", "12-10", at=(2.1, 3.6), rows=3, apart=0.1)
    s.put(pea, "Hill 4", "04-01", "07-15", at=(0, 1.8), rows=2, between=0.6)
    # Mustard would feed the disease: phacelia after the peas, which is no cabbage.
    s.put(phacelia, "Hill 4", "07-20", "10-25", at=(0, 1.8), arrangement={"kind": "scatter", "density": 300})
    s.put(climbing, "Hill 4", "05-20", "10-05", at=(1.85, 3.6), rows=2, apart=0.15, between=0.6)
    s.put(onion, "Pond 1", "03-28", "08-15", at=(0, 1.8), rows=4, apart=0.12)
    s.put(lettuce, "Pond 1", "04-20", "06-28", at=(1.9, 3.5), rows=3, apart=0.32)
    s.put(leek, "Pond 1", "07-01", "12-10", at=(1.9, 3.5), rows=2, apart=0.13)
    s.put(potato, "Pond 3", "04-20", "09-10", rows=2, apart=0.3, between=0.6)
    # Cauliflower and radish would carry the disease on for a few weeks of eating: no.
    return s


SCENES = (hedge_shadow, long_tunnel, fern_terrace, dry_wash, club_end)
