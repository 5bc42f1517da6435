"""Oils: viscosity in old and new units, with temperature, by class, and from an old manual's figure.

Nothing here names a product, and nothing chooses an oil for the owner: it translates and warns.
"""
