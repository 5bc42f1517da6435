"""The Means page, and the dialog that names what a step needs."""
