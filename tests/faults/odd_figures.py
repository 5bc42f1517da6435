"""Types odd things into every entry of every figure: ``python -m tests.faults.odd_figures 20000 [SEED [TOPIC...]]``.

``new`` for a topic means all that came with "more of the handbook" (``NEW``).

Each input must end in an answer whose numbers are all finite, or in a sentence (``RebuildError``) that says something.
Prints a table by topic and entry; ends with 1 when there was a traceback, an endless number, no memory left, or an
answer slower than ``SLOWEST_MS``.
"""

from __future__ import annotations

import json
import math
import sys
import time
import traceback
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random

from rebuild.errors import RebuildError
from rebuild.trade.figures import all_figures
from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figure_text import answers_text, as_data
from rebuild.trade.results.figured import Figured
from rebuild.trade.results.input import Input
from rebuild.trade.sizes.units import length_in_mm
from tests.faults.odd_values import typed_oddly

#: Nobody waits longer for a figure [ms of this process], once its topic has loaded what it needs.
SLOWEST_MS = 100.0
#: An input that asks for more memory than this ends in a MemoryError, not the machine's end [bytes].
MOST_MEMORY = 3_000_000_000
SEED = 10
#: What a rebuilder still leafed through a handbook for.
NEW = (
    "identify-woodruff", "woodruff", "dovetail", "dovetail-scraping", "taper-gib", "pipe-thread", "identify-pipe",
    "pipe-gauging", "belt", "spindle-speeds", "cone", "dividing", "dividing-angle", "helical-gear",
    "helix-from-centres", "bevel-gears", "worm", "clearance-hole", "t-slot", "hole-circle", "ring-groove", "spring",
    "spring-coils", "general-tolerance", "it-grade", "spline", "square", "convert", "weight", "gear-weight",
    "centre-of-mass", "pieces-centre", "sling", "bearing",
)  # fmt: skip


@dataclass(slots=True)
class Count:
    """What came of the odd inputs to one entry."""

    inputs: int = 0
    refused: int = 0
    answered: int = 0
    slowest_ms: float = 0.0
    faults: list[str] = field(default_factory=list)


def run(inputs: int, seed: int = SEED, topics: tuple[str, ...] = ()) -> dict[tuple[str, str], Count]:
    """Type ``inputs`` odd things in all, each entry of those topics, or of all, in its turn."""
    chance = Random(seed)
    places = [(figure, item) for figure in _figures(topics) for item in figure.inputs]
    found = {(figure.topic, item.name): Count() for figure, item in places}
    for figure in all_figures().values():
        _load(figure)
    for at in range(inputs):
        figure, item = places[at % len(places)]
        _try(found[figure.topic, item.name], figure, item, chance)
    return found


def _figures(topics: tuple[str, ...]) -> list[Figure]:
    wanted = {topic for asked in topics for topic in (NEW if asked == "new" else (asked,))}
    return [figure for topic, figure in all_figures().items() if not wanted or topic in wanted]


def _load(figure: Figure) -> None:
    """Tables and units are read at the first question, as after a start."""
    if figure.example:
        answers_text(figure.run(figure.example), working=True)
    length_in_mm("thou")


def _bound_memory() -> None:
    """Where the system can: what asks for too much is then told as any other fault."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, resource.getrlimit(resource.RLIMIT_AS)[1]))


def _try(count: Count, figure: Figure, item: Input, chance: Random) -> None:
    typed = typed_oddly(figure, item, chance)
    started = time.process_time()
    count.inputs += 1
    try:
        fault = _fault_in_answer(figure, figure.run(typed))
        count.answered += not fault
    except RebuildError as refused:
        fault = "" if len(str(refused)) > 20 else f"refused without a sentence: {refused}"
        count.refused += not fault
    except Exception:  # noqa: BLE001 - whatever it is, it is what is looked for
        fault = traceback.format_exc(limit=-4)
    took = (time.process_time() - started) * 1000
    count.slowest_ms = max(count.slowest_ms, took)
    if took > SLOWEST_MS:
        fault += f"{took:.0f} ms"
    if fault:
        count.faults.append(f"{figure.topic} {typed}\n{fault}")


def _fault_in_answer(figure: Figure, figured: Figured) -> str:
    """What is wrong with an answer: a number without end, or no way to show it."""
    endless = [name for name, number in _numbers(figured) if not math.isfinite(number)]
    if endless:
        return f"not finite: {', '.join(endless)}"
    answers_text(figured, working=True)
    json.dumps(as_data(figure, figured, working=True), allow_nan=False)
    shown = f" {answers_text(figured, working=True)} ".lower()
    for word in (" nan ", " inf ", " -inf ", " nan\n", " inf\n"):
        if word in shown:
            return f"shows “{word.strip()}”"
    return "" if figured.answers else "no answer at all"


def _numbers(figured: Figured) -> Iterator[tuple[str, float]]:
    for answer in figured.answers:
        if not isinstance(answer.value, str):
            yield answer.label, float(answer.value)
    for spec in figured.specs:
        yield from ((spec.label, mm) for mm in (spec.nominal_mm, spec.low_mm, spec.high_mm) if mm is not None)
    for zone in figured.zones:
        yield from ((zone.label, mm) for mm in (zone.low_mm, zone.high_mm))


def table(found: dict[tuple[str, str], Count]) -> str:
    """The figures by topic and entry, and their sum."""
    lines = [
        f"{'topic':<18} {'entry':<18} {'inputs':>7} {'refused':>8} {'answered':>9} {'faults':>7} {'slowest ms':>11}"
    ]
    for (topic, name), count in found.items():
        lines.append(_line(topic, name, count))
    whole = Count()
    for count in found.values():
        whole.inputs += count.inputs
        whole.refused += count.refused
        whole.answered += count.answered
        whole.faults += count.faults
        whole.slowest_ms = max(whole.slowest_ms, count.slowest_ms)
    return "\n".join([*lines, _line("all", "", whole)])


def _line(topic: str, name: str, count: Count) -> str:
    return (
        f"{topic:<18} {name:<18} {count.inputs:>7} {count.refused:>8} {count.answered:>9} "
        f"{len(count.faults):>7} {count.slowest_ms:>11.1f}"
    )


def main(argv: list[str]) -> int:
    """Run, print, and say with the exit code whether anything was found."""
    _bound_memory()
    found = run(int(argv[0]) if argv else 20_000, int(argv[1]) if len(argv) > 1 else SEED, tuple(argv[2:]))
    faults = [fault for count in found.values() for fault in count.faults]
    print(*faults, sep="\n\n", file=sys.stderr)
    print(table(found))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
