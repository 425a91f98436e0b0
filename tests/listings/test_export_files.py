"""An export replaces only an export of its own kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner import resources
from planner.listings.export_files import (
    CALENDAR,
    PDF,
    ExportError,
    ExportKind,
    check_export_target,
    table_kind,
    write_export,
)

TABLE = table_kind(("bed", "plants"))
GARDEN = (resources.sample_folder() / "balcony_boxes.bedwright").read_bytes()
OLDER = {
    PDF: (b"%PDF-1.4 old",),
    CALENDAR: (b"BEGIN:VCALENDAR\r\n", "\ufeffbegin:vcalendar\n".encode()),
    TABLE: (b"bed,plants\r\nWest,3\r\n", '\ufeff"bed";"plants"\n'.encode()),
}


@pytest.mark.parametrize("kind", OLDER, ids=lambda kind: kind.suffix)
def test_an_older_export_and_an_empty_file_are_replaced(kind: ExportKind, tmp_path: Path) -> None:
    target = tmp_path / f"year{kind.suffix.upper()}"
    for older in (*OLDER[kind], b"", b" \r\n"):
        target.write_bytes(older)
        write_export("new", target, kind)
        assert target.read_bytes() == b"new"


@pytest.mark.parametrize("kind", OLDER, ids=lambda kind: kind.suffix)
def test_anything_else_is_left_as_it_is(kind: ExportKind, tmp_path: Path) -> None:
    target = tmp_path / f"year{kind.suffix}"
    others = [older for other, all_of in OLDER.items() if other is not kind for older in all_of]
    for other in (*others, GARDEN, b"\x00\xff\xfe", b"Dear diary"):
        target.write_bytes(other)
        with pytest.raises(
            ExportError, match=r"year.*: there is a file of another kind.*Name another file\."
        ):
            write_export("new", target, kind)
        assert target.read_bytes() == other
    assert [path.name for path in tmp_path.iterdir()] == [target.name]


@pytest.mark.parametrize(
    ("name", "kind", "right"),
    [
        ("b.bedwright", PDF, r"A PDF has a name that ends with \.pdf\. Name it b\.pdf\."),
        ("b", CALENDAR, r"A calendar file .* \.ics\. Name it b\.ics\."),
        ("b.csv.txt", TABLE, r"A table .* \.csv\. Name it b\.csv\.csv\."),
    ],
)
def test_a_wrong_ending_is_refused_with_the_right_one(
    name: str, kind: ExportKind, right: str, tmp_path: Path
) -> None:
    with pytest.raises(ExportError, match=right):
        write_export("new", tmp_path / name, kind)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_told_by_the_system(tmp_path: Path) -> None:
    check_export_target(tmp_path, PDF)
    with pytest.raises(OSError, match="directory"):
        write_export("new", tmp_path, PDF)
