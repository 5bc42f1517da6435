"""Ways and a plate surveyed: the bed by level there and back, the shaper's ways by indicator, a plate by eight lines.

The figures tell the same wear as the way readings of the two machines: the bed is low at 100 to 300 mm, the shaper's
left way more than its right; the column was scraped, the bed was not.
"""

from __future__ import annotations

from rebuild.demo.built import Built, Ids
from rebuild.words.surveys import SurveyMethod
from rebuild.work.surveys.acts import add_survey, enter_run
from rebuild.work.surveys.rows import survey_data

#: Slope of each 125 mm of the bed from the headstock on, mm/m: run there, run back.
BED = {
    "front V": ("-0.290 0.040 0.350 0.295 0.160 0.080", "-0.285 0.045 0.355 0.300 0.155 0.080"),
    "rear flat": ("-0.110 0.000 0.150 0.155 0.090 0.040", "-0.115 0.005 0.155 0.150 0.085 0.040"),
}
#: A year on, tightened down and levelled: tilted a little otherwise, worn the same.
BED_LEVELLED = {
    "front V": ("-0.300 0.030 0.345 0.285 0.145 0.075", "-0.300 0.035 0.340 0.290 0.150 0.070"),
    "rear flat": ("-0.120 -0.010 0.145 0.140 0.080 0.030", "-0.125 -0.005 0.140 0.145 0.075 0.030"),
}
ACROSS = "0.035 0.010 0.000"
ACROSS_LEVELLED = "0.015 0.005 -0.005"
#: Heights of the column's ways every 4 in from the front, inches.
COLUMN = {
    "left way": "-0.0041 -0.0062 -0.0060 -0.0043 -0.0026 -0.0012 -0.0004 0.0000",
    "right way": "-0.0023 -0.0034 -0.0031 -0.0022 -0.0014 -0.0007 -0.0002 0.0000",
}
COLUMN_SCRAPED = {
    "left way": "-0.0007 -0.0010 -0.0008 -0.0005 -0.0004 -0.0002 -0.0001 0.0000",
    "right way": "-0.0006 -0.0009 -0.0009 -0.0006 -0.0003 -0.0002 0.0000 0.0000",
}
GIB = "0.8691 0.8694 0.8702 0.8714 0.8726"
GIB_FACED = "0.8742 0.8742 0.8743 0.8743 0.8744"
#: Slope of each 3 in along the eight lines of the 24 x 18 in plate, in/ft.
PLATE = {
    "NW_SE": "0.00000 -0.00005 -0.00010 -0.00025 -0.00010 0.00015 0.00020 0.00010 0.00000 0.00000",
    "NE_SW": "0.00000 -0.00005 -0.00005 -0.00020 -0.00030 -0.00005 0.00025 0.00025 0.00010 0.00000",
    "NE_NW": "-0.00005 -0.00005 0.00000 0.00000 0.00000 0.00000 0.00005 0.00005",
    "SE_SW": "-0.00005 -0.00005 -0.00005 -0.00005 0.00000 0.00005 0.00005 0.00005",
    "NE_SE": "0.00005 0.00005 0.00000 0.00000 -0.00005 -0.00010",
    "NW_SW": "0.00005 0.00000 0.00000 0.00000 0.00000 -0.00010",
    "E_W": "-0.00010 -0.00010 -0.00020 -0.00020 -0.00005 0.00020 0.00025 0.00015",
    "N_S": "0.00000 -0.00015 -0.00025 0.00005 0.00020 0.00005",
}


def extend(built: Built) -> None:
    """Add the surveys of both machines."""
    shaper, lathe = built.machines
    _bed(built, lathe)
    _column(built, shaper)
    _gib(built, shaper)
    _plate(built, shaper)


