"""How things are drawn: colours, shapes, strokes, tolerance zones."""
