"""What was gone on with all the same: noted with its reason, shown until closed."""
