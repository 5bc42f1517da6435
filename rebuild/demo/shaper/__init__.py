"""The tables of the inch machine, one module per subassembly."""
