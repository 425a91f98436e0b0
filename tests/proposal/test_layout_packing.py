"""Places along a bed against all places tried on a grid of steps and days."""

from __future__ import annotations

from itertools import combinations, product
from random import Random

from layout_brute_force import places_beside

from planner.proposal.packing import allowed_starts, first_gap, longest_run, pack, smallest_unpackable
from planner.proposal.puzzle import BedGround, Block, Choice, Option, Puzzle, Shut, faults_of


def _bed(chance: Random) -> tuple[BedGround, list[Option]]:
    length = chance.randint(4, 9)
    blocks = []
    for _ in range(chance.choice((0, 1, 2))):
        start, first = chance.randint(0, length - 1), chance.randint(1, 8)
        blocks.append(Block(start, start + chance.randint(1, 3), first, first + chance.randint(0, 6)))
    options = []
    for wish in range(chance.randint(2, 5)):
        first = chance.randint(1, 8)
        shut = (Shut(at := chance.randint(0, length), at + 2),) if chance.random() < 0.2 else ()
        options.append(
            Option(
                wish,
                0,
                0,
                1,
                chance.randint(1, 4),
                first,
                first + chance.randint(0, 6),
                0,
                shut,
                chance.choice((-1, -1, 0)),
            )
        )
    return BedGround(length, tuple(blocks)), options


def _packs(bed: BedGround, options: list[Option]) -> bool:
    """By trying every start of every option."""
    puzzle = Puzzle((bed,), (0,) * len(options), tuple(options))
    spans = [range(bed.length - one.length + 1) for one in options]
    return any(
        not faults_of(puzzle, tuple(Choice(number, start) for number, start in enumerate(starts)))
        for starts in product(*spans)
    )


def test_a_bed_packs_where_trying_all_starts_says_so() -> None:
    packed = not_packed = full = 0
    for seed in range(160):
        bed, options = _bed(Random(seed))
        packing = pack(bed, options)
        assert packing.proven
        if packing.starts is None:
            assert not _packs(bed, options), seed
            not_packed += 1
            lengths = [sum(o.length for o in options if o.first <= day <= o.last) for day in range(16)]
            full += not bed.blocks and max(lengths) <= bed.length
        else:
            puzzle = Puzzle((bed,), (0,) * len(options), tuple(options))
            assert not faults_of(puzzle, tuple(Choice(n, start) for n, start in enumerate(packing.starts)))
            packed += 1
    assert min(packed, not_packed) > 30
    assert full  # some have room enough on each day


def test_orders_that_do_not_fit_first_are_found_by_trying_all() -> None:
    # Three on common days that fill the bed, the middle one of a family that may not touch the ground of the fourth.
    options = [
        Option(0, 0, 0, 1, 3, 1, 4),
        Option(1, 0, 0, 1, 4, 3, 8, family=0),
        Option(2, 0, 0, 1, 3, 6, 9),
        Option(3, 0, 0, 1, 3, 12, 14, family=0),
        Option(4, 0, 0, 1, 4, 11, 13),
    ]
    bed = BedGround(7)
    packing = pack(bed, options)
    assert packing.starts is not None
    assert _packs(bed, options)
    assert pack(bed, options, trials=0) in (packing, (None, False))


def test_a_smallest_set_that_does_not_pack_packs_without_any_of_its_members() -> None:
    found = 0
    for seed in range(300):
        bed, options = _bed(Random(seed))
        if pack(bed, options).starts is None:
            small = [options[number] for number in smallest_unpackable(bed, options)]
            assert not _packs(bed, small)
            for fewer in combinations(small, len(small) - 1):
                assert _packs(bed, list(fewer))
            found += len(small) > 1
    assert found > 30


def test_free_runs_and_starts_are_those_of_each_step_tried() -> None:
    for seed in range(200):
        bed, options = _bed(Random(seed))
        for option in options:
            mine = option._replace(wish=0)
            puzzle = Puzzle((bed,), (0,), (mine,))
            starts = {mine[0][1] for _, mine in places_beside(puzzle, (), 0)}
            allowed = {at for first, last in allowed_starts(bed, option) for at in range(first, last + 1)}
            assert allowed == starts
            assert (longest_run(bed, option) >= option.length) == bool(starts)


def test_the_first_gap_is_the_first_of_all() -> None:
    assert first_gap([(4, 6), (0, 2)], 2, 9) == 2
    assert first_gap([(4, 6), (0, 2), (1, 5)], 3, 9) == 6
    assert first_gap([(4, 6)], 5, 9) is None
    assert first_gap([], 0, 0) == 0
