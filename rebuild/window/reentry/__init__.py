"""The page that says where one was: first on opening, and where a session is ended."""

from rebuild.window.reentry.page import WherePage

__all__ = ["WherePage"]
