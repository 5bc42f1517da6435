"""A project file made, checked, mended and copied, without a window."""

from __future__ import annotations

import argparse
from pathlib import Path

from rebuild.cli.exit_codes import DONE, FOUND
from rebuild.words.counted import counted


def check_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", type=Path, metavar="FILE")


def check_file(args: argparse.Namespace) -> int:
    """Say all that a file claims and that is not so."""
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


def repair_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", type=Path, metavar="FILE", help="the damaged file; it is only read")
    parser.add_argument("--to", type=Path, metavar="NEW", help="the new file; beside the old unless given")


def repair_file(args: argparse.Namespace) -> int:
    """Make a sound file beside a damaged one."""
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
    print(
        f"Written: {made.path}, with {counted(made.rows, 'row')}{photos}. {sound} {args.file.name} is as it was."
    )
    return FOUND if left else DONE


def new_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", type=Path, metavar="FILE")


def make_new(args: argparse.Namespace) -> int:
    """Make an empty file."""
    from rebuild.store.store import Store

    path = args.file if args.file.suffix else args.file.with_suffix(".rebuild")
    Store.create(path).close()
    print(f"Made: {path}. Open it with: rebuild {path}")
    return DONE


def backup_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", type=Path, metavar="FILE")
    parser.add_argument(
        "--to", type=Path, metavar="PATH", help="the copy's name; beside the file unless given"
    )


def make_backup(args: argparse.Namespace) -> int:
    """Copy a file with its photos, and verify the copy."""
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
