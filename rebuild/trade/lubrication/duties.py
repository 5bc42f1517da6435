"""What a duty usually asks of an oil, by the symbols of ISO 6743; never a product."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Worked


@dataclass(frozen=True, slots=True)
class Duty:
    """A duty on a machine tool: class symbols, usual ISO viscosity grades, what to look for."""

    name: str
    label: str
    symbols: tuple[str, ...]
    grades: tuple[int, ...]
    about: str
    cautions: tuple[str, ...]
    source: Source


def duty_names() -> tuple[str, ...]:
    """The duties known.

    >>> "way" in duty_names()
    True
    """
    return tuple(row["duty"] for row in table("lubricant_duties").rows)


@door()
def duty(name: str) -> Duty:
    """One duty.

    Raises:
        BadEntry: no such duty.

    >>> duty("way").symbols
    ('L-GA', 'L-GB')
    """
    found = table("lubricant_duties")
    for row in found.rows:
        if row["duty"] == name:
            return Duty(
                name,
                row["label"],
                tuple(row["symbols"].split()),
                tuple(int(grade) for grade in row["grades"].split()),
                row["about"],
                tuple((row["cautions"] or "").split()),
                found.row_source(row),
            )
    raise BadEntry("is not a duty.", where="Duty", value=name, way_out=f"Duties: {', '.join(duty_names())}.")


@door()
def for_duty(name: str) -> Worked[Duty]:
    """A duty with its working and cautions.

    >>> for_duty("worm").working.cautions()[0].split(":")[0]
    'Extreme-pressure oil and bronze'
    """
    found = duty(name)
    sheet = Sheet(f"Oil for {found.label.lower()}")
    symbols = " or ".join(found.symbols)
    grades = ", ".join(str(grade) for grade in found.grades) or "see NLGI"
    sheet.table("class", f"{symbols}; usual ISO VG {grades}; {found.about}", found.source)
    sheet.note("The machine's own manual decides; this is what the duty usually gets.")
    attach(sheet, *found.cautions)
    return Worked(found, sheet.close())
