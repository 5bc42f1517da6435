"""The window opened from a terminal, or a sentence why it cannot be."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from rebuild.cli.exit_codes import DONE, NO_DISPLAY
from rebuild.fault_report import kept_report
from rebuild.window.shell.display import why_no_window


def show_window(path: Path | None, *, demo: bool) -> int:
    """Open the window on a file, the one open last, or the demo; the exit code."""
    try:
        from rebuild.window.shell.start import run
    except ImportError as missing:
        if (missing.name or "").startswith("rebuild"):
            raise
        print(
            f"The window cannot start: {missing}. Install the system libraries named in the README.",
            file=sys.stderr,
        )
        return NO_DISPLAY
    return int(run(path, demo=demo))


def open_window(args: argparse.Namespace) -> int:
    """The command without a word: the window, or the report of the last fault."""
    if args.trouble:
        print(kept_report() or "No fault has been reported.")
        return DONE
    reason = why_no_window()
    if reason:
        print(reason, file=sys.stderr)
        return NO_DISPLAY
    return show_window(args.file, demo=False)
