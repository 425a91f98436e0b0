"""What a window keeps is bounded, however long one works in it: objects are counted, not time or bytes."""

from __future__ import annotations

import gc
import threading
import weakref

from hand import FakePrompts, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QEvent

from planner.checks import check_all
from planner.desk.main_window.window import Window
from planner.desk.model import document as documents
from planner.desk.model import garbage
from planner.desk.model.document import Document
from planner.desk.model.garbage import WindowThreadCollector, collect_all
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.cache import HISTORY, IDLE_EDITS

#: More than are worked out for a planting without its findings.
FACTS_OF_A_PLANTING = 12


def _entries(plan: Plan) -> int:
    return sum(len(slot.entries) for slot in plan.cache._slots.values())


def _start() -> Garden:
    beds = [bed(f"b{n}", rectangle(center=(0, 2 * n))) for n in range(3)]
    return garden(*beds, *(planting(f"p{n}", f"b{n}") for n in range(3)), site={"latitude": 52.0})


def test_facts_of_things_that_are_gone_are_dropped():
    """Each planting here lives for one edit; its facts stay no longer than those of the last few hundred edits."""
    plan = Plan(_start(), 2026)
    check_all(plan, light=False)
    first, most = len(plan.cache), 0
    base = _start()
    for number in range(3 * IDLE_EDITS):
        passing = planting(f"q{number}", "b0", first="2026-05-01")
        plan = plan.after(base.with_(plantings=(*base.plantings, passing)))
        plan.placed(passing)
        plan.dates(passing)
        most = max(most, len(plan.cache))
    assert _entries(plan) <= HISTORY * len(plan.cache)
    assert first < most <= first + 2 * IDLE_EDITS * FACTS_OF_A_PLANTING
    for _ in range(2 * IDLE_EDITS):
        plan = plan.after(base)
    check_all(plan, light=False)
    assert len(plan.cache) <= first + FACTS_OF_A_PLANTING


def test_a_plan_goes_with_the_edit_after_it(qapp):
    document = Document(_start())
    document.show_year(2026)
    seen = []
    for number in range(30):
        check_all(document.plan, light=False)
        seen.append(weakref.ref(document.plan))
        document.edit("Rename", lambda g, number=number: e.change_bed(g, "b0", name=f"Bed {number}"))
        qapp.processEvents()
    collect_all()
    assert sum(one() is not None for one in seen) <= 2


def test_the_oldest_steps_go(qapp, monkeypatch):
    monkeypatch.setattr(documents, "MOST_STEPS", 20)
    document = Document(_start())
    seen = []
    for number in range(60):
        seen.append(weakref.ref(document.garden))
        document.edit("Rename", lambda g, number=number: e.change_bed(g, "b0", name=f"Bed {number}"))
    collect_all()
    assert document.undo_stack.count() == 20
    assert sum(one() is not None for one in seen) <= 22


def test_a_window_that_is_closed_ends_its_history(settings, qapp):
    window = Window(settings, FakePrompts(), Document(_start()))
    window.show()
    hand = Hand(window)
    steps = []
    for number in range(5):
        steps.append(weakref.ref(hand.garden))
        hand.document.edit("Rename", lambda g, number=number: e.change_bed(g, "b0", name=f"Bed {number}"))
        qapp.processEvents()
    assert all(step() is not None for step in steps)
    window.prompts.answers["leave"] = "leave"
    window.close()
    window.deleteLater()
    del hand, window
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    qapp.processEvents()
    collect_all()
    assert [step() for step in steps] == [None] * 5


def test_garbage_is_collected_in_the_thread_of_the_window(qapp):
    """Qt objects that only refer to each other ended the program when another thread collected them."""
    assert not gc.isenabled()
    document = Document(_start())
    document.edit("Rename", lambda g: e.change_bed(g, "b0", name="New"))
    document.end()
    document.itself = document
    gone = weakref.ref(document)
    del document
    thread = threading.Thread(target=lambda: [[{}] for _ in range(200_000)])
    thread.start()
    thread.join()
    assert gone() is not None
    collect_all()
    assert gone() is None


class Knot:
    """What only the garbage collector removes."""

    def __init__(self) -> None:
        self.itself = self


def test_what_a_garden_is_made_of_is_set_aside_and_looked_through_when_nothing_goes_on(qapp, monkeypatch):
    monkeypatch.setattr(garbage, "MANY", 20_000)
    monkeypatch.setattr(garbage, "WORTH", 10_000)
    collector = WindowThreadCollector()
    collector._timer.stop()
    collect_all()
    knot = Knot()
    gone = weakref.ref(knot)
    opened = [[] for _ in range(30_000)]
    collector.collect()
    assert gc.get_freeze_count() > 30_000
    del knot
    garbage.note_work()
    for _ in range(3):
        collector.collect()
    assert gone() is not None, "something goes on"
    monkeypatch.setattr(garbage, "QUIET", 0.0)
    collector.collect()
    assert gone() is None
    assert len(opened) == 30_000
    collect_all()


def test_garbage_among_new_objects_is_collected_soon(qapp):
    collector = WindowThreadCollector()
    collector._timer.stop()
    collect_all()
    gone = weakref.ref(Knot())
    kept = [[] for _ in range(1_000)]
    collector.collect()
    assert gone() is None
    assert len(kept) == 1_000
