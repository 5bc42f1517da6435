"""Means: tools, gauges, consumables, helpers and hoists; the steps that name them; what the shop lacks of them."""
