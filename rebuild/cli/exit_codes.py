"""What a command ends with."""

from __future__ import annotations

#: Done; a check found something; it could not be done (one sentence says why); there is no display for the window.
DONE, FOUND, FAILED, NO_DISPLAY = 0, 1, 2, 3
