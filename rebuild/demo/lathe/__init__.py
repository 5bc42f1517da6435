"""The tables of the metric machine, one module per subassembly."""
