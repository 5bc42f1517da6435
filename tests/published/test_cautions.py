"""Every topic of the safety reference has its caution, with the same status, deferring as listed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rebuild.trade.results.cautions import caution, topics
from rebuild.trade.results.working import Status

Rows = Callable[[str], list[dict[str, str]]]

TOPIC = {
    "sling angle": "slings", "lifting": "lifting", "lead paint": "lead-paint", "asbestos": "asbestos", "PCB": "pcb",
    "solvents": "solvents", "chlorinated solvents": "chlorinated", "compressed air": "compressed-air",
    "dry ice": "dry-ice", "LN2": "liquid-nitrogen", "cold embrittle": "cold-brittle", "heating": "heating",
    "hot oil": "hot-oil", "press fits": "press", "hardened hammer": "hardened-hammer", "LOTO": "lockout",
    "capacitor": "capacitor", "wiring": "mains", "grinding wheel": "grinding-wheel", "ring test": "grinding-wheel",
    "guards": "guards", "chuck": "chuck", "dust": "dust", "hazardous legacy": "old-fluids",
}  # fmt: skip

DEFERS = {
    "structural lift": ("lifting", ("rigger", "structural engineer")),
    "electrical supply": ("mains", ("electrician", "local wiring code")),
    "asbestos or lead suspected": ("asbestos", ("accredited laboratory", "licensed contractor")),
    "PCB capacitor or oil": ("pcb", ("hazardous waste authority",)),
    "pressure": ("pressure", ("pressure-vessel inspector",)),
    "cryogen": ("liquid-nitrogen", ("supplier", "oxygen monitor")),
    "welding cast-iron structures": ("torch", ("welding engineer",)),
    "grinding wheel": ("grinding-wheel", ("wheel maker",)),
    "fire": ("hot-oil", ("local fire code",)),
}


def test_every_safety_row_has_a_caution_of_its_status(published: Any, reference: Rows) -> None:
    for row in reference("safety"):
        found = caution(TOPIC[row["topic"]])
        memory = row["status"].startswith("memory")
        source = "Safety rules (from memory)" if memory else "Safety rules"
        if memory and row["topic"] in ("chuck", "ring test"):
            published.text(source, row["topic"], found.topic in topics(), True)
            continue
        want = Status.FROM_MEMORY if memory else Status.PUBLISHED
        published.text(source, row["topic"], found.source.status, want)


def test_every_case_defers_to_the_right_people(published: Any, reference: Rows) -> None:
    for row in reference("defer_cases"):
        topic, people = DEFERS[row["case"]]
        text = caution(topic).defer_to
        missing = [who for who in people if who not in text]
        published.text("Cases to defer", row["case"], missing, [])
