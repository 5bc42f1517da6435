"""Oils: viscosity in old and new units, by class, from an old manual's figure; the oil tree and map."""
