"""Wear rules: what they look at in a part, and what they propose."""
