"""An export replaces only an export of its own kind."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from planner import resources
from planner.listings.export_files import (
    CALENDAR,
    PDF,
    WORKBOOK,
    ExportError,
    ExportKind,
    export_target,
    table_kind,
    write_export,
)
from planner.listings.workbook import workbook_bytes

BOOK = workbook_bytes([{"bed": "West", "plants": 3}], ("bed", "plants"), "plants")
TABLE = table_kind(("bed", "plants"))
GARDEN = (resources.sample_folder() / "balcony_boxes.bedwright").read_bytes()
OLDER = {
    PDF: (b"%PDF-1.4 old",),
    WORKBOOK: (BOOK, workbook_bytes([], ("what", "by"), "shopping")),
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
    for other in (*others, GARDEN, b"\x00\xff\xfe", b"Dear diary", b"bed,notes\nWest,sunny\n"):
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
        ("b", WORKBOOK, r"A workbook .* \.xlsx\. Name it b\.xlsx\."),
        ("b.csv.txt", TABLE, r"A table .* \.csv\. Name it b\.csv\.csv\."),
    ],
)
def test_a_wrong_ending_is_refused_with_the_right_one(
    name: str, kind: ExportKind, right: str, tmp_path: Path
) -> None:
    with pytest.raises(ExportError, match=right):
        write_export("new", tmp_path / name, kind)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "year.pdf").mkdir()
    for folder in (tmp_path, tmp_path / "year.pdf"):
        with pytest.raises(ExportError, match=r"is a folder\. Name a file in it\."):
            write_export("new", folder, PDF)
    with pytest.raises(ExportError, match=r"cannot be written: .*null.*Name another file or folder\."):
        export_target("a\0b.pdf", PDF)


posix = pytest.mark.skipif(os.name != "posix", reason="pipes, devices and links as POSIX has them")


@posix
def test_pipes_and_devices_are_refused_at_once(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "year.pdf")
    (tmp_path / "link.pdf").symlink_to(tmp_path / "year.pdf")
    for name in ("year.pdf", "link.pdf"):
        with pytest.raises(ExportError, match=r"is a pipe, .*Name another file\."):
            write_export("new", tmp_path / name, PDF)
    with pytest.raises(ExportError, match=r"/dev/null: is a device, .*Name another file\."):
        write_export("new", "/dev/null", PDF)


@posix
def test_a_link_stays_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "2027.pdf", tmp_path / "latest.pdf"
    link.symlink_to(target.name)
    for content in ("%PDF-1", "%PDF-2"):  # to nothing at first, then to an older export
        write_export(content, link, PDF)
        assert link.is_symlink()
        assert target.read_text() == content


@posix
def test_what_a_link_leads_to_is_no_other_kind_of_file(tmp_path: Path) -> None:
    link, garden, empty = tmp_path / "a.pdf", tmp_path / "plot.bedwright", tmp_path / "diary.txt"
    garden.write_bytes(GARDEN)
    empty.touch()
    for other in (garden, empty, tmp_path / "new.txt"):
        link.unlink(missing_ok=True)
        link.symlink_to(other)
        with pytest.raises(
            ExportError, match=r"a\.pdf: A PDF has .* It is a link to .*; name another file\."
        ):
            write_export("new", link, PDF)
    assert garden.read_bytes() == GARDEN
    link.unlink()
    link.symlink_to(link)
    with pytest.raises(ExportError, match=r"a\.pdf: cannot be written: .*Name another file or folder\."):
        write_export("new", link, PDF)
    assert link.is_symlink()


def test_a_protected_file_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "year.pdf"
    target.write_bytes(b"%PDF-old")
    monkeypatch.setattr(os, "access", lambda path, mode: False)  # root may write whatever the permissions say
    with pytest.raises(
        ExportError, match=r"is write-protected\. Allow writing to it, or name another file\."
    ):
        write_export("new", target, PDF)
    assert target.read_bytes() == b"%PDF-old"
