"""The ways in from a terminal: open the window, or work without one.

Exit codes: 0 done, 1 a check found something, 2 it could not be done (one sentence says why),
3 there is no display for the window, 4 a fault of the program itself (``rebuild --trouble`` prints the
report), 130 stopped from the keyboard.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NoReturn

from rebuild import __version__
from rebuild.cli import exchange as cli_exchange, find, printing as cli_printing
from rebuild.cli.demo import demo, demo_arguments
from rebuild.cli.exit_codes import DONE, FAILED, FAULT, STOPPED
from rebuild.cli.figure import figure_arguments, flags_first, work_out
from rebuild.cli.files import (
    backup_arguments,
    check_arguments,
    check_file,
    make_backup,
    make_new,
    new_arguments,
    repair_arguments,
    repair_file,
)
from rebuild.cli.summary import summary, summary_arguments
from rebuild.cli.window import open_window
from rebuild.errors import RebuildError
from rebuild.fault_report import tell


class _Parser(argparse.ArgumentParser):
    """Says what is wrong with a command in one sentence."""

    def error(self, message: str) -> NoReturn:
        self.exit(FAILED, f"{self.prog}: {message}. See: {self.prog} --help\n")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    args = _read(list(sys.argv[1:] if argv is None else argv))
    try:
        return int(args.run(args))
    except RebuildError as trouble:
        print(trouble, file=sys.stderr)
        return FAILED
    except BrokenPipeError:
        sys.stderr.close()
        return DONE
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return STOPPED
    except Exception as fault:  # noqa: BLE001 - the last resort: whatever it is, it is told in a sentence
        print(tell(fault), file=sys.stderr)
        return FAULT


def _read(given: list[str]) -> argparse.Namespace:
    if not (given and given[0] in COMMANDS):
        return _window().parse_args(given)
    return _commands().parse_args(flags_first(given) if given[0] == "figure" else given)


def _window() -> _Parser:
    lines = "\n".join(f"  rebuild {name:<9} {words}" for name, (words, _, _) in COMMANDS.items())
    parser = _Parser(
        prog="rebuild",
        description="The rebuild of a worn machine tool, from teardown to the machine's book.",
        epilog=f"without a window:\n{lines}\n\nrebuild COMMAND --help says more about each.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("file", nargs="?", type=Path, metavar="FILE", help="the project file to open")
    parser.add_argument("--version", action="version", version=f"rebuild {__version__}")
    parser.add_argument("--trouble", action="store_true", help="print the report of the last fault, and end")
    parser.set_defaults(run=open_window)
    return parser


def _commands() -> _Parser:
    parser = _Parser(prog="rebuild")
    chosen = parser.add_subparsers(dest="command", required=True, parser_class=_Parser)
    for name, (words, arguments, run) in COMMANDS.items():
        sub = chosen.add_parser(name, help=words, description=f"{words[0].upper()}{words[1:]}.")
        arguments(sub)
        sub.set_defaults(run=run)
    return parser


_Arguments = Callable[[argparse.ArgumentParser], None]
_Run = Callable[[argparse.Namespace], int]
COMMANDS: dict[str, tuple[str, _Arguments, _Run]] = {
    "demo": ("open two invented machines in the middle of their rebuild", demo_arguments, demo),
    "check": (
        "check a project file: integrity, schema, journal, every stored size",
        check_arguments,
        check_file,
    ),
    "repair": (
        "make a sound file from a damaged one, its -wal and its backups",
        repair_arguments,
        repair_file,
    ),
    "new": ("make an empty project file", new_arguments, make_new),
    "backup": (
        "copy a project file while it may be in use, and verify the copy",
        backup_arguments,
        make_backup,
    ),
    "summary": ("print how far the rebuild is and what comes next", summary_arguments, summary),
    "find": ("find anything in a project file by a word, a code or a size", find.arguments, find.run),
    "book": ("write the machine’s book as a PDF", cli_exchange.book_arguments, cli_exchange.book),
    "print": (
        "write tags, bag labels or a page for the shop as a PDF",
        cli_printing.print_arguments,
        cli_printing.print_page,
    ),
    "export": (
        "write everything as plain CSV and JSON, or the lists as a workbook",
        cli_exchange.export_arguments,
        cli_exchange.export,
    ),
    "import": (
        "bring in a part list or readings from CSV, a workbook or an export",
        cli_exchange.import_arguments,
        cli_exchange.bring_in,
    ),
    "figure": ("work out one thing: a fit, a thread, a taper, a verdict", figure_arguments, work_out),
}
