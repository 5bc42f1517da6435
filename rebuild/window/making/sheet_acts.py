"""What can be done to a sheet, by where it stands; reasons are asked for in a dialog."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import QWidget

from rebuild.errors import Implausible
from rebuild.trade.fits.wanted import WAYS_TO_TYPE
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.forms.add_dialog import AddDialog, Adding
from rebuild.words.making import MakingProgress
from rebuild.work.making import acts as making, acts_as_made as as_made, acts_steps as making_steps
from rebuild.work.making.acts_offered import make_fit, not_its_mate
from rebuild.work.making.acts_plug import plug_sheet
from rebuild.work.making.rows_against import How, against
from rebuild.work.making.rows_sheet_lists import SheetPage
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.rows_settings import owner

Do = Callable[[Desk, SheetPage, QWidget, bool], object]


@dataclass(frozen=True, slots=True)
class SheetAct:
    """One button: its words, what it is for, and the states it stands in. ``held`` are its words once refused."""

    words: str
    told: str
    at: tuple[MakingProgress, ...]
    do: Do
    held: str = ""
    when_stale: bool = False
    of_nut: bool = False
    when_offered: bool = False


def _reason(
    desk: Desk,
    title: str,
    label: str,
    page: SheetPage,
    window: QWidget,
    act: Callable[[str, str], None],
    button: str,
    told: Sequence[str] = (),
) -> AddDialog:
    """Ask for a reason and who says so, then act. ``told``: what it is about, a line each."""
    fields = [
        Field("reason", label, FieldKind.LONG_TEXT, longest=2000, required=True, help="Say why."),
        Field("by", "By"),
    ]

    def do(typed: dict[str, str]) -> int:
        act(typed.get("reason", ""), typed.get("by", ""))
        return page.id

    adding = Adding(
        title,
        "\n".join([f"On {page.head.part}, attempt {page.head.attempt}", *told]),
        fields,
        act=do,
        prefill=lambda: {"by": owner(desk.store)},
        again=False,
    )
    dialog = AddDialog(desk, adding, window)
    dialog.add_button.setText(button)
    dialog.open()
    return dialog


def _release(desk: Desk, page: SheetPage, _window: QWidget, sure: bool) -> None:
    making.release(desk.store, page.id, sure=sure)


def _begin(desk: Desk, page: SheetPage, _window: QWidget, sure: bool) -> None:
    making.begin(desk.store, page.id, sure=sure)


def _finish(desk: Desk, page: SheetPage, _window: QWidget, sure: bool) -> None:
    as_made.finish(desk.store, page.id, sure=sure)


def _accept(desk: Desk, page: SheetPage, window: QWidget, _sure: bool) -> object:
    """Accept what conforms; what is undecided within its limits asks why it is taken."""

    def act(reason: str, by: str) -> None:
        as_made.accept(desk.store, page.id, by=by, note=reason)

    held = against(page)
    if held and all(one.how is How.UNSURE for one in held):
        lines = [one.line for one in held]
        return _reason(desk, "Accept though undecided", "Reason", page, window, act, "Accept", lines)
    as_made.accept(desk.store, page.id, by=owner(desk.store))
    return None


def _concede(desk: Desk, page: SheetPage, window: QWidget, _sure: bool) -> object:
    def act(reason: str, by: str) -> None:
        as_made.accept(desk.store, page.id, by=by, concession=as_made.Conceding(reason, by))

    return _reason(desk, "Accept by concession", "Reason", page, window, act, "Accept", _conceded(page))


def _conceded(page: SheetPage) -> list[str]:
    """What a concession takes, a line each: the size, its limits, what it read, by how much it is off."""
    sizes = [one.line for one in against(page) if one.how is not How.UNSURE]
    details = [f"{one.name}: {one.words}, came out to {one.came_out}" for one in page.details if one.outside]
    return [*sizes, *details]


def _rework(desk: Desk, page: SheetPage, window: QWidget, _sure: bool) -> object:
    def act(reason: str, _by: str) -> None:
        as_made.rework(desk.store, page.id, reason)

    return _reason(desk, "Back to the machine", "What is to be done", page, window, act, "Rework")


def _scrap(desk: Desk, page: SheetPage, window: QWidget, _sure: bool) -> object:
    def act(reason: str, _by: str) -> None:
        as_made.scrap(desk.store, page.id, reason)

    return _reason(desk, "Scrap and remake", "What went wrong", page, window, act, "Scrap")


def _refresh(desk: Desk, page: SheetPage, _window: QWidget, _sure: bool) -> None:
    changed = making.refresh(desk.store, page.id)
    if changed and page.course.progress is MakingProgress.RELEASED:
        again = f"Release it again as issue {page.course.issue.number + 1}; papers of the old one are void."
        desk.say(f"{page.head.part}: {'; '.join(changed)}. {again}", Say.ASK)
        return
    # Else what the last print or reading said of stale limits would stay on the message line.
    desk.say(f"{page.head.part}: its limits are as its mates read now.")


def _make_fit(desk: Desk, page: SheetPage, window: QWidget, _sure: bool) -> object:
    """Ask what is wanted between the thread and the mate offered; the sheet then takes its limits."""
    mate = page.offered
    if mate is None:
        return None
    held: list[str] = []

    def do(typed: dict[str, str]) -> int:
        wanted = typed.get("wanted", "")
        try:
            make_fit(desk.store, page.id, mate, wanted, confirmed=wanted in held)
        except Implausible:
            held.append(wanted)
            raise
        return page.id

    about = f"{page.head.part} runs on {mate.mate}" + (f", read {mate.reads}" if mate.reads else "")
    wanted = Field(
        "wanted", f"To be, on the pitch diameter [{page.head.unit}]", required=True, help=WAYS_TO_TYPE
    )
    dialog = AddDialog(desk, Adding("Make the fit", about, [wanted], act=do, again=False), window)
    dialog.add_button.setText("Make the fit")
    dialog.open()
    return dialog


def _not_its_mate(desk: Desk, page: SheetPage, _window: QWidget, _sure: bool) -> None:
    not_its_mate(desk.store, page.id)


def _spare(desk: Desk, page: SheetPage, _window: QWidget, _sure: bool) -> None:
    as_made.make_spare(desk.store, page.id)


def _again(desk: Desk, page: SheetPage, _window: QWidget, _sure: bool) -> object:
    return making.start_sheet(desk.store, page.head.part_id)


def _plug(desk: Desk, page: SheetPage, _window: QWidget, _sure: bool) -> object:
    return plug_sheet(desk.store, page.id)


def _remove(desk: Desk, page: SheetPage, _window: QWidget, sure: bool) -> None:
    making_steps.remove_sheet(desk.store, page.id, sure=sure)


_P = MakingProgress
_OPEN = (_P.DRAFT, _P.RELEASED, _P.BEING_MADE, _P.MADE)
BEGIN = "&Begin"
ACTS: tuple[SheetAct, ...] = (
    SheetAct(
        "&Refresh", "Work the limits out again from the current readings", _OPEN, _refresh, when_stale=True
    ),
    SheetAct(
        "Release",
        "It is complete: from now on it waits for its mates, or is ready",
        (_P.DRAFT,),
        _release,
        "Release all the same",
    ),
    SheetAct(BEGIN, "Begin the work", (_P.RELEASED,), _begin, "&Begin all the same"),
    SheetAct(
        "Finished",
        "The part is made; every size is measured",
        (_P.BEING_MADE,),
        _finish,
        "Finished all the same",
    ),
    SheetAct("&Accept", "Every size conforms", (_P.MADE,), _accept),
    SheetAct("By &concession…", "Accept it outside its limits, with the reason", (_P.MADE,), _concede),
    SheetAct("Re&work…", "Back to the machine", (_P.MADE,), _rework),
    SheetAct("Scrap…", "Scrap this attempt and start the next one", (_P.BEING_MADE, _P.MADE), _scrap),
    SheetAct(
        "Thread plu&g",
        "The plug that proves this thread, on a sheet of its own: it is turned first",
        (_P.DRAFT, _P.RELEASED, _P.BEING_MADE),
        _plug,
        of_nut=True,
    ),
    SheetAct(
        "Make the fit…",
        "It runs on the part offered: say what is wanted between them, and the limits follow",
        (_P.DRAFT, _P.RELEASED),
        _make_fit,
        when_offered=True,
    ),
    SheetAct(
        "Not its mate",
        "It does not run on the part offered: the sheet notes it",
        (_P.DRAFT, _P.RELEASED),
        _not_its_mate,
        when_offered=True,
    ),
    SheetAct(
        "Spare made", "A second piece was made: it becomes a part of its own", (_P.MADE, _P.ACCEPTED), _spare
    ),
    SheetAct("Make a&gain", "A new attempt at this part", (_P.ACCEPTED,), _again),
    SheetAct(
        "Rem&ove",
        "Take the sheet away; Ctrl+Z brings it back",
        (_P.DRAFT, _P.RELEASED),
        _remove,
        "Rem&ove all the same",
    ),
)
