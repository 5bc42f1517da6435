"""Faults on purpose; ``python -m tests.faults.NAME COUNT`` prints what came of them."""
