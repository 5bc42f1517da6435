"""The program without a window, as typed in a terminal."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild import __version__
from rebuild.cli.exit_codes import DONE, FAILED, FOUND, NO_DISPLAY
from rebuild.cli.main import main
from rebuild.window.shell.display import why_no_window
from rebuild.work.readings import acts as measure

if TYPE_CHECKING:
    from tests.conftest import Shop

Out = pytest.CaptureFixture[str]


def test_version(capsys: Out) -> None:
    with pytest.raises(SystemExit) as end:
        main(["--version"])
    assert end.value.code == 0
    assert capsys.readouterr().out == f"rebuild {__version__}\n"


def test_help_names_every_command(capsys: Out) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    said = capsys.readouterr().out
    for command in ("demo", "check", "backup", "summary", "figure", "book", "export", "import"):
        assert f"rebuild {command}" in said


@pytest.mark.parametrize(
    "typed", [["check"], ["check", "--frobnicate", "x"], ["backup", "a", "b"], ["one", "two"]]
)
def test_a_wrong_command_is_one_sentence(typed: list[str], capsys: Out) -> None:
    with pytest.raises(SystemExit) as end:
        main(typed)
    assert end.value.code == FAILED
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err.count("\n") == 1
    assert "--help" in captured.err


# Display


@pytest.mark.parametrize(
    ("environ", "platform", "reason"),
    [
        ({}, "linux", "no display"),
        ({"QT_QPA_PLATFORM": "offscreen"}, "linux", ""),
        ({"WAYLAND_DISPLAY": "wayland-0"}, "linux", ""),
        ({}, "win32", ""),
        ({}, "darwin", ""),
    ],
)
def test_why_no_window(environ: dict[str, str], platform: str, reason: str) -> None:
    said = why_no_window(environ, platform)
    assert reason in said
    assert bool(said) == bool(reason)


def test_a_missing_system_library_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("rebuild.window.shell.display.XCB_LIBRARY", "libno-such-thing.so.9")
    assert "libno-such-thing.so.9 is missing" in why_no_window({"DISPLAY": ":0"}, "linux")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only there can a display be missing")
@pytest.mark.parametrize("arguments", [[], ["shop.rebuild"]])
def test_without_a_display_the_window_says_so_and_ends_with_3(arguments: list[str]) -> None:
    hidden = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    bare = {name: value for name, value in os.environ.items() if name not in hidden}
    said = subprocess.run(
        [sys.executable, "-m", "rebuild", *arguments], env=bare, capture_output=True, text=True, check=False
    )
    assert said.returncode == NO_DISPLAY
    assert said.stdout == ""
    assert said.stderr.startswith("There is no display")
    assert said.stderr.count("\n") == 1


# Check, backup, summary


@pytest.mark.parametrize("command", ["check", "backup", "summary"])
def test_a_file_that_is_not_there(command: str, tmp_path: Path, capsys: Out) -> None:
    assert main([command, str(tmp_path / "gone.rebuild")]) == FAILED
    assert (
        capsys.readouterr().err == "gone.rebuild: there is no such file. Choose another or make a new one.\n"
    )


@pytest.mark.parametrize("command", ["check", "backup", "summary"])
def test_a_file_that_is_not_ours(command: str, tmp_path: Path, capsys: Out) -> None:
    (tmp_path / "notes.txt").write_text("spindle 24.98\n")
    assert main([command, str(tmp_path / "notes.txt")]) == FAILED
    assert "not a Rebuild project" in capsys.readouterr().err


def test_check_of_a_sound_file(shop: Shop, capsys: Out) -> None:
    assert main(["check", str(shop.path)]) == DONE
    assert capsys.readouterr().out == "filled.rebuild: all is well.\n"


def test_check_of_a_file_that_was_meddled_with(shop: Shop, capsys: Out) -> None:
    taken = measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    raw = sqlite3.connect(shop.path)
    raw.execute("UPDATE reading SET value_mm = 59.89")
    raw.commit()
    raw.close()
    assert main(["check", str(shop.path)]) == FOUND
    said = capsys.readouterr().out.splitlines()
    assert said[0] == (
        f"Reading no. {taken.reading_id} was changed outside the program (value_mm): the journal says otherwise."
    )
    assert said[1] == (
        f"Reading no. {taken.reading_id} “59.98” (mm) does not come to the 59.89 mm that is stored."
    )
    assert "2 findings" in said[2]


def test_backup_beside_the_file_and_elsewhere(shop: Shop, tmp_path: Path, capsys: Out) -> None:
    assert main(["backup", str(shop.path)]) == DONE
    said = capsys.readouterr().out
    assert said.startswith("Copied and verified: ")
    kept = Path(said.removeprefix("Copied and verified: ").strip())
    assert kept.parent == shop.path.parent
    assert main(["backup", str(shop.path), "--to", str(tmp_path / "copy.rebuild")]) == DONE
    assert main(["check", str(tmp_path / "copy.rebuild")]) == DONE
    assert main(["backup", str(shop.path), "--to", str(tmp_path / "copy.rebuild")]) == FAILED
    assert "already there" in capsys.readouterr().err


def test_summary_in_text(shop: Shop, capsys: Out) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    assert main(["summary", str(shop.path)]) == DONE
    said = capsys.readouterr().out
    assert "Toolroom lathe" in said
    assert "2 parts: 1 open, 1 remake" in said
    assert "0 done, 0 under way, 4 open" in said
    assert "can be done now (1), 4 wait:\n    Take the spindle out" in said
    assert "make next: HS-02 bearing cap (remake)" in said
    assert "it must itself wait for Measure the journals" in said
    assert "measured but still to be decided:\n    HS-01 spindle" in said
    assert "Which oil did the maker print?" in said
    assert "Stripped the headstock" in said


def test_summary_as_data(shop: Shop, capsys: Out) -> None:
    assert main(["summary", str(shop.path), "--json"]) == DONE
    data = json.loads(capsys.readouterr().out)
    (machine,) = data["machines"]
    assert machine["parts_by_decision"] == {"open": 1, "remake": 1}
    assert machine["steps"]["can_be_done_now"] == ["Take the spindle out"]
    assert machine["make_next"][0]["holds_up"] == 2, "its refit step, and the checks before power"
    assert machine["open_questions"] == ["Which oil did the maker print?"]
    assert data["undo"].startswith("bench log entry")


def test_summary_of_an_empty_file(project: Path, capsys: Out) -> None:
    assert main(["summary", str(project)]) == DONE
    assert capsys.readouterr().out == "shop.rebuild: no machine in it yet.\n"


# Figures


def test_figures_are_listed_by_group(capsys: Out) -> None:
    assert main(["figure"]) == DONE
    said = capsys.readouterr().out
    assert said.startswith("Limits and fits\n  fit ")
    assert "Fit of a hole and a shaft" in said


def test_a_figure_without_entries_says_what_it_takes(capsys: Out) -> None:
    assert main(["figure", "fit"]) == DONE
    said = capsys.readouterr().out
    assert "Size and fit" in said
    assert "Example: rebuild figure fit fit='25 H7/g6'" in said


def test_a_figure_is_worked_out(capsys: Out) -> None:
    assert main(["figure", "fit", "fit=25 H7/g6"]) == DONE
    said = capsys.readouterr().out
    assert "smallest clearance  0.0070 mm = 0.00028 in" in said
    assert "table row" not in said


def test_flags_may_stand_anywhere(capsys: Out) -> None:
    assert main(["figure", "--working", "fit", "fit=25 H7/g6"]) == DONE
    first = capsys.readouterr().out
    assert "table row" in first
    assert main(["figure", "fit", "--working", "fit=25 H7/g6"]) == DONE
    assert capsys.readouterr().out == first


def test_a_figure_says_which_unit_it_took_and_takes_another(capsys: Out) -> None:
    assert main(["figure", "bearing-seat", "seat=shaft", "size=25"]) == DONE
    said = capsys.readouterr().out
    assert (
        "25.000 mm (0.9843 in). Sizes without a unit were taken as mm.\nTake them otherwise with --unit"
        in said
    )
    for typed in (["--unit", "in", "size=1"], ["size=1", "--unit=in"]):
        assert main(["figure", "bearing-seat", "seat=shaft", *typed]) == DONE
        assert (
            "1.0000 in (25.400 mm). Sizes without a unit were taken as inches.\n" in capsys.readouterr().out
        )
    assert main(["figure", "bearing-seat", "seat=shaft", "size=25 mm", "--unit", "in"]) == DONE
    assert "Sizes without a unit" not in capsys.readouterr().out
    # A default keeps the unit it was written in: 0.5 mm of likely error is not half an inch.
    assert main(["figure", "bearing", "--unit", "in", "bore=17 mm", "outside=40 mm", "width=12 mm"]) == DONE
    assert "Readings good to 0.100 mm" in capsys.readouterr().out
    assert main(["figure", "sling", "load=410", "angle=45", "--unit", "in"]) == DONE


def test_a_figure_as_data_with_its_sources(capsys: Out) -> None:
    assert main(["figure", "fit", "fit=25 H7/g6", "--json", "--working"]) == DONE
    data = json.loads(capsys.readouterr().out)
    values = {answer["label"]: answer["value"] for answer in data["answers"]}
    assert values["hole high limit"] == pytest.approx(25.021, abs=1e-9)
    assert any("ISO 286-1" in source for source in data["sources"])
    assert data["working"][0] == {
        "kind": "as read",
        "label": "nominal size",
        "text": "25 mm, step over 24 to 30 mm",
        "source": "",
    }


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (["figure", "alchemy"], "“alchemy” is not a topic."),
        (["figure", "fit", "25"], "“25” is not an entry."),
        (["figure", "fit", "bore=25"], "“bore” is not an entry here."),
        (["figure", "fit", "fit=25 Q99/g6"], "Q99"),
        (
            ["figure", "sling", "load=1,500 kg", "legs=2", "angle=45", "rated=1000"],
            "Load: “1,500 kg” has a comma that may mark decimals or thousands. "
            "Type 1.500 kg (decimal comma) or 1500 kg (thousands).",
        ),
        (["figure", "sling", "load=1500", "leg=1000"], "Distance of the hooks: is empty, and it goes with"),
        (["figure", "old-oil", "oil=5,000 cSt"], "Type 5.000 cSt (decimal comma) or 5000 cSt (thousands)."),
        (["figure", "rpm", "speed=1e400", "diameter=10"], "Cutting speed: “1e400” is not a number."),
        (["figure", "change-gears", "lead=8 tpi", "wheels=10-3000000000"], "wheels of 10 to 300 teeth."),
    ],
)
def test_a_wrong_entry_is_one_sentence(typed: list[str], said: str, capsys: Out) -> None:
    assert main(typed) == FAILED
    captured = capsys.readouterr()
    assert said in captured.err
    assert captured.err.count("\n") == 1
    assert captured.out == ""


def test_every_figure_works_its_own_example(capsys: Out) -> None:
    """The example that ``rebuild figure TOPIC`` prints must do."""
    from rebuild.trade.figures import all_figures

    for topic, figure in all_figures().items():
        typed = [f"{name}={value}" for name, value in figure.example.items()]
        assert main(["figure", topic, *typed, "--working"]) == DONE, topic
        said = capsys.readouterr()
        assert said.err == ""
        assert len(said.out.splitlines()) > 3
