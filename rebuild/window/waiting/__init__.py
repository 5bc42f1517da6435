"""The Waiting page: orders and loans, clocks, stock, cost and hours."""

from rebuild.window.waiting.page import WaitingPage

__all__ = ["WaitingPage"]
