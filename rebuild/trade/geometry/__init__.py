"""Machine geometry: straightness, flatness, squareness, roundness, and what wear does to the work."""
