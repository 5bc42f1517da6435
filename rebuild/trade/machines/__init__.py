"""Kinds of machine and what they are usually made of."""
