"""Scenes of larger gardens: three ranges of beds, perennials that stand, a kitchen garden of sixteen beds."""

from __future__ import annotations

from proposal.hand_made.climates import INLAND, MILD
from proposal.hand_made.scene import Scene

from planner.garden import edits
from planner.garden.edits import BedRange


def three_ranges() -> Scene:
    """Twelve beds in three ranges with paths between, kept in a course of four years."""
    s = Scene(
        "three_ranges",
        2027,
        {"latitude": 50.9, "longitude": -0.6, "soil": {"texture": "loam", "ph": 6.8}},
        MILD,
    )
    s.household(4)
    for name, top in (("Top", 5.6), ("Middle", 3.6), ("Low", 1.6)):
        s.garden, _ = edits.add_bed_range(
            s.garden, BedRange(name, 3.0, 1.2, across=4, path_across=0.5), 0.0, top
        )
    s.structure("path", 0.0, 3.7, 13.5, 0.6, 0.0, material="")
    s.structure("path", 0.0, 1.7, 13.5, 0.6, 0.0, material="")
    s.grew("Top 1", {2024: "potato", 2025: "pea", 2026: "cabbage"})
    s.grew("Top 2", {2024: "potato", 2025: "broad_bean", 2026: "kale"})
    s.grew("Top 3", {2024: "tomato", 2025: "dwarf_bean", 2026: "broccoli"})
    s.grew("Top 4", {2024: "winter_squash", 2025: "pea", 2026: "cauliflower"})
    s.grew("Middle 1", {2024: "onion", 2025: "potato", 2026: "pea"})
    s.grew("Middle 2", {2024: "carrot", 2025: "potato", 2026: "dwarf_bean"})
    s.grew("Middle 3", {2024: "parsnip", 2025: "tomato", 2026: "broad_bean"})
    s.grew("Middle 4", {2024: "beetroot", 2025: "courgette", 2026: "climbing_bean"})
    s.grew("Low 1", {2024: "cabbage", 2025: "onion", 2026: "potato"})
    s.grew("Low 2", {2024: "kale", 2025: "carrot", 2026: "potato"})
    s.grew("Low 3", {2024: "broccoli", 2025: "beetroot", 2026: "tomato"})
    s.grew("Low 4", {2024: "cauliflower", 2025: "leek 0-1.5, lettuce 1.5-3.0", 2026: "sweet_corn"})
    potato = s.wish("potato", 20, importance="must", purpose="store")
    early = s.wish("early_potato", 10, latest="07-05")
    onion = s.wish("onion", 100, importance="must", purpose="store")
    carrot = s.wish("carrot", 10, "m", parts=2)
    parsnip = s.wish("parsnip", 3, "m")
    beetroot = s.wish("beetroot", 1.2, "m2")
    tomato = s.wish("tomato", 6, apart=("potato", "early_potato"))
    cabbage = s.wish("cabbage", 8)
    broccoli = s.wish("broccoli", 6)
    sprouts = s.wish("brussels_sprouts", 6)
    kale = s.wish("kale", 1, "people", until="+02-15")
    cauliflower = s.wish("cauliflower", 6, importance="could")
    swede = s.wish("swede", 4, "m", importance="could")
    # Peas are wished as they stood last year.
    last = s.planting_of("Middle 1", "pea", 2026)
    way = {"kind": "rows", "rows": 2, "row_spacing": 0.6}
    s.garden = edits.change_planting(
        s.garden, last, arrangement=way, support={"kind": "sticks", "height": 0.9}
    )
    pea = s.wish("pea", 6, "m", purpose="freezing", like=last)
    broad = s.wish("broad_bean", 30)
    climbing = s.wish("climbing_bean", 3, "m")
    dwarf = s.wish("dwarf_bean", 6, "m")
    leek = s.wish("leek", 50, earliest="10-01", parts=2)
    lettuce = s.wish("lettuce", 15, latest="06-25")
    spinach = s.wish("spinach", 2, "m2", earliest="09-01")
    salad = s.wish("corn_salad", 2, "m2", importance="could")
    squash = s.wish("winter_squash", 1)
    courgette = s.wish("courgette", 1)
    radish = s.wish("radish", 6, "m", latest="05-15")
    # The top range had beans, then cabbages: now roots, onions, and what is of the potato family where four years allow.
    # Tomatoes as far from the potatoes as the range is long.
    s.put(potato, "Top 4", "04-20", "09-10", rows=2, apart=0.3, between=0.6)
    s.put(onion, "Top 3", "03-25", "08-15", rows=4, apart=0.12)
    s.put(carrot, "Top 2", "04-10", "09-15", at=(0, 2.0), rows=5, apart=0.06)
    s.put(parsnip, "Top 2", "04-01", "12-15", at=(2.0, 3.0), rows=3, apart=0.1)
    s.put(beetroot, "Top 1", "04-20", "09-10", at=(0, 1.0), rows=4)
    s.put(tomato, "Top 1", "05-20", "10-10", at=(1.0, 3.0), rows=2, apart=0.66, between=0.6)
    # The middle range had the beans of last year: cabbages, and in its last bed potatoes and lettuce before leeks.
    s.put(cabbage, "Middle 1", "05-01", "09-20", at=(0, 1.8), rows=2, apart=0.45, between=0.6)
    s.put(broccoli, "Middle 1", "05-01", "08-20", at=(1.8, 3.0), rows=2, apart=0.4, between=0.6)
    s.put(sprouts, "Middle 2", "05-25", "+02-15", at=(0, 1.8), rows=2, apart=0.6, between=0.6)
    s.put(kale, "Middle 2", "06-10", "+03-15", at=(1.8, 3.0), rows=2, apart=0.4)
    s.put(cauliflower, "Middle 3", "05-01", "08-10", at=(0, 1.4), rows=2, apart=0.45, between=0.6)
    s.put(swede, "Middle 3", "05-25", "12-10", at=(1.5, 3.0), rows=3, apart=0.15)
    s.put(early, "Middle 4", "03-25", "07-05", at=(0, 1.5), rows=2, apart=0.3, between=0.6)
    s.put(lettuce, "Middle 4", "04-15", "06-25", at=(1.5, 3.0), rows=3, apart=0.3)
    s.put(leek, "Middle 4", "07-08", "+03-01", rows=3, apart=0.17)
    # The low range had cabbages three years ago and potatoes since: peas and beans, followed by leaves for autumn.
    s.put(pea, "Low 1", "04-01", "07-15", rows=2, between=0.6)
    s.put(salad, "Low 1", "08-20", "+03-15", at=(0, 1.8), rows=6, apart=0.1)
    s.put(broad, "Low 2", "03-05", "07-25", rows=2, apart=0.2, between=0.6)
    s.put(spinach, "Low 2", "08-10", "11-20", at=(0, 1.8), rows=4)
    s.put(radish, "Low 3", "03-25", "05-15", at=(0, 1.6), rows=4)
    s.put(
        courgette,
        "Low 3",
        "05-25",
        "10-10",
        at=(2.1, 3.0),
        arrangement={"kind": "places", "points": ((1.05, 0),)},
    )
    s.put(dwarf, "Low 3", "05-20", "08-25", at=(0, 2.0), rows=3, apart=0.1)
    # Beans that climb have no better ground than the low range this year; at its east end they shade only leeks.
    s.put(climbing, "Low 4", "05-20", "10-05", at=(0, 1.5), rows=2, apart=0.15, between=0.6)
    s.put(
        squash,
        "Low 4",
        "05-25",
        "10-05",
        at=(1.6, 3.0),
        arrangement={"kind": "places", "points": ((0.8, 0),)},
    )
    return s


