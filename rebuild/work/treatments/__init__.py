"""Cleaning and painting in batches: what goes into the bath or under the brush together, and what lies there now."""
