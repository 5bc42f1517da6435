"""The Decide page: what is out of limits or undecided, what the rules propose, options weighed, what it touches."""

from rebuild.window.decide.page import DecidePage

__all__ = ["DecidePage"]
