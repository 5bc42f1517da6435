"""Faults on purpose: programs killed, files spoiled."""
