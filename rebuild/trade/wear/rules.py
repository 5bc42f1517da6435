"""The wear rules: thresholds and preferences with their origin, and the user's own limits in place of them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from rebuild.trade.results.tables import assets_folder, status_of
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_typed
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind
from rebuild.words.readings import FeatureKind

INCH_MM = 25.4
MIDDLE = 3


@dataclass(frozen=True, slots=True)
class Threshold:
    """A limit of a rule; ``per_size`` says it is for each inch of the size."""

    size: Size
    per_size: bool

    def at(self, size_mm: float | None) -> float | None:
        """The limit for a part of this size [mm]; None where it needs a size that is not known."""
        if not self.per_size:
            return self.size.mm
        return None if size_mm is None else self.size.mm * abs(size_mm) / INCH_MM

    def shown(self) -> str:
        """As typed, with what it is per."""
        return show_typed(self.size, self.size.unit) + (" per inch of size" if self.per_size else "")


@dataclass(frozen=True, slots=True)
class Edited:
    """The user's own limits for a rule, stored in the file; None leaves the rule's."""

    good: Size | None = None
    rework: Size | None = None
    left_out: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Do:
    """What a rule proposes: the decision's word, and how."""

    decision: Decision
    method: str


@dataclass(frozen=True, slots=True)
class Criterion:
    """A measure against two thresholds. ``edited`` holds the user's change, with the rule's own kept beside.

    ``form_only``: it speaks of form, and being good leaves a part only where its size conforms.
    """

    key: str
    title: str
    measure: str
    good: Threshold
    rework: Threshold
    good_do: Do
    band_do: Do
    over_do: Do
    source: Source
    kinds: frozenset[FeatureKind] = frozenset()
    joints: frozenset[FitJoint] = frozenset()
    fit_kinds: frozenset[FitKind] = frozenset()
    words: tuple[str, ...] = ()
    not_words: tuple[str, ...] = ()
    note: str = ""
    own_good: Threshold | None = None
    own_rework: Threshold | None = None
    left_out: bool = False
    edit_note: str = ""
    form_only: bool = False

    @property
    def edited(self) -> bool:
        """Whether the user has put limits of his own, or left the rule out."""
        return self.left_out or self.own_good is not None

    def speaks_of(self, names: str) -> bool:
        """Whether the names of feature and part are among its words."""
        return has_word(names, self.words, True) and not has_word(names, self.not_words, False)


@dataclass(frozen=True, slots=True)
class Preference:
    """Which of two parts to sacrifice, or what to try first."""

    key: str
    title: str
    text: str
    source: Source
    joint: FitJoint | None = None
    kinds: frozenset[FeatureKind] = frozenset()
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rules:
    """All rules in force."""

    criteria: tuple[Criterion, ...]
    preferences: tuple[Preference, ...]
    dearness: tuple[tuple[int, tuple[str, ...]], ...]
    _by_key: Mapping[str, Preference] = field(default_factory=dict)

    def preference(self, key: str) -> Preference:
        """One preference by key. Raises KeyError for a key not in the file (a programming error)."""
        return self._by_key[key]

    def dear(self, name: str) -> int:
        """How dear a part is to replace, 1 to 5, by the last telling word of its name; 3 when none tells.

        >>> rules().dear("apron bush"), rules().dear("cross slide nut"), rules().dear("bed")
        (2, 2, 5)
        """
        found = [
            (match.end(), rank)
            for rank, words in self.dearness
            for word in words
            for match in re.finditer(rf"\b{re.escape(word)}(?:e?s)?\b", name, re.I)
        ]
        return max(found)[1] if found else MIDDLE


def has_word(names: str, words: Sequence[str], without: bool) -> bool:
    """Whether any of ``words`` stands in ``names``; ``without`` is the answer for no words at all.

    >>> has_word("AP-12 bushes", ("bush",), False), has_word("ambush", ("bush",), False)
    (True, False)
    """
    if not words:
        return without
    return any(re.search(rf"\b{re.escape(word)}(?:e?s)?\b", names, re.I) for word in words)


#: What is built round, for or over such a thing and is not one itself. Common practice, no source.
_HOLDERS = frozenset({
    "bracket", "cap", "carrier", "casing", "cover", "cutter", "flange", "groove", "guard", "holder", "housing",
    "plate", "pot", "pulley", "punch", "puller", "recess", "retainer", "scraper", "seat", "shaft", "shield",
    "spring", "tensioner", "tool", "trough",
})  # fmt: skip
_PLACED = frozenset({"front", "rear", "left", "right", "upper", "lower", "inner", "outer", "top", "bottom"})


