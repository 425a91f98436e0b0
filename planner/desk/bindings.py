"""Qt's bindings, kept from reading the source of every module; to be imported before the other modules of the window."""

from __future__ import annotations

import sys

import PySide6.QtCore  # noqa: F401


def _leave_sources_unread() -> None:
    """Keep the bindings from reading, and keeping, the source of every module that is imported.

    They look in it for their own name, to know where names of another style could be switched on, which nothing here does.
    That took a tenth of the time of a start, and 18 MB.  With bindings that do it otherwise this does nothing.
    """
    feature = sys.modules.get("shibokensupport.feature")
    if hasattr(feature, "feature_imported"):
        setattr(feature, "feature_imported", lambda _module: None)  # noqa: B010


_leave_sources_unread()
