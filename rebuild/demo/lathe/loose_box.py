"""What came in the lathe's drawers, and the sets that must stay together."""

from __future__ import annotations

from rebuild.demo.words import DEFER, FOUND, GEAR, OD, REUSE, TAPER, feat, kept_together, part, read, settle

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
PARTS = (
    part("X-01", "steady rest, three jaws", "EN-GJL-200",
        feat("V width at the foot", OD, "", None, "",
            read(FOUND, "2025-12-13", "kc", "41.2", note="our V is 46 mm wide")), identity="not ours",
        origin="unknown", at="A2", placed="2025-12-13",
        note="sits on a narrower V: another lathe's; sell or trade"),
    part("X-02", "steady rest, travelling", "EN-GJL-200", identity="confirmed", at="A2", placed="2025-12-13",
        settled=settle(REUSE, "2026-06-13", "bolts to our saddle")),
    part("X-03", "change gear 47", "C45",
        feat("outside diameter", GEAR, "", None, "",
            read(FOUND, "2025-12-13", "kc", "73.46",
                note="module 1.5: 49 x 1.5; not in the table on the lid")), identity="suspected",
        suspects="depot's own, for a special pitch", origin="unknown", at="A2", placed="2025-12-13"),
    part("X-04", "sleeve, MT 5 to MT 3", "C45",
        feat("length", TAPER, "", None, "", read(FOUND, "2025-12-13", "kc", "118.6")), identity="confirmed",
        at="A2", placed="2025-12-13",
        settled=settle(REUSE, "2026-06-13", "blues well")),
    part("X-05", "hook spanner, small", "C45", identity="unknown", origin="unknown", at="A2",
        placed="2025-12-13", suspects="spindle nuts? too small"),
    part("X-06", "hook spanner 68-75", "C45", identity="confirmed", at="A2", placed="2025-12-13",
        settled=settle(REUSE, "2026-06-13", "fits both M48 nuts")),
    part("X-07", "bell-shaped cover", "EN-GJL-200", identity="unknown", origin="unknown", at="A2",
        placed="2025-12-13",
        settled=settle(DEFER, "2026-06-13", "nobody knows it", would_change="someone names it")),
)

SETS = (
    kept_together("half nuts", "HN-01 HN-02", "stamped 418 and one dot each"),
    kept_together("front bearing", "HS-02 HS-05 HS-10 HS-11", "bush, cap and its shims"),
    kept_together("rear bearing", "HS-03 HS-06 HS-12"),
    kept_together("spindle and nuts", "HS-01 HS-14 HS-15"),
    kept_together("cross slide and gib", "XS-01 XS-02"),
    kept_together("worm and worm wheel", "AP-06 AP-07", "wheel is cut to the worm"),
)
