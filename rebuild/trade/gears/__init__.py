"""Involute gears: identify, blank, measure over spans and pins, mesh, rack, worm and change gears."""
