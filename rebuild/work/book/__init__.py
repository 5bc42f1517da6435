"""Everything the machine's book is made of."""
