"""Whose a row of a list is: parts and subassemblies by code or name, in whichever column they stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from rebuild.exchange.guess import batches_of
from rebuild.work.lists.acts import Looked, bring_in, look_over
from rebuild.work.lists.fields import What
from rebuild.work.machines import rows_tree as tree
from rebuild.work.machines.acts import add_subassembly
from tests.conftest import Shop


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    return path


def looked(shop: Shop, tmp_path: Path, text: str) -> list[Looked]:
    return look_over(shop.store, shop.machine, batches_of(written(tmp_path, text)))


def brought(shop: Shop, tmp_path: Path, text: str) -> str:
    return bring_in(shop.store, shop.machine, batches_of(written(tmp_path, text))).words


def groups(shop: Shop) -> dict[int, str]:
    with shop.store.read() as connection:
        return {
            row.id: f"{row.code} {row.name}".strip() for row in tree.subassemblies(connection, shop.machine)
        }


def where(shop: Shop) -> dict[str, str]:
    named = groups(shop)
    with shop.store.read() as connection:
        return {
            row.code: named.get(row.subassembly_id or 0, "") for row in tree.parts(connection, shop.machine)
        }


def features(shop: Shop) -> list[tuple[str, str, str]]:
    with shop.store.read() as connection:
        return [
            tuple(row)
            for row in connection.exec_driver_sql(
                "SELECT p.code, f.name, f.spec_text FROM feature f JOIN part p ON p.id = f.part_id ORDER BY f.id"
            )
        ]


# Seen by a stranger: a code under "Subassembly" made a second subassembly of that name.
def test_a_subassembly_is_met_by_its_code_or_its_name_in_either_column(shop: Shop, tmp_path: Path) -> None:
    add_subassembly(shop.store, shop.machine, "Tool head", "TK")
    before = groups(shop)
    text = (
        "Code,Name,Subassembly\nQ-1,slide,TK\nQ-2,nut,tool  head\nQ-3,screw,tk Tool Head\nQ-4,knob,Gearbox\n"
        "Q-5,pawl,gearbox\n"
    )
    assert [row.says for row in looked(shop, tmp_path, text)][:2] == [
        "part Q-1 slide in TK Tool head", "part Q-2 nut in TK Tool head",
    ]  # fmt: skip
    brought(shop, tmp_path, text)
    assert set(groups(shop).values()) - set(before.values()) == {"Gearbox"}
    found = where(shop)
    assert [found[f"Q-{one}"] for one in range(1, 6)] == ["TK Tool head"] * 3 + ["Gearbox"] * 2
    brought(shop, tmp_path, "Code,Name,Subassembly code\nQ-6,cap,Tool head\nQ-7,pin,TK\n")
    assert {where(shop)[code] for code in ("Q-6", "Q-7")} == {"TK Tool head"}
    assert len(groups(shop)) == len(before) + 1


def test_a_code_that_is_the_name_of_another_is_asked(shop: Shop, tmp_path: Path) -> None:
    add_subassembly(shop.store, shop.machine, "Table", "TB")
    add_subassembly(shop.store, shop.machine, "TB", "BT")
    (row,) = looked(shop, tmp_path, "Code,Name,Subassembly\nQ-1,slide,tb\n")
    assert row.trouble == (
        "Subassembly: “tb” fits “TB Table” and “BT TB”. Give code and name both, or give one of the two another code "
        "first."
    )
    assert "BT TB" in brought_where(shop, tmp_path)


def brought_where(shop: Shop, tmp_path: Path) -> str:
    brought(shop, tmp_path, "Code,Name,Subassembly code,Subassembly\nQ-1,slide,BT,TB\n")
    return where(shop)["Q-1"]


def test_codes_headed_part_are_codes(shop: Shop, tmp_path: Path) -> None:
    text = "Part,Feature\nHS-01,bearing seat\nhs-01,oil groove\nspindle,thread end\n"
    (batch,) = batches_of(written(tmp_path, text))
    assert batch.what is What.FEATURES
    assert brought(shop, tmp_path, text) == "3 features"
    assert {("HS-01", "bearing seat", ""), ("HS-01", "oil groove", ""), ("HS-01", "thread end", "")} <= set(
        features(shop)
    )


@pytest.mark.parametrize("heads", ["Code,Name,Qty,Feature,Spec", "Part no,Part name,Qty,Merkmal,Toleranz"])
def test_a_list_of_parts_with_their_features_brings_both(heads: str, shop: Shop, tmp_path: Path) -> None:
    """The part stands once over its features, as people type it; one without a feature comes too."""
    text = f"{heads}\nQ-1,shaft,1,journal,25 h6\n,,,length,120 ±0.1\nQ-2,bush,2,bore,25 H7\nQ-3,cap,1,,\n"
    rows = looked(shop, tmp_path, text)
    assert [row.trouble for row in rows] == [""] * 4
    assert rows[0].says == "feature journal on Q-1 shaft with the part Q-1 shaft"
    assert rows[2].says == "feature bore on Q-2 bush with the 2 × part Q-2 bush"
    brought(shop, tmp_path, text)
    assert [row for row in features(shop) if row[0].startswith("Q")] == [
        ("Q-1", "journal", "25 h6"), ("Q-1", "length", "120 ±0.1"), ("Q-2", "bore", "25 H7"),
    ]  # fmt: skip
    assert {"Q-1", "Q-2", "Q-3"} <= set(where(shop))


def test_sizes_to_be_are_no_readings_and_codes_under_no_are_codes(shop: Shop, tmp_path: Path) -> None:
    """Seen in the dialog: a list of what each size is to be was taken for readings of parts nobody has."""
    text = "My drill,,,\n,,,\nNo,Part,Feature,Size to be\nQ-1,quill,outside,45 h6\n,,length,180 ±0.1\n"
    (batch,) = batches_of(written(tmp_path, text))
    assert batch.what is What.FEATURES
    brought(shop, tmp_path, text)
    assert features(shop)[-2:] == [("Q-1", "outside", "45 h6"), ("Q-1", "length", "180 ±0.1")]
    (batch,) = batches_of(written(tmp_path, "Part,Feature,Size\nHS-01,journal,59.98\nHS-01,length,120.1\n"))
    assert batch.what is What.READINGS


def test_a_slip_in_a_code_makes_no_second_part(shop: Shop, tmp_path: Path) -> None:
    (row,) = looked(shop, tmp_path, "Code,Name,Feature,Spec\nHS-10,spindle,seat,25 h6\n")
    assert row.trouble.startswith("There is no part “HS-10” on this machine.")
