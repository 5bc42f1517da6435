"""One idea has one word: what the glossary does not use stands in no text of the program, and each word is used."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from rebuild.words.glossary import GLOSSARY
from tests.sources import modules, nodes_of, tree_of

ROOT = Path(__file__).resolve().parent.parent
HERE = ROOT / "rebuild" / "words" / "glossary.py"
#: One line of the sheet [letters].
TOO_LONG = 96


def _texts(path: Path) -> Iterator[str]:
    """Every text of a module but its docstrings."""
    told = set()
    for node in nodes_of(tree_of(path)):  # what holds a docstring comes before it
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            if node.body and isinstance(node.body[0], ast.Expr):
                told.add(id(node.body[0].value))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in told:
            yield node.value.replace("&", "")


@cache
def _all_texts() -> dict[Path, list[str]]:
    return {path: list(_texts(path)) for path in modules() if path != HERE}


def test_no_text_uses_a_word_the_glossary_does_not() -> None:
    never = {word for meaning in GLOSSARY for word in meaning.never}
    inside = {words for meaning in GLOSSARY for words in meaning.inside}
    found = [
        f"{path.relative_to(ROOT)}: {text!r}"
        for path, texts in _all_texts().items()
        for text in texts
        if text in never or any(words in text for words in inside)
    ]
    assert found == []


def test_a_text_with_such_a_word_in_it_is_found() -> None:
    inside = {words for meaning in GLOSSARY for words in meaning.inside}
    assert [words for words in inside if words in "Torque wanted: 40 N m; 3 on the critical path"]
    assert len(inside) >= 6


def test_each_word_of_the_glossary_is_used_and_told_in_one_line() -> None:
    said = "\n".join(text.casefold() for texts in _all_texts().values() for text in texts)
    assert [meaning.word for meaning in GLOSSARY if meaning.word.casefold() not in said] == []
    assert [meaning.word for meaning in GLOSSARY if len(meaning.line) > TOO_LONG] == []
    words = [meaning.word for meaning in GLOSSARY]
    assert words == sorted(words, key=lambda word: word.lstrip("% "))
    assert len(words) == len(set(words))
