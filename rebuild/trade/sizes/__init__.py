"""Sizes as people type them, read, kept and shown again."""
