"""Rolling bearings and plain bushes: which one is it, its seats, its clearance, its oil."""
