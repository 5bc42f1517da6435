"""The Unknown things page."""
