"""A virtual screen (Xvfb) with a mouse and keys (xdotool), as a person has one."""

from __future__ import annotations

import os
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TypeVar

import numpy as np
from PIL import Image

_T = TypeVar("_T")
#: Longest wait for anything. [s]
PATIENCE = 60.0
#: Programs that are needed.
TOOLS = ("Xvfb", "xdotool")


def missing() -> list[str]:
    """Programs that are not installed."""
    return [tool for tool in TOOLS if shutil.which(tool) is None]


def wait_for(condition: Callable[[], _T | None], what: str, patience: float = PATIENCE) -> _T:
    """What a condition finds, as soon as it is true; what is not there yet (a file, a window) is waited for."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        with suppress(OSError, subprocess.CalledProcessError):
            if found := condition():
                return found
        time.sleep(0.05)
    raise AssertionError(f"waited {patience:.0f} s for {what}")


class Screen:
    """A virtual screen; all places are in its pixels.

    Attributes
    ----------
    window : str
        The window whose title is read.
    """

    def __init__(self, display: str, picture: Path, size: tuple[int, int]) -> None:
        self.env = {**os.environ, "DISPLAY": display}
        self.picture = picture
        self.size = size
        self.pointer = (0, 0)
        self.window = ""

    def xdotool(self, *words: object) -> str:
        done = subprocess.run(
            ["xdotool", *map(str, words)],
            env=self.env,
            check=True,
            capture_output=True,
            text=True,
            timeout=30,
        )
        return done.stdout.strip()

    def pixels(self) -> np.ndarray:
        """The screen, shape (height, width, 3), red first."""
        width, height = self.size
        data = np.frombuffer(self.picture.read_bytes(), np.uint8)
        head = data[:100].view(">u4")
        start, line = int(head[0] + head[19] * 12), int(head[12])
        rows = data[start : start + line * height].reshape(height, line)
        return rows[:, : width * 4].reshape(height, width, 4)[:, :, 2::-1]

    def still(self) -> None:
        """Wait until nothing moves any more; a caret may blink."""
        last, alike = self.pixels(), 0

        def steady() -> bool:
            nonlocal last, alike
            time.sleep(0.08)
            before, last = last, self.pixels()
            alike = alike + 1 if np.count_nonzero(before != last) < 1000 else 0
            return alike >= 3

        wait_for(steady, "a still picture")

    def save(self, path: Path) -> None:
        Image.fromarray(np.ascontiguousarray(self.pixels())).save(path)

    def go(self, to: tuple[int, int]) -> None:
        steps = 6
        (x, y), (left, top) = to, self.pointer
        words: list[object] = []
        for k in range(1, steps + 1):
            words += ["mousemove", round(left + (x - left) * k / steps), round(top + (y - top) * k / steps)]
            words += ["sleep", "0.01"]
        self.xdotool(*words)
        self.pointer = to

    def click(self, at: tuple[int, int], times: int = 1) -> None:
        self.go(at)
        self.xdotool("click", "--repeat", times, "--delay", 60, 1)

    def drag(
        self, start: tuple[int, int], end: tuple[int, int], until: Callable[[], bool] | None = None
    ) -> None:
        """Drag; it is let go when something has come about, or when nothing moves any more."""
        self.go(start)
        self.xdotool("mousedown", 1)
        self.go(end)
        if until is not None:
            wait_for(until, "the picture to follow the drag")
        else:
            self.still()
        self.xdotool("mouseup", 1)

    def key(self, keys: str) -> None:
        self.xdotool("key", "--clearmodifiers", keys)

    @property
    def title(self) -> str:
        """Title of the window."""
        return self.xdotool("getwindowname", self.window)


@contextmanager
def screen(folder: Path, size: tuple[int, int]) -> Iterator[Screen]:
    """Begin a virtual screen of so many pixels; its picture is kept in a folder while it lasts."""
    out, into = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(into), "-screen", "0", f"{size[0]}x{size[1]}x24", "-dpi", "96",
         "-nolisten", "tcp", "-fbdir", str(folder)],
        pass_fds=(into,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )  # fmt: skip
    os.close(into)
    try:
        with os.fdopen(out) as answer:
            number = answer.readline().strip()
        assert number, "Xvfb did not start"
        yield Screen(f":{number}", folder / "Xvfb_screen0", size)
    finally:
        server.terminate()
        server.wait(20)
