"""Part lists in the shapes people keep them in; every content is invented. Each says how many parts come of it."""

from __future__ import annotations

import sys
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.sax.saxutils import escape

from openpyxl import Workbook

from rebuild.errors import RebuildError
from rebuild.exchange.guess import batches_of
from rebuild.store.store import Store
from rebuild.work.lists.acts import bring_in, look_over
from rebuild.work.machines.acts import add_machine
from rebuild.work.machines.rows_tree import parts

Cells = list[list[object]]


@dataclass(frozen=True, slots=True)
class Shape:
    """A list: its file's name, how it is written, how many parts it holds, one of them, and how many of that one."""

    name: str
    write: Callable[[Path], None]
    parts: int
    part: str
    count: int = 1


def text(content: str, coding: str = "utf-8") -> Callable[[Path], None]:
    return lambda path: path.write_bytes(content.encode(coding)) and None


def book(**sheets: Cells) -> Callable[[Path], None]:
    def write(path: Path) -> None:
        made = Workbook()
        made.remove(made.active)  # type: ignore[arg-type]
        for title, rows in sheets.items():
            sheet = made.create_sheet(title)
            for row in rows:
                sheet.append(row)
        made.save(path)

    return write


def ods(**sheets: Cells) -> Callable[[Path], None]:
    """An OpenDocument spreadsheet as ISO/IEC 26300 has it, with runs of empty cells and rows folded."""

    def write(path: Path) -> None:
        space = "urn:oasis:names:tc:opendocument:xmlns"
        tables = "".join(
            f'<table:table table:name="{title}">{"".join(_ods_row(row) for row in rows)}'
            '<table:table-row table:number-rows-repeated="1048000"><table:table-cell '
            'table:number-columns-repeated="1024"/></table:table-row></table:table>'
            for title, rows in sheets.items()
        )
        content = (
            f'<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="{space}:office:1.0" '
            f'xmlns:table="{space}:table:1.0" xmlns:text="{space}:text:1.0"><office:body><office:spreadsheet>'
            f"{tables}</office:spreadsheet></office:body></office:document-content>"
        )
        with zipfile.ZipFile(path, "w") as packed:
            packed.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
            packed.writestr("content.xml", content)

    return write


def _ods_row(row: list[object]) -> str:
    cells = ""
    for value in row:
        if value is None:
            cells += '<table:table-cell table:number-columns-repeated="1"/>'
        elif isinstance(value, (int, float)):
            cells += f'<table:table-cell office:value-type="float" office:value="{value}"/>'
        else:
            cells += f"<table:table-cell><text:p>{escape(str(value))}</text:p></table:table-cell>"
    return f"<table:table-row>{cells}</table:table-row>"


