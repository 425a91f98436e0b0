"""Parsed files are kept under a digest of the files: a changed file is never met with old content."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.crops import catalogue as module
from planner.crops import load_catalogue, parsed_files
from planner.crops.parsed_files import digest_of, keep_tables, kept_tables


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shelf that is taken for the shipped one, with a folder of its own for what is kept."""
    folder = tmp_path / "resources"
    (folder / "crops").mkdir(parents=True)
    (folder / "sources.toml").write_text('[book]\ntitle = "A book"\n', encoding="utf-8")
    _write(folder, 0.3)
    monkeypatch.setattr(module.resources, "resource", lambda: folder)
    monkeypatch.setattr(parsed_files, "kept_folder", lambda: tmp_path / "kept")
    monkeypatch.setattr(parsed_files.sys, "dont_write_bytecode", False)
    module._load.cache_clear()
    yield folder
    module._load.cache_clear()


def _write(folder: Path, height: float) -> None:
    text = f"""family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
height = {{ value = {height}, source = "book" }}
"""
    (folder / "crops" / "apiaceae.toml").write_text(text, encoding="utf-8")


def _height() -> float | None:
    module._load.cache_clear()
    return load_catalogue().crops["carrot"].number("height")


def test_the_second_start_reads_what_the_first_kept(shelf: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert _height() == 0.3
    (kept,) = (shelf.parent / "kept").iterdir()
    monkeypatch.setattr(module, "parse_toml", lambda *_: pytest.fail("parsed again"))
    assert _height() == 0.3
    assert kept.exists()


def test_a_changed_file_is_read_anew_and_the_old_tables_go(shelf: Path) -> None:
    assert _height() == 0.3
    _write(shelf, 0.4)
    assert _height() == 0.4
    assert len(list((shelf.parent / "kept").iterdir())) == 1


@pytest.mark.parametrize(
    "content", [b"", b"nonsense", b"[1, 2]", b'{"sources.toml": 3, "apiaceae.toml": {}}', b"\xff\xfe"]
)
def test_damaged_tables_are_passed_over(shelf: Path, content: bytes) -> None:
    assert _height() == 0.3
    (kept,) = (shelf.parent / "kept").iterdir()
    kept.write_bytes(content)
    assert _height() == 0.3


def test_a_faulty_shelf_is_not_kept(shelf: Path) -> None:
    (shelf / "crops" / "apiaceae.toml").write_text(
        'family = "Apiaceae"\n[carrot]\nheight = { value = 1, source = "gone" }\n'
    )
    with pytest.raises(module.CatalogueError):
        _height()
    assert not (shelf.parent / "kept").exists()


def test_where_nothing_can_be_written_nothing_is_kept(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("no folder", encoding="utf-8")
    keep_tables("ab", {"a": {}}, blocked)
    assert kept_tables("ab", ["a"], blocked) is None


def test_names_count_as_content() -> None:
    assert digest_of({"a": b"1", "b": b"2"}) != digest_of({"a": b"2", "b": b"1"})
    assert digest_of({"a": b"12"}) != digest_of({"a1": b"2"})
