"""The Joints page: every joint's state, and the walk round the machine before power-on."""

from rebuild.window.joints_page.page import JointsPage

__all__ = ["JointsPage"]
