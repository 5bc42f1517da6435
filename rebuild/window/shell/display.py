"""Whether a window can be shown here, found out before Qt would abort without a word to act on."""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Mapping

#: What Qt's own display plugin loads on X11 and a bare system lacks; README's first command installs it.
XCB_LIBRARY = "libxcb-cursor.so.0"


def why_no_window(environ: Mapping[str, str] = os.environ, platform: str = sys.platform) -> str:
    """The reason no window can be shown, as a sentence; empty when one can."""
    if not platform.startswith(("linux", "freebsd")) or environ.get("QT_QPA_PLATFORM"):
        return ""
    if environ.get("WAYLAND_DISPLAY"):
        return ""
    if not environ.get("DISPLAY"):
        return (
            "There is no display here to open a window on (neither DISPLAY nor WAYLAND_DISPLAY is set). "
            "Start Rebuild from a desktop session, or use the commands that need no window: rebuild --help."
        )
    try:
        ctypes.CDLL(XCB_LIBRARY)
    except OSError:
        return (
            f"Qt cannot open a window here because {XCB_LIBRARY} is missing. "
            "Install the system libraries named in the README (on Debian: apt-get install libxcb-cursor0)."
        )
    return ""
