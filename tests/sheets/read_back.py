"""The machine's book read back by a PDF library, beside what it was made from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject, IndirectObject

from rebuild.work.book.rows import BookData


def squeezed(text: str) -> str:
    """A text without any white space, so that line ends do not matter."""
    return "".join(text.split())


@dataclass(frozen=True)
class Read:
    """A book read back, beside what it was made from."""

    path: Path
    data: BookData

    @cached_property
    def pdf(self) -> PdfReader:
        return PdfReader(self.path)

    @cached_property
    def pages(self) -> list[str]:
        return [page.extract_text() for page in self.pdf.pages]

    @cached_property
    def whole(self) -> str:
        return squeezed("".join(self.pages))

    def says(self, text: str) -> bool:
        return squeezed(text) in self.whole

    def images(self) -> set[int]:
        found = set()
        for page in self.pdf.pages:
            things = page["/Resources"].get_object().get("/XObject", DictionaryObject()).get_object()
            for reference in things.values():
                assert isinstance(reference, IndirectObject)
                if reference.get_object()["/Subtype"] == "/Image":
                    found.add(reference.idnum)
        return found


def words_at(page: PageObject) -> list[tuple[float, float, str]]:
    """Every piece of text of a page with where it begins."""
    found: list[tuple[float, float, str]] = []

    def hear(text: str, cm: list[float], tm: list[float], _font: object, _size: object) -> None:
        if text.strip():
            found.append((cm[0] * tm[4] + cm[4], cm[3] * tm[5] + cm[5], text.strip()))

    page.extract_text(visitor_text=hear)
    return found
