"""Joints: pins, keys, dowels, screws, bolts, press and shrink fits; which are not final."""
