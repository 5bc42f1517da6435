"""Unknown things: clues as they are typed, and which part of which machine they may be."""
