"""The Teardown page: the removal log said line by line, its details, putting back, and the second teardown."""

from rebuild.window.teardown.page import TeardownPage

__all__ = ["TeardownPage"]
