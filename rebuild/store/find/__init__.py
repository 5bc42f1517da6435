"""The index of every word of a file: what it is made of, how it follows the journal, how it is asked."""
