"""The Joints page."""
