"""Tags and bag labels: the stock they are printed on, and the short code each carries."""
