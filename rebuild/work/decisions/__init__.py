"""Reuse, rework, remake, buy or defer: proposed, weighed, decided, and what it touches."""
