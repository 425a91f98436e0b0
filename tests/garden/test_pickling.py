"""A garden that is sent to another process while the window works out more of it."""

from __future__ import annotations

import pickle
import threading

from planner.plan import Plan
from planner.resources import sample_folder
from planner.storage import load


def test_a_garden_is_sent_without_what_was_worked_out_of_it() -> None:
    garden = load(sample_folder() / "balcony_boxes.bedwright")
    plain = pickle.dumps(garden)
    plan = Plan(garden, garden.years()[-1])
    for planting in plan.plantings:
        plan.dates(planting)
    assert garden.plantings_by_id
    assert len(pickle.dumps(garden)) == len(plain)
    there = pickle.loads(plain)
    assert there == garden
    assert there.plantings_by_id.keys() == garden.plantings_by_id.keys()


def test_a_garden_may_be_looked_at_while_it_is_sent() -> None:
    """Each thread makes values of its own appear in the garden that the others send."""
    garden = load(sample_folder() / "hollow_lane.bedwright")
    faults: list[BaseException] = []

    def send() -> None:
        try:
            for _ in range(3):
                pickle.dumps(garden)
        except BaseException as fault:
            faults.append(fault)

    threads = [threading.Thread(target=send) for _ in range(2)]
    for thread in threads:
        thread.start()
    for number in range(20_000):
        garden.__dict__[f"worked out {number}"] = number
    for thread in threads:
        thread.join()
    assert faults == []
