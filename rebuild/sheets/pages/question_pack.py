"""A question as a page to be sent: what is asked, of which machine and part, its sizes and photos."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.pictures import picture
from rebuild.work.question_pack.rows import question_pack
from rebuild.work.records.rows_settings import verdict_rule

if TYPE_CHECKING:
    from rebuild.store.store import Store

#: Photos that go with a question, and how high each is at most [mm].
MOST_PHOTOS, HIGH_MM = 6, 95.0


def write_question_pack(
    store: Store, question_id: int, target: Path, on: Paper = A4, *, printed: dt.datetime | None = None
) -> int:
    """Print one question with what is needed to answer it; returns how many pages it took.

    Raises:
        NotThere: the question was removed.
        FileTrouble: it cannot be written there.
    """
    from reportlab.platypus import Spacer

    with store.read() as connection:
        pack = question_pack(connection, question_id, verdict_rule(store))
    story: list[Any] = [words(pack.question, "large"), Spacer(0, 6), *(words(line) for line in pack.facts)]
    if pack.sizes:
        story += [Spacer(0, 6), words("Sizes as read", "heading"), *(words(line) for line in pack.sizes)]
    for row in pack.photos[:MOST_PHOTOS]:
        shown = picture(row.path(store.path), on.inside_mm, HIGH_MM)
        said = ", ".join(filter(None, (row.proves, row.file_name)))
        story += [Spacer(0, 8), *([shown] if shown is not None else []), words(said, "small")]
    heading = Heading("Question", pack.machine, foot=f"Question · {pack.machine}")
    return build(target, heading, story, on, printed=printed)
