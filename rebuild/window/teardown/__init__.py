"""The Teardown page."""
