"""The Photos page: take in, sort, look, mark."""

from rebuild.window.photos.page import PhotosPage

__all__ = ["PhotosPage"]
