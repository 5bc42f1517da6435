"""Odd inputs and planted faults, kept as scripts with their figures."""
