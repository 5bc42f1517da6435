"""Tags and bag labels on paper: the square code, and the words beside it."""
