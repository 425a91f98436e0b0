"""A headless Chromium driven over its debugging pipe, with nothing but the standard library.

Fingers and keys come in as input events, as from a screen and a keyboard; scripts only read what is there.
"""

from __future__ import annotations

import base64
import json
import os
import select
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
#: A phone held in one hand. [CSS pixels]
WIDTH, HEIGHT = 360, 740
#: An answer that takes longer is a fault. [s]
PATIENCE = 20.0
KEYS = {"Tab": 9, "Enter": 13, " ": 32, "Escape": 27, "ArrowDown": 40, "ArrowRight": 39}


def chromium() -> str | None:
    """Path of a Chromium; None where there is none."""
    return next((path for name in NAMES if (path := shutil.which(name))), None)


#: What a page keeps is written by another process of the browser; a page opened anew in the same moment may not see it yet. [s]
STORED = 0.25


class Chromium:
    """A browser with one page of the size of a phone.

    Parameters
    ----------
    folder : Path
        For its profile and what is downloaded.
    storage : bool
        Whether pages may keep anything.
    """

    def __init__(self, folder: Path, *, storage: bool = True) -> None:
        self.downloads = folder / "downloads"
        self.downloads.mkdir(parents=True)
        profile = folder / "profile" / "Default"
        profile.mkdir(parents=True)
        settings = {} if storage else {"profile": {"default_content_setting_values": {"cookies": 2}}}
        (profile / "Preferences").write_text(json.dumps(settings))
        to_browser, self._out = os.pipe()
        self._in, from_browser = os.pipe()
        path = chromium()
        assert path is not None
        command = [
            "bash", "-c", f'exec "$@" 3<&{to_browser} 4>&{from_browser}', "bash", path, "--headless=new", "--no-sandbox",
            "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run", "--disable-background-networking",
            "--hide-scrollbars", f"--user-data-dir={profile.parent}", "--remote-debugging-pipe", "about:blank",
        ]  # fmt: skip
        self._process = subprocess.Popen(
            command, pass_fds=(to_browser, from_browser), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        os.close(to_browser)
        os.close(from_browser)
        self._buffer, self._number, self._session = b"", 0, ""
        self.events: list[dict[str, Any]] = []
        pages = self.ask("Target.getTargets")["targetInfos"]
        target = next(one["targetId"] for one in pages if one["type"] == "page")
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.ask(f"{domain}.enable")
        self.look()
        self.ask("Emulation.setTouchEmulationEnabled", enabled=True)
        self.ask("Browser.setDownloadBehavior", behavior="allow", downloadPath=str(self.downloads))

    def close(self) -> None:
        """End the browser."""
        self._process.terminate()
        self._process.wait(PATIENCE)
        os.close(self._in)
        os.close(self._out)

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a command and return its result."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if self._session and not method.startswith(("Target.", "Browser.")):
            message["sessionId"] = self._session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            found = self._receive()
            if found.get("id") == self._number:
                if "error" in found:
                    raise AssertionError(f"{method}: {found['error']}")
                result: dict[str, Any] = found["result"]
                return result
            if "method" in found:
                self.events.append(found)

    def _receive(self) -> dict[str, Any]:
        while b"\0" not in self._buffer:
            if not select.select([self._in], [], [], PATIENCE)[0]:
                raise AssertionError("the browser does not answer")
            part = os.read(self._in, 1 << 16)
            if not part:
                raise AssertionError("the browser has ended")
            self._buffer += part
        line, self._buffer = self._buffer.split(b"\0", 1)
        message: dict[str, Any] = json.loads(line)
        return message

    # -- the page -----------------------------------------------------------------------------------

    def look(self, width: int = WIDTH, height: int = HEIGHT, *, dark: bool = False) -> None:
        """Set size and colours of the screen."""
        self.ask(
            "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=2, mobile=True
        )
        features = [
            {"name": "prefers-color-scheme", "value": "dark" if dark else "light"},
            {"name": "prefers-reduced-motion", "value": "reduce"},
        ]
        self.ask("Emulation.setEmulatedMedia", features=features)

    def open(self, address: str) -> None:
        """Open a page, or the same one anew, and wait until it is there."""
        self.ask("Page.navigate", url="about:blank")
        self.wait("location.href === 'about:blank'")
        time.sleep(STORED)
        self.ask("Page.navigate", url=address)
        self.wait("location.href !== 'about:blank' && document.readyState === 'complete'")

    def run(self, script: str) -> Any:
        """The value of an expression in the page."""
        found = self.ask("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        if "exceptionDetails" in found:
            raise AssertionError(found["exceptionDetails"])
        return found["result"].get("value")

    def wait(self, script: str) -> None:
        """Wait until an expression is true."""
        until = time.monotonic() + PATIENCE
        while not self.run(f"Boolean({script})"):
            assert time.monotonic() < until, f"never true: {script}"
            self.run("new Promise((done) => setTimeout(done, 20))")

    def text(self, selector: str = "main") -> str:
        """What is written in the first element of a selector."""
        return str(self.run(f"document.querySelector({json.dumps(selector)})?.innerText ?? ''"))

    def tap(self, selector: str, words: str = "") -> None:
        """Tap on the middle of the first element of a selector that has these words."""
        find = (
            f"[...document.querySelectorAll({json.dumps(selector)})].find((one) => "
            f"(one.innerText ?? one.textContent).includes({json.dumps(words)}))"
        )
        box = self.run(
            f"(() => {{ const one = {find}; if (!one) return null; one.scrollIntoView({{block: 'center'}}); "
            "const box = one.getBoundingClientRect(); return [box.x + box.width / 2, box.y + box.height / 2]; })()"
        )
        assert box is not None, f"nothing to tap: {selector} {words}"
        self.touch(*box)

    def touch(self, x: float, y: float) -> None:
        """Touch a place of the screen for a moment. [CSS pixels]"""
        self.ask("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        self.ask("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.run("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")

    def type(self, text: str) -> None:
        """Type a text where the focus is."""
        self.ask("Input.insertText", text=text)

    def press(self, key: str, *, shift: bool = False) -> None:
        """Press a key."""
        code = KEYS[key]
        text = {"Enter": "\r", " ": " "}.get(key)
        common = {"key": key, "windowsVirtualKeyCode": code, "modifiers": 8 if shift else 0}
        down = {"type": "keyDown", "text": text} if text else {"type": "rawKeyDown"}
        self.ask("Input.dispatchKeyEvent", **common, **down)
        self.ask("Input.dispatchKeyEvent", type="keyUp", **common)
        self.run("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")

    def picture(self, path: Path, *, whole: bool = False) -> None:
        """Save a picture of the screen, or of the whole page."""
        shot = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(base64.b64decode(shot["data"]))

    def faults(self) -> list[str]:
        """What the page complained of, and what it asked the network for."""
        found = []
        for event in self.events:
            about = event["params"]
            if event["method"] == "Runtime.exceptionThrown":
                found.append(str(about["exceptionDetails"].get("exception", about)))
            elif event["method"] == "Log.entryAdded" and about["entry"]["level"] in ("error", "warning"):
                found.append(about["entry"]["text"])
            elif event["method"] == "Network.requestWillBeSent":
                address = about["request"]["url"]
                if not address.startswith(("file:", "about:", "blob:", "data:")):
                    found.append(address)
        return found
