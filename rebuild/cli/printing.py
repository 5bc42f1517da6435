"""The command that writes tags, labels and pages for the shop: ``print``."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.cli.exit_codes import DONE
from rebuild.errors import BadEntry, NotThere

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from rebuild.sheets.pages.printed import Wanted

#: As ``Printed.key``; a test holds it against that list, which is imported only when something is printed.
WORDS = (
    "tags",
    "bags",
    "tray",
    "day",
    "measuring",
    "survey",
    "walk",
    "buy",
    "removals",
    "rebuilt",
    "question",
)


def print_arguments(parser: argparse.ArgumentParser) -> None:
    """What ``rebuild print`` takes."""
    parser.add_argument("what", metavar="WHAT", help=", ".join(WORDS))
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument("--machine", metavar="NAME", help="the machine; the only one there is unless given")
    parser.add_argument("--of", metavar="NAME", help="the subassembly, by code or name")
    parser.add_argument(
        "--part",
        metavar="CODE",
        action="append",
        help="a part, for tags and the measuring sheet; may be repeated",
    )
    parser.add_argument("--place", metavar="NAME", action="append", help="a bag or tray; may be repeated")
    parser.add_argument("--survey", metavar="NAME", help="the survey")
    parser.add_argument("--question", metavar="WORDS", help="words of the question")
    parser.add_argument(
        "--time", metavar="MIN", default="2 h", help="for the day sheet, as “90 min” or “2 h”"
    )
    parser.add_argument("--paper", default="A4", metavar="NAME", help="A4 or Letter")
    parser.add_argument("--labels", metavar="STOCK", help="as “A4, 70 x 36, 3 x 8” or “roll 62 x 29”, in mm")
    parser.add_argument(
        "--first", metavar="NO", default="1", help="the first label still on a sheet begun before"
    )
    parser.add_argument("--to", type=Path, metavar="PATH", help="the PDF; beside the file unless given")


def print_page(args: argparse.Namespace) -> int:
    """Write one page, or a set of labels."""
    from rebuild.sheets.pages.printed import printed_named
    from rebuild.store.read_only_place import readable
    from rebuild.store.store import Store

    what = printed_named(args.what)
    target = args.to or args.file.with_name(f"{args.file.stem} {what.name.lower()}.pdf")
    with readable(args.file) as file:
        store = Store.open(file)
        try:
            with store.read() as connection:
                wanted = _wanted(connection, args)
            pages = what.write(store, wanted, target)
        finally:
            store.close()
    print(f"Written: {target}, {pages} page{'s' if pages != 1 else ''}.")
    return DONE


def _wanted(connection: Connection, args: argparse.Namespace) -> Wanted:
    """What the words of the command mean in this file. Raises NotThere, BadEntry."""
    from rebuild.sheets.pages.printed import Wanted
    from rebuild.sheets.paper import paper
    from rebuild.trade.labels.stock import READY
    from rebuild.trade.sizes.amounts import parse_minutes
    from rebuild.trade.sizes.number import read_whole
    from rebuild.work.machines.rows_tree import machines, parts, subassemblies
    from rebuild.work.places.rows import places
    from rebuild.work.plan.rows_tonight import Tonight
    from rebuild.work.surveys.rows import surveys

    listed = machines(connection)
    if args.machine is None and len(listed) > 1:
        names = ", ".join(f"“{row.name}”" for row in listed)
        raise BadEntry("is not named.", where="Machine", way_out=f"Name one with --machine: {names}.")
    machine = _named("machine", args.machine, [(row.id, (row.name,)) for row in listed])
    groups = [(row.id, (row.code, row.name)) for row in subassemblies(connection, machine)]
    there = [(row.id, (row.code, row.name)) for row in parts(connection, machine)]
    lie = [(row.id, (row.name, row.called)) for row in places(connection)]
    measured = [(row.id, (row.name,)) for row in surveys(connection, machine)]
    return Wanted(
        machine,
        None if args.of is None else _named("subassembly", args.of, groups),
        tuple(_named("part", text, there) for text in args.part or ()),
        tuple(_named("place", text, lie) for text in args.place or ()),
        None if args.survey is None and len(measured) != 1 else _named("survey", args.survey, measured),
        None if args.question is None else _asked(connection, machine, args.question),
        paper(args.paper),
        args.labels or READY[0 if paper(args.paper).name == "A4" else 3],
        read_whole(args.first, "First label", at_least=1),
        Tonight(parse_minutes(args.time, "Time")),
    )


def _asked(connection: Connection, machine: int, text: str) -> int:
    """The one question that has these words in it. Raises NotThere, BadEntry."""
    from rebuild.work.log.rows import questions

    there = questions(connection, machine)
    return _named("question", text, [(row.id, (row.text, *_if_in(text, row.text))) for row in there])


def _if_in(part: str, whole: str) -> tuple[str, ...]:
    """The words themselves as a name of what holds them."""
    return (part.strip(),) if part.strip() and part.strip().casefold() in whole.casefold() else ()


def _named(word: str, text: str | None, known: Iterable[tuple[int, tuple[str, ...]]]) -> int:
    """The one thing of that code or name; the only one there is when nothing was named."""
    listed = list(known)
    if text is None and len(listed) == 1:
        return listed[0][0]
    plain = (text or "").strip().casefold()
    found = [key for key, names in listed if plain and plain in (name.casefold() for name in names)]
    if len(found) == 1:
        return found[0]
    shown = ", ".join(f"“{next(filter(None, names), '')}”" for _, names in listed[:40]) or "none yet"
    if found:
        raise BadEntry(
            f"names {len(found)} of them.",
            where=word.capitalize(),
            value=text or "",
            way_out="Give the code.",
        )
    raise NotThere(f"There is no {word} “{text or ''}” here.", way_out=f"There are: {shown}.")
