"""Rebuild: the rebuild of a worn machine tool, from teardown to the machine's book."""

__version__ = "0.1.0"
