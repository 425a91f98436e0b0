"""Photographs beside the garden file; their times are held against exifread, a reader that is not Pillow's."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import os
import random
import struct
import zlib
from pathlib import Path

import exifread
import pytest
from PIL import Image

from planner.garden.records import Photograph
from planner.storage import photographs
from planner.storage.photographs import PhotographError, PhotographFinder, refer_to, thumbnail, time_taken

TAKEN = "2026:06:09 17:45:12"


def shoot(
    path: Path, size: tuple[int, int] = (60, 40), taken: str = TAKEN, turn: int = 1, ink: int = 90
) -> Path:
    """Write a JPEG with a red top edge, with the times a camera writes."""
    picture = Image.new("RGB", size, (ink, 140, 60))
    picture.paste((220, 20, 20), (0, 0, size[0], size[1] // 4))
    exif = Image.Exif()
    exif[0x0112] = turn
    exif[0x0132] = "2027:01:01 00:00:00"  # when a program saved it last: not the time it was taken
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken
    path.parent.mkdir(parents=True, exist_ok=True)
    picture.save(path, exif=exif, quality=90)
    return path


def test_the_time_is_the_one_another_reader_finds(tmp_path: Path) -> None:
    path = shoot(tmp_path / "a.jpg")
    with path.open("rb") as file:
        other = str(exifread.process_file(file)["EXIF DateTimeOriginal"])
    assert other == TAKEN
    assert time_taken(path) == dt.datetime.strptime(other, "%Y:%m:%d %H:%M:%S")


@pytest.mark.parametrize("taken", ["0000:00:00 00:00:00", "    :  :     :  :  ", "yesterday"])
def test_a_time_that_is_none_gives_way_to_the_next(tmp_path: Path, taken: str) -> None:
    assert time_taken(shoot(tmp_path / "a.jpg", taken=taken)) == dt.datetime(2027, 1, 1)


def test_a_picture_without_times_has_none(tmp_path: Path) -> None:
    Image.new("RGB", (4, 4)).save(tmp_path / "a.png")
    assert time_taken(tmp_path / "a.png") is None


def test_a_reference_is_relative_and_by_content(tmp_path: Path) -> None:
    path = shoot(tmp_path / "pictures" / "June 9" / "möhre.jpg")
    found = refer_to(tmp_path / "garden.bedwright", path)
    assert found.path == "pictures/June 9/möhre.jpg"
    assert found.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert found.taken == dt.datetime(2026, 6, 9, 17, 45, 12)


def test_a_file_elsewhere_is_refused_with_what_to_do(tmp_path: Path) -> None:
    path = shoot(tmp_path / "elsewhere" / "a.jpg")
    with pytest.raises(PhotographError, match="Move it beside the garden"):
        refer_to(tmp_path / "here" / "garden.bedwright", path)


def test_a_reference_that_leaves_the_folder_opens_nothing(tmp_path: Path) -> None:
    path = shoot(tmp_path / "secret.jpg")
    reference = Photograph(path="../secret.jpg", sha256=hashlib.sha256(path.read_bytes()).hexdigest())
    found, why = PhotographFinder(tmp_path / "here" / "garden.bedwright").find(reference)
    assert found is None
    assert "missing" in why


def test_a_moved_or_renamed_file_is_found_by_its_content(tmp_path: Path) -> None:
    garden = tmp_path / "garden.bedwright"
    reference = refer_to(garden, shoot(tmp_path / "a.jpg"))
    shoot(tmp_path / "b.jpg", ink=10)
    new = tmp_path / "2026" / "June" / "renamed.JPG"
    new.parent.mkdir(parents=True)
    (tmp_path / "a.jpg").rename(new)
    assert PhotographFinder(garden).find(reference) == (new, "a.jpg was moved")
    shoot(tmp_path / "a.jpg", ink=200)  # another picture that has its old name
    assert PhotographFinder(garden).find(reference)[0] == new


def test_what_is_missing_or_changed_is_said(tmp_path: Path) -> None:
    garden = tmp_path / "garden.bedwright"
    reference = refer_to(garden, shoot(tmp_path / "a.jpg"))
    shoot(tmp_path / "a.jpg", ink=200)
    found, why = PhotographFinder(garden).find(reference)
    assert found == tmp_path / "a.jpg"
    assert "changed" in why
    (tmp_path / "a.jpg").unlink()
    found, why = PhotographFinder(garden).find(reference)
    assert found is None
    assert "a.jpg is missing" in why


def test_a_search_ends_at_its_limit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photographs, "MOST_FILES", 2)
    for number in range(4):
        shoot(tmp_path / f"{number}.jpg", ink=number)
    reference = Photograph(path="gone.jpg", sha256="0" * 64)
    found, why = PhotographFinder(tmp_path / "garden.bedwright").find(reference)
    assert found is None
    assert "first 2 pictures" in why


def test_thumbnails_stand_upright_and_nothing_is_changed(tmp_path: Path) -> None:
    path = shoot(
        tmp_path / "a.jpg", size=(400, 200), turn=6
    )  # to be turned to the right: its top edge goes right
    before, state = path.read_bytes(), path.stat()
    made = thumbnail(path, "f" * 64, 100, tmp_path / "cache")
    with Image.open(made) as small:
        assert small.size == (50, 100)
        right, left = small.getpixel((47, 50)), small.getpixel((3, 50))
    assert right[0] > 150 > right[1]
    assert left[1] > left[0]
    assert path.read_bytes() == before
    assert path.stat().st_mtime_ns == state.st_mtime_ns
    assert sorted(os.listdir(tmp_path)) == ["a.jpg", "cache"]
    assert thumbnail(path, "f" * 64, 100, tmp_path / "cache") == made


def _png_head(width: int, height: int) -> bytes:
    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0"))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "TIFF", "GIF", "BMP"])
def test_broken_files_raise_nothing_but_a_line(tmp_path: Path, kind: str) -> None:
    rng, path = random.Random(7), tmp_path / "a.jpg"
    picture = Image.effect_noise((40, 30), 60).convert("RGB")
    picture.save(path, kind)
    whole = path.read_bytes()
    for _ in range(60):
        broken = bytearray(whole)
        for _ in range(rng.randint(1, 6)):
            broken[rng.randrange(min(len(broken), 400))] = rng.randrange(256)
        path.write_bytes(broken[: rng.randint(10, len(broken))])
        for read in (
            time_taken,
            lambda at: thumbnail(at, f"{rng.getrandbits(200):x}", 20, tmp_path / "cache"),
        ):
            with contextlib.suppress(PhotographError):
                read(path)


@pytest.mark.parametrize("size", [(15_000, 14_000), (60_000, 60_000), (2**31 - 1, 2**31 - 1)])
def test_too_many_pixels_are_refused_before_they_are_decoded(tmp_path: Path, size: tuple[int, int]) -> None:
    (tmp_path / "a.png").write_bytes(_png_head(*size))
    with pytest.raises(PhotographError, match="200 million pixels"):
        time_taken(tmp_path / "a.png")


def test_too_large_a_file_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = shoot(tmp_path / "a.jpg")
    monkeypatch.setattr(photographs, "MOST_BYTES", 100)
    with pytest.raises(PhotographError, match="larger than"):
        refer_to(tmp_path / "garden.bedwright", path)
    with pytest.raises(PhotographError, match="larger than"):
        photographs.file_digest(path)


def test_what_is_no_picture_is_refused_in_a_line(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_text("%!PS-Adobe: no picture")
    os.mkfifo(tmp_path / "b.jpg")
    (tmp_path / "c.jpg").mkdir()
    whole = shoot(tmp_path / "d.jpg", size=(300, 300)).read_bytes()
    (tmp_path / "d.jpg").write_bytes(whole[: len(whole) // 2])
    for name in ("a.jpg", "b.jpg", "c.jpg", "d.jpg", "gone.jpg"):
        with pytest.raises(PhotographError) as fault:
            thumbnail(tmp_path / name, "e" * 64, 50, tmp_path / "cache")
        assert "\n" not in str(fault.value)
        assert fault.value.fix
