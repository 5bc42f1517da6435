"""Lines of the whole window, each side in a process of its own: memory, typing, pages, switching, sorting."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from tests.benchmarks.children import said
from tests.benchmarks.clock import middle, p95
from tests.benchmarks.table import Line

MB = "MB"
#: The window's thread is not held up longer than this [s].
MOST_STALL_S = 0.100


def memory(demo: Path, large: Path, folder: Path) -> list[Line]:
    """Above a bare window with a table, each process's own peak [MB]; nothing where there is no /proc."""
    if sys.platform != "linux":
        return []
    bare = middle([said("bare", demo, folder)["mb"][0] for _ in range(3)])
    ours = {name: said("memory", file, folder) for name, file in (("demo", demo), ("large", large))}
    lines = []
    for what, most in (("painted", 60), ("all pages", 120)):
        more = ours["demo"][what][0] - bare
        lines.append(Line(f"memory above it, demo, {what}", more, bare, f"most {most} MB", more <= most, MB))
        there = ours["large"][what][0] - bare
        kept = there <= 1.2 * more
        lines.append(Line(f"memory, large against demo, {what}", there, more, "most 1.2 x", kept, MB))
    return lines


def typing(demo: Path, large: Path, folder: Path) -> list[Line]:
    """From Return to durable and painted, whole window, p95 against its own median; written to copies."""
    lines = []
    for name, file, most in (("demo", demo, 0.016), ("large", large, 0.020)):
        copy = folder / f"typed_{name}.rebuild"
        shutil.copyfile(file, copy)
        found = said("entry", copy, folder)
        spent, beside = found["entry"], max(found["beside"])
        copy.unlink()
        high = p95(spent)
        lines.append(
            Line(
                f"typed reading, whole window, {name}, p95 (median)",
                high,
                middle(spent),
                f"under {most * 1000:g} ms",
                high < most,
            )
        )
        what = f"what stands beside takes it up, {name}, longest stall"
        lines.append(Line(what, beside, middle(spent), "under 100 ms", beside < MOST_STALL_S))
    return lines


def pages(large: Path, folder: Path) -> list[Line]:
    """The slowest page shown first and again; against the middle one."""
    found = said("pages", large, folder)
    lines = []
    for at, when, most in ((0, "first", 0.150), (1, "again", 0.030)):
        spent = {key: times[at] for key, times in found.items()}
        slowest = max(spent, key=lambda key: spent[key])
        over = sum(took >= most for took in spent.values())
        what = f"page shown {when}, slowest: {slowest} ({over} over)"
        limit = f"under {most * 1000:g} ms"
        lines.append(Line(what, spent[slowest], middle(list(spent.values())), limit, over == 0))
    return lines


def stalling(large: Path, folder: Path) -> Line:
    """The longest the window's thread is held up while every page is shown twice and a backup is made."""
    copy = folder / "stalls.rebuild"
    shutil.copyfile(large, copy)
    held = {what: times[0] for what, times in said("stalls", copy, folder).items()}
    copy.unlink()
    slowest = max(held, key=lambda what: held[what])
    over = sum(took >= MOST_STALL_S for took in held.values())
    what = f"longest stall, all pages: {slowest} ({over} of {len(held)} over)"
    return Line(what, held[slowest], middle(list(held.values())), "under 100 ms", over == 0)


def switching(one: Path, large: Path, folder: Path) -> Line:
    """The bench for another machine, in a file of many against a file of one."""
    alone, among = (middle(said("switch", file, folder)["switch"]) for file in (one, large))
    return Line("switch machine among many, against alone", among, alone, "most 1.2 x", among <= 1.2 * alone)


def sorting(large: Path, folder: Path) -> list[Line]:
    """Every order and the verdict filter: the keys of a machine and its first page; against the order of the tree."""
    found = {name: middle(times) for name, times in said("sorts", large, folder).items()}
    plain = found["order of the tree"]
    return [Line(f"rows: {name}", took, plain, "under 60 ms", took < 0.060) for name, took in found.items()]
