"""Odd inputs and faults done on purpose, by the thousand: ``python -m tests.faults.NAME COUNT`` prints what came of them."""
