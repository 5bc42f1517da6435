"""The Find field and what it found."""
