"""Faults in every call to the file system while saving: nothing old is lost, and nothing half is left."""

from __future__ import annotations

import datetime as dt
import errno
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from typing import Any
from unittest.mock import patch

from fire.gardens import random_garden

from planner.errors import BedwrightError
from planner.storage import dump, load, save
from planner.storage.journal import Journal
from planner.storage.versions import Versions

#: Calls that are made to fail, and the errors they fail with.
CALLS = ("open", "fsync", "replace", "close", "unlink", "stat", "chmod", "chown")
ERRORS = (
    errno.ENOSPC,
    errno.EIO,
    errno.EACCES,
    errno.EROFS,
    errno.EMFILE,
    errno.EINTR,
    errno.EDQUOT,
    errno.ESTALE,
)


@contextmanager
def failing(rng: Random) -> Iterator[None]:
    """Let the n-th of some calls fail, once or from then on; or let writes be cut short."""
    name, error = rng.choice((*CALLS, "write")), rng.choice(ERRORS)
    left, lasting = rng.randrange(4), rng.random() < 0.3
    real: Callable[..., Any] = getattr(os, name)

    def fails(*args: Any, **more: Any) -> Any:
        nonlocal left
        left -= 1
        if left == -1 or (left < 0 and lasting):
            if name == "close":
                real(*args)
            raise OSError(error, os.strerror(error))
        return real(*args, **more)

    with patch.object(os, name, fails):
        yield


def saving(rng: Random) -> str:
    """The old file or the new one is there, whole, and what failed is said."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plot.bedwright"
        old, new = random_garden(rng, 3), random_garden(rng, 4)
        save(old, file)
        said = None
        try:
            with failing(rng):
                save(new, file)
        except BedwrightError as error:
            said = str(error)
        except OSError as error:
            return f"an error that is not ours: {error}"
        found = load(file)
        if found not in (old, new):
            return "the file is neither the old nor the new garden"
        if said is None and found != new:
            return "nothing was said, and the garden was not saved"
        if said is not None and "\n" in said:
            return f"an error that is no line: {said!r}"
        return ""


def journals(rng: Random) -> str:
    """A journal that cannot be written leaves the former one, or none, and raises nothing."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plot.bedwright"
        first, second = random_garden(rng, 3), random_garden(rng, 4)
        save(first, file)
        journal = Journal(Path(folder) / "own")
        try:
            journal.write(first, file)
            with failing(rng):
                written = journal.write(second, file)
            kept = load(journal.written) if journal.written is not None else None
        finally:
            journal.close()
        if kept not in (first, second):
            return "the journal is neither the old nor the new work"
        return "" if kept == second or not written else "it was said to be written, and was not"


def versions(rng: Random) -> str:
    """Versions that cannot be kept raise nothing, and those that are there stay whole."""
    with tempfile.TemporaryDirectory() as folder:
        kept = Versions(Path(folder) / "plot.bedwright", Path(folder) / "own")
        gardens = [random_garden(rng, 2 + n) for n in range(3)]
        now = dt.datetime(2026, 5, 1, tzinfo=dt.UTC)
        kept.keep(dump(gardens[0]).encode(), now)
        with failing(rng):
            kept.keep(dump(gardens[1]).encode(), now + dt.timedelta(minutes=1))
        found = [version.read() for version in kept.all()]
        if gardens[0] not in found:
            return "an earlier version is gone"
        return "" if all(one in gardens for one in found) else "a version is none of those kept"


ATTACKS = {"faults while saving": saving, "faults in journals": journals, "faults in versions": versions}
