"""Shared test set-up: offscreen Qt, no user settings touched."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
