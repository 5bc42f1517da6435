"""The commands that write books and exchange files, as they are typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from rebuild.cli.exit_codes import DONE, FAILED, FOUND
from rebuild.cli.main import main
from rebuild.work.machines.acts import add_machine
from rebuild.work.machines.rows_tree import parts
from rebuild.work.records.rows_kept import kept_entries
from tests.conftest import Shop

Out = pytest.CaptureFixture[str]


def test_the_book_lies_beside_the_file_under_the_machine_s_name(shop: Shop, capsys: Out) -> None:
    assert main(["book", str(shop.path)]) == DONE
    target = shop.path.parent / "Toolroom lathe.pdf"
    assert capsys.readouterr().out == f"Written: {target}\n"
    assert "Toolroom lathe" in PdfReader(target).pages[0].extract_text()


def test_every_machine_gets_its_book_and_one_file_is_not_enough(
    shop: Shop, tmp_path: Path, capsys: Out
) -> None:
    add_machine(shop.store, "Second: mill/2")
    assert main(["book", str(shop.path), "--to", str(tmp_path / "books")]) == DONE
    assert sorted(path.name for path in (tmp_path / "books").iterdir()) == [
        "Second mill2.pdf",
        "Toolroom lathe.pdf",
    ]
    assert main(["book", str(shop.path), "--to", str(tmp_path / "one.pdf")]) == FAILED
    assert "Name one with --machine" in capsys.readouterr().err
    one = tmp_path / "one.pdf"
    assert (
        main(["book", str(shop.path), "--machine", "toolroom LATHE", "--to", str(one), "--paper", "letter"])
        == DONE
    )
    assert round(float(PdfReader(one).pages[0].mediabox[2])) == 612


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--machine", "planer"], "There are: “Toolroom lathe”"),
        (["--paper", "A3"], "Choose A4 or Letter"),
        (["--to", "{tmp}/missing.rebuild/x.pdf"], "cannot be"),
    ],
)
def test_a_book_that_cannot_be_is_one_sentence(
    words: list[str], said: str, shop: Shop, tmp_path: Path, capsys: Out
) -> None:
    (tmp_path / "missing.rebuild").write_text("a file, not a folder")
    given = [word.replace("{tmp}", str(tmp_path)) for word in words]
    assert main(["book", str(shop.path), *given]) == FAILED
    captured = capsys.readouterr()
    assert said in captured.err
    assert captured.err.count("\n") == 1


def test_export_and_import_through_the_terminal(
    shop: Shop, project: Path, tmp_path: Path, capsys: Out
) -> None:
    assert main(["export", str(shop.path), "--to", str(tmp_path / "out")]) == DONE
    assert "README.txt says what is what" in capsys.readouterr().out
    assert main(["export", str(shop.path), "--to", str(tmp_path / "out")]) == FAILED
    assert main(["export", str(shop.path), "--to", str(tmp_path / "lists.xlsx")]) == DONE
    capsys.readouterr()
    assert main(["import", str(project), str(tmp_path / "out")]) == DONE
    assert capsys.readouterr().out.startswith("Stored in one act: 1 machine with ")
    assert main(["check", str(project)]) == DONE


def test_import_says_every_bad_row_and_stores_nothing_until_told(
    shop: Shop, tmp_path: Path, capsys: Out
) -> None:
    table = tmp_path / "list.csv"
    table.write_text("code,name\nHS-01,spindle\nQ-1,pin\n,\nHS-02,\n")
    assert main(["import", str(shop.path), str(table)]) == FOUND
    said = capsys.readouterr().out
    assert "part list, row 2: Code: “HS-01” is already the code of “spindle”" in said
    assert "part list, row 5: Code: “HS-02” is already the code of “bearing cap”" in said
    assert "1 of 3 rows can be stored. Nothing was stored." in said
    assert main(["import", str(shop.path), str(table), "--keep-bad"]) == FOUND
    assert "Stored in one act: 1 part. 2 rows in the kept entries." in capsys.readouterr().out
    with shop.store.read() as connection:
        assert "Q-1" in [row.code for row in parts(connection, shop.machine)]
        assert len(kept_entries(connection)) == 2


def test_a_look_stores_nothing(shop: Shop, tmp_path: Path, capsys: Out) -> None:
    table = tmp_path / "list.csv"
    table.write_text("code,name\nQ-1,pin\n")
    assert main(["import", str(shop.path), str(table), "--look"]) == DONE
    assert "1 of 1 row can be stored. Nothing was stored." in capsys.readouterr().out
    with shop.store.read() as connection:
        assert len(parts(connection, shop.machine)) == 2


def test_odd_readings_are_taken_when_sure(shop: Shop, tmp_path: Path, capsys: Out) -> None:
    table = tmp_path / "readings.csv"
    table.write_text("part code,feature,station,reading\nHS-01,front journal,near,5.998\n")
    assert main(["import", str(shop.path), str(table)]) == FOUND
    assert main(["import", str(shop.path), str(table), "--sure"]) == DONE
    assert "Stored in one act: 1 reading." in capsys.readouterr().out


def test_several_machines_want_one_named(shop: Shop, tmp_path: Path, capsys: Out) -> None:
    add_machine(shop.store, "Mill")
    table = tmp_path / "list.csv"
    table.write_text("code,name\nQ-1,pin\n")
    assert main(["import", str(shop.path), str(table)]) == FOUND
    assert "Choose the machine these rows belong to" in capsys.readouterr().out
    assert main(["import", str(shop.path), str(table), "--machine", "Mill"]) == DONE


def test_find_prints_what_it_found_and_says_when_there_is_nothing(shop: Shop, capsys: Out) -> None:
    assert main(["find", str(shop.path), "bearing", "ca"]) == DONE
    assert (
        capsys.readouterr().out.splitlines()[0].startswith("part          HS-02 bearing cap · Toolroom lathe")
    )
    assert main(["find", str(shop.path), "60", "mm"]) == DONE
    assert "nominal 60.000 mm (2.3622 in)" in capsys.readouterr().out
    assert main(["find", str(shop.path), "zebra"]) == FOUND
    assert "has “zebra”" in capsys.readouterr().out
