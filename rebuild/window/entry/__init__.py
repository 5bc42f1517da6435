"""The entry line: where the next value lands, the value, its answer; gauges."""
