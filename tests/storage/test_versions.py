"""Earlier versions of a file: which are kept, and that they are the same."""

from __future__ import annotations

import datetime as dt
import random
from pathlib import Path

import pytest

from planner import storage
from planner.garden import Bed, Garden, Rectangle
from planner.storage import versions as v
from planner.storage.versions import Version, Versions, to_keep

NOON = dt.datetime(2026, 6, 15, 12, tzinfo=dt.UTC)


def garden(number: int) -> Garden:
    return Garden(beds=(Bed(id="b1", name=f"Bed {number}", outline=Rectangle(length=2, width=1)),))


def content(number: int) -> bytes:
    return storage.dump(garden(number)).encode()


@pytest.fixture
def kept(tmp_path) -> Versions:
    return Versions(tmp_path / "plot.bedwright", tmp_path / "own")


def test_what_was_kept_is_read_again_the_newest_first(kept):
    for number in range(3):
        assert kept.keep(content(number), NOON + dt.timedelta(minutes=number))
    assert [version.read() for version in kept.all()] == [garden(2), garden(1), garden(0)]
    assert [version.saved.minute for version in kept.all()] == [2, 1, 0]


def test_the_same_again_is_kept_once(kept):
    kept.keep(content(1), NOON)
    kept.keep(content(1), NOON + dt.timedelta(minutes=1))
    assert len(kept.all()) == 1


def test_versions_are_found_by_their_content(kept):
    kept.keep(content(1), NOON)
    kept.keep(content(2), NOON + dt.timedelta(minutes=1))
    old = kept.all()[1]
    assert kept.with_digest(old.digest) == old
    assert kept.with_digest("0" * 64) is None


def test_each_file_has_versions_of_its_own(tmp_path):
    one, other = (Versions(tmp_path / name, tmp_path / "own") for name in ("a.bedwright", "b.bedwright"))
    one.keep(content(1), NOON)
    assert other.all() == ()


def test_a_full_disk_is_no_error(kept, monkeypatch):
    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(v, "write_whole", full)
    assert not kept.keep(content(1), NOON)
    assert kept.all() == ()


def test_strange_files_among_them_are_left_alone(kept):
    kept.keep(content(1), NOON)
    (kept.folder / "readme.txt").write_text("mine")
    for number in range(30):
        kept.keep(content(number), NOON + dt.timedelta(minutes=number))
    assert (kept.folder / "readme.txt").exists()


def _made(times: list[dt.datetime], size: int = 1000) -> list[Version]:
    return [Version(Path(f"v{n}"), when, f"{n:064x}", size) for n, when in enumerate(times)]


@pytest.mark.parametrize("seed", range(30))
def test_the_last_ten_and_one_a_day_for_a_month_stay(seed):
    """Brute force: each version is judged by itself, from the rule's words."""
    rng = random.Random(seed)
    times = sorted(
        {
            NOON - dt.timedelta(minutes=rng.randint(0, 60 * 24 * rng.choice((1, 40))))
            for _ in range(rng.randint(1, 120))
        }
    )
    made = _made(times)
    stay = set(to_keep(made, NOON))
    for version in made:
        newer = [other for other in made if other.saved > version.saved]
        same_day = [o for o in newer if o.saved.astimezone().date() == version.saved.astimezone().date()]
        wanted = len(newer) < 10 or (not same_day and NOON - version.saved < dt.timedelta(days=31))
        assert (version in stay) == wanted


def test_the_size_is_limited_and_the_newest_always_stays():
    big = _made([NOON - dt.timedelta(minutes=n) for n in range(5)], v.MOST_BYTES // 2)
    assert to_keep(big, NOON) == tuple(big[:2])
    huge = _made([NOON], v.MOST_BYTES * 2)
    assert to_keep(huge, NOON) == tuple(huge)
