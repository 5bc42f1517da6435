"""Keys against ASME B17.1 and DIN 6885-1 as printed, and an independent open table of metric keys."""

from __future__ import annotations

from typing import Any

from rebuild.trade.joints.keys import RECTANGULAR, SQUARE, depth_s_mm, depth_t_mm, key_inch, key_metric

IN = 25.4


def test_b17_1_sizes_by_shaft(published: Any, reference: Any) -> None:
    source = "ASME B17.1 Table 1, public copy"
    for row in reference("keys_b17_1_in"):
        low, high = float(row["shaft_over"]), float(row["shaft_to_incl"])
        for shaft in (low + 0.001, (low + high) / 2, high):
            for kind, height in ((SQUARE, row["square_height"]), (RECTANGULAR, row["rect_height"])):
                if not height:
                    continue
                key = key_inch(shaft * IN, kind).value
                name = f"{shaft:.4f} in {kind}"
                published.number(
                    source, f"{name} W", key.width_mm / IN, float(row["key_width"]), last_digit=1e-5
                )
                published.number(source, f"{name} H", key.height_mm / IN, float(height), last_digit=1e-5)
                depth = row["square_keyseat_depth_H/2" if kind == SQUARE else "rect_keyseat_depth"]
                published.number(
                    source, f"{name} depth", key.shaft_depth_mm / IN, float(depth), last_digit=1e-5
                )


def test_b17_1_control_depths(published: Any, reference: Any) -> None:
    source = "ASME B17.1 depths S and T, public copy"
    for row in reference("b17_1_s_and_t_control_depths_in"):
        shaft, width, height = (float(row[name]) * IN for name in ("shaft", "key_W", "key_H"))
        name = f"{row['shaft']} in {row['kind']}"
        key = key_inch(shaft, row["kind"]).value
        published.number(source, f"{name} W", key.width_mm, width, last_digit=1e-6)
        published.number(source, f"{name} S", key.s_mm / IN, float(row["S_published"]), last_digit=1e-3)
        for form, column in (("parallel", "T_parallel_published"), ("taper", "T_taper_published")):
            got = key_inch(shaft, row["kind"], form).value.t_mm / IN
            published.number(source, f"{name} T {form}", got, float(row[column]), last_digit=1e-3)
        published.number(
            "ASME B17.1 S and T formulas",
            f"{name} S",
            depth_s_mm(shaft, width, height) / IN,
            float(row["S_formula"]),
            last_digit=1e-4,
        )
        published.number(
            "ASME B17.1 S and T formulas",
            f"{name} T",
            depth_t_mm(shaft, width, height, "taper") / IN,
            float(row["T_taper_formula"]),
            last_digit=1e-4,
        )


def test_din_6885_sizes_depths_and_widths(published: Any, reference: Any) -> None:
    source = "DIN 6885-1, public catalogue"
    for row in reference("din6885_1_parallel_keys_mm"):
        low, high = float(row["shaft_over"]), float(row["shaft_to"])
        for shaft in (low + 0.001, (low + high) / 2, high):
            key = key_metric(shaft).value
            name = f"{shaft:g} mm"
            for label, got, want in (
                ("b", key.width_mm, row["b"]),
                ("h", key.height_mm, row["h"]),
                ("t1", key.shaft_depth_mm, row["t1_shaft"]),
                ("t2", key.hub_depth_mm, row["t2_hub"]),
                ("depth tolerance", key.t.high_mm - key.t.low_mm, row["depth_tol_plus"]),
            ):
                published.number(source, f"{name} {label}", got, float(want), last_digit=1e-3)
        if not row["JS9_um"]:
            published.not_covered(source, f"{high:g} mm P9, JS9", "not printed for b = 2; ours by ISO 286-2")
            continue
        tight, easy = key_metric(high, tight=True).value, key_metric(high).value
        b = float(row["b"])
        for label, got, want in (
            ("P9 upper", tight.shaft_slot.high_mm - b, row["P9_upper_um"]),
            ("P9 lower", tight.shaft_slot.low_mm - b, row["P9_lower_um"]),
            ("JS9", easy.hub_slot.high_mm - b, row["JS9_um"]),
        ):
            published.number(source, f"{high:g} mm {label}", got * 1000, float(want), last_digit=0.1)


def test_an_independent_open_table_of_metric_keys(published: Any, reference: Any) -> None:
    source = "Open key table (a library of parts)"
    for row in reference("library_keys_mm"):
        key = key_metric(float(row["shaft"])).value
        for label, got, want in (
            ("b", key.width_mm, row["b"]),
            ("h", key.height_mm, row["h"]),
            ("t2", key.hub_depth_mm, row["t2"]),
            ("t1", key.shaft_depth_mm, row["t4"]),
        ):
            published.number(source, f"{row['shaft']} mm {label}", got, float(want), last_digit=1e-3)


#: Source: a handbook companion's page of ASME B17.1 depths, rows that the reference file leaves out.
MORE_DEPTHS = {
    0.9375: (0.796, 0.827, 1.051, 1.019, 1.026, 0.994),
    1.4375: (1.225, 1.288, 1.605, 1.543, 1.580, 1.518),
    2.25: (1.972, 2.034, 2.477, 2.414, 2.452, 2.389),
    2.3125: (1.957, 2.051, 2.587, 2.493, 2.562, 2.468),
}


def test_b17_1_depths_of_rows_outside_the_reference_file(published: Any) -> None:
    source = "ASME B17.1 depths, further public rows"
    for shaft, wants in MORE_DEPTHS.items():
        for kind, s_at in ((SQUARE, 0), (RECTANGULAR, 1)):
            for form, t_at in (("parallel", 2), ("taper", 4)):
                key = key_inch(shaft * IN, kind, form).value
                name = f"{shaft} in {kind} {form}"
                published.number(source, f"{name} S", key.s_mm / IN, wants[s_at], last_digit=1e-3)
                published.number(source, f"{name} T", key.t_mm / IN, wants[s_at + t_at], last_digit=1e-3)
