"""Plant one fault at a time in a throw-away copy and see that the tests named for it fail.

    python -m tests.faults.planted [N|all] [--seed S] [--from N] [--only WORD] [--show]

The faults stand in ``planted.toml``: the file, its text before and after, and the tests that must find it. The
named tests first run on the copy as it is, for a test that fails anyway finds nothing. A fault that hangs is found.
Exit code 1 when a fault survives, its text is no longer (or more than once) in its file, its tests do not run, or
none was made. Each run is a fork of this process, so it needs a system that has them.
"""

from __future__ import annotations

import argparse
import importlib
import os
import random
import shutil
import signal
import sys
import tempfile
import time
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve()
TOP = HERE.parent.parent.parent
COPIED = ("rebuild", "tests", "migrations", "assets")
LONGEST_S = 180.0
#: Loaded once, so that each run begins at our own code; nothing of ours, and no plugin of pytest, may be among them.
_WARM = ("pytest", "numpy", "sqlalchemy.orm", "alembic.command", "pint", "PIL.Image", "PySide6.QtWidgets")
_ARGUMENTS = ("-x", "-q", "-p", "no:randomly", "-p", "no:cacheprovider", "-p", "no:xdist")
FAILED, PASSED = 1, 0


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in words, the file, its text before and after, and the tests that must find it."""

    what: str
    file: str
    before: str
    after: str
    tests: tuple[str, ...]

    def trouble(self, top: Path) -> str:
        """Why the fault cannot be planted below ``top``, or nothing."""
        path = top / self.file
        found = path.read_text(encoding="utf-8").count(self.before) if path.is_file() else 0
        if found != 1:
            return "not found" if found == 0 else f"found {found} times"
        gone = [test for test in self.tests if not (top / test.partition("::")[0]).exists()]
        return f"no test {', '.join(gone)}" if gone else ""


def read_faults() -> list[Fault]:
    """All faults of the list, in its order."""
    read = tomllib.loads(HERE.with_suffix(".toml").read_text(encoding="utf-8"))
    return [
        Fault(item["what"], item["file"], item["before"], item["after"], tuple(item["tests"]))
        for item in read["fault"]
    ]


class Copy:
    """The throw-away copy: faults are planted in it and taken out again."""

    def __init__(self, folder: Path, *, show: bool) -> None:
        self.folder = folder
        self._show = show
        self._planted = 0
        for name in COPIED:
            shutil.copytree(TOP / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        for path in (*TOP.glob("*.toml"), *TOP.glob("*.md")):
            shutil.copy2(path, folder / path.name)

    def with_fault(self, fault: Fault) -> int | None:
        """Run the fault's tests with it planted; as ``run``."""
        path = self.folder / fault.file
        was, times = path.read_text(encoding="utf-8"), path.stat()
        path.write_text(was.replace(fault.before, fault.after), encoding="utf-8")
        self._planted += 1
        # A compiled file is known by its source's second and size: give each fault a second of its own.
        os.utime(path, (times.st_mtime, int(times.st_mtime) - self._planted))
        try:
            return self.run(fault.tests, LONGEST_S)
        finally:
            path.write_text(was, encoding="utf-8")
            os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns))

    def run(self, tests: Sequence[str], longest_s: float) -> int | None:
        """pytest's exit code for these tests; negative for a signal, None when it took too long."""
        child = os.fork()
        if child == 0:
            os.setsid()
            self._be_pytest(tests)
        end = time.monotonic() + longest_s
        while time.monotonic() < end:
            ended, status = os.waitpid(child, os.WNOHANG)
            if ended:
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.02)
        os.killpg(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return None

    def _be_pytest(self, tests: Sequence[str]) -> None:
        import pytest

        os.chdir(self.folder)
        for name in [name for name in sys.modules if name.partition(".")[0] == "tests"]:
            del sys.modules[name]
        sys.path[0] = str(self.folder)
        if not self._show:
            silence = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silence, 1)
            os.dup2(silence, 2)
        base = f"--basetemp={self.folder / 'pytest'}"
        code = pytest.main([*_ARGUMENTS, base, *tests])
        sys.stdout.flush()
        os._exit(int(code))


def main(arguments: Sequence[str] | None = None) -> int:
    """The script; returns the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults.planted", description=__doc__)
    parser.add_argument("how_many", nargs="?", default="all", help="a number, or all")
    parser.add_argument("--seed", type=int, default=1, help="which ones, when not all")
    parser.add_argument("--only", default="", help="those with this word in their file or words")
    parser.add_argument("--from", dest="first", type=int, default=1, metavar="N", help="from the N-th on")
    parser.add_argument("--show", action="store_true", help="show what pytest says")
    asked = parser.parse_args(arguments)
    listed = read_faults()
    lost = [fault for fault in listed if fault.trouble(TOP)]
    for fault in lost:
        print(f"{fault.trouble(TOP):<12} {fault.file}: {fault.what}", flush=True)
    some = listed[asked.first - 1 :]
    able = [fault for fault in some if fault not in lost and asked.only in f"{fault.file}: {fault.what}"]
    if asked.how_many != "all":
        able = random.Random(asked.seed).sample(able, min(int(asked.how_many), len(able)))
    for name in _WARM:
        importlib.import_module(name)
    with tempfile.TemporaryDirectory(prefix="rebuild-faults-") as folder:
        survived, odd = plant(Copy(Path(folder), show=asked.show), able)
    print(f"{len(able) - odd} made, {survived} survived" + (f", {len(lost)} not found" if lost else ""))
    return 1 if survived or lost or odd or not able else 0


def plant(copy: Copy, faults: Sequence[Fault]) -> tuple[int, int]:
    """Plant each, a line each; returns how many survived and how many said nothing, their tests being unfit."""
    tests = sorted({test for fault in faults for test in fault.tests})
    if tests and copy.run(tests, LONGEST_S * len(tests)) != PASSED:
        print("The tests named fail without a fault: see them first.", flush=True)
        return 0, len(faults)
    survived = odd = 0
    for fault in faults:
        began = time.monotonic()
        code = copy.with_fault(fault)
        if code is not None and code > FAILED:
            word, odd = f"pytest {code}", odd + 1
        elif code == PASSED:
            word, survived = "SURVIVED", survived + 1
        else:
            word = "found" if code == FAILED else "found (hung)" if code is None else "found (died)"
        print(f"{word:<12} {time.monotonic() - began:5.1f} s  {fault.file}: {fault.what}", flush=True)
    return survived, odd


if __name__ == "__main__":
    sys.exit(main())
