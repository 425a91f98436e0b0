"""Puzzles of a year's layout for tests and benches: gardens of many beds, small random ones, and ones cut from a full plan."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from random import Random

from layout_brute_force import few_enough

from planner.proposal.puzzle import BedGround, Block, Choice, Layout, Option, Pair, Puzzle, Shut, Use

YEAR = datetime.date(2027, 1, 1).toordinal()


def garden_puzzle(beds: int, wishes: int, seed: int = 1) -> Puzzle:
    """A garden: beds of 3 to 10 m in steps of 0.1 m, two or three ways for each wish, up to three parts, dates of a year.

    About as much is wanted as there is room for.
    """
    chance = Random(seed)
    families, covers = 12, 4
    places = [(chance.uniform(0, 60), chance.uniform(0, 60)) for _ in range(beds)]
    grounds, light = [], []
    for _ in range(beds):
        length = chance.randint(30, 100)
        blocks = []
        if chance.random() < 0.15:  # what stands for years
            size = chance.randint(5, length // 3)
            at = chance.choice((0, length - size, chance.randint(0, length - size)))
            blocks.append(Block(at, at + size, YEAR, YEAR + 364, 1))
        if chance.random() < 0.2:  # what is left from last year
            size = chance.randint(5, length // 2)
            blocks.append(Block(length - size, length, YEAR, YEAR + chance.randint(60, 150), 1))
        had = frozenset({chance.randrange(families)} if blocks else ())
        grounds.append(BedGround(length, tuple(blocks), had))
        light.append(chance.choice((4, 6, 6, 8, 8, 10)))
    rests = [{chance.randrange(families), chance.randrange(families)} for _ in range(beds)]
    room = sum(ground.length for ground in grounds) * 220
    options: list[Option] = []
    unmet = []
    kinds = []
    for wish in range(wishes):
        family = chance.randrange(families)
        kinds.append(family)
        weight = chance.choice((1000, 1000, 300, 300, 100))
        unmet.append(weight)
        days = chance.randint(45, 190)
        total = max(4, min(160, round(chance.uniform(0.3, 1.1) * room / wishes / days)))
        daily, need, covered = chance.random() < 0.3, chance.choice((4, 6, 6, 8)), chance.random() < 0.3
        begins = YEAR + chance.randint(60, 230 - days // 2)
        parts = [count for count in (1, 2, 3) if total / count <= 70 and total / count >= 4] or [3]
        ways = [(begins, parts[0]), (begins + chance.randint(14, 40), parts[0])]
        if len(parts) > 1:
            ways.append((begins, parts[1]))
        for bed, ground in enumerate(grounds):
            if light[bed] < need - 3:
                continue
            walk = round((places[bed][0] + places[bed][1]) * (0.5 if daily else 0.1))
            shade = 15 * max(0, need - light[bed])
            moved = chance.randint(0, 8)
            shut: tuple[Shut, ...] = ()
            if family in rests[bed]:
                if chance.random() < 0.5:
                    continue
                shut = (Shut(0, chance.randint(5, ground.length // 2), 2),)
            for number, (first, count) in enumerate(ways):
                length = -(-total // count)
                if length > ground.length:
                    continue
                groups = (family, *((families + chance.randrange(covers),) if covered else ()))
                options.append(
                    Option(
                        wish,
                        bed,
                        number,
                        count,
                        length,
                        first,
                        first + days,
                        walk + shade + moved + 6 * number + (10 * (count - 1)) // count,
                        shut,
                        family if days > 120 else -1,
                        groups,
                        (Use(0, first, first + 30, length),) if covered else (),
                    )
                )
    pairs = tuple(
        Pair(chance.randrange(wishes), chance.randrange(wishes), chance.choice((-8, 10, 15, None)))
        for _ in range(wishes)
    )
    return Puzzle(
        tuple(grounds),
        tuple(unmet),
        tuple(options),
        (*(chance.randint(3, 12) for _ in range(families)), *(20 for _ in range(covers))),
        tuple(pair for pair in pairs if pair.one != pair.other),
        (max(60, sum(ground.length for ground in grounds) // 6),),
        (),
        (None, 50, 40),
    )


def small_puzzles(count: int, seed: int = 0) -> Iterator[Puzzle]:
    """So many small puzzles whose layouts are few enough to be tried."""
    while count:
        puzzle = small_puzzle(Random(seed))
        seed += 1
        if few_enough(puzzle):
            count -= 1
            yield puzzle


def small_puzzle(chance: Random) -> Puzzle:
    """A puzzle so small that all layouts of it can be tried, with every kind of rule in it now and then."""
    wishes = chance.choice((3, 3, 4, 4, 5))
    most = 7 if wishes == 3 else 6 if wishes == 4 else 5
    beds = []
    for _ in range(chance.randint(2, 3)):
        length = chance.randint(3, most)
        blocks = []
        for _ in range(chance.choice((0, 0, 1, 2))):
            start = chance.randint(0, length - 1)
            first = chance.randint(1, 8)
            blocks.append(
                Block(
                    start,
                    start + chance.randint(1, 2),
                    first,
                    first + chance.randint(0, 6),
                    chance.randint(0, 3),
                )
            )
        beds.append(BedGround(length, tuple(blocks), frozenset(g for g in range(3) if chance.random() < 0.2)))
    options = []
    for wish in range(wishes):
        family = chance.choice((-1, -1, 0, 1))
        for way in range(chance.choice((1, 2, 2))):
            parts, length = chance.choice((1, 1, 2)), chance.randint(1, most - 2)
            first = chance.randint(1, 8)
            last = first + chance.randint(0, 6)
            uses = (
                (Use(chance.randrange(2), first, last, chance.randint(1, 3)),)
                if chance.random() < 0.3
                else ()
            )
            for bed in range(len(beds)):
                if chance.random() < 0.8:
                    shut = ()
                    if chance.random() < 0.25:
                        start = chance.randint(0, beds[bed].length - 1)
                        shut = (Shut(start, start + chance.randint(1, 2), chance.randint(0, 3)),)
                    groups = tuple(g for g in range(3) if chance.random() < 0.3)
                    options.append(
                        Option(
                            wish,
                            bed,
                            way,
                            parts,
                            length,
                            first,
                            last,
                            chance.randint(-6, 15),
                            shut,
                            family,
                            groups,
                            uses,
                        )
                    )
    choices = sorted({(option.wish, option.bed, option.way) for option in options})
    nevers = tuple(
        frozenset(chance.sample(choices, min(len(choices), chance.randint(1, 3))))
        for _ in range(chance.choice((0, 1, 2)))
    )
    pairs = []
    for _ in range(chance.choice((0, 1, 2, 3))):
        one, other = chance.sample(range(wishes), 2)
        pairs.append(Pair(one, other, chance.choice((None, -7, 5, 9))))
    return Puzzle(
        tuple(beds),
        tuple(chance.choice((5, 20, 60)) for _ in range(wishes)),
        tuple(options),
        tuple(chance.randint(-2, 6) for _ in range(3)),
        tuple(pairs),
        (chance.randint(2, 4), chance.randint(2, 5)),
        nevers,
        (None, chance.randint(1, 9), chance.randint(1, 9), chance.randint(1, 9)),
    )


def cut_from_plan(chance: Random, beds: int, cuts: int) -> tuple[Puzzle, Layout]:
    """A garden that is full all year, cut into wishes, and the layout it was cut from."""
    lengths = [chance.randint(30, 80) for _ in range(beds)]
    pieces = [(bed, 0, length, YEAR + 60, YEAR + 299) for bed, length in enumerate(lengths)]
    for _ in range(cuts):
        number = max(
            range(len(pieces)), key=lambda i: (pieces[i][2] - pieces[i][1]) * (pieces[i][4] - pieces[i][3])
        )
        bed, start, end, first, last = pieces.pop(number)
        if chance.random() < 0.5 and end - start >= 10:
            cut = chance.randint(start + 4, end - 4)
            pieces += [(bed, start, cut, first, last), (bed, cut, end, first, last)]
        else:
            cut = chance.randint(first + 30, last - 30)
            pieces += [(bed, start, end, first, cut), (bed, start, end, cut + 1, last)]
    chance.shuffle(pieces)
    options, layout = [], []
    for wish, (home, start, end, first, last) in enumerate(pieces):
        for bed, length in enumerate(lengths):
            if end - start <= length:
                if bed == home:
                    layout.append(Choice(len(options), start))
                options.append(
                    Option(
                        wish, bed, 0, 1, end - start, first, last, 0 if bed == home else chance.randint(0, 3)
                    )
                )
    puzzle = Puzzle(tuple(BedGround(length) for length in lengths), (100,) * len(pieces), tuple(options))
    return puzzle, tuple(sorted(layout))
