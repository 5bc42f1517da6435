"""What the hand needs and takes hold of in the demo: means of steps, and the controls of both machines."""

from __future__ import annotations

from rebuild.demo.built import Built, Ids, at
from rebuild.words.controls import ControlKind as C
from rebuild.words.means import MeansKind as M
from rebuild.words.run_in import LookWhen
from rebuild.work.controls.acts import add_control, found, prove
from rebuild.work.editing.acts import edit
from rebuild.work.means.acts import add_means, borrow, buy, lend, make, name_means
from rebuild.work.means.rows import OPEN
from rebuild.work.steps.rows import tasks
from rebuild.work.waiting.acts import Mark, mark
from rebuild.work.waiting.rows import Stand, waiting

#: Name, kind, the shop has it, place, note.
MEANS = (
    ("engine hoist, 1 t", M.HOIST, True, "floor", "legs fit under the lathe's feet, not under the shaper"),
    ("brother-in-law, Saturdays", M.HELPER, True, "", "ask by Wednesday"),
    ("dial test indicator on a mag base", M.GAUGE, True, "bench2", ""),
    ("taper pin reamer no. 8", M.TOOL, True, "A1", ""),
    ("scraper, carbide 20 mm", M.TOOL, True, "bench2", "touched up on the diamond wheel"),
    ("marking blue", M.CONSUMABLE, True, "bench2", ""),
    ("spanner for the spindle nut, two pins", M.TOOL, False, "", "pins 8 mm, 62 mm apart"),
    ("tap Tr 30x6", M.TOOL, False, "", "left or right hand: ask first"),
    ("plug gauge for the bush bores", M.GAUGE, False, "", "go and not go on one bar"),
    ("master straightedge, 900 mm", M.GAUGE, True, "bench2", ""),
    ("bearing grease, lithium", M.CONSUMABLE, False, "", ""),
)

#: Words of an open step's title, the machine, what it needs, what for: the first open step that has the words.
NAMED = (
    (1, "zero end play by indicator", "spanner for the spindle nut, two pins", "holding the inner nut"),
    (1, "thread the half nuts", "tap Tr 30x6", "sizing the thread after boring"),
    (1, "make the two bracket bushes", "plug gauge for the bush bores", "reamed to it"),
    (1, "saddle onto the bed", "engine hoist, 1 t", "the saddle weighs 45 kg"),
    (1, "scrape slide and saddle", "master straightedge, 900 mm", "blueing the ways"),
    (0, "scrape the rail's top", "master straightedge, 900 mm", "blueing the ways"),
    (0, "scrape the rail's top", "scraper, carbide 20 mm", ""),
    (0, "rail onto the column", "engine hoist, 1 t", "the rail weighs 70 kg"),
    (0, "rail onto the column", "brother-in-law, Saturdays", "steering it"),
    (0, "new tapered gib", "marking blue", ""),
    (0, "warm the bearings", "bearing grease, lithium", ""),
)

