"""Scenes of small gardens: a yard, a balcony, eight boards, a crooked bed and a round one."""

from __future__ import annotations

from proposal.hand_made.climates import INLAND, MILD
from proposal.hand_made.scene import Scene


def pump_yard() -> Scene:
    """A walled yard in a town with four beds, in which not everything fits that is wished."""
    s = Scene(
        "pump_yard", 2027, {"latitude": 51.4, "longitude": -2.6, "soil": {"texture": "loam", "ph": 6.8}}, MILD
    )
    s.household(2)
    s.structure("wall", 0.2, 6.0, 5.8, 0.25, 2.0)
    s.bed("Wall bed", 0.6, 5.2, 4.2, 0.7)
    s.bed("Left box", 0.6, 0.8, 1.0, 3.6, kind="raised", height=0.3)
    s.bed("Middle box", 2.4, 0.8, 1.0, 3.6, kind="raised", height=0.3)
    s.bed("Corner", 4.2, 0.8, 1.2, 2.4, soil={"texture": "sandy loam"})
    s.grew("Wall bed", {2024: "tomato", 2025: "pea", 2026: "courgette"})
    s.grew(
        "Left box",
        {2024: "onion", 2025: "carrot 0-1.8, beetroot 1.8-3.6", 2026: "dwarf_bean 0-1.8, lettuce 1.8-3.6"},
    )
    s.grew("Middle box", {2024: "carrot", 2025: "tomato", 2026: "kale"})
    s.grew("Corner", {2024: "lettuce", 2025: "cabbage", 2026: "onion"})
    tomato = s.wish("tomato", 6, importance="must", variety="Old Brick")
    beans = s.wish("climbing_bean", 3, "m", reason="Ran out before August was over.")
    lettuce = s.wish("lettuce", 12, latest="07-01")
    carrot = s.wish("carrot", 4_000, "g")
    beetroot = s.wish("beetroot", 3, "m")
    courgette = s.wish("courgette", 3)
    kale = s.wish("kale", 4, beds=("Left box", "Corner"))
    leek = s.wish("leek", 20)
    spinach = s.wish("spinach", 1.5, "m2", latest="06-01")
    potato = s.wish("early_potato", 2, "m2", importance="could")
    s.wish("winter_squash", 2, importance="could")
    s.wish("sweet_corn", 12, importance="could")
    # The warm wall is for tomatoes: three years since the last ones, and nothing stands south of them for two metres.
    s.put(tomato, "Wall bed", "05-20", "10-10", rows=1, apart=0.65)
    # Beans at the north end of their box, where they shade the path alone; its south half had beans last year.
    s.put(beans, "Left box", "05-20", "10-05", at=(1.8, 3.6), rows=2, apart=0.18)
    # The south half of that box is the one place free of cabbages for three years that takes kale: lettuce first.
    s.put(lettuce, "Left box", "04-15", "06-25", at=(0, 1.0), rows=3, apart=0.25)
    s.put(kale, "Left box", "07-01", "+02-28", at=(0, 1.0), rows=2, apart=0.45)
    # A few early potatoes between: no potatoes or tomatoes were in that box for four years.
    s.put(potato, "Left box", "04-01", "07-20", at=(1.0, 1.8), rows=2, apart=0.27)
    # Roots in the middle: carrots where none were for three years, beet beside them.
    s.put(carrot, "Middle box", "04-10", "09-15", at=(0, 1.0), rows=3, apart=0.06)
    s.put(beetroot, "Middle box", "04-20", "09-10", at=(1.0, 2.0), rows=3, apart=0.09)
    # Spinach is over in time for leeks, which follow on the same ground.
    s.put(spinach, "Middle box", "03-20", "05-31", at=(2.0, 3.6), rows=4)
    s.put(leek, "Middle box", "06-10", "+02-15", at=(2.0, 3.6), rows=2, apart=0.15)
    # The corner had onions, so no leeks; a courgette wants its width.
    s.put(courgette, "Corner", "05-20", "10-10", at=(0, 2.4), rows=1, apart=0.8)
    # Squash and corn would each take a bed that a surer crop needs, and more potatoes the ground of the kale: no to these.
    return s


