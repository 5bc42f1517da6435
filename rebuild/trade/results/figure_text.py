"""A figure's entries and answers as plain text, and as data for other programs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from rebuild.trade.results.figure import Figure
from rebuild.trade.results.figured import Answer, Figured, SpecLine
from rebuild.trade.results.input import Input, InputKind
from rebuild.trade.sizes.quantity import is_bare
from rebuild.trade.sizes.show import show_length


def list_of(figures: Iterable[Figure]) -> str:
    """Topics by group, one line each.

    >>> from rebuild.trade.figures import figure
    >>> list_of([figure("fit")]).splitlines()[0]
    'Limits and fits'
    """
    lines: list[str] = []
    group = ""
    for figure in figures:
        if figure.group != group:
            group = figure.group
            lines += ["", group] if lines else [group]
        lines.append(f"  {figure.topic:<18} {figure.title}")
    return "\n".join(lines)


def usage(figure: Figure) -> str:
    """What a figure takes: its entries and a whole example to type.

    >>> from rebuild.trade.figures import figure
    >>> usage(figure("fit")).splitlines()[-1]
    "Example: rebuild figure fit fit='25 H7/g6'"
    """
    lines = [figure.title, *([figure.about] if figure.about else []), ""]
    lines += [f"  {entry.name:<14} {_describe(entry)}" for entry in figure.inputs]
    if any(entry.kind is InputKind.LENGTH for entry in figure.inputs):
        lines += ["", "A length without a unit is taken as said above, or as --unit mm or --unit in says."]
    if figure.example:
        typed = " ".join(f"{name}={_quoted(value)}" for name, value in figure.example.items())
        lines += ["", f"Example: rebuild figure {figure.topic} {typed}"]
    return "\n".join(lines)


def _describe(entry: Input) -> str:
    parts = [entry.label]
    if entry.choices:
        parts.append("one of " + ", ".join(entry.choices))
    elif entry.kind is InputKind.LENGTH:
        parts.append(f"a length, bare numbers in {entry.unit or 'mm'}")
    elif entry.kind is InputKind.AMOUNT:
        parts.append(f"with its unit; bare numbers in {entry.unit}, with --unit in in {entry.inch_unit}")
    elif entry.unit and entry.kind is not InputKind.TEXT:
        parts.append(f"in {entry.unit}")
    if entry.default:
        parts.append(f"{entry.default} unless given")
    elif not entry.required:
        parts.append("may be left out")
    return "; ".join(parts) + (f". {entry.help}" if entry.help else "")


def _quoted(value: str) -> str:
    return f"'{value}'" if any(mark in value for mark in ' ;()&|<>"') else value


def example_lines(
    figure: Figure, typed: Mapping[str, str] | None = None, unit: str = ""
) -> tuple[str, str, str]:
    """A figure's example: what is typed, by label and with its unit, every answer, and the working in lines.

    >>> from rebuild.trade.figures import figure
    >>> example_lines(figure("square"))[0]
    'Across the flats 14 mm, Round stock 20 mm'
    """
    labels = {entry.name: entry for entry in figure.inputs}
    example = figure.example if typed is None else typed
    told = example or {entry.name: entry.default for entry in figure.inputs if entry.default}
    given = ", ".join(
        f"{labels[name].label} {_with_unit(labels[name], text, unit)}" for name, text in told.items() if text
    )
    figured = figure.run(example, unit=unit)
    came = "; ".join(
        f"{answer.label} {show_answer(replace(answer, note=''), figured.unit)}" for answer in figured.answers
    )
    return given, came, figured.working.text()


def _with_unit(entry: Input, text: str, machine: str) -> str:
    """A bare number with the unit it is taken in."""
    numeric = entry.kind in (InputKind.LENGTH, InputKind.NUMBER, InputKind.AMOUNT)
    unit = entry.unit if entry.kind is InputKind.NUMBER or not entry.unit else entry.unit_here(machine)
    return f"{text} {unit}" if numeric and unit and is_bare(text) else text


#: More limits than this are not told one by one where their size is told.
MOST_ROWS = 6


def unshown(figured: Figured) -> tuple[SpecLine, ...]:
    """The limits that can be taken and do not stand among the answers with both their ends; they are told as well.

    >>> from rebuild.trade.figures import figure
    >>> [line.label for line in unshown(figure("spline").run(figure("spline").example))]
    ['spline width', 'minor diameter']
    """
    told = [
        answer.value for answer in figured.answers if answer.unit == "mm" and isinstance(answer.value, float)
    ]

    def is_told(mm: float | None) -> bool:
        return mm is None or any(abs(mm - value) < 1e-9 for value in told)

    def by_nominal(line: SpecLine) -> bool:
        """A place with the same allowed either way is told by its size."""
        if line.nominal_mm is None or line.low_mm is None or line.high_mm is None:
            return False
        even = abs(line.nominal_mm - line.low_mm - (line.high_mm - line.nominal_mm)) < 1e-9
        return even and len(figured.specs) > MOST_ROWS and is_told(line.nominal_mm)

    return tuple(
        line
        for line in figured.specs
        if not (is_told(line.low_mm) and is_told(line.high_mm)) and not by_nominal(line)
    )


def limits_text(line: SpecLine, unit: str) -> str:
    """The limits of a line in one unit; one alone is said to be the least or the most.

    >>> limits_text(SpecLine("journal", None, 24.98, 25.0, ""), "mm")
    '24.9800 to 25.0000 mm'
    """
    places = 5 if unit == "in" else 4
    ends = [show_length(mm, unit, places) for mm in (line.low_mm, line.high_mm) if mm is not None]
    if len(ends) == 2:
        return f"{ends[0].removesuffix(f' {unit}')} to {ends[1]}"
    if not ends:
        return show_length(line.nominal_mm, unit, places) if line.nominal_mm is not None else "no limits"
    return f"{'at least' if line.high_mm is None else 'at most'} {ends[0]}"


def answers_text(figured: Figured, *, working: bool) -> str:
    """The answers in lines, cautions after them, and the working when it is wanted.

    >>> from rebuild.trade.figures import figure
    >>> asked = figure("bearing-seat")
    >>> answers_text(asked.run({"seat": "shaft", "size": "25"}), working=False).splitlines()[1]
    'seat, low           25.0020 mm = 0.98433 in'
    """
    units = ("in", "mm") if figured.unit == "in" else ("mm", "in")
    told = [(answer.label, show_answer(answer, figured.unit)) for answer in figured.answers]
    told += [
        (line.label, f"{' = '.join(limits_text(line, unit) for unit in units)}  ({line.origin})")
        for line in unshown(figured)
    ]
    width = max((len(label) for label, _ in told), default=0)
    lines = [f"{label:<{width}}  {text}".rstrip() for label, text in told]
    lines += [f"Caution: {caution}" for caution in figured.cautions]
    lines += [read_text(figured)] if figured.read else []
    if working:
        lines += ["", figured.working.text()]
    return "\n".join(lines)


def read_text(figured: Figured) -> str:
    """What the typed sizes and numbers were read as, in one line; empty when nothing of that kind was asked.

    >>> from rebuild.trade.figures import figure
    >>> read_text(figure("bearing-seat").run({"seat": "shaft", "size": "25"}))
    "Read as: Bearing's bore or outside 25.000 mm (0.9843 in). Sizes without a unit were taken as mm."
    """
    said = "; ".join(f"{label} {value}" for label, value in figured.read)
    return f"Read as: {said}.{bare_text(figured)}" if said else ""


def bare_text(figured: Figured) -> str:
    """Which unit sizes typed without one were taken in, as a sentence to put behind; empty when all had theirs."""
    names = {"in": "inches"}
    units = " and ".join(names.get(unit, unit) for unit in figured.bare)
    return f" Sizes without a unit were taken as {units}." if units else ""


def show_answer(answer: Answer, unit: str = "mm") -> str:
    """One answer's value with its unit and note; lengths in both systems, ``unit`` first.

    >>> show_answer(Answer("bore", 25.4, "mm", 3)), show_answer(Answer("teeth", 40, note="whole"))
    ('25.400 mm = 1.0000 in', '40  (whole)')
    >>> show_answer(Answer("bore", 25.4, "mm", 3), "in")
    '1.0000 in = 25.400 mm'
    """
    note = f"  ({answer.note})" if answer.note else ""
    value = answer.value
    if isinstance(value, float) and answer.unit == "mm":
        decimals = 4 if answer.decimals is None else answer.decimals
        said = (show_length(value, "mm", decimals), show_length(value, "in", max(decimals + 1, 4)))
        return " = ".join(reversed(said) if unit == "in" else said) + note
    if isinstance(value, float):
        text = f"{value:.{answer.decimals}f}" if answer.decimals is not None else f"{value:.6g}"
        return f"{text} {answer.unit}".strip() + note
    return f"{value} {answer.unit}".strip() + note


def as_data(figure: Figure, figured: Figured, *, working: bool) -> dict[str, object]:
    """The same for other programs: numbers unrounded, lengths in mm.

    >>> from rebuild.trade.figures import figure
    >>> asked = figure("bearing-seat")
    >>> as_data(asked, asked.run({"seat": "shaft", "size": "25"}), working=False)["topic"]
    'bearing-seat'
    """
    data: dict[str, object] = {
        "topic": figure.topic,
        "title": figure.title,
        "answers": [
            {"label": answer.label, "value": answer.value, "unit": answer.unit, "note": answer.note}
            for answer in figured.answers
        ],
        "cautions": list(figured.cautions),
        "read": [{"label": label, "as": said} for label, said in figured.read],
        "sizes_without_a_unit": list(figured.bare),
        "sources": [source.cite() for source in figured.working.sources()],
    }
    if working:
        data["working"] = [
            {
                "kind": step.kind.value,
                "label": step.label,
                "text": step.text,
                "source": step.source.cite() if step.source else "",
            }
            for step in figured.working.steps
        ]
    return data
