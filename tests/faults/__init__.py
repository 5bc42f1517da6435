"""Faults on purpose: odd inputs, kills, spoiled files; ``python -m tests.faults.NAME COUNT`` prints what came of them."""
