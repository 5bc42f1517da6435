"""Limits of one part (ISO 286, typed specs), measuring uncertainty (GUM) and verdicts (ISO 14253-1)."""
