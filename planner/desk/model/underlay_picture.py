"""Reads the picture under the plan: PNG and JPEG, SVG, or one page of a PDF, within limits."""

from __future__ import annotations

import re
from pathlib import Path

from PySide6.QtCore import QByteArray, QRectF
from PySide6.QtGui import QImage, QPainter

from planner.plain_file import open_plain
from planner.storage.photographs import PhotographError, opened
from planner.storage.underlays import DOCUMENTS, DRAWINGS
from planner.words import say

#: Longest side of what is kept; larger pictures are read smaller, drawings and pages drawn so large. [pixels]
LONGEST, DRAWN = 6_000, 4_000
#: Larger drawings and documents are refused. [bytes]
MOST_BYTES = 60_000_000
#: A reference of a drawing to anything but itself.
_ELSEWHERE = re.compile(
    rb"""(?:href|src)\s*=\s*["'](?!#|data:)|url\(\s*["']?(?!#|data:)|<!ENTITY|@import""", re.IGNORECASE
)


def read_underlay(path: Path, page: int) -> QImage:
    """Read a picture; of a PDF one page.

    Parameters
    ----------
    path : Path
    page : int
        From 1 on.

    Raises
    ------
    PhotographError
        Where it cannot be read or is larger than the limits.
    """
    kind = path.suffix.casefold()
    if kind in DRAWINGS:
        return _drawing(path)
    if kind in DOCUMENTS:
        return _document(path, page)
    from PIL import ImageOps

    with opened(path) as picture:
        picture.draft("RGB", (LONGEST, LONGEST))  # a JPEG is decoded no larger than is needed
        picture.thumbnail((LONGEST, LONGEST))
        upright = ImageOps.exif_transpose(picture).convert("RGBA")
    data = upright.tobytes("raw", "RGBA")
    image = QImage(data, upright.width, upright.height, 4 * upright.width, QImage.Format.Format_RGBA8888)
    return image.convertToFormat(QImage.Format.Format_ARGB32_Premultiplied)


def _bytes_of(path: Path) -> bytes:
    try:
        with open_plain(path) as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise PhotographError(
            say("{file} cannot be read", file=path.name), str(path.parent), str(error)
        ) from None
    if len(data) > MOST_BYTES:
        raise PhotographError(
            say("{file} is too large", file=path.name),
            str(path.parent),
            say("Save it smaller than {most} MB", most=MOST_BYTES // 1_000_000),
        )
    return bytes(data)


def _drawing(path: Path) -> QImage:
    from PySide6.QtSvg import QSvgRenderer

    data = _bytes_of(path)
    if _ELSEWHERE.search(re.sub(rb"xmlns(:\w+)?\s*=", b"", data)):
        raise PhotographError(
            say("{file} takes parts from other files, which are not read", file=path.name),
            str(path.parent),
            say("Save it with its pictures inside"),
        )
    renderer = QSvgRenderer(QByteArray(data))
    size = renderer.viewBoxF().size() if renderer.isValid() else renderer.defaultSize().toSizeF()
    if not renderer.isValid() or size.isEmpty():
        raise _unreadable(path)
    factor = DRAWN / max(size.width(), size.height())
    image = QImage(
        max(round(size.width() * factor), 1),
        max(round(size.height() * factor), 1),
        QImage.Format.Format_ARGB32_Premultiplied,
    )
    image.fill(0)
    painter = QPainter(image)
    renderer.render(painter, QRectF(image.rect()))
    painter.end()
    return image


def _document(path: Path, page: int) -> QImage:
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(_bytes_of(path))
    except pypdfium2.PdfiumError:
        raise _unreadable(path) from None
    try:
        if page > len(document):
            raise PhotographError(
                say("{file} has no page {page}", file=path.name, page=page),
                str(path.parent),
                say("Choose a page from 1 to {last}", last=len(document)),
            )
        shown = document[page - 1]
        array = shown.render(scale=DRAWN / max(*shown.get_size(), 1.0)).to_numpy()
        wide, high = array.shape[1], array.shape[0]
        image = QImage(array.data, wide, high, array.strides[0], QImage.Format.Format_BGR888)
        return image.convertToFormat(QImage.Format.Format_ARGB32_Premultiplied)
    except pypdfium2.PdfiumError:
        raise _unreadable(path) from None
    finally:
        document.close()


def _unreadable(path: Path) -> PhotographError:
    return PhotographError(
        say("{file} is damaged and cannot be read", file=path.name), str(path.parent), say("Copy it anew")
    )
