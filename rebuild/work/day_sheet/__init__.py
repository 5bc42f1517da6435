"""The day sheet: an evening’s steps with all that is wanted at each."""
