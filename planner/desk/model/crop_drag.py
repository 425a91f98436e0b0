"""A crop on its way from the list to the sheet: the data of the drag."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QMimeData

from planner.crops import Catalogue, Crop

#: Drag data of crops in their order: a line for each, its key, a tabulator, the variety.
CROP_MIME = "application/x-bedwright-crop"


def put_crops(data: QMimeData, crops: Sequence[tuple[Crop, str]]) -> None:
    """Write crops and their varieties into the data of a drag."""
    lines = "\n".join(f"{crop.key}\t{variety}" for crop, variety in crops)
    data.setData(CROP_MIME, lines.encode())


def dragged_crops(data: QMimeData, catalogue: Catalogue) -> tuple[tuple[Crop, str], ...]:
    """Crops and varieties of a drag, in the order in which they were chosen; none where something else is dragged."""
    if not data.hasFormat(CROP_MIME):
        return ()
    found = []
    for line in bytes(data.data(CROP_MIME).data()).decode().split("\n"):
        key, _, variety = line.partition("\t")
        crop = catalogue.get(key)
        if crop is not None:
            found.append((crop, variety))
    return tuple(found)
