"""A fault planted in a command: one sentence, a report, an exit code of its own; and what a report leaves out."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.exc import DBAPIError

from rebuild.cli import main as cli
from rebuild.cli.exit_codes import DONE, FAILED, FAULT, STOPPED
from rebuild.fault_report import SENTENCE, report_of, report_path, without_the_users

Out = pytest.CaptureFixture[str]


pytestmark = pytest.mark.usefixtures("own_reports")


def plant(monkeypatch: pytest.MonkeyPatch, error: BaseException) -> None:
    def broken(_args: object) -> int:
        raise error

    words, arguments, _run = cli.COMMANDS["summary"]
    monkeypatch.setitem(cli.COMMANDS, "summary", (words, arguments, broken))


def test_a_fault_in_a_command_is_one_sentence_a_report_and_code_4(
    monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    plant(monkeypatch, IndexError("list index out of range"))
    assert cli.main(["summary", "shop.rebuild"]) == FAULT == 4
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == f"{SENTENCE} The report is {report_path()}; rebuild --trouble prints it.\n"
    assert cli.main(["--trouble"]) == DONE
    report = capsys.readouterr().out
    assert "Rebuild " in report.splitlines()[0]
    assert "test_last_resort.py" in report
    assert report.rstrip().endswith("IndexError: list index out of range")


def test_without_a_place_for_the_report_it_is_printed(
    monkeypatch: pytest.MonkeyPatch, capsys: Out, tmp_path: Path
) -> None:
    (tmp_path / "logs").write_text("a file where the folder should be")
    plant(monkeypatch, IndexError("list index out of range"))
    assert cli.main(["summary", "shop.rebuild"]) == FAULT
    said = capsys.readouterr().err
    assert said.startswith(SENTENCE)
    assert said.rstrip().endswith("IndexError: list index out of range")
    assert "Traceback" not in said


def test_no_fault_yet_says_so(capsys: Out) -> None:
    assert cli.main(["--trouble"]) == DONE
    assert capsys.readouterr().out == "No fault has been reported.\n"


def test_ctrl_c_stops_without_a_traceback(monkeypatch: pytest.MonkeyPatch, capsys: Out) -> None:
    plant(monkeypatch, KeyboardInterrupt())
    assert cli.main(["summary", "shop.rebuild"]) == STOPPED
    assert capsys.readouterr().err == "Stopped.\n"
    assert not report_path().exists()


def test_what_the_user_can_mend_is_no_fault(capsys: Out, tmp_path: Path) -> None:
    assert cli.main(["summary", str(tmp_path / "none.rebuild")]) == FAILED
    assert not report_path().exists()


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (ValueError("could not convert string to float: 'bull gear'"), "could not convert string to float: …"),
        (KeyError("bull gear"), "…"),
        (FileNotFoundError(2, "No such file", "/home/ann/mill/a.png"), "No such file (a.png)"),
        (RuntimeError(r"cannot read C:\Users\ann\mill.rebuild now"), "cannot read mill.rebuild now"),
        (RuntimeError('cannot read "/home/ann/my mill.rebuild"'), "cannot read …"),
        (AttributeError("'NoneType' object has no attribute 'bore'"), "'NoneType' object has no attribute 'bore'"),
        (TypeError("unhashable: 'bull gear'"), "unhashable: …"),
    ],
)  # fmt: skip
def test_a_report_holds_nothing_of_the_users(error: Exception, words: str) -> None:
    assert without_the_users(error) == words


def test_a_report_of_the_database_leaves_statement_and_values_out() -> None:
    engine = create_engine("sqlite://")
    with pytest.raises(DBAPIError) as caught, engine.connect() as connection:
        connection.execute(text("INSERT INTO nowhere VALUES (:name)"), {"name": "bull gear"})
    assert "bull gear" in str(caught.value)
    report = report_of(caught.value)
    assert "bull gear" not in report.replace('"name": "bull gear"', "")  # the line of this test itself
    assert report.rstrip().endswith("OperationalError: no such table: nowhere")


def test_a_report_shows_what_an_error_came_from() -> None:
    def look_up() -> None:
        try:
            sqlite3.connect(":memory:").execute("SELEC")
        except sqlite3.Error as first:
            raise RuntimeError("the look-up broke") from first

    with pytest.raises(RuntimeError) as caught:
        look_up()
    report = report_of(caught.value)
    assert (
        report.index("OperationalError")
        < report.index("and from it:")
        < report.index("RuntimeError: the look")
    )