def tin_balcony() -> Scene:
    """A balcony to the south, with boxes at the rail and pots by the wall."""
    s = Scene("tin_balcony", 2027, {"latitude": 48.2, "longitude": 16.3}, INLAND)
    s.household(1)
    s.structure("wall", 0.0, 1.7, 4.2, 0.3, 3.0)
    box = {"kind": "container", "height": 0.25, "depth": 0.25}
    s.bed("Rail box west", 0.2, 0.05, 1.2, 0.3, **box)
    s.bed("Rail box east", 1.6, 0.05, 1.2, 0.3, **box)
    s.bed("Zinc tub", 0.2, 1.1, 1.0, 0.5, kind="container", height=0.45, depth=0.45)
    s.bed("Fish crate", 3.0, 0.05, 0.8, 0.4, kind="container", height=0.3, depth=0.3)
    s.round_bed("Big pot", 1.7, 1.35, 0.24, kind="container", height=0.4, depth=0.4)
    s.round_bed("Other pot", 2.5, 1.35, 0.24, kind="container", height=0.4, depth=0.4)
    s.round_bed("Herb pot", 3.3, 1.4, 0.2, kind="container", height=0.3, depth=0.3)
    s.grew("Zinc tub", {2025: "tomato", 2026: "courgette"})
    s.grew("Rail box west", {2025: "radish", 2026: "lettuce"})
    s.grew("Rail box east", {2025: "spinach", 2026: "radish"})
    s.stands("Herb pot", "chives", "2025-04-20", rows=1, apart=0.2)
    tomato = s.wish("tomato", 2, importance="must", ground="container", beside=("basil",))
    chilli = s.wish("chilli_pepper", 2, ground="container", parts=2)
    leaves = s.wish("leaf_lettuce", 0.3, "m2", latest="06-15")
    radish = s.wish("radish", 2, "m", latest="05-31", importance="could")
    basil = s.wish("basil", 2)
    beans = s.wish("dwarf_bean", 1, "m", apart=("chives",))
    parsley = s.wish("parsley", 4)
    spinach = s.wish("spinach", 1, "m", earliest="09-15", importance="could")
    s.wish("winter_squash", 1, importance="could", ground="container")
    # Tomatoes in the deep tub by the warm wall, one row, with basil at the front of it.
    s.put(tomato, "Zinc tub", "05-20", "10-05", corners=_box(-0.5, -0.05, 0.5, 0.25), rows=1, apart=0.5)
    s.put(basil, "Zinc tub", "05-25", "09-25", corners=_box(-0.5, -0.25, 0.5, -0.05), rows=1, apart=0.4)
    # A pot for each chilli: they are low enough to keep the sun of the wall.
    s.put(chilli, "Big pot", "05-22", "10-05", arrangement={"kind": "places", "points": ((0, 0),)})
    s.put(chilli, "Other pot", "05-22", "10-05", arrangement={"kind": "places", "points": ((0, 0),)})
    # Boxes at the rail are shallow: leaves and radish first, beans after the radish, spinach after the leaves.
    s.put(leaves, "Rail box west", "04-15", "06-30", rows=2, apart=0.15)
    s.put(spinach, "Rail box west", "08-20", "11-10", rows=1)
    s.put(radish, "Rail box east", "04-01", "05-20", rows=2)
    s.put(beans, "Rail box east", "05-22", "08-20", rows=1, apart=0.1)
    s.put(parsley, "Fish crate", "04-25", "11-10", rows=1, apart=0.19)
    # No squash: its shoots would hang over the neighbours, and no pot waters it in July.
    return s


def _box(left: float, low: float, right: float, high: float) -> tuple[tuple[float, float], ...]:
    """Corners of a plot in the bed's coordinates. [m]"""
    return ((left, low), (right, low), (right, high), (left, high))


