"""The pocket page: one self-contained page for a phone, with the work and the beds, on which notes are written.

Its styles and script are files of ``resources/pocket``, put into the page when it is written.  A Content-Security-Policy lets run
and style nothing but those two, and lets nothing be fetched or sent.  Names come into the page as JSON, which the script
sets as text.
"""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import html
import json
import os
from functools import cache
from typing import Any

from planner import resources
from planner.listings.export_files import POCKET_PAGE, write_export
from planner.plan import Plan
from planner.sheets.pocket_data import pocket_data
from planner.words import say, spoken_language


def pocket_page(plan: Plan, made: dt.date, day: dt.date | None = None) -> str:
    """The pocket page of a plan.

    Parameters
    ----------
    plan : Plan
    made : date
        The day on which it is made.
    day : date, optional
        The day that it shows first; that of the phone's clock by default.
    """
    script, styles = _script(), _file("page.css")
    policy = "; ".join(
        (
            "default-src 'none'",
            f"script-src {_digest(script)}",
            f"style-src {_digest(styles)}",
            "connect-src 'none'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )
    parts = {
        "policy": html.escape(policy),
        "language": html.escape(spoken_language()),
        "title": html.escape(say("{garden} outside", garden=plan.garden.site.name)),
        "without_script": html.escape(
            say("This page needs JavaScript, which is switched off in this browser.")
        ),
        "styles": styles,
        "data": script_json(pocket_data(plan, made, day)),
        "script": script,
    }
    found: list[str] = []
    for piece in _file("page.html").split("%%"):  # every other piece is the name of a part
        found.append(parts[piece] if len(found) % 2 else piece)
    return "".join(found)


def write_pocket_page(
    plan: Plan, target: str | os.PathLike[str], made: dt.date, day: dt.date | None = None
) -> None:
    """Write the pocket page whole or not at all, never over anything but an older pocket page.

    Parameters
    ----------
    plan : Plan
    target : path
    made, day : date
        As of :func:`pocket_page`.

    Raises
    ------
    ExportError
        For a path at which something else is, or of another ending.
    OSError
        Where it cannot be written.
    """
    write_export(pocket_page(plan, made, day), target, POCKET_PAGE)


#: Files of the script; each uses those before it when the page starts.
SCRIPTS = ("store.js", "elements.js", "map.js", "form.js", "views.js", "sending.js", "page.js")
#: What could end the element that holds the data, or a line of script, is written as an escape of JSON.
_ESCAPES = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}


def script_json(value: Any) -> str:
    """JSON that no browser takes for anything else inside a script element.

    Parameters
    ----------
    value
        Of tables, lists, texts and numbers.

    Examples
    --------
    >>> script_json({"name": "</script><!--"})
    '{"name":"\\\\u003c/script\\\\u003e\\\\u003c!--"}'
    """
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).translate(_ESCAPES)


def _script() -> str:
    """The script: its files in their order, in a scope of their own."""
    return "\n".join(('(function () {\n"use strict";', *map(_file, SCRIPTS), "})();\n"))


@cache
def _file(name: str) -> str:
    return resources.resource("pocket", name).read_text("utf-8")


def _digest(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{digest}'"
