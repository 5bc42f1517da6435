"""What a command ends with."""

from __future__ import annotations

#: Done; a check found something; it could not be done (one sentence says why); there is no display for the window.
DONE, FOUND, FAILED, NO_DISPLAY = 0, 1, 2, 3
#: A fault of the program itself (a report was written); stopped from the keyboard (128 + SIGINT, as shells count).
FAULT, STOPPED = 4, 130
