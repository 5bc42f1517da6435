"""Coming back to a machine, and ending a session at it."""
