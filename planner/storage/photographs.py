"""Photographs beside the garden file: found by their path or by their content, read within limits, never changed."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import io
import os
import struct
import time
import warnings
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from planner.atomic_write import write_whole
from planner.errors import BedwrightError
from planner.garden.records import Photograph
from planner.plain_file import open_plain
from planner.words import number_words, say

if TYPE_CHECKING:
    from PIL.Image import Image as Picture

#: Larger files are refused. [bytes]
MOST_BYTES = 60_000_000
#: Pictures with more pixels are refused before they are decoded.
MOST_PIXELS = 200_000_000
#: A search by content looks at so many files, and for so long. [s]
MOST_FILES, MOST_SECONDS = 20_000, 20.0
#: What pictures there are is asked of the folder again after this time. [s]
LISTED_FOR = 30.0
#: So many thumbnails are kept; the oldest go first.
MOST_THUMBNAILS = 5_000
#: Formats that are read; nothing else that Pillow knows is tried on a file.
FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "GIF", "BMP")
SUFFIXES = frozenset((".jpg", ".jpeg", ".jpe", ".png", ".webp", ".tif", ".tiff", ".gif", ".bmp"))
_CHUNK = 1 << 20
#: Tags of EXIF: the part with the camera's times, and the times, best first.
_EXIF_PART, _TIMES, _PLAIN_TIME = 0x8769, (0x9003, 0x9004), 0x0132
#: What Pillow's readers raise on files that are damaged or were made to break them, besides OSError.
_DAMAGED = (
    SyntaxError,
    ValueError,
    TypeError,
    LookupError,
    EOFError,
    MemoryError,
    ArithmeticError,
    AttributeError,
    RuntimeError,
    struct.error,
    zlib.error,
)


class PhotographError(BedwrightError):
    """A photograph that cannot be found, read or referred to."""


# -- reading ----------------------------------------------------------------------------------


def file_digest(path: Path) -> str:
    """The SHA-256 of a whole file.

    Parameters
    ----------
    path : Path

    Raises
    ------
    PhotographError
        Where it cannot be read or is too large.
    """
    digest, read = hashlib.sha256(), 0
    try:
        with open_plain(path) as file:
            while chunk := file.read(_CHUNK):
                read += len(chunk)
                if read > MOST_BYTES:
                    raise _too_large(path)
                digest.update(chunk)
    except OSError as error:
        raise _unreadable(path, error) from None
    return digest.hexdigest()


def refer_to(garden_file: Path, path: Path) -> Photograph:
    """A reference to a photograph: its path from the garden file, its hash, and when it was taken.

    Parameters
    ----------
    garden_file, path : Path

    Raises
    ------
    PhotographError
        Where it lies outside of the garden file's folder, or is no picture within the limits.
    """
    relative = path_from(garden_file, path)
    with opened(path) as picture:
        taken = _time_taken(picture)
    return Photograph(path=relative, sha256=file_digest(path), taken=taken)


def path_from(garden_file: Path, path: Path) -> str:
    """The path of a file from the folder of the garden file, with / between its folders.

    A reference never leaves that folder: what is moved with the garden stays found, and a garden file from somebody else
    cannot name a file elsewhere.

    Raises
    ------
    PhotographError
        Where it lies elsewhere.
    """
    folder = Path(os.path.abspath(garden_file)).parent
    try:
        relative = Path(os.path.abspath(path)).relative_to(folder)
    except ValueError:
        raise PhotographError(
            say("{file} is not in the garden file's folder", file=path.name),
            str(path.parent),
            say("Move it beside the garden, into {folder} or a folder in it", folder=str(folder)),
        ) from None
    return relative.as_posix()


@contextlib.contextmanager
def opened(path: Path) -> Iterator[Picture]:
    """Open a picture to read it; nothing is decoded yet.

    Raises
    ------
    PhotographError
        Where it is no picture, or larger than the limits.
    """
    from PIL import Image, UnidentifiedImageError

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS
    # Of tags that Pillow cannot read, and of pictures that are refused below anyway.
    warnings.filterwarnings("ignore", module=r"PIL\.")
    try:
        with open_plain(path) as file:
            if os.fstat(file.fileno()).st_size > MOST_BYTES:
                raise _too_large(path)
            with Image.open(file, formats=FORMATS) as picture:
                if picture.width * picture.height > MOST_PIXELS:
                    raise _too_many_pixels(path)
                yield picture
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _too_many_pixels(path) from None
    except UnidentifiedImageError:
        raise PhotographError(
            say("{file} is no picture that can be read", file=path.name),
            str(path.parent),
            say("Save it as JPEG, PNG, WebP or TIFF"),
        ) from None
    except OSError as error:
        raise _unreadable(path, error) from None
    except _DAMAGED:
        raise PhotographError(
            say("{file} is damaged and cannot be read", file=path.name), str(path.parent), say("Copy it anew")
        ) from None


def time_taken(path: Path) -> dt.datetime | None:
    """When a photograph was taken, by its camera's clock; None where it does not say.

    Raises
    ------
    PhotographError
        Where it is no picture within the limits.
    """
    with opened(path) as picture:
        return _time_taken(picture)


def _time_taken(picture: Picture) -> dt.datetime | None:
    try:
        exif = picture.getexif()
        part = exif.get_ifd(_EXIF_PART)
    except (
        Exception
    ):  # damaged tags: Pillow raises whatever its parsing ran into; the picture itself may be good
        return None
    for text in (*(part.get(tag) for tag in _TIMES), exif.get(_PLAIN_TIME)):
        if isinstance(text, str):
            with contextlib.suppress(ValueError):
                return dt.datetime.strptime(text.strip("\x00 ")[:19], "%Y:%m:%d %H:%M:%S")
    return None


# -- finding ----------------------------------------------------------------------------------


class PhotographFinder:
    """Finds photographs of one garden file; what was hashed once is remembered while the file stays the same.

    Parameters
    ----------
    garden_file : Path
    """

    def __init__(self, garden_file: Path) -> None:
        self.folder = Path(os.path.abspath(garden_file)).parent
        self._digests: dict[tuple[str, int, int], str] = {}
        self._list: tuple[list[Path], bool] = ([], True)
        self._listed = -LISTED_FOR

    def find(
        self, photograph: Photograph, cancelled: Callable[[], bool] = lambda: False
    ) -> tuple[Path | None, str]:
        """Where a photograph is: at its path, else wherever in the folder a picture with the same content is.

        Parameters
        ----------
        photograph : Photograph
        cancelled : callable
            Asked now and then whether the search is still wanted.

        Returns
        -------
        Path or None, words
            The words say in a line what is not as the reference has it; empty where all is.
        """
        parts = photograph.path.split("/")
        at = self.folder.joinpath(*parts)
        inside = ".." not in parts and at.is_relative_to(self.folder)
        if inside and at.is_file() and self.digest(at) == photograph.sha256:
            return at, ""
        found, whole = self._search(photograph, at.name, cancelled)
        if found is not None:
            return found, say("{file} was moved", file=at.name)
        if inside and at.is_file():
            return at, say("{file} was changed since it was added", file=at.name)
        if not whole:
            return None, say(
                "{file} was not found in the first {count} pictures of the folder",
                file=at.name,
                count=number_words(MOST_FILES, 0),
            )
        return None, say("{file} is missing", file=photograph.path)

    def digest(self, path: Path) -> str:
        """The hash of a file; empty where it cannot be read."""
        try:
            state = path.stat()
            key = str(path), state.st_size, state.st_mtime_ns
            if key not in self._digests:
                self._digests[key] = file_digest(path)
            return self._digests[key]
        except (OSError, PhotographError):
            return ""

    def _search(
        self, photograph: Photograph, name: str, cancelled: Callable[[], bool]
    ) -> tuple[Path | None, bool]:
        """The picture with the content, files of the same name first; and whether all pictures were looked at."""
        end = time.monotonic() + MOST_SECONDS
        pictures, whole = self._pictures(end, cancelled)
        for path in sorted(pictures, key=lambda each: each.name != name):
            if time.monotonic() > end or cancelled():
                return None, False
            if self.digest(path) == photograph.sha256:
                return path, True
        return None, whole

    def _pictures(self, end: float, cancelled: Callable[[], bool]) -> tuple[list[Path], bool]:
        """The pictures in the folder and whether these are all; listed anew after some time."""
        if time.monotonic() - self._listed < LISTED_FOR:
            return self._list
        found, whole = list[Path](), True
        for folder, folders, files in os.walk(self.folder):
            folders[:] = sorted(each for each in folders if not each.startswith("."))
            found += [Path(folder, file) for file in sorted(files) if Path(file).suffix.lower() in SUFFIXES]
            if len(found) > MOST_FILES or time.monotonic() > end or cancelled():
                whole = False
                break
        self._list = found[:MOST_FILES], whole
        if not cancelled():
            self._listed = time.monotonic()
        return self._list


# -- thumbnails -------------------------------------------------------------------------------


def cache_folder() -> Path:
    """Where thumbnails are kept: BEDWRIGHT_CACHE, else the system's place for what can be made anew."""
    given = os.environ.get("BEDWRIGHT_CACHE")
    if given:
        return Path(given)
    if os.name == "nt":
        return Path(os.environ.get("LOCALAPPDATA", str(Path.home()))) / "Bedwright" / "thumbnails"
    base = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(base) / "bedwright" / "thumbnails"


