"""Limits and fits (ISO 286, ANSI B4.1), measuring uncertainty (GUM) and verdicts (ISO 14253-1)."""
