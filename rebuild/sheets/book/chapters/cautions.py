"""The cautions of the steps on this machine, each with its source, and the limits of what the program knows."""

from __future__ import annotations

from reportlab.platypus import Flowable

from rebuild.sheets.book.flow import chapter_of, prose, section, small
from rebuild.sheets.book.options import BookOptions
from rebuild.trade.results.cautions import stored_caution, topics
from rebuild.trade.results.limits_of_use import LIMITS
from rebuild.work.book.rows import BookData


def chapter(book: BookData, _options: BookOptions) -> list[Flowable]:
    """Cautions in the order of the list, hardest to undo first; then the limits of use."""
    on_steps = dict(book.bench.cautions)
    content: list[Flowable] = []
    known = [topic for topic in topics() if topic in on_steps]
    for topic in (*known, *(topic for topic in on_steps if topic not in known)):
        called = stored_caution(topic).title
        content += section(called, f"caution-{topic}", _caution(topic, on_steps[topic]), level=3)
    paragraphs = (" ".join(text.split()) for text in LIMITS.split("\n\n"))
    content += section("Limits of use", "limits-of-use", [prose(text) for text in paragraphs])
    return chapter_of("Cautions and limits of use", "cautions", content)


def _caution(topic: str, steps: int) -> list[Flowable]:
    found = stored_caution(topic)
    return [
        prose(f"{found.text} Defers to: {found.defer_to}"),
        small(f"On {steps} step{'s' if steps != 1 else ''}. Source: {found.source.cite()}."),
    ]