def old_stools() -> Scene:
    """Rhubarb, asparagus and strawberries stand; garlic of last autumn is lifted in July, that of this one goes over."""
    s = Scene(
        "old_stools",
        2027,
        {"latitude": 51.9, "longitude": 1.1, "soil": {"texture": "sandy loam", "ph": 6.6}},
        MILD,
    )
    s.household(3)
    s.bed("Rhubarb end", 0.0, 8.0, 2.4, 1.5)
    s.bed("Asparagus", 3.2, 8.2, 5.0, 1.2)
    s.bed("Berry 1", 0.0, 6.2, 4.0, 1.2)
    s.bed("Berry 2", 4.6, 6.2, 4.0, 1.2)
    for k, (x, y) in enumerate(((0.0, 4.2), (4.6, 4.2), (0.0, 2.2), (4.6, 2.2), (0.0, 0.2))):
        s.bed(f"Lane {k + 1}", x, y, 4.0, 1.2)
    s.stands("Rhubarb end", "rhubarb", "2021-03-20", rows=1, apart=1.1)
    s.stands("Asparagus", "asparagus", "2020-03-25", rows=1, apart=0.45)
    s.stands("Berry 1", "strawberry", "2025-08-10", rows=2, apart=0.4)
    s.garden, _ = edits.add_planting(
        s.garden, s.id_of("Berry 2"), "strawberry", 2023, first="2023-04-05", last="2026-08-15"
    )
    s.grew("Lane 1", {2024: "carrot", 2025: "potato", 2026: "pea"})
    s.grew("Lane 2", {2024: "pea", 2025: "cabbage", 2026: "onion"})
    s.grew("Lane 3", {2024: "onion", 2025: "beetroot", 2026: "tomato"})
    s.grew("Lane 4", {2024: "tomato", 2025: "lettuce", 2026: "kale"})
    s.grew("Lane 5", {2024: "cabbage", 2025: "courgette", 2026: "carrot"})
    s.stands("Lane 1", "garlic", "2026-10-12", (0, 2), rows=3, apart=0.15, last="2027-07-15")
    garlic = s.wish("garlic", 36, importance="must")
    strawberry = s.wish("strawberry", 12, start="bought")
    potato = s.wish("potato", 16, purpose="store")
    tomato = s.wish("tomato", 4)
    courgette = s.wish("courgette", 2)
    onion = s.wish("onion", 50, purpose="store")
    leek = s.wish("leek", 30)
    carrot = s.wish("carrot", 2, "people", apart=("potato",))
    beetroot = s.wish("beetroot", 6, "m")
    pea = s.wish("pea", 6, "m")
    dwarf = s.wish("dwarf_bean", 5, "m", latest="08-15")
    climbing = s.wish("climbing_bean", 2.4, "m")
    lettuce = s.wish("lettuce", 12)
    kale = s.wish("kale", 6)
    s.wish("raspberry", 8, importance="could")
    # Kale after the garlic of last autumn: no cabbages were in that lane, and it is free in the middle of July.
    s.put(kale, "Lane 1", "07-18", "+03-15", at=(0, 1.6), rows=2, apart=0.5)
    s.put(beetroot, "Lane 1", "04-20", "09-10", at=(2.1, 3.7), rows=4, apart=0.09)
    # Potatoes where neither they nor tomatoes are on record; lettuce beside them.
    s.put(potato, "Lane 2", "04-20", "09-10", at=(0, 2.5), rows=2, apart=0.3, between=0.6)
    s.put(lettuce, "Lane 2", "04-20", "07-05", at=(2.6, 3.9), rows=3, apart=0.3)
    # Beans of early summer make room for garlic, which had onions there three years ago.
    s.put(dwarf, "Lane 3", "05-15", "08-20", at=(0, 1.8), rows=3, apart=0.1)
    s.put(garlic, "Lane 3", "10-12", at=(0, 1.9), rows=3, apart=0.15)
    s.put(carrot, "Lane 3", "04-10", "09-15", at=(2.0, 3.6), rows=4, apart=0.06)
    # Onions and leeks share a lane in which none of them were.
    s.put(onion, "Lane 4", "03-25", "08-15", at=(0, 1.6), rows=4, apart=0.12)
    s.put(leek, "Lane 4", "06-10", "+02-28", at=(1.8, 3.8), rows=2, apart=0.13)
    # Peas where none are on record; young strawberries follow, far from the old ones.
    s.put(pea, "Lane 5", "04-01", "07-15", at=(0, 3.0), rows=2, between=0.6)
    s.put(strawberry, "Lane 5", "08-10", at=(0, 2.7), rows=2, apart=0.45, between=0.6)
    # The grubbed strawberry bed lies in the north: tomatoes and beans may be tall there, courgettes take its end.
    # Potatoes grow a few steps off: blight would reach tomatoes anywhere in a garden of this size.
    s.put(tomato, "Berry 2", "05-20", "10-10", at=(0, 1.3), rows=2, apart=0.6, between=0.6)
    s.put(climbing, "Berry 2", "05-20", "10-05", at=(1.4, 2.6), rows=2, apart=0.15, between=0.6)
    s.put(courgette, "Berry 2", "05-25", "10-10", at=(2.7, 4.0), rows=1, apart=0.65)
    # Raspberries would stand for ten years on a lane that feeds us: no.
    return s


