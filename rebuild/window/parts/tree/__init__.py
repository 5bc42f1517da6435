"""The part tree: subassemblies, their parts, and the box of loose parts."""
