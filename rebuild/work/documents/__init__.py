"""Manuals: PDFs and scans of a machine, page by page, with call-outs that name its parts."""
