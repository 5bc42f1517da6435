"""Machines, subassemblies, parts, places, matched sets."""