def thumbnail(path: Path, digest: str, side: int, cache: Path) -> Path:
    """The small picture of a photograph, upright, made where it is not in the cache yet.

    Parameters
    ----------
    path : Path
    digest : str
        Hash of the file, under which it is kept.
    side : int
        Longest side. [pixels]
    cache : Path

    Raises
    ------
    PhotographError
        Where the photograph cannot be read or is larger than the limits.
    """
    from PIL import ImageOps

    made = cache / f"{digest}-{side}.jpg"
    if made.is_file():
        return made
    with opened(path) as picture:
        picture.draft("RGB", (side, side))  # a JPEG is decoded no larger than is needed
        picture.thumbnail((side, side))
        upright = ImageOps.exif_transpose(picture).convert("RGB")
    stream = io.BytesIO()
    upright.save(stream, "JPEG", quality=85)
    try:
        cache.mkdir(parents=True, exist_ok=True)
        write_whole(made, stream.getvalue())
        _drop_oldest(cache)
    except OSError as error:
        raise _unreadable(made, error) from None
    return made


def _drop_oldest(cache: Path) -> None:
    kept = list(cache.glob("*.jpg"))
    if len(kept) <= MOST_THUMBNAILS:
        return
    with contextlib.suppress(OSError):
        kept.sort(key=lambda each: each.stat().st_mtime)
        for path in kept[: len(kept) - MOST_THUMBNAILS * 9 // 10]:
            path.unlink(missing_ok=True)


# -- refusals ---------------------------------------------------------------------------------


def _too_large(path: Path) -> PhotographError:
    most = number_words(MOST_BYTES / 1e6, 0)
    return PhotographError(
        say("{file} is larger than {most} MB", file=path.name, most=most),
        str(path.parent),
        say("Save a smaller copy beside the garden, and add that"),
    )


def _too_many_pixels(path: Path) -> PhotographError:
    most = number_words(MOST_PIXELS / 1e6, 0)
    return PhotographError(
        say("{file} has more than {most} million pixels", file=path.name, most=most),
        str(path.parent),
        say("Save a smaller copy beside the garden, and add that"),
    )


def _unreadable(path: Path, error: OSError) -> PhotographError:
    why = error.strerror or say("it is damaged")
    return PhotographError(
        say("{file} cannot be read: {why}", file=path.name, why=why),
        str(path.parent),
        say("Check the file and its folder"),
    )
