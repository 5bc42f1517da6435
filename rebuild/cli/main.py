"""The ways in from a terminal: open the window, or work without one.

Exit codes: 0 done, 1 a check found something, 2 it could not be done (one sentence says why),
3 there is no display for the window, 4 a fault of the program itself (``rebuild --trouble`` prints the
report), 130 stopped from the keyboard.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from rebuild import __version__
from rebuild.cli import exchange as cli_exchange, find, printing as cli_printing
from rebuild.cli.exit_codes import DONE, FAILED, FAULT, FOUND, NO_DISPLAY, STOPPED
from rebuild.errors import BadEntry, RebuildError
from rebuild.fault_report import kept_report, tell
from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.shell.display import why_no_window

if TYPE_CHECKING:
    from rebuild.store.unreadable import BadCell
    from rebuild.work.plan.rows_summary import ShopState

#: Names the unit of sizes typed without one.
UNIT = "--unit"


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
    return _commands().parse_args(_flags_first(given) if given[0] == "figure" else given)


def _flags_first(given: list[str]) -> list[str]:
    """argparse takes name=value words only in one run, so the flags among them go first."""
    flags: list[str] = []
    words: list[str] = []
    for word in given[1:]:
        follows = bool(flags) and flags[-1] == UNIT
        (flags if follows or word.startswith("-") else words).append(word)
    return [given[0], *flags, *words]


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
    parser.set_defaults(run=_open_window)
    return parser


def _commands() -> _Parser:
    parser = _Parser(prog="rebuild")
    chosen = parser.add_subparsers(dest="command", required=True, parser_class=_Parser)
    for name, (words, arguments, run) in COMMANDS.items():
        sub = chosen.add_parser(name, help=words, description=f"{words[0].upper()}{words[1:]}.")
        arguments(sub)
        sub.set_defaults(run=run)
    return parser


def _show(path: Path | None, *, demo: bool) -> int:
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


def _open_window(args: argparse.Namespace) -> int:
    if args.trouble:
        print(kept_report() or "No fault has been reported.")
        return DONE
    reason = why_no_window()
    if reason:
        print(reason, file=sys.stderr)
        return NO_DISPLAY
    return _show(args.file, demo=False)


def _demo_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--headless", action="store_true", help="build it and print its state, no window")
    parser.add_argument("--file", type=Path, metavar="PATH", help="where the demo lies or is built")
    parser.add_argument("--picture", type=Path, metavar="PNG", help="save a picture of the window and end")


def _demo(args: argparse.Namespace) -> int:
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
        return _show(args.file, demo=True)
    if reason:
        print(f"{reason}\nHere is the state of the demo instead.\n", file=sys.stderr)
    path = _ensured(args.file or demo_path())
    _print_summary(path, as_json=False)
    print(f"\nThe demo lies in {path}")
    return DONE


def _ensured(path: Path) -> Path:
    from rebuild.demo.where import ensure_demo

    ensure_demo(path, _tell)
    return path


def _tell(words: str) -> None:
    print(f"building the demo: {words}", file=sys.stderr)


def _check_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")


def _check(args: argparse.Namespace) -> int:
    from rebuild.store.read_only_place import readable
    from rebuild.work.checks.check import check

    with readable(args.file) as file:
        findings = check(file)
    for finding in findings:
        print(finding)
    if findings:
        count = "1 finding" if len(findings) == 1 else f"{len(findings)} findings"
        print(f"{args.file.name}: {count}. Make a copy of the file before mending anything.")
        return FOUND
    print(f"{args.file.name}: all is well.")
    return DONE


def _repair_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help="the damaged file; it is only read")
    parser.add_argument("--to", type=Path, metavar="NEW", help="the new file; beside the old unless given")


def _repair(args: argparse.Namespace) -> int:
    from rebuild.store.repair.repair import repair
    from rebuild.work.checks.check import check

    made = repair(args.file, args.to)
    for sentence in made.said:
        print(sentence)
    left = check(made.path)
    for finding in left:
        print(finding)
    photos = f" and {made.photos} photos" if made.photos else ""
    sound = "It is sound." if not left else "What is listed above is still to be mended."
    print(f"Written: {made.path}, with {made.rows} rows{photos}. {sound} {args.file.name} is as it was.")
    return FOUND if left else DONE


def _new_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")


def _new(args: argparse.Namespace) -> int:
    from rebuild.store.store import Store

    path = args.file if args.file.suffix else args.file.with_suffix(".rebuild")
    Store.create(path).close()
    print(f"Made: {path}. Open it with: rebuild {path}")
    return DONE


def _backup_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument(
        "--to", type=Path, metavar="PATH", help="the copy's name; beside the file unless given"
    )


def _backup(args: argparse.Namespace) -> int:
    from rebuild.store.photo_copies import backup_with_photos
    from rebuild.store.recognise import recognise

    recognise(args.file)
    kept = backup_with_photos(args.file, to=args.to)
    photos = (
        "" if not kept.photos else f", with {kept.photos} photo{'s' if kept.photos != 1 else ''} beside it"
    )
    print(f"Copied and verified: {kept.path}{photos}")
    for trouble in kept.troubles:
        print(trouble)
    return FOUND if kept.troubles else DONE


def _summary_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--json", action="store_true", help="for other programs, nothing cut")


def _summary(args: argparse.Namespace) -> int:
    _print_summary(args.file, as_json=args.json)
    return DONE


def _print_summary(path: Path, *, as_json: bool) -> None:
    from rebuild.sheets.summary_text import summary_data, summary_text
    from rebuild.store.read_only_place import readable
    from rebuild.store.unreadable import in_words

    with readable(path) as file, gc_paused():
        state, unread = _summed_up(file)
    print(_json(summary_data(state)) if as_json else summary_text(state))
    if unread:
        print(in_words(unread), file=sys.stderr)


def _summed_up(path: Path) -> tuple[ShopState, tuple[BadCell, ...]]:
    """The state of a file. It is looked over cell by cell only when reading it stumbles: that takes seconds."""
    from rebuild.cli.side_by_side import state_of_file
    from rebuild.store.store import Store
    from rebuild.work.plan.rows_summary import shop_state

    try:
        return state_of_file(path), ()
    except (RebuildError, LookupError, ValueError, TypeError):
        with closing(Store.open(path)) as store:
            return shop_state(store), store.unreadable


def _figure_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("topic", nargs="?", metavar="TOPIC", help="what to work out; none lists them all")
    parser.add_argument("entries", nargs="*", metavar="name=value", help="none says what the topic takes")
    parser.add_argument("--json", action="store_true", help="for other programs")
    parser.add_argument("--working", action="store_true", help="show how it was worked out")
    parser.add_argument(
        UNIT,
        choices=("mm", "in"),
        default="",
        help="of a size typed without one; each entry's own unless given",
    )


def _figure(args: argparse.Namespace) -> int:
    from rebuild.trade.figures import all_figures, figure
    from rebuild.trade.results.figure_text import answers_text, as_data, list_of, usage

    if args.topic is None:
        print(list_of(all_figures().values()))
        return DONE
    chosen = figure(args.topic)
    if not args.entries:
        print(usage(chosen))
        return DONE
    figured = chosen.run(dict(_pair(entry) for entry in args.entries), unit=args.unit)
    if args.json:
        print(_json(as_data(chosen, figured, working=args.working)))
    else:
        print(answers_text(figured, working=args.working))
        if figured.bare and not args.unit:
            print("Take them otherwise with --unit in or --unit mm.")
    return DONE


def _pair(entry: str) -> tuple[str, str]:
    name, mark, value = entry.partition("=")
    if not mark:
        raise BadEntry(
            "is not an entry.",
            value=entry,
            way_out="Type it as name=value; rebuild figure TOPIC lists the names.",
        )
    return name.strip(), value.strip()


def _json(data: dict[str, object]) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False)


_Arguments = Callable[[argparse.ArgumentParser], None]
_Run = Callable[[argparse.Namespace], int]

COMMANDS: dict[str, tuple[str, _Arguments, _Run]] = {
    "demo": ("open two invented machines in the middle of their rebuild", _demo_arguments, _demo),
    "check": (
        "check a project file: integrity, schema, journal, every stored size",
        _check_arguments,
        _check,
    ),
    "repair": (
        "make a sound file from a damaged one, its -wal and its backups",
        _repair_arguments,
        _repair,
    ),
    "new": ("make an empty project file", _new_arguments, _new),
    "backup": ("copy a project file while it may be in use, and verify the copy", _backup_arguments, _backup),
    "summary": ("print how far the rebuild is and what comes next", _summary_arguments, _summary),
    "find": ("find anything in a project file by a word, a code or a size", find.arguments, find.run),
    "book": (
        "write the machine’s book as a PDF",
        cli_exchange.book_arguments,
        cli_exchange.book,
    ),
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
    "figure": ("work out one thing: a fit, a thread, a taper, a verdict", _figure_arguments, _figure),
}
