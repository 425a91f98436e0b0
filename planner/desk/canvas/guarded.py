"""Faults in overrides of Qt methods: reported, and survived.

WORKAROUND: with PySide6 up to 6.11.3 on Python 3.11, an exception raised by C code (a division by
zero, a date out of range) that leaves an override called from within another override
(``viewportEvent`` calls ``mousePressEvent``) is a segmentation fault.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import wraps
from typing import Concatenate, ParamSpec, Protocol, TypeVar


class Recovers(Protocol):
    """Something that can put back what was going on."""

    def recover_from_fault(self) -> None:
        """Put back what was going on and tell the person."""


P = ParamSpec("P")
Owner = TypeVar("Owner")
Recovering = TypeVar("Recovering", bound=Recovers)


def guarded(
    handler: Callable[Concatenate[Recovering, P], None],
) -> Callable[Concatenate[Recovering, P], None]:
    """Keep a fault in a handler of events from ending the program.

    The fault is reported as any other, what was going on is put back, and the person is told.
    """

    @wraps(handler)
    def handle(owner: Recovering, /, *args: P.args, **kwargs: P.kwargs) -> None:
        try:
            handler(owner, *args, **kwargs)
        except Exception:
            sys.excepthook(*sys.exc_info())
            owner.recover_from_fault()

    return handle


def guarded_painting(paint: Callable[Concatenate[Owner, P], None]) -> Callable[Concatenate[Owner, P], None]:
    """Keep a fault while painting from ending the program: it is reported; there is nothing to put back."""

    @wraps(paint)
    def draw(owner: Owner, /, *args: P.args, **kwargs: P.kwargs) -> None:
        try:
            paint(owner, *args, **kwargs)
        except Exception:
            sys.excepthook(*sys.exc_info())

    return draw
