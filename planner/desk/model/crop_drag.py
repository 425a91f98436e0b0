"""A crop on its way from the list to the sheet: the data of the drag."""

from __future__ import annotations

from PySide6.QtCore import QMimeData

from planner.crops import Catalogue, Crop

#: Drag data of a crop: its key, a newline, the variety.
CROP_MIME = "application/x-bedwright-crop"


def put_crop(data: QMimeData, crop: Crop, variety: str) -> None:
    """Write a crop and its variety into the data of a drag."""
    data.setData(CROP_MIME, f"{crop.key}\n{variety}".encode())


def dragged_crop(data: QMimeData, catalogue: Catalogue) -> tuple[Crop, str] | None:
    """Crop and variety of a drag; None where something else is dragged."""
    if not data.hasFormat(CROP_MIME):
        return None
    key, _, variety = bytes(data.data(CROP_MIME).data()).decode().partition("\n")
    crop = catalogue.get(key)
    return (crop, variety) if crop is not None else None
