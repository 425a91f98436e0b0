"""Labels placed where they are asked for lie where they would, were all of the garden placed one after the other."""

from __future__ import annotations

import random

import pytest
from effort import tries
from PySide6.QtCore import QRectF

from planner.desk.canvas.labels import KINDS, Label, LabelGroup, LabelPlaces


def one_after_the_other(groups: list[LabelGroup]) -> list[tuple[Label, QRectF]]:
    """All labels placed the slow way: the most needed first, each against all placed before it."""
    beds = [group.drawn.adjusted(1, 1, -1, -1) for group in groups if group.drawn is not None]
    placed: list[tuple[Label, QRectF]] = []
    for kind in KINDS:
        for label in (one for group in groups for one in group.labels if one.kind == kind):
            if any(one.key == label.key and one.kind == kind for one, _ in placed):
                continue
            taken = [rect for _, rect in placed]
            outside = (r for r in label.outside if not any(map(r.intersects, (*taken, *beds))))
            inside = (r for r in label.inside if not any(map(r.intersects, taken)))
            place = next((*outside, *inside).__iter__(), None)
            if place is not None:
                placed.append((label, place))
    return placed


def some_groups(chance: random.Random, count: int, crowded: float) -> list[LabelGroup]:
    """Beds with labels about them, the more in each other's way the more crowded."""
    side = 900 / crowded

    def rect(x: float, y: float) -> QRectF:
        return QRectF(x + chance.uniform(-90, 90), y + chance.uniform(-30, 30), chance.uniform(8, 120), 14)

    groups = []
    for number in range(count):
        x, y = chance.uniform(0, side), chance.uniform(0, side)
        labels: list[Label] = []
        for kind in chance.choices(KINDS, k=chance.randint(0, 5)):
            outside = tuple(rect(x, y) for _ in range(chance.randint(0, 3)))
            inside = tuple(rect(x, y) for _ in range(chance.randint(0, 1)))
            key = f"{kind}{number}.{chance.randint(0, 1)}"
            labels.append(Label(key, str(len(labels)), kind, outside, inside))
        drawn = QRectF(x, y, chance.uniform(20, 150), 20) if chance.random() < 0.7 else None
        groups.append(LabelGroup(tuple(labels), drawn))
    return groups


@pytest.mark.parametrize("seed", range(30))
def test_labels_lie_where_all_of_them_would_be_placed(seed: int) -> None:
    chance = random.Random(seed)
    groups = some_groups(chance, 60, chance.choice([0.3, 1.0, 2.0]))
    slow = one_after_the_other(groups)
    assert LabelPlaces(groups).every() == slow
    assert LabelPlaces(groups).right_end == max(rect.right() for _, rect in slow)
    seen = LabelPlaces(groups)
    for _ in range(6):  # as a window moves over them
        area = QRectF(chance.uniform(-100, 900), chance.uniform(-100, 900), 300, 200)
        assert seen.within(area) == [(label, rect) for label, rect in slow if rect.intersects(area)]
    assert 0 < len(slow) < sum(len(group.labels) for group in groups)


@pytest.mark.parametrize("seed", range(tries(10, 30)))
def test_labels_that_followed_changes_lie_where_all_of_them_would_be_placed(seed: int) -> None:
    chance = random.Random(seed)
    crowded = chance.choice([0.3, 1.0, 2.0])
    groups = some_groups(chance, 60, crowded)
    followed = LabelPlaces(groups)
    for _ in range(12):
        area = QRectF(chance.uniform(-100, 900), chance.uniform(-100, 900), 300, 200)
        followed.within(area)
        new = some_groups(chance, 60, crowded)
        for number in chance.sample(range(60), chance.randint(0, 4)):
            groups[number] = new[number]
        assert followed.follow(groups)
        slow = one_after_the_other(groups)
        assert followed.within(area) == [(label, rect) for label, rect in slow if rect.intersects(area)]
        if chance.random() < 0.3:
            assert followed.every() == slow


def test_a_change_of_most_labels_is_not_followed() -> None:
    chance = random.Random(4)
    places = LabelPlaces(some_groups(chance, 60, 1.0))
    assert not places.follow(some_groups(chance, 60, 1.0))
    assert not places.follow(some_groups(chance, 61, 1.0))


def test_only_what_is_asked_for_is_placed() -> None:
    groups = [
        LabelGroup(
            (Label(f"b{n}", "bed", "bed", (QRectF(0, 40 * n, 80, 14),)),), QRectF(0, 40 * n + 16, 90, 20)
        )
        for n in range(500)
    ]
    places = LabelPlaces(groups)
    assert len(places.within(QRectF(0, 4000, 100, 400))) == 10
    assert len(places._placed) < 20


def test_a_long_chain_of_labels_in_each_others_way_is_placed() -> None:
    groups = [LabelGroup((Label(f"b{n}", "bed", "bed", (QRectF(0, 4 * n, 80, 14),)),)) for n in range(3_000)]
    places = LabelPlaces(groups)
    assert places.within(QRectF(0, 11_900, 10, 10)) == [
        (label, rect)
        for label, rect in LabelPlaces(groups).every()
        if rect.intersects(QRectF(0, 11_900, 10, 10))
    ]


def test_no_labels_have_no_right_end() -> None:
    assert LabelPlaces([]).right_end == -float("inf")
    assert LabelPlaces([]).every() == []
