"""Faults planted on purpose, one at a time, to see that a test finds each."""
