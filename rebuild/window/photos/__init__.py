"""The Photos page."""