def eight_boards() -> Scene:
    """Eight raised beds, all alike, in two ranges of four; four years of records without a fixed course."""
    s = Scene(
        "eight_boards",
        2027,
        {"latitude": 49.1, "longitude": 9.2, "soil": {"texture": "silt loam", "ph": 6.9}},
        INLAND,
    )
    s.household(3)
    for k in range(8):
        # Boards 1 to 4 lie in the north range, 5 to 8 in the south, each from west to east.
        s.bed(f"Board {k + 1}", 3.3 * (k % 4), 2.1 * (1 - k // 4), 2.4, 1.2, kind="raised", height=0.25)
    s.grew("Board 1", {2023: "tomato", 2024: "potato", 2025: "pea", 2026: "cabbage"})
    s.grew("Board 2", {2023: "lettuce", 2024: "onion", 2025: "potato", 2026: "lettuce"})
    s.grew("Board 3", {2023: "pea", 2024: "cabbage", 2025: "onion", 2026: "tomato"})
    s.grew("Board 4", {2023: "potato", 2024: "carrot", 2025: "cabbage", 2026: "dwarf_bean"})
    s.grew("Board 5", {2023: "onion", 2024: "pea", 2025: "carrot", 2026: "winter_squash"})
    s.grew("Board 6", {2023: "beetroot", 2024: "tomato", 2025: "lettuce", 2026: "onion"})
    s.grew("Board 7", {2023: "cabbage", 2024: "courgette", 2025: "tomato", 2026: "beetroot"})
    s.grew("Board 8", {2023: "carrot", 2024: "lettuce", 2025: "dwarf_bean", 2026: "carrot"})
    potato = s.wish("potato", 16, importance="must", purpose="store")
    tomato = s.wish("tomato", 6, apart=("potato", "early_potato"))
    pea = s.wish("pea", 4.8, "m", purpose="freezing")
    climbing = s.wish("climbing_bean", 4.5, "m")
    dwarf = s.wish("dwarf_bean", 3, "m")
    cabbage = s.wish("cabbage", 6, parts=2)
    broccoli = s.wish("broccoli", 4)
    onion = s.wish("onion", 60, purpose="store", beside=("carrot",))
    carrot = s.wish("carrot", 6, "m")
    beetroot = s.wish("beetroot", 1.2, "m2")
    lettuce = s.wish("lettuce", 16, latest="06-25")
    courgette = s.wish("courgette", 2)
    leek = s.wish("leek", 30, earliest="10-01")
    spinach = s.wish("spinach", 1.2, "m2", latest="06-01", importance="could")
    kale = s.wish("kale", 8)
    salad = s.wish("corn_salad", 1.2, "m2", importance="could")
    rye = s.wish("winter_rye", 2.8, "m2", purpose="green manure", importance="could")
    # Onions and carrots share board 1, which had neither since the records began: low, behind low potatoes.
    s.put(onion, "Board 1", "03-28", "08-15", at=(0, 1.2), rows=5, apart=0.1)
    s.put(carrot, "Board 1", "04-10", "09-20", at=(1.2, 2.4), rows=5, apart=0.06)
    # Peas where none were for four years; kale follows them, for there were no cabbages here either.
    s.put(pea, "Board 2", "04-01", "07-12", rows=2, between=0.6)
    s.put(kale, "Board 2", "07-15", "+02-28", rows=2, apart=0.5, between=0.6)
    # The two tall ones stand in the north range, and shade nothing but the path.
    s.put(climbing, "Board 3", "05-20", "10-05", rows=2, apart=0.15, between=0.6)
    s.put(tomato, "Board 4", "05-22", "10-05", rows=2, apart=0.75, between=0.6)
    # Main potatoes need ground free of their family for four years: boards 4, 5 and 8; tomatoes have 4, leeks 8.
    s.put(potato, "Board 5", "04-20", "09-10", rows=2, apart=0.3, between=0.6)
    s.put(rye, "Board 5", "09-15", "+04-10", arrangement={"kind": "scatter", "density": 300})
    # Early spinach on half of the board of the cabbages, which are planted after it.
    s.put(spinach, "Board 6", "03-25", "05-25", at=(0, 1.2), rows=4)
    s.put(cabbage, "Board 6", "06-01", "10-20", at=(0, 1.35), rows=2, apart=0.45, between=0.6)
    s.put(broccoli, "Board 6", "05-05", "08-20", at=(1.4, 2.4), rows=2, apart=0.45, between=0.6)
    # Board 7 had tomatoes and beet: beans, courgettes at their open end, and corn salad where the beans stood.
    s.put(dwarf, "Board 7", "05-20", "08-15", at=(0, 1.1), rows=3, apart=0.1)
    s.put(salad, "Board 7", "08-20", "+03-15", at=(0, 1.1), rows=6, apart=0.1)
    s.put(courgette, "Board 7", "05-25", "10-05", at=(1.2, 2.4), rows=1, apart=0.6)
    # Lettuce is over before leeks are set out; beet has the other end of the board for the summer.
    s.put(lettuce, "Board 8", "04-20", "06-28", at=(0, 1.35), rows=4, apart=0.33)
    s.put(leek, "Board 8", "07-01", "12-10", at=(0, 1.35), rows=3, apart=0.13)
    s.put(beetroot, "Board 8", "04-20", "09-10", at=(1.4, 2.4), rows=4)
    return s


def crook_and_round() -> Scene:
    """A bed around a corner, a round one, a strip and a patch."""
    s = Scene(
        "crook_and_round",
        2027,
        {"latitude": 52.1, "longitude": 5.6, "soil": {"texture": "loamy sand", "ph": 6.4}},
        MILD,
    )
    s.household(2)
    # The crook has a leg along the south and one along the west, both 1.2 m wide.
    s.drawn_bed("Crook", 0.0, 0.0, (-2, -2), (2, -2), (2, -0.8), (-0.8, -0.8), (-0.8, 2), (-2, 2))
    s.round_bed("Millstone", 0.8, 0.9, 0.9)
    s.bed("Strip", 3.0, -2.0, 0.9, 4.0)
    s.bed("Patch", -2.0, 3.0, 4.0, 1.2)
    s.grew("Crook", {2024: "potato", 2025: "dwarf_bean", 2026: "onion"})
    s.grew("Millstone", {2024: "lettuce", 2025: "courgette", 2026: "cabbage"})
    s.grew("Strip", {2024: "leek", 2025: "carrot 0-2, beetroot 2-4", 2026: "tomato"})
    s.grew("Patch", {2024: "cauliflower", 2025: "sweet_corn 0-2, lettuce 2-4", 2026: "potato"})
    tomato = s.wish("tomato", 4, importance="must")
    pea = s.wish("pea", 8, "m")
    bean = s.wish("runner_bean", 4, "m", beds=("Patch", "Strip"))
    squash = s.wish("winter_squash", 1, variety="Grey Lantern")
    lettuce = s.wish("lettuce", 10, latest="06-20")
    carrot = s.wish("carrot", 2, "people", parts=2)
    broccoli = s.wish("broccoli", 6)
    cabbage = s.wish("red_cabbage", 4, purpose="store")
    beetroot = s.wish("beetroot", 9_000, "g", purpose="store")
    leek = s.wish("leek", 24, earliest="10-15")
    salad = s.wish("corn_salad", 1.4, "m2", earliest="09-15", importance="could")
    s.wish("pumpkin", 2, importance="could")
    # The crook rests from beans and onions. Tomatoes stand at the far end of its west leg: north of them is the path.
    s.put(tomato, "Crook", "05-20", "10-10", corners=_box(-2, 0.5, -0.8, 2), rows=2, apart=0.75, turn=90)
    s.put(cabbage, "Crook", "05-20", "10-20", corners=_box(-2, -0.7, -0.8, 0.4), rows=2, apart=0.5, turn=90)
    # Along the south leg everything is low: lettuce in the corner, carrots, and broccoli at its end.
    s.put(lettuce, "Crook", "04-15", "06-25", corners=_box(-2, -2, -0.8, -0.8), rows=4, apart=0.38)
    s.put(salad, "Crook", "08-18", "+03-15", corners=_box(-2, -2, -0.8, -0.8), rows=6, apart=0.1)
    s.put(carrot, "Crook", "04-10", "09-15", corners=_box(-0.7, -2, 0.7, -0.8), rows=4, apart=0.06)
    s.put(broccoli, "Crook", "05-05", "08-20", corners=_box(0.8, -2, 2, -0.8), rows=2, apart=0.4, between=0.6)
    # Beet was not in the round bed on record, and fills it as any other.
    s.put(beetroot, "Millstone", "04-20", "09-10", rows=5, apart=0.1)
    # Peas in the strip, where none are on record, and leeks after them: it had leeks three years ago.
    s.put(pea, "Strip", "04-01", "07-05", at=(0, 4.0), rows=2, between=0.45)
    s.put(leek, "Strip", "07-08", "+02-20", at=(0, 2.4), rows=2, apart=0.18)
    # The patch is the northmost ground: beans climb there, and the squash runs out over the grass.
    s.put(bean, "Patch", "05-20", "10-05", at=(0, 2), rows=2, apart=0.16, between=0.6)
    s.put(squash, "Patch", "05-25", "10-05", at=(2, 4), arrangement={"kind": "places", "points": ((1, 0),)})
    # Two pumpkins would need all of the patch, or cover the crook: no.
    return s


SCENES = (pump_yard, tin_balcony, eight_boards, crook_and_round)
