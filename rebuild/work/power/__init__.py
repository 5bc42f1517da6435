"""What stands before power, before each speed of the run-in, and before what cannot be undone."""
