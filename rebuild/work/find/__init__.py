"""Find: everything by any word, number or code."""