def sixteen_beds() -> Scene:
    """A kitchen garden of sixteen beds in which every bed works twice where it can."""
    s = Scene(
        "sixteen_beds",
        2027,
        {"latitude": 48.9, "longitude": 8.8, "soil": {"texture": "loam", "ph": 6.7}},
        INLAND,
    )
    s.household(6)
    for name, top in (("A", 7.5), ("B", 5.6), ("C", 3.7), ("D", 1.8)):  # A is the northmost range
        s.garden, _ = edits.add_bed_range(
            s.garden, BedRange(name, 3.6, 1.2, across=4, path_across=0.6), 0.0, top
        )
    s.grew("A 1", {2024: "tomato", 2025: "pea", 2026: "cabbage"})
    s.grew("A 2", {2024: "tomato", 2025: "dwarf_bean", 2026: "kale"})
    s.grew("A 3", {2024: "winter_squash", 2025: "pea", 2026: "broccoli"})
    s.grew("A 4", {2024: "sweet_corn", 2025: "dwarf_bean", 2026: "brussels_sprouts"})
    s.grew("B 1", {2024: "onion", 2025: "tomato", 2026: "dwarf_bean"})
    s.grew("B 2", {2024: "carrot", 2025: "potato", 2026: "pea"})
    s.grew("B 3", {2024: "leek", 2025: "potato", 2026: "dwarf_bean"})
    s.grew("B 4", {2024: "beetroot 0-1.8, celeriac 1.8-3.6", 2025: "sweet_pepper", 2026: "pea"})
    s.grew("C 1", {2024: "cabbage", 2025: "onion", 2026: "potato"})
    s.grew("C 2", {2024: "kale", 2025: "carrot", 2026: "potato"})
    s.grew("C 3", {2024: "cauliflower", 2025: "leek", 2026: "tomato"})
    s.grew("C 4", {2024: "swede", 2025: "beetroot", 2026: "courgette"})
    s.grew("D 1", {2024: "pea", 2025: "cabbage", 2026: "onion"})
    s.grew("D 2", {2024: "dwarf_bean", 2025: "kale", 2026: "carrot"})
    s.grew("D 3", {2024: "pea", 2025: "broccoli", 2026: "beetroot 0-1.8, lettuce 1.8-3.6"})
    s.grew("D 4", {2024: "dwarf_bean", 2025: "cauliflower", 2026: "leek"})
    potato = s.wish("potato", 24, importance="must", purpose="store")
    onion = s.wish("onion", 100, importance="must", purpose="store")
    tomato = s.wish("tomato", 10, importance="must", apart=("potato", "early_potato"))
    early = s.wish("early_potato", 12, latest="07-10")
    carrot = s.wish("carrot", 12, "m", beside=("parsnip",))
    parsnip = s.wish("parsnip", 3, "m")
    beetroot = s.wish("beetroot", 8_000, "g")
    pepper = s.wish("sweet_pepper", 6)
    corn = s.wish("sweet_corn", 18)
    cabbage = s.wish("cabbage", 6)
    red = s.wish("red_cabbage", 4, purpose="store")
    broccoli = s.wish("broccoli", 6)
    cauliflower = s.wish("cauliflower", 6, importance="could")
    sprouts = s.wish("brussels_sprouts", 6)
    kale = s.wish("kale", 8)
    swede = s.wish("swede", 4, "m", importance="could")
    lettuce = s.wish("lettuce", 18, latest="06-20")
    pea = s.wish("pea", 7, "m", purpose="freezing")
    broad = s.wish("broad_bean", 24, latest="07-15")
    dwarf = s.wish("dwarf_bean", 8_000, "g", purpose="freezing", parts=2)
    climbing = s.wish("climbing_bean", 4, "m")
    courgette = s.wish("courgette", 2)
    squash = s.wish("winter_squash", 3, purpose="store")
    cucumber = s.wish("cucumber", 3)
    celeriac = s.wish("celeriac", 10)
    leek = s.wish("leek", 36, earliest="10-01")
    spring = s.wish("spinach", 2, "m2", latest="06-01", start="sown")
    autumn = s.wish("spinach", 2, "m2", earliest="09-01", reason="The freezer was empty of it by Christmas.")
    garlic = s.wish("garlic", 40)
    fennel = s.wish("florence_fennel", 10, earliest="09-01")
    chard = s.wish("chard", 6, importance="could")
    parsley = s.wish("parsley", 8, importance="could")
    salad = s.wish("corn_salad", 3, "m2", importance="could")
    s.wish("melon", 4, importance="could")
    # Range A is the northmost, and had beans and cabbages: tomatoes, peppers and corn are tall there, roots as well.
    s.put(tomato, "A 1", "05-22", "10-05", at=(0, 3.3), rows=2, apart=0.65, between=0.6)
    s.put(pepper, "A 2", "05-25", "10-05", at=(0, 1.5), rows=2, apart=0.5, between=0.5)
    s.put(corn, "A 2", "05-15", "09-15", at=(1.7, 3.5), rows=3, apart=0.3)
    s.put(onion, "A 3", "03-28", "08-15", at=(0, 3.0), rows=4, apart=0.12)
    s.put(salad, "A 3", "08-22", "+03-15", at=(0, 2.6), rows=6, apart=0.1)
    s.put(carrot, "A 4", "04-10", "09-20", at=(0, 2.4), rows=5, apart=0.06)
    s.put(parsnip, "A 4", "04-05", "12-10", at=(2.5, 3.5), rows=3, apart=0.1)
    # Range B follows its beans with cabbages; spinach and lettuce come before what is set out late.
    s.put(cabbage, "B 1", "05-05", "09-20", at=(0, 1.35), rows=2, apart=0.45, between=0.6)
    s.put(red, "B 1", "05-15", "10-20", at=(1.35, 2.3), rows=2, apart=0.45, between=0.6)
    s.put(broccoli, "B 1", "05-05", "08-20", at=(2.35, 3.6), rows=2, apart=0.4, between=0.6)
    s.put(cauliflower, "B 2", "05-05", "08-10", at=(0, 1.4), rows=2, apart=0.45, between=0.6)
    s.put(lettuce, "B 2", "04-15", "06-25", at=(1.5, 3.4), rows=3, apart=0.31)
    s.put(kale, "B 2", "07-01", "12-20", at=(1.5, 3.5), rows=2, apart=0.5, between=0.6)
    s.put(sprouts, "B 3", "05-25", "12-20", at=(0, 1.8), rows=2, apart=0.6, between=0.6)
    s.put(swede, "B 3", "05-25", "11-20", at=(2.0, 3.4), rows=3, apart=0.15)
    s.put(spring, "B 4", "03-22", "05-31", at=(0, 1.8), rows=4)
    s.put(leek, "B 4", "06-05", "12-10", at=(0, 1.8), rows=3, apart=0.14)
    s.put(celeriac, "B 4", "05-20", "11-05", at=(1.9, 3.5), rows=2, apart=0.32, between=0.5)
    # Range C gets what feeds the soil: peas before spinach of autumn, broad beans before garlic, which stays over.
    s.put(pea, "C 1", "04-01", "07-15", rows=2, between=0.6)
    s.put(autumn, "C 1", "08-10", "11-15", at=(0, 1.8), rows=4)
    s.put(broad, "C 2", "03-10", "07-25", at=(0, 2.2), rows=2, apart=0.18, between=0.6)
    s.put(garlic, "C 2", "10-08", at=(0, 2.1), rows=3, apart=0.15)
    s.put(chard, "C 2", "04-20", "10-30", at=(2.4, 3.4), rows=2, apart=0.3)
    s.put(dwarf, "C 3", "05-20", "08-30", at=(0, 2.0), rows=3, apart=0.1)
    s.put(dwarf, "C 4", "06-01", "09-05", at=(0, 1.4), rows=3, apart=0.1)
    s.put(parsley, "C 3", "04-20", "10-30", at=(2.2, 3.4), rows=2, apart=0.3)
    # Climbing beans in the last bed of C: north of them stand leeks and celeriac, with the path between.
    s.put(climbing, "C 4", "05-20", "10-05", at=(1.5, 3.5), rows=2, apart=0.15, between=0.6)
    # Range D had its cabbages in 2025: potatoes, cucurbits and beet, low in the south but for the net of the cucumbers.
    s.put(beetroot, "D 1", "04-20", "09-10", at=(0, 1.75), rows=4, apart=0.08)
    s.put(courgette, "D 1", "05-25", "10-05", at=(1.9, 3.5), rows=1, apart=0.8)
    s.put(potato, "D 2", "04-20", "09-10", rows=2, apart=0.3, between=0.6)
    s.put(squash, "D 3", "05-25", "10-05", rows=1, apart=1.2)
    s.put(early, "D 4", "04-05", "07-10", at=(0, 1.8), rows=2, apart=0.3, between=0.6)
    s.put(fennel, "D 4", "07-20", "10-20", at=(0, 1.5), rows=2, apart=0.28)
    s.put(cucumber, "D 4", "05-25", "09-25", at=(2.0, 3.5), rows=1, apart=0.5)
    # Melons in the open fail two summers in three here: no.
    return s


SCENES = (three_ranges, old_stools, sixteen_beds)
