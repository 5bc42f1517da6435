"""Shop arithmetic: materials, stock and blanks, drills, speeds, weights and slings."""
