"""Rulers number the sheet in the garden's units, also when these change."""

from __future__ import annotations

from making import bed, garden, rectangle

from planner.desk.canvas.rulers import Ruler
from planner.garden import edits


def test_rulers_follow_the_units(open_hand, monkeypatch, qapp) -> None:
    hand = open_hand(garden(bed("b1", rectangle(), name="North")))
    written: list[bool] = []
    real = Ruler._number
    monkeypatch.setattr(
        Ruler,
        "_number",
        lambda self, painter, value, metric: written.append(metric) or real(self, painter, value, metric),
    )
    hand.document.edit("Units", lambda g: edits.change_site(g, units="feet_inches"))
    qapp.processEvents()
    assert written
    assert not any(written)
    written.clear()
    hand.document.edit("Name", lambda g: edits.change_site(g, name="Other"))
    qapp.processEvents()
    assert written == []  # nothing of the rulers has changed
