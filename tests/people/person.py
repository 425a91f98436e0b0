"""A person in front of the program: looks, points, types, and keeps a picture of every step."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

from .screen import PATIENCE, Screen, screen, wait_for

HERE = Path(__file__).parent
Seen = dict[str, Any]


class Person:
    """Works the program in front of a screen.

    Attributes
    ----------
    keys : int
        Keys pressed so far.
    """

    def __init__(
        self, screen: Screen, folder: Path, program: subprocess.Popen[bytes], ask: IO[str], answer: IO[str]
    ) -> None:
        self.screen, self.folder, self.program = screen, folder, program
        self._ask, self._answer = ask, answer
        self.keys = 0
        self.pictures = 0

    # -- looking ----------------------------------------------------------------------------

    def look(self, **question: object) -> dict[str, Any]:
        """What is to be seen now."""
        assert self.program.poll() is None, "the program ended"
        print(json.dumps(question), file=self._ask, flush=True)
        line = self._answer.readline()
        assert line, "the program ended"
        found: dict[str, Any] = json.loads(line)
        return found

    def all_seen(self, name: str, kind: str = "") -> list[Seen]:
        """Everything of a name; of those that only begin with it where none has just that."""
        widgets = [w for w in self.look()["widgets"] if not kind or kind in (w["kind"], *w["is"])]
        return [w for w in widgets if name in (w["name"], w["text"])] or [
            w for w in widgets if w["name"].startswith(name)
        ]

    def find(self, name: str, kind: str = "") -> Seen:
        """Wait for something of a name."""
        return wait_for(
            lambda: next(iter(self.all_seen(name, kind)), None), f"{kind or 'something'} named {name!r}"
        )

    def read(self, words: str) -> None:
        """Wait until words are read anywhere."""
        wait_for(
            lambda: any(words in f"{w['name']} {w['text']}" for w in self.look()["widgets"]), f"{words!r}"
        )

    def waits(self, condition: Callable[[], object], what: str, patience: float = PATIENCE) -> None:
        try:
            wait_for(lambda: bool(condition()), what, patience)
        except AssertionError:
            self.picture("stuck")
            raise

    @property
    def focus(self) -> Seen | None:
        return next((w for w in self.look()["widgets"] if w["focus"]), None)

    @property
    def title(self) -> str:
        title: str = self.look()["title"]
        return title

    def cut_off(self) -> list[str]:
        """What is cut off on the screen now."""
        return [f"{w['kind']} {w['name']!r} lacks {w['cut']}" for w in self.look()["widgets"] if w["cut"] > 0]

    def picture(self, name: str) -> Path:
        """Keep a picture of the screen, numbered."""
        if name != "stuck":
            self.screen.still()
        self.pictures += 1
        path = self.folder / f"{self.pictures:02} {name}.png"
        self.screen.save(path)
        return path

    # -- doing ------------------------------------------------------------------------------

    def middle(self, found: Seen) -> tuple[int, int]:
        left, top, width, height = found["box"]
        return left + width // 2, top + height // 2

    def click(self, name: str, kind: str = "", times: int = 1) -> None:
        self.screen.click(self.middle(self.find(name, kind)), times)

    def on_plan(self, x: float, y: float) -> tuple[int, int]:
        """A place of the plan on the screen. [m]"""
        left, top = self.look(place=(x, y))["place"]
        return left, top

    def press(self, *keys: str) -> None:
        self.focus_front()
        for key in keys:
            self.keys += key.count("+") + 1
            self.screen.xdotool("key", "--clearmodifiers", key)

    def type(self, text: str) -> None:
        self.focus_front()
        self.keys += len(text)
        self.screen.xdotool("type", "--delay", "15", text)

    def focus_front(self) -> None:
        """Give the keys to the window in front, as a window manager does."""
        if self._modal != (modal := bool(self.look()["modal"])):
            self._modal = modal
            ids = self.screen.xdotool("search", "--onlyvisible", "--name", ".").split()
            self.screen.xdotool("windowfocus", "--sync", ids[-1] if modal else ids[0])

    _modal = False

    def to_front(self, title: str) -> None:
        """Make the window as large as the screen and give it the keys."""
        window = wait_for(lambda: self._windows(title), f"the window {title!r}")[0]
        width, height = self.screen.size
        self.screen.xdotool("windowmove", window, 0, 0, "windowsize", window, width, height)
        self.screen.xdotool("windowfocus", window)
        self.screen.still()

    def _windows(self, title: str) -> list[str]:
        assert self.program.poll() is None, "the program ended"
        try:
            return self.screen.xdotool("search", "--onlyvisible", "--name", title).split()
        except subprocess.CalledProcessError:  # none yet
            return []


@contextmanager
def person(
    folder: Path,
    *arguments: object,
    size: tuple[int, int] = (1360, 860),
    settings: Sequence[str] = (),
    env: dict[str, str] | None = None,
) -> Iterator[Person]:
    """Start the program before a person; all that it writes lies in a folder.

    Parameters
    ----------
    folder : Path
        Made where it is not there; keeps the pictures and is the person's home.
    *arguments
        Of ``bedwright open``.
    size : tuple of int
        Of the screen. [px]
    settings : sequence of str
        Lines of the settings that were made before.
    env : dict, optional
        More of the environment, such as the language.
    """
    home = folder / "home"
    home.mkdir(parents=True, exist_ok=True)
    (home / "settings.ini").write_text("\n".join(["[General]", *settings, ""]), encoding="utf-8")
    asked, ask = os.pipe()
    answer, told = os.pipe()
    with screen(home, size) as shown, (home / "log.txt").open("w+", encoding="utf-8") as log:
        program = subprocess.Popen(
            [sys.executable, HERE / "watched.py", str(asked), str(told), *map(str, arguments)],
            env={
                **shown.env,
                "QT_QPA_PLATFORM": "xcb",
                "QT_SCALE_FACTOR": "1",
                "BEDWRIGHT_LANGUAGE": "en",
                "BEDWRIGHT_SETTINGS": str(home / "settings.ini"),
                "BEDWRIGHT_STATE": str(home / "state"),
                "BEDWRIGHT_CACHE": str(home / "cache"),
                "HOME": str(home),
                "BROWSER": "true",  # a sheet written is shown by the system: here by nothing
                "PYTHONPATH": os.pathsep.join(map(str, (HERE.parents[1], HERE.parent / "desk"))),
                **(env or {}),
            },
            cwd=home,
            pass_fds=(asked, told),
            stdout=log,
            stderr=log,
        )
        os.close(asked)
        os.close(told)
        try:
            with os.fdopen(ask, "w") as asking, os.fdopen(answer) as answering:
                yield Person(shown, folder, program, asking, answering)
                assert program.poll() is None, "the program ended"
        finally:
            program.terminate()
            try:
                program.wait(20)
            except subprocess.TimeoutExpired:
                program.kill()
                program.wait(20)
            log.seek(0)
            said = log.read()
            (home / "Xvfb_screen0").unlink(missing_ok=True)
        assert "Traceback" not in said, said
