"""Decision zones of ISO 14253-1 by rule, and the conformance probability."""

from __future__ import annotations

import math

from rebuild.trade.limits.uncertainty import SUM, Component, combine
from rebuild.trade.limits.verdict import Rule, Verdict, judge, judge_many

SOURCE = "ISO 14253-1 decision zones"
WORDS = {
    "conformity proven": Verdict.CONFORMS, "accept": Verdict.CONFORMS,
    "non-conformity proven": Verdict.DOES_NOT, "reject": Verdict.DOES_NOT,
    "uncertain": Verdict.UNDECIDED,
}  # fmt: skip
COLUMNS = {
    "zone_guard_U(k=2)": Rule.GUARD_U,
    "zone_guard_1.645u(95% one-sided)": Rule.CONFORMANCE_95,
    "simple_acceptance": Rule.SIMPLE,
}


def test_zones(published, reference):
    for row in reference("decision_zones"):
        y, low, high, u = (float(row[name]) for name in ("y_mm", "LSL", "USL", "u"))
        budget = combine([Component("u", u, math.inf, "", SUM)], k=2.0).value
        published.number(SOURCE, row["y_mm"], budget.U_mm, float(row["U_k2"]), last_digit=1e-6)
        for column, rule in COLUMNS.items():
            want = WORDS[row[column]]
            judgement = judge(y, low, high, budget, rule).value
            published.text(SOURCE, f"{y} {rule.value}", judgement.verdict, want)
            published.text(SOURCE, f"{y} {rule.value}", judge_many([y], [low], [high], [u], rule)[0], want)
        chance = judge(y, low, high, budget).value.conformance_probability
        want_chance = float(row["conformance_probability_normal"])
        published.number(SOURCE, row["y_mm"], chance, want_chance, last_digit=1e-5)