def is_one(name: str, words: Sequence[str]) -> bool:
    """Whether a part called so is one of ``words`` by its head noun: the last word of its first clause.

    >>> is_one("felt ring", ("felt",)), is_one("drive belts, matched", ("belt",)), is_one("Belt guard", ("belt",))
    (True, True, False)
    """
    clause = re.split(r"[,;:(]|\bfor\b|\bof\b", name, maxsplit=1)[0]
    said = [word for word in re.findall(r"[a-z]{3,}", clause.lower()) if word not in _PLACED]
    head = said[-1] if said else ""
    return head not in _HOLDERS and head.removesuffix("s") not in _HOLDERS and has_word(name, words, False)


def rules(edits: Mapping[str, Edited] | None = None) -> Rules:
    """The rules with the user's own limits put in place.

    >>> journal = next(rule for rule in rules().criteria if rule.key == "shaft-journal")
    >>> journal.good.shown(), journal.source.status.value, journal.edited
    ('0.001 in', 'common practice, no source', False)
    """
    own = _own_rules()
    if not edits:
        return own
    return replace(own, criteria=tuple(_with_edit(rule, edits.get(rule.key)) for rule in own.criteria))


def _with_edit(rule: Criterion, edit: Edited | None) -> Criterion:
    if edit is None:
        return rule
    changed = edit.good is not None or edit.rework is not None
    source = (
        Source("the owner's own limit", f"in place of: {rule.source.where}", Status.JUDGEMENT)
        if changed
        else rule.source
    )
    return replace(
        rule,
        good=Threshold(edit.good, rule.good.per_size) if edit.good else rule.good,
        rework=Threshold(edit.rework, rule.rework.per_size) if edit.rework else rule.rework,
        own_good=rule.good if changed else None,
        own_rework=rule.rework if changed else None,
        source=source,
        left_out=edit.left_out,
        edit_note=edit.note,
    )


@cache
def _own_rules() -> Rules:
    read = tomllib.loads((assets_folder() / "wear_rules.toml").read_text(encoding="utf-8"))
    preferences = tuple(_preference(item) for item in read["preference"])
    return Rules(
        tuple(_criterion(item) for item in read["criterion"]),
        preferences,
        tuple((int(item["rank"]), tuple(item["words"])) for item in read["dearness"]),
        {preference.key: preference for preference in preferences},
    )


def _criterion(item: Mapping[str, Any]) -> Criterion:
    return Criterion(
        key=item["key"],
        title=item["title"],
        measure=item["measure"],
        good=_threshold(item, "good"),
        rework=_threshold(item, "rework"),
        good_do=_do(item["good_do"]),
        band_do=_do(item["band_do"]),
        over_do=_do(item["over_do"]),
        source=_source(item),
        kinds=frozenset(map(FeatureKind, item.get("kinds", ()))),
        joints=frozenset(map(FitJoint, item.get("joints", ()))),
        fit_kinds=frozenset(map(FitKind, item.get("fit_kinds", ()))),
        words=tuple(item.get("words", ())),
        not_words=tuple(item.get("not_words", ())),
        note=item.get("note", ""),
        form_only=item.get("form_only", False),
    )


def _do(item: Sequence[str]) -> Do:
    decision, method = item
    return Do(Decision(decision), method)


def _threshold(item: Mapping[str, Any], name: str) -> Threshold:
    return Threshold(parse_length(item[name], "in", name), item.get(f"{name}_per", "") == "size")


def _preference(item: Mapping[str, Any]) -> Preference:
    return Preference(
        item["key"],
        item["title"],
        item["text"],
        _source(item),
        FitJoint(item["joint"]) if "joint" in item else None,
        frozenset(map(FeatureKind, item.get("kinds", ()))),
        tuple(item.get("words", ())),
    )


def _source(item: Mapping[str, Any]) -> Source:
    return Source(f"Rule “{item['title']}”", item["origin"], status_of(item["status"]))


def limit_words(rule: Criterion) -> str:
    """The thresholds in force, and the rule's own where the user changed them.

    >>> limit_words(next(rule for rule in rules().criteria if rule.key == "hold-down"))
    'good up to 0.0015 in, rework up to 0.006 in'
    """
    text = f"good up to {rule.good.shown()}, rework up to {rule.rework.shown()}"
    if rule.own_good is not None and rule.own_rework is not None:
        text += f" (edited; the rule's own: {rule.own_good.shown()} and {rule.own_rework.shown()})"
    return text
