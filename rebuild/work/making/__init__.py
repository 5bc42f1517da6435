"""Making sheets: filled, worked out, released, made, accepted."""
