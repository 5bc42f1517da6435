"""The Fits page: every fit as it is now, its two sides, and the order of making."""

from rebuild.window.fits.page import FitsPage

__all__ = ["FitsPage"]
