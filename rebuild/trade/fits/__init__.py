"""Fits of two parts: by name, by what is wanted, by a measured mate, and as they are now."""
