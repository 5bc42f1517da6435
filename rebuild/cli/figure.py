"""One thing worked out from a terminal: the topics, what one takes, the answer with its working."""

from __future__ import annotations

import argparse

from rebuild.cli.exit_codes import DONE
from rebuild.cli.json_text import in_json
from rebuild.errors import BadEntry

#: Names the unit of sizes typed without one.
UNIT = "--unit"


def flags_first(given: list[str]) -> list[str]:
    """argparse takes name=value words only in one run, so the flags among them go first."""
    flags: list[str] = []
    words: list[str] = []
    for word in given[1:]:
        follows = bool(flags) and flags[-1] == UNIT
        (flags if follows or word.startswith("-") else words).append(word)
    return [given[0], *flags, *words]


def figure_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
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


def work_out(args: argparse.Namespace) -> int:
    """List the topics, say what one takes, or work one out."""
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
        print(in_json(as_data(chosen, figured, working=args.working)))
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
