"""Tables that lookups ask: each written once as a class of cells, plural; its record is the singular.

``select(Parts.id, Parts.name).where(Parts.machine_id == 3)`` maps nothing and makes no schema. ``Parts.table``
is the table with all its constraints, for the file and for the records (``model/records``) mapped on it.
"""

from __future__ import annotations

from typing import Any, ClassVar, Self, TypeVar, cast

from sqlalchemy import ColumnClause, FromClause, Index, MetaData, Row, Table, table as light_table

from rebuild.model.cells import Cell, number_key

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

A = TypeVar("A", bound="type[Asked]")


class _Kept:
    """``Parts.table``, built when it is first needed."""

    def __get__(self, _row: object, asked: type[Asked]) -> Table:
        return asked.build()


class Asked:
    """A table by its cells. A subclass says its name, and its indexes over several columns, name first."""

    table_name: ClassVar[str]
    indexes: ClassVar[tuple[tuple[str, ...], ...]] = ()
    #: AUTOINCREMENT: a number is never used twice, else the journal would speak of another row.
    counted: ClassVar[bool] = False
    journaled: ClassVar[bool] = False
    table: ClassVar[_Kept] = _Kept()
    _clause: ClassVar[FromClause | None] = None

    def __init_subclass__(cls, *, name: str = "") -> None:
        super().__init_subclass__()
        if name:
            cls.table_name = name

    @classmethod
    def cells(cls) -> tuple[Cell[Any], ...]:
        """Every cell in the order of the columns."""
        return tuple(
            found
            for base in reversed(cls.__mro__)
            for found in vars(base).values()
            if isinstance(found, Cell)
        )

    @classmethod
    def clause(cls) -> FromClause:
        """What a question names: the light table, or the alias this is."""
        if cls._clause is None:
            cls._clause = light_table(cls.table_name, *(cell.asked() for cell in cls.cells()))
        return cls._clause

    @classmethod
    def __clause_element__(cls) -> FromClause:
        """So that SQLAlchemy takes the class where it takes a table."""
        return cls.clause()

    @classmethod
    def columns(cls) -> tuple[ColumnClause[Any], ...]:
        """Every column, for questions that want the whole row."""
        return tuple(cast("ColumnClause[Any]", column) for column in cls.clause().c)

    @classmethod
    def of(cls, row: Row[*tuple[Any, ...]]) -> Self:
        """A row read from this table (and perhaps from others too), its values typed as the cells are."""
        made = cls.__new__(cls)
        vars(made).update(row._mapping)
        return made

    @classmethod
    def build(cls) -> Table:
        """The table with all that the file needs, built once and put into ``metadata``."""
        found = metadata.tables.get(cls.table_name)
        if found is not None:
            return found
        options: dict[str, Any] = {"sqlite_autoincrement": True} if cls.counted else {}
        if cls.journaled:
            options["info"] = {"journaled": True}
        return Table(
            cls.table_name,
            metadata,
            *(cell.kept() for cell in cls.cells()),
            *(Index(name, *columns) for name, *columns in cls.indexes),
            **options,
        )


class Counted(Asked):
    """A table whose rows have a number."""

    counted = True
    id: Cell[int] = number_key()


class Journaled(Counted):
    """A table whose every change is journaled and can be undone."""

    journaled = True


def alias(table: A, name: str) -> A:
    """The same table a second time in one question, its columns typed as ever."""
    return cast("A", type(table.__name__, (table,), {"_clause": table.clause().alias(name)}))
