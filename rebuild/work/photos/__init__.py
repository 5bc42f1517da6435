"""Photos: taken in, sorted, marked."""
