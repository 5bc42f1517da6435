"""Enter a new fit: its two features found by typing, what is wanted, which side is the master."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from rebuild.errors import BadEntry, Implausible
from rebuild.trade.fits.wanted import WAYS_TO_TYPE
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.machine_unit import machine_unit
from rebuild.window.fits.new_side import new_side
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.words.fits import Adjuster, FitJoint, FitKind, Side
from rebuild.work.fits.acts import FitEntry, add_fit
from rebuild.work.readings.rows_features import feature_choices
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import field_of

OUTER = Field(
    "outer",
    "Outer side",
    FieldKind.REFERENCE,
    refers_to="feature",
    required=True,
    help="The hole, nut, slide, socket or wheel: type part of its name.",
)
INNER = Field(
    "inner",
    "Inner side",
    FieldKind.REFERENCE,
    refers_to="feature",
    required=True,
    help="The shaft, screw, way, plug or pinion: type part of its name.",
)
GAP = Field(
    "gap",
    "Clearance read on",
    FieldKind.REFERENCE,
    refers_to="feature",
    help="A feature on which the clearance itself is read: lift, backlash, feeler gap.",
)
WANTED = Field("wanted", "To be", help=WAYS_TO_TYPE)
MAKE_IT = "Choose one from the list, or make it with New feature… below: its part, its name, its size."
KIND = Field("kind", "Kind of fit", FieldKind.CHOICE, FitKind)


def new_fit(
    desk: Desk, parent: QWidget | None, after: Callable[[int], None], outer_id: int | None = None
) -> AddDialog | None:
    """The dialog that adds fits to the machine, or None without a machine."""
    if not desk.is_open or desk.machine_id is None:
        return None
    fields = [
        OUTER,
        INNER,
        KIND,
        WANTED,
        field_of("fit", "master"),
        field_of("fit", "adjuster"),
        field_of("fit", "name"),
        GAP,
    ]
    act = _Adder(desk)
    bare = "inches" if machine_unit(desk) == "in" else "millimetres"
    prefill = {"outer": str(outer_id)} if outer_id is not None else {}
    adding = Adding(
        "New fit",
        f"Clearance counts up, interference down. A bare number is in {bare}, or in the unit both sides share.",
        fields,
        act=act,
        after=after,
        prefill=lambda: prefill,
    )
    dialog = AddDialog(desk, adding, parent)
    _offer(desk, dialog)
    make = dialog.offer_beside(
        "New &feature…", lambda: new_side(desk, dialog, lambda _key: _offer(desk, dialog))
    )
    make.setToolTip("A side that is not in the list is made here; this entry stays open")
    if outer_id is not None:
        dialog.form.boxes["outer"].fill(str(outer_id))
    dialog.open()
    return dialog


def _offer(desk: Desk, dialog: AddDialog) -> None:
    """Fill the lists of sides; what stands in them stays."""
    with desk.store.read() as connection:
        listed = feature_choices(connection, desk.machine_id or 0)
    for name in ("outer", "inner", "gap"):
        editor = dialog.form.boxes[name].widget
        assert isinstance(editor, ReferenceEditor)
        editor.takes_only_holder = True
        editor.offer(listed)


class _Adder:
    """Adds what is typed; a range held as odd is taken when the same is entered again."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._held: dict[str, str] | None = None

    def __call__(self, typed: dict[str, str]) -> int:
        entry = FitEntry(
            self._feature(OUTER, typed),
            self._feature(INNER, typed),
            FitKind(typed.get("kind", FitKind.RUNNING.value)),
            _joint(typed),
            wanted=typed.get("wanted", ""),
            name=typed.get("name", ""),
            master=Side(typed["master"]) if typed.get("master") else None,
            adjuster=Adjuster(typed.get("adjuster", Adjuster.NONE.value)),
            gap_id=self._gap(typed),
        )
        try:
            return add_fit(self._desk.store, entry, confirmed=typed == self._held)
        except Implausible:
            self._held = dict(typed)
            raise

    @staticmethod
    def _feature(field: Field, typed: dict[str, str]) -> int:
        text = typed.get(field.name, "").strip()
        if text and not text.isdecimal():
            raise BadEntry(
                "is no feature of this machine yet.", where=field.label, value=text, way_out=MAKE_IT
            )
        key = field.read(text)[field.name]
        if not isinstance(key, int):
            raise BadEntry("is empty.", where=field.label, way_out=field.help)
        return key

    @staticmethod
    def _gap(typed: dict[str, str]) -> int | None:
        key = GAP.read(typed.get("gap", ""))["gap"]
        return key if isinstance(key, int) else None


def _joint(typed: dict[str, str]) -> FitJoint | None:
    """Told by the kind where the kind tells it; else guessed from the features."""
    kinds = {
        FitKind.THREAD: FitJoint.NUT_AND_SCREW,
        FitKind.TAPER: FitJoint.TAPER,
        FitKind.MESH: FitJoint.GEAR_MESH,
    }
    return kinds.get(FitKind(typed.get("kind", FitKind.RUNNING.value)))
