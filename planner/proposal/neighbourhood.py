"""One round of the search: which wishes of which beds are laid anew, by CP-SAT, all else staying as it is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from random import Random
from typing import NamedTuple

from planner.proposal.board import Board
from planner.proposal.layout_model import Cut, Free, LayoutModel
from planner.proposal.packing import pack, smallest_unpackable
from planner.proposal.puzzle import Choice
from planner.proposal.puzzle_index import PuzzleIndex

#: How often a model is solved again after what it found could not be packed.
TRIES = 4
#: Of the wishes of a round so many may be unmet ones.
UNMET_SHARE = 0.35
#: In gardens of fewer beds nothing else is changed while a model is solved.
FEW_BEDS = 12


class Task(NamedTuple):
    """What one model of a round may change, and how it is now."""

    free: Free
    now: tuple[int, ...]
    seed: int


class Outcome(NamedTuple):
    """What a model found.

    Attributes
    ----------
    choices : tuple of Choice or None
        New places of the free wishes and of what stays in their beds; None where it found none that packs.
    optimal : bool
        Whether nothing cheaper is there among what was free.
    cuts : tuple of (int, frozenset of int)
        Beds and what was found not to pack there.
    """

    choices: tuple[Choice, ...] | None
    optimal: bool
    cuts: tuple[tuple[int, Cut], ...]


def coupled_wishes(index: PuzzleIndex) -> frozenset[int]:
    """Wishes that use what there is only so much of, or that choices of other wishes forbid wherever they are.

    Of two parts of a garden that are changed side by side only one may change these.

    Parameters
    ----------
    index : PuzzleIndex
    """
    puzzle = index.puzzle
    found = {
        option.wish
        for option in puzzle.options
        if any(use.resource < len(puzzle.limits) for use in option.uses)
    }
    return frozenset(found | {wish for wish, _, _ in index.never_choices})


def task_among(
    board: Board, beds: Sequence[int], wishes: Sequence[int], size: int, chance: Random
) -> Task | None:
    """A task within some beds: a few of them, the wishes that lie in these alone, and some that are unmet.

    Parameters
    ----------
    board : Board
    beds : sequence of int
    wishes : sequence of int
        Those that it may change: unmet, or in these beds alone.
    size : int
        About so many wishes are free.
    chance : Random
    """
    index = board.index
    allowed = set(beds)
    ours = [wish for wish in wishes if wish in board.places]
    unmet = [wish for wish in wishes if wish not in board.places]
    chosen: dict[int, None] = {}  # an ordered set
    for wish in _worth_a_try(board, ours, unmet, chance):
        if len(chosen) * 1.5 >= size:
            break
        for bed in (*board.places.get(wish, ()), *_cheap_beds(index, wish, allowed, chance)):
            chosen[bed] = None
    for bed in beds:
        if len(chosen) >= size:
            break
        chosen[bed] = None
    free = [wish for wish in ours if all(bed in chosen for bed in board.places[wish])]
    chance.shuffle(free)
    del free[size:]
    extra = [wish for wish in unmet if any(bed in chosen for bed in index.beds_of(wish))]
    chance.shuffle(extra)
    free += extra[: max(3, int(size * UNMET_SHARE))]
    options = tuple(number for wish in free for bed in chosen for number in index.options_in(wish, bed))
    if not options:
        return None
    return Task(_free(board, free, options), _now(board, free), chance.randrange(1 << 30))


def _worth_a_try(board: Board, ours: Sequence[int], unmet: Sequence[int], chance: Random) -> list[int]:
    """Wishes in a random order, those early that cost more than they would at their best."""
    index = board.index

    def key(wish: int) -> float:
        ways = index.ways[wish]
        if not ways:
            return -1.0
        now = board.cost_of_wish(wish) if wish in board.places else index.puzzle.unmet[wish]
        weight = 1.0 + min(4.0, max(0, now - ways[0].least) / 10)
        return float(chance.random() ** (1.0 / weight))

    keys = {wish: key(wish) for wish in (*ours, *unmet)}
    return sorted(keys, key=lambda wish: (-keys[wish], wish))[:6]


def _cheap_beds(index: PuzzleIndex, wish: int, allowed: set[int], chance: Random) -> list[int]:
    """Some of the beds in which a wish costs least."""
    found: dict[int, None] = {}
    for way in index.ways[wish][:1]:
        for number in way.options[:40]:
            bed = index.puzzle.options[number].bed
            if bed in allowed and chance.random() < 0.6:
                found[bed] = None
            if len(found) >= 4:
                break
    return list(found)


def _now(board: Board, wishes: Sequence[int]) -> tuple[int, ...]:
    free = set(wishes)
    beds = sorted({bed for wish in wishes for bed in board.places.get(wish, ())})
    return tuple(piece.option for bed in beds for piece in board.beds[bed] if piece.wish in free)


def _free(board: Board, wishes: Sequence[int], options: tuple[int, ...]) -> Free:
    mine = set(wishes)
    everything = board.puzzle.options
    fixed = {
        bed: [Choice(piece.option, piece.start) for piece in board.beds[bed] if piece.wish not in mine]
        for bed in sorted({everything[number].bed for number in options})
    }
    rest = [everything[piece.option] for pieces in board.beds for piece in pieces if piece.wish not in mine]
    made = frozenset((one.wish, one.bed, one.way) for one in rest) if board.puzzle.nevers else frozenset()
    limits: list[dict[int, int]] = []
    for resource, limit in enumerate(board.puzzle.limits):
        changes: dict[int, int] = defaultdict(int)
        for option in rest:
            for use in option.uses:
                if use.resource == resource:
                    changes[use.first] -= use.amount
                    changes[use.last + 1] += use.amount
        left, steps = limit, {}
        for day in sorted(changes):
            left += changes[day]
            steps[day] = left
        limits.append(steps)
    return Free(tuple(wishes), options, fixed, made, limits)


def solve_task(
    board: Board, task: Task, cuts: Mapping[int, Sequence[Cut]], placed: frozenset[int], effort: float
) -> Outcome:
    """Solve the model of a task and pack its beds.

    Parameters
    ----------
    board : Board
        Not changed.
    task : Task
    cuts : mapping of int to sequence of frozenset of int
    placed : frozenset of int
        Beds whose places are in the model.
    effort : float
        Deterministic time of CP-SAT.
    """
    puzzle = board.puzzle
    model = LayoutModel(puzzle, task.free, cuts, placed.__contains__)
    found: list[tuple[int, Cut]] = []
    for _ in range(TRIES):
        solved = model.solve(task.now, effort, task.seed)
        if solved.options is None:
            return Outcome(None, solved.optimal, tuple(found))
        if set(solved.options) == set(task.now):
            return Outcome(None, solved.optimal, tuple(found))
        choices, failed = pack_beds(board, task.free.fixed, solved.options)
        if not failed:
            return Outcome(choices, solved.optimal, tuple(found))
        for bed, cut in failed:
            model.forbid(cut)
            found.append((bed, cut))
    return Outcome(None, False, tuple(found))


def pack_beds(
    board: Board, fixed: Mapping[int, Sequence[Choice]], options: Sequence[int]
) -> tuple[tuple[Choice, ...], list[tuple[int, Cut]]]:
    """Places for options and for what stays in their beds; and what does not pack.

    Parameters
    ----------
    board : Board
        As it is: a bed in which nothing changes stays as it is.
    fixed : mapping of int to sequence of Choice
        For each bed what stays in it.
    options : sequence of int
    """
    puzzle = board.puzzle
    new: dict[int, list[int]] = {bed: [] for bed in fixed}
    for number in options:
        new[puzzle.options[number].bed].append(number)
    choices: list[Choice] = []
    failed: list[tuple[int, Cut]] = []
    for bed, mine in new.items():
        before = {piece.option: piece.start for piece in board.beds[bed]}
        numbers = sorted([*mine, *(choice.option for choice in fixed[bed])])
        if set(numbers) <= set(before):
            choices += [Choice(number, before[number]) for number in numbers]
            continue
        there = [puzzle.options[number] for number in numbers]
        packing = pack(puzzle.beds[bed], there)
        if packing.starts is not None:
            choices += [Choice(number, start) for number, start in zip(numbers, packing.starts, strict=True)]
            continue
        small = smallest_unpackable(puzzle.beds[bed], there) if packing.proven else range(len(numbers))
        failed.append((bed, frozenset(numbers[place] for place in small)))
    return tuple(choices), failed
