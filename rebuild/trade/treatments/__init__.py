"""Cleaning and painting: what a part wants done to its surface, in which bath, and how long it usually takes."""