_PLAIN: Cells = [["Code", "Name", "Qty"], ["A-1", "feed nut", 2], ["A-2", "thrust washer", 4]]
SHAPES: tuple[Shape, ...] = (
    Shape("plain.csv", text("code,name,quantity\nA-1,feed nut,2\nA-2,washer,4\n"), 2, "feed nut", 2),
    Shape("semicolons.csv", text('"Id";"Designation";"Quantity";\n1;"feed nut";2;\n2;"washer";4;\n'), 2, "washer", 4),
    Shape("tabs.tsv", text("Id\tDescription\tQty\tUnit\n1\tfelt strip\t0.1\tm\n2\toil cup\t3\t\n"), 2, "oil cup", 3),
    Shape("measured.csv", text("item,qty,unit\nfelt strip,0.5,m\nround belt,2,m\noil cup,3,pcs\n"), 3, "oil cup", 3),
    Shape("bars.csv", text("| No. | Qty | Part name |\n| --: | --: | --- |\n| 1 | 2 | feed nut |\n| 2 | 1 | key |\n"),
          2, "feed nut", 2),
    Shape("under titles.csv", text("Tailstock;;\nas of March;;\n;;\nTeile-Nr.;Bezeichnung;Menge\nT-1;Pinole;1\n"
                                   "T-2;Klemmhebel;2\n"), 2, "Klemmhebel", 2),
    Shape("cp1252.csv", text("Pos.;Benennung;Stück;Werkstoff\n1;Schlüssel für Mutter;2 Stk;Stahl\n2;Büchse;1;Rotguß\n",
                             "cp1252"), 2, "Schlüssel für Mutter", 2),
    Shape("german.csv", text("Teilenummer;Bezeichnung;Anzahl;Bemerkung\nR-1;Leiste;1;krumm\nR-2;Stellschraube;7;\n"),
          2, "Stellschraube", 7),
    Shape("french.csv", text("Repère,Désignation,Qté,Matière\nP1,écrou de vis-mère,1,bronze\nP2,rondelle,4,acier\n"), 2,
          "rondelle", 4),
    Shape("spanish.csv", text("Código;Descripción;Cantidad;Observaciones\nC-1;tuerca del husillo;1;gastada\n"
                              "C-2;arandela;3;\n", "cp1252"), 2, "arandela", 3),
    Shape("italian.csv", text("Codice,Denominazione,Q.tà,Materiale\nB-1,madrevite,1,bronzo\nB-2,rosetta,5,acciaio\n"),
          2, "rosetta", 5),
    Shape("dutch.csv", text("Partnummer;Omschrijving;Aantal;Materiaal\nN-1;spindelmoer;1;brons\nN-2;ring;6;staal\n"), 2,
          "ring", 6),
    Shape("japanese.csv", text("品番,品名,員数,材質\nJ-1,送りねじナット,1,青銅\nJ-2,座金,4,鋼\n"), 2, "座金", 4),
    Shape("japanese cp932.csv",
          text("番号,部品名,個数,備考\nJ-1,送りねじナット,1,摩耗\nJ-2,座金,4,\n", "cp932"), 2, "座金", 4),
    Shape("chinese.csv", text("序号,代号,名称,数量,材料\n1,Z-1,丝杠螺母,1,青铜\n2,Z-2,垫圈,4,钢\n"), 2, "垫圈", 4),
    Shape("chinese gb18030.csv",
          text("序号,零件号,零件名称,数量,备注\n1,Z-1,丝杠螺母,1,磨损\n2,Z-2,垫圈,4件,\n", "gb18030"), 2,
          "垫圈", 4),
    Shape("utf16.csv", text("code\tname\tqty\nA-1\tfeed nut\t2\n", "utf-16"), 1, "feed nut", 2),
    Shape("numbers only.csv", text("Part number,Qty\n4711-B,2\n4712,1\n"), 2, "4711-B", 2),
    Shape("numbers twice.csv", text("MPN,Quantity,Description\n6204,2,ball bearing\n6204,1,ball bearing\n"), 2,
          "ball bearing", 2),
    Shape("said.csv", text("name,qty\nfeed nut,2x\nwasher,x4\nkey,3 pcs\npin,1.0\nfelt,as needed\n"), 5, "washer", 4),
    Shape("sections.csv", text("Item,Qty,Notes\nTailstock,,\nquill,1,worn\nclamp lever,2,\nSaddle:,,\nwiper,4,felt\n"
                               "gib,1,\n"), 4, "wiper", 4),
    Shape("sums.csv", text("Part name,Qty,Price\nquill,1,20\nlever,2,3\nTotal,3,26\n"), 2, "lever", 2),
    Shape("needed.csv", text("Material,Description,Vendor,Part #,# needed\nsteel,key,shop,K-1,3\nbrass,shim,shop,,2\n"),
          2, "key", 3),
    Shape("one sheet.xlsx", book(Parts=_PLAIN), 2, "feed nut", 2),
    Shape("other sheets.xlsx", book(Cover=[["Rebuild of the lathe"], [None]], Parts=[
        [None, "PARTS OF THE APRON", None], [None, "approved", "no"], [None, None, None],
        ["PART NUMBER", "PART NAME", "QUANTITY"], ["A-1", "feed nut", 2], ["A-2", "worm", 1]]), 2, "feed nut", 2),
    Shape("unheaded column.xlsx", book(Parts=[["Code", "Name", "Qty"], ["A-1", "feed nut", 2, "see photo"]]), 1,
          "feed nut", 2),
    Shape("merged groups.xlsx", book(Parts=[["Subsystem", "Item", "Quantity"], ["Apron", "feed nut", 1],
        [None, "worm", 1], [None, "worm wheel", 2], [None, "lever", 1], [None, "pin", 3]]), 5, "worm wheel", 2),
    Shape("two lists.xlsx", book(Apron=_PLAIN, Saddle=[["Name", "Qty"], ["wiper", 4]]), 3, "wiper", 4),
    Shape("sheet.ods", ods(Tabelle1=[["Stückliste", None, None], [None], ["Nr.", "Bezeichnung", "Menge"],
        [1, "Pinole", 1], [2, "Klemmhebel", 2]]), 2, "Klemmhebel", 2),
    Shape("two sheets.ods", ods(Notes=[["nothing here"]], Parts=_PLAIN), 2, "feed nut", 2),
)  # fmt: skip


def whole(shape: Shape, folder: Path, store: Store, machine: int) -> bool:
    """Whether a list comes in with all its parts and the quantity of the one named, and one undo takes it back."""
    path = folder / shape.name
    shape.write(path)
    try:
        batches = batches_of(path)
        looked = look_over(store, machine, batches)
        if any(row.trouble for row in looked):
            return False
        bring_in(store, machine, batches)
    except RebuildError:
        return False
    with store.read() as connection:
        made = [(row.name, row.quantity) for row in parts(connection, machine)]
    store.undo()
    return len(made) == shape.parts and (shape.part, shape.count) in made


def main() -> int:
    """Print which lists come in whole: ``python -m tests.exchange.shapes``."""
    with TemporaryDirectory() as own:
        folder = Path(own)
        store = Store.create(folder / "lists.rebuild")
        machine = add_machine(store, "Lathe")
        left = [shape.name for shape in SHAPES if not whole(shape, folder, store, machine)]
        store.close()
    print(f"{len(SHAPES) - len(left)} of {len(SHAPES)} lists came in whole")
    print("\n".join(f"not whole: {name}" for name in left), end="\n" if left else "")
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main())
