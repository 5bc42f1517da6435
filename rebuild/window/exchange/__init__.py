"""Dialogs that bring lists in and write lists, files and sheets out."""
