"""The Run-in page: what stands before power, the steps with bearing temperatures, and cut tests."""

from rebuild.window.commission.page import RunInPage

__all__ = ["RunInPage"]
