"""What the program does not know, to be read before anything it says is relied on."""

from __future__ import annotations

LIMITS = """Rebuild keeps the record of a rebuild and works out sizes. It does not know your machine.

Every number shows where it comes from and how far that can be trusted: published, computed from a rule,
common practice without a source, or from memory. What is from memory or common practice is a place to
start from, not an authority. Outside the range of a table the program refuses; it does not guess.

A verdict speaks of the reading that was typed, with the uncertainty of the instrument named. It does not
know whether the part was clean, warm, or held askew.

Where the work can hurt someone, the usual caution stands beside the step. Lifting, mains electricity,
lead paint, asbestos, solvents, heat and stored energy fall under the codes of your place and, where those
ask for it, to people licensed for the work. The codes and those people go before anything shown here.

Your file is one plain SQLite database that other programs can open. Back it up (File, Back up now).
"""