def _bed(built: Built, lathe: Ids) -> None:
    level = {
        "unit": "mm/m", "step": "125", "allowed": "0.05", "closure": "0.005", "height": "165", "spacing": "280",
        "work": "40", "part_id": str(lathe.parts["BED-01"]), "instrument_id": str(built.instruments["kv"]),
    }  # fmt: skip
    found = _survey(
        built, lathe, "Bed ways along", SurveyMethod.LEVEL, BED,
        {**level, "stage": "as found", "taken_at": "2025-12-14 15:00", "temperature_c": "9 C",
         "note": "bridge of 125 mm, feet scraped flat; end for end at every station"},
    )  # fmt: skip
    _survey(
        built, lathe, "Bed ways along, levelled", SurveyMethod.LEVEL, BED_LEVELLED,
        {**level, "stage": "cleaned", "taken_at": "2026-11-07 18:00", "temperature_c": "12 C",
         "before_id": str(found), "note": "no metal was taken off; the wear is where it was"},
    )  # fmt: skip
    across = {
        "unit": "mm/m",
        "step": "300",
        "height": "165",
        "allowed": "0.04 mm",
        "part_id": level["part_id"],
        "instrument_id": level["instrument_id"],
    }
    twist = _survey(
        built, lathe, "Bed ways across", SurveyMethod.ACROSS, {"across": ACROSS},
        {**across, "stage": "as found", "taken_at": "2025-12-14 16:00", "temperature_c": "9 C"},
    )  # fmt: skip
    _survey(
        built, lathe, "Bed ways across, levelled", SurveyMethod.ACROSS, {"across": ACROSS_LEVELLED},
        {**across, "stage": "cleaned", "taken_at": "2026-11-07 18:30", "temperature_c": "12 C",
         "before_id": str(twist)},
    )  # fmt: skip


def _column(built: Built, shaper: Ids) -> None:
    typed = {
        "unit": "in", "step": "4 in", "allowed": "0.0015 in", "part_id": str(shaper.parts["BAS-01"]),
        "instrument_id": str(built.instruments["dti"]),
    }  # fmt: skip
    found = _survey(
        built, shaper, "Ram ways of the column", SurveyMethod.INDICATOR, COLUMN,
        {**typed, "stage": "as found", "taken_at": "2025-08-23 15:00", "temperature_c": "24 C",
         "note": "indicator on a parallel set level with the rear end"},
    )  # fmt: skip
    _survey(
        built, shaper, "Ram ways of the column, scraped", SurveyMethod.INDICATOR, COLUMN_SCRAPED,
        {**typed, "stage": "reworked", "taken_at": "2025-12-07 16:00", "temperature_c": "8 C",
         "before_id": str(found)},
    )  # fmt: skip


def _gib(built: Built, shaper: Ids) -> None:
    typed = {
        "unit": "in", "step": "9 in", "part_id": str(shaper.parts["RAM-02"]),
        "instrument_id": str(built.instruments["m1"]),
    }  # fmt: skip
    found = _survey(
        built, shaper, "Ram gib, thickness", SurveyMethod.THICKNESS, {"thickness": GIB},
        {**typed, "stage": "as found", "taken_at": "2025-08-23 17:00", "temperature_c": "24 C"},
    )  # fmt: skip
    _survey(
        built, shaper, "Ram gib, thickness, faced", SurveyMethod.THICKNESS, {"thickness": GIB_FACED},
        {**typed, "stage": "reworked", "taken_at": "2026-08-15 15:00", "temperature_c": "25 C",
         "before_id": str(found)},
    )  # fmt: skip


def _plate(built: Built, shaper: Ids) -> None:
    _survey(
        built, shaper, "Bench plate 24 x 18 in", SurveyMethod.PLATE, PLATE,
        {"unit": "in/ft", "step": "3 in", "closure": "0.0002 in", "stage": "as found",
         "taken_at": "2025-08-10 14:00", "temperature_c": "25 C", "instrument_id": str(built.instruments["lvl"]),
         "note": "before anything was blued on it; the hollow lies where small work is scraped"},
    )  # fmt: skip


def _survey(
    built: Built,
    ids: Ids,
    name: str,
    method: SurveyMethod,
    lines: dict[str, str] | dict[str, tuple[str, str]],
    typed: dict[str, str],
) -> int:
    """One survey with its lines; a pair of texts is the run there and the run back."""
    key = add_survey(built.store, ids.machine, name, method, lines=tuple(lines), typed=typed)
    with built.store.read() as connection:
        line_ids = {line.name: line.id for line in survey_data(connection, key).lines}
    for line, read in lines.items():
        runs = (read,) if isinstance(read, str) else read
        for number, run in enumerate(runs, start=1):
            enter_run(built.store, line_ids[line], run.split(), number)
    return key
