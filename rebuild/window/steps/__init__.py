"""The steps of a subassembly: order, link, tick off; why not, and the ways out."""
