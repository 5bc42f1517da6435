"""Places: where each thing lies, since when, and where it lay before."""