_SHAPER = (
    ("stroke adjusting shaft", C.CRANK, {"location": "left side, behind the cover",
     "does": "sets the length of the stroke", "engages": "crank pushed onto the square, ram standing",
     "retracts": "lifted off before starting", "trapped": "the lock nut on its end"}, "",
     "square rounded over, crank slips", ""),
    ("hand turning crank", C.CRANK, {"location": "left side, low", "does": "turns the bull gear over by hand",
     "engages": "pushed in against its spring", "retracts": "springs out by itself"}, "", "seized in its bush",
     "turns the gear all round, springs out, with the motor off"),
    ("head feed crank", C.CRANK, {"location": "on top of the head", "does": "moves the tool slide down",
     "per_turn": "0.100 in", "dial": "100 divisions of 0.001 in", "handed": "left hand: clockwise moves down"}, "0.100",
     "0.011 in lost motion", ""),
    ("cross feed crank", C.CRANK, {"location": "rail, right end", "does": "moves the table along the rail",
     "per_turn": "0.200 in", "dial": "200 divisions of 0.001 in"}, "0.200", "tight at both ends", ""),
    ("feed reversing knob", C.KNOB, {"location": "rail, right end, on the pawl", "does": "turns the table feed round",
     "engages": "lifted, turned half round, let drop", "retracts": "lifted and turned a quarter: no feed",
     "doubles": ""}, "", "spring missing, drops by itself", ""),
    ("clutch lever", C.CLUTCH, {"location": "left side", "does": "starts and stops the ram; out, the brake holds it",
     "engages": "pulled toward the operator", "retracts": "pushed away; the brake takes hold in the last inch"},
     "", "drags when hot", ""),
)  # fmt: skip
_LATHE = (
    ("carriage handwheel", C.HANDWHEEL, {"location": "apron, left", "does": "moves the carriage along the bed",
     "per_turn": "24 mm", "dial": "none"}, "24", "runs free, 1.5 turns lost at the rack's worn end", ""),
    ("cross slide crank", C.CRANK, {"location": "saddle, front", "does": "moves the cross slide", "per_turn": "5 mm",
     "dial": "100 divisions of 0.05 mm", "handed": "left-hand screw: clockwise moves in",
     "trapped": "the dial's locking ring, left-hand thread"}, "5.01", "0.9 mm lost motion in mid travel", ""),
    ("half-nut lever", C.LEVER, {"location": "apron, right", "does": "closes the half nuts on the leadscrew",
     "engages": "pressed down; only with the feed lever in the middle", "retracts": "lifted"}, "",
     "jumps out under load", ""),
    ("feed lever", C.LEVER, {"location": "apron, centre", "does": "long feed up, cross feed down, middle: none",
     "engages": "pulled out and moved, springs in", "retracts": "to the middle"}, "", "pin worn, shows no middle", ""),
    ("feed knob", C.KNOB, {"location": "apron, under the feed lever", "does": "drops the worm out of the feed",
     "engages": "turned right until it clicks", "retracts": "a quarter turn left, falls by its weight",
     "doubles": "feed lever"}, "", "frozen in", ""),
    ("tailstock handwheel", C.HANDWHEEL, {"location": "tailstock, right end",
     "does": "moves the quill; throws the centre out", "per_turn": "4 mm", "dial": "none"}, "4", "smooth", ""),
    ("main switch", C.SWITCH, {"location": "headstock, front", "does": "starts and stops the motor"}, "",
     "cover cracked", ""),
)  # fmt: skip


def extend(built: Built) -> None:
    """Means with what steps need of them, then controls as found and, some, proved."""
    known = {
        name: add_means(
            built.store, name, kind,
            {"owned": "yes" if owned else "no", "place_id": str(built.places[place]) if place else "", "note": note},
        )
        for name, kind, owned, place, note in MEANS
    }  # fmt: skip
    _name(built)
    edit(
        built.store, "waiting", [buy(built.store, known["tap Tr 30x6"], built.machines[1].machine)],
        {"price": "95", "lead_low_days": "5", "lead_likely_days": "14", "lead_high_days": "40",
         "note": "left or right hand: ask first"},
    )  # fmt: skip
    make(built.store, known["spanner for the spindle nut, two pins"], built.machines[1].machine)
    borrow(
        built.store,
        known["plug gauge for the bush bores"],
        built.machines[1].machine,
        "county works' tool room",
    )
    lend(
        built.store, known["master straightedge, 900 mm"], "neighbour with the mill", at=at("2026-10-24", 16)
    )
    _back_from_the_planer(built, built.machines[0])
    for ids, controls in zip(built.machines, (_SHAPER, _LATHE), strict=True):
        _controls(built, ids, controls)


def _back_from_the_planer(built: Built, shaper: Ids) -> None:
    """The rocker arm was planed and came back: its line, made when it was put at the shop, is looked at."""
    with built.store.read() as connection:
        listed = waiting(connection, shaper.machine, at("2026-11-08", 21))
    for row in listed:
        if row.part_id == shaper.parts["RK-01"] and row.stand is Stand.ARRIVED:
            mark(built.store, row.id, Mark.CHECKED, note="slot square to the bore", at=at("2026-01-25", 10))


def _name(built: Built) -> None:
    for machine, words, name, what_for in NAMED:
        ids = built.machines[machine]
        with built.store.read() as connection:
            listed = tasks(connection, ids.machine)
        step = next((row for row in listed if row.state in OPEN and words in row.title.lower()), None)
        if step is not None:
            name_means(built.store, step.id, name, note=what_for)


def _controls(
    built: Built, ids: Ids, listed: tuple[tuple[str, C, dict[str, str], str, str, str], ...]
) -> None:
    made: dict[str, int] = {}
    for name, kind, told, turn, as_found, proved in listed:
        typed = {key: text for key, text in told.items() if key != "doubles" and text}
        if told.get("doubles"):
            typed["doubles_id"] = str(made[told["doubles"]])
        if kind is C.SWITCH:
            typed["due"] = LookWhen.FIRST_POWER.value
        made[name] = add_control(built.store, ids.machine, name, kind, typed)
        found(built.store, made[name], as_found, turn, at=at("2025-12-13", 10))
        if proved:
            prove(built.store, made[name], proved, turn, "owner", at=at("2026-06-21", 18))
