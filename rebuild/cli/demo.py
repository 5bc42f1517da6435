"""The two invented machines: in a window, as their state in words, or as a picture."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from rebuild.cli.exit_codes import DONE
from rebuild.cli.summary import print_summary
from rebuild.cli.window import show_window
from rebuild.window.shell.display import why_no_window


def demo_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("--headless", action="store_true", help="build it and print its state, no window")
    parser.add_argument("--file", type=Path, metavar="PATH", help="where the demo lies or is built")
    parser.add_argument("--picture", type=Path, metavar="PNG", help="save a picture of the window and end")


def demo(args: argparse.Namespace) -> int:
    """Build the demo if it is not there, and show it."""
    from rebuild.demo.where import demo_path, ensure_demo

    if args.picture:
        from rebuild.window.shell.picture import take_picture

        take_picture(_ensured(args.file or demo_path()), args.picture)
        print(f"The window is on {args.picture}.")
        return DONE
    reason = "" if args.headless else why_no_window()
    if not args.headless and not reason:
        if args.file is not None:
            ensure_demo(args.file, _tell)
        return show_window(args.file, demo=True)
    if reason:
        print(f"{reason}\nHere is the state of the demo instead.\n", file=sys.stderr)
    path = _ensured(args.file or demo_path())
    print_summary(path, as_json=False)
    print(f"\nThe demo lies in {path}")
    return DONE


def _ensured(path: Path) -> Path:
    from rebuild.demo.where import ensure_demo

    ensure_demo(path, _tell)
    return path


def _tell(words: str) -> None:
    print(f"building the demo: {words}", file=sys.stderr)
