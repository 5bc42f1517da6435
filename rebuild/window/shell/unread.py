"""Qt's Python side reads no module's source: the program uses none of its switches, and pays for all that it reads.

Once Qt is imported, its support code opens the source of each module imported later, to see whether it names Qt, and
what was read stays in memory for good: near 40 MB when every page has been shown. A module that it believes to know is
not read. Where a later Qt does this another way nothing is changed, and only that memory is paid again; the test beside
this one says so.
"""

from __future__ import annotations

from importlib import import_module


class _KnowsAll(dict[str, object]):
    """What Qt knows of modules; asked whether it knows one, it says yes."""

    def __contains__(self, _name: object) -> bool:
        return True


def leave_sources_unread() -> bool:
    """Let no source be read from here on; False when this Qt does not work so."""
    import PySide6.QtCore  # noqa: F401 - its support code comes with it

    try:
        support = import_module("shibokensupport.feature")
        known = support.pyside_feature_dict
    except (ImportError, AttributeError):
        return False
    if not isinstance(known, dict):
        return False
    vars(support)["pyside_feature_dict"] = _KnowsAll(known)
    return True
