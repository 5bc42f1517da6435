"""Taking down and putting back through the acts: log, draft, constraints, joints, attempts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from rebuild.errors import BadEntry, BrokenOrder
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind, LinkAnswer, LinkKind, TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit, acts_ways_out as ways
from rebuild.work.joints import acts as joints, rows as joint_rows
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.refit import acts as refit, acts_proposals as proposals
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.rows import TaskRow, links, tasks as task_rows
from rebuild.work.teardown import (
    acts as teardown,
    acts_attempts as attempts,
    acts_fasteners as holes,
    rows_removals as rows,
)
from rebuild.work.teardown.rows_second_teardown import second_teardown

NAMES = ("apron casting", "half nuts", "worm", "feed rod bracket", "cover")


@dataclass
class Apron:
    """A machine with an apron of five parts."""

    store: Store
    machine: int
    group: int
    parts: dict[str, int]
    bag: int

    def off(self, name: str, how: RemovalWay = RemovalWay.LIFTED, **more: object) -> int:
        off = teardown.Off((self.parts[name],), how, **more)  # type: ignore[arg-type]
        return teardown.log_removal(self.store, self.machine, self.group, off)

    def steps(self) -> list[TaskRow]:
        with self.store.read() as connection:
            return task_rows(connection, self.machine, [self.group])

    def step(self, words: str) -> TaskRow:
        return next(row for row in self.steps() if words in row.title)

    def attempt(self) -> rows.AttemptRow:
        with self.store.read() as connection:
            found = rows.current_attempt(connection, self.machine, self.group)
        assert found is not None
        return found

    def log(self) -> list[rows.RemovalRow]:
        with self.store.read() as connection:
            return rows.removals(connection, self.attempt().id)


@pytest.fixture
def apron(store: Store) -> Apron:
    machine = identify.add_machine(store, "Bench lathe", {"unit": "in"})
    group = identify.add_subassembly(store, machine, "Apron", "AP")
    parts = {
        name: identify.add_part(store, machine, group, name, f"AP-{place:02}")
        for place, name in enumerate(NAMES, start=1)
    }
    bag = identify.add_place(store, "4 apron screws", PlaceKind.BAG)
    return Apron(store, machine, group, parts, bag)


# The removal log


def test_three_keystrokes_log_the_next_part_of_the_tree(apron: Apron) -> None:
    for line in ("l", "u", "w"):  # each with Enter and nothing else
        teardown.say_removal(apron.store, apron.machine, apron.group, line)
    assert [(row.called, row.how) for row in apron.log()] == [
        ("AP-01 apron casting", RemovalWay.LIFTED),
        ("AP-02 half nuts", RemovalWay.UNSCREWED),
        ("AP-03 worm", RemovalWay.PULLED),
    ]


def test_a_spoken_line_stores_fasteners_shims_marks_and_where_it_went(apron: Apron) -> None:
    line = "ap5 u, 4x 3/8-16 x 1-3/4 socket, finger, shims left 0.009 + 2 x 0.003, mark two dots, found brass, > bag 4"
    teardown.say_removal(apron.store, apron.machine, apron.group, line)
    row = apron.log()[0]
    assert (row.called, row.match_mark, row.found, row.place) == (
        "AP-05 cover",
        "two dots",
        "brass",
        "bag 4 apron screws",
    )
    assert row.fasteners[0].words == "4 × 3/8-16 × 1-3/4 in socket screw, finger"
    assert row.fasteners[0].thread_known
    assert row.shims[0].total.value == pytest.approx(0.015 * 25.4, abs=1e-12)
    assert row.shims[0].thick == "0.0150 in (0.381 mm) in 3 leaves"
    assert row.shims[0].words == f"left: {row.shims[0].thick}"


def test_a_driven_pin_must_say_from_which_end(apron: Apron) -> None:
    with pytest.raises(BadEntry, match="From which end"):
        apron.off("worm", RemovalWay.DRIVEN)
    apron.off("worm", RemovalWay.DRIVEN, from_end="small end")
    assert apron.log()[0].way == "driven out from the small end"


def test_logging_puts_the_part_away_and_ticks_the_step_that_meant_to(apron: Apron) -> None:
    meant = tasks.add_task(
        apron.store,
        apron.machine,
        apron.group,
        "Take the cover off",
        TaskKind.REMOVE,
        part_id=apron.parts["cover"],
    )
    apron.off("cover", place_id=apron.bag)
    assert next(row for row in apron.steps() if row.id == meant).state is TaskState.DONE
    with apron.store.read() as connection:
        from rebuild.work.machines.rows_tree import parts

        assert {row.name: row.place for row in parts(connection, apron.machine)}[
            "cover"
        ] == "bag 4 apron screws"


def test_a_part_removed_twice_is_refused_with_ways_out(apron: Apron) -> None:
    apron.off("cover")
    with pytest.raises(Refused, match=r"AP-05 cover is off already: no\. 1, lifted") as refused:
        apron.off("cover")
    assert [way.kind for way in refused.value.ways] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    again = teardown.Off((apron.parts["cover"],))
    teardown.log_removal(apron.store, apron.machine, apron.group, again, again=teardown.Again.ALIKE)
    assert (apron.attempt().number, len(apron.log())) == (1, 2)
    teardown.log_removal(apron.store, apron.machine, apron.group, again, again=teardown.Again.NEW_ATTEMPT)
    assert (apron.attempt().number, len(apron.log())) == (2, 1)


def test_words_that_could_be_several_parts_are_listed(apron: Apron) -> None:
    identify.add_part(apron.store, apron.machine, apron.group, "cover plate", "AP-06")
    with pytest.raises(BadEntry, match="could be AP-05 cover, AP-06 cover plate"):
        teardown.say_removal(apron.store, apron.machine, apron.group, "cover l")


def test_undo_of_a_removal_restores_everything(
    apron: Apron, contents: Callable[[Path], dict[str, list[tuple[object, ...]]]]
) -> None:
    before = contents(apron.store.path)
    line = "ap5 u, 4x 3/8-16 x 1-3/4, shims left 0.009, > bag 4"
    teardown.say_removal(apron.store, apron.machine, apron.group, line)
    assert contents(apron.store.path) != before
    apron.store.undo()
    assert contents(apron.store.path) == before


# The refit draft


def drafted(apron: Apron) -> refit.Drafted:
    return refit.draft(apron.store, apron.attempt().id)


def take_all_off(apron: Apron, order: tuple[str, ...] = NAMES[::-1]) -> None:
    for name in order:
        apron.off(name)


def test_the_log_read_backwards_becomes_linked_refit_steps(apron: Apron) -> None:
    take_all_off(apron)
    report = drafted(apron)
    assert (report.made, report.links) == (5, 4)
    assert [row.title for row in apron.steps()] == [
        f"Refit AP-0{at} {name}" for at, name in enumerate(NAMES, 1)
    ]
    assert all(row.kind is TaskKind.REFIT for row in apron.steps())
    assert [len(row.waits_for) for row in apron.steps()] == [0, 1, 1, 1, 1]


def test_drafting_again_keeps_the_user_s_edits(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    worm, cover = apron.step("worm"), apron.step("cover")
    edit.edit(apron.store, "task", [worm.id], {"title": "Worm in, pinion up", "likely_min": "20 min"})
    edit.remove(apron.store, "task", [cover.id])
    with apron.store.read() as connection:
        gone = next(key for key, _, after in links(connection, apron.machine) if after == worm.id)
    edit.remove(apron.store, "link", [gone])
    first = apron.log()[0]
    edit.edit(apron.store, "removal", [first.id], {"hard": "rusted solid"})
    extra = identify.add_part(apron.store, apron.machine, apron.group, "wiper", "AP-07")
    teardown.log_removal(apron.store, apron.machine, apron.group, teardown.Off((extra,)))
    report = drafted(apron)
    titles = [row.title for row in apron.steps()]
    assert (report.made, titles[0]) == (1, "Refit AP-07 wiper")
    assert "Worm in, pinion up" in titles
    assert not any("cover" in title for title in titles)
    assert not next(row for row in apron.steps() if row.title.startswith("Worm")).waits_for


def test_a_detail_added_to_the_log_reaches_a_step_still_as_drafted(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    worm = next(row for row in apron.log() if "worm" in row.called)
    edit.edit(apron.store, "removal", [worm.id], {"orientation": "boss to the operator"})
    assert drafted(apron).rewritten == 1
    assert "Sat: boss to the operator" in apron.step("worm").note
    edit.edit(apron.store, "task", [apron.step("worm").id], {"note": "my own words"})
    edit.edit(apron.store, "removal", [worm.id], {"orientation": "boss down"})
    drafted(apron)
    assert apron.step("worm").note == "my own words"


def test_a_removal_struck_from_the_log_takes_its_untouched_step_with_it(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    edit.remove(apron.store, "removal", [apron.log()[2].id])
    report = drafted(apron)
    assert (report.taken_away, len(apron.steps())) == (1, 4)
    assert [len(row.waits_for) for row in apron.steps()] == [0, 1, 1, 1]


def test_a_link_of_the_user_s_that_goes_the_other_way_stands(apron: Apron) -> None:
    apron.off("cover")
    apron.off("worm")
    drafted(apron)
    worm, cover = apron.step("worm"), apron.step("cover")
    with apron.store.read() as connection:
        link = links(connection, apron.machine)[0][0]
    edit.remove(apron.store, "link", [link])
    tasks.add_link(apron.store, cover.id, worm.id, reason="cover carries the bush")
    report = drafted(apron)
    with apron.store.read() as connection:
        assert [(before, after) for _, before, after in links(connection, apron.machine)] == [
            (cover.id, worm.id)
        ]
    assert report.links == 0


def test_presses_and_pins_cannot_be_undone_and_heavy_things_want_help(apron: Apron) -> None:
    apron.off("cover", RemovalWay.PRESSED, from_end="left")
    apron.off("apron casting", typed={"hard": "heavy, took the hoist"})
    drafted(apron)
    assert apron.step("cover").irreversible
    casting = apron.step("casting")
    assert casting.constraints[0][0] is ConstraintKind.TWO_PEOPLE
    assert not casting.irreversible
    assert casting.cautions


def test_a_refit_waits_for_the_making_of_its_part_and_is_refused_until_made(apron: Apron) -> None:
    worm = apron.parts["worm"]
    decide.decide(apron.store, [worm], Decision.REMAKE, reason="hooked teeth")
    making = tasks.add_task(
        apron.store, apron.machine, apron.group, "Hob a new worm", TaskKind.MAKE, part_id=worm
    )
    apron.off("worm")
    drafted(apron)
    step = apron.step("Refit AP-03")
    assert step.waits_for == ((making, "Hob a new worm"),)
    with pytest.raises(Refused, match="AP-03 worm is decided remake and not made yet: Hob a new worm"):
        tasks.tick(apron.store, step.id)
    tasks.tick(apron.store, making)
    tasks.tick(apron.store, step.id)
    assert apron.step("Refit AP-03").state is TaskState.DONE


def test_a_part_at_a_shop_cannot_be_refitted(apron: Apron) -> None:
    apron.off("worm")
    drafted(apron)
    shop = identify.add_place(apron.store, "gear cutting, by post", PlaceKind.AT_A_SHOP)
    identify.put(apron.store, [apron.parts["worm"]], shop)
    with pytest.raises(Refused, match="lies at the shop gear cutting"):
        tasks.tick(apron.store, apron.step("worm").id)


# Constraints


@pytest.fixture
def oiling(apron: Apron) -> tuple[Apron, int, int]:
    """The apron put-back drafted, with a step that needs the cover off: its id and the cover's refit."""
    take_all_off(apron)
    drafted(apron)
    cover = apron.step("cover").id
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    tasks.add_link(apron.store, lines, cover, LinkKind.WHILE_OFF)
    return apron, lines, cover


def tick_up_to(apron: Apron, task_id: int) -> None:
    for row in apron.steps():
        if row.id == task_id:
            return
        if row.kind is TaskKind.REFIT:
            tasks.tick(apron.store, row.id)


def test_refitting_what_must_still_be_off_is_refused_with_the_chain(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    tick_up_to(apron, cover)
    with pytest.raises(Refused, match="can only be done while this is still off") as refused:
        tasks.tick(apron.store, cover)
    assert refused.value.chain == ("Connect the oil lines", "Refit AP-05 cover")
    kinds = [way.kind for way in refused.value.ways]
    assert kinds == [WayKind.GO_TO, WayKind.LEAVE_OUT, WayKind.TAKE_LINK_AWAY, WayKind.ALL_THE_SAME]
    tasks.tick(apron.store, lines)
    tasks.tick(apron.store, cover)
    assert apron.step("cover").state is TaskState.DONE


def test_a_step_that_needs_it_off_is_refused_once_it_is_on_again(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    tick_up_to(apron, cover)
    tasks.tick(apron.store, cover, sure=True)
    with pytest.raises(Refused, match="it is on again since") as refused:
        tasks.tick(apron.store, lines)
    way = next(way for way in refused.value.ways if way.kind is WayKind.OPEN_AGAIN)
    assert ways.take(apron.store, way)
    tasks.tick(apron.store, lines)
    assert apron.step("cover").state is TaskState.OPEN


def test_a_step_that_needs_it_off_is_refused_before_it_has_come_off(apron: Apron) -> None:
    strip = tasks.add_task(
        apron.store,
        apron.machine,
        apron.group,
        "Take the cover off",
        TaskKind.REMOVE,
        part_id=apron.parts["cover"],
    )
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    back = tasks.add_task(
        apron.store,
        apron.machine,
        apron.group,
        "Refit the cover",
        TaskKind.REFIT,
        part_id=apron.parts["cover"],
    )
    tasks.add_link(apron.store, lines, back, LinkKind.WHILE_OFF)
    with pytest.raises(Refused, match="has not come off yet"):
        tasks.tick(apron.store, lines)
    tasks.tick(apron.store, strip)
    tasks.tick(apron.store, lines)


def test_every_way_in_obeys(oiling: tuple[Apron, int, int]) -> None:
    apron, _lines, cover = oiling
    with pytest.raises(Refused):
        edit.edit(apron.store, "task", [cover], {"state": "done"})
    assert apron.step("cover").state is TaskState.OPEN
    tick_up_to(apron, cover)
    tasks.tick(apron.store, cover, sure=True)
    other = tasks.add_task(apron.store, apron.machine, apron.group, "Blow the drillings out")
    with pytest.raises(Refused, match="on again"):
        tasks.add_link(apron.store, other, cover, LinkKind.WHILE_OFF)
    with pytest.raises(Refused, match="comes after this one is done"):
        tasks.untick(apron.store, apron.step("bracket").id)
    with pytest.raises(Refused, match="comes after this one is done"):
        edit.edit(apron.store, "task", [apron.step("bracket").id], {"state": "open"})


def test_a_move_that_breaks_a_constraint_is_refused_with_the_chain(oiling: tuple[Apron, int, int]) -> None:
    apron, lines, cover = oiling
    order = [row.id for row in apron.steps()]
    assert order[-2:] == [
        cover,
        lines,
    ]  # the new step stands last; a wrong order that was there is left alone
    tasks.reorder(apron.store, [lines], 0)
    with pytest.raises(Refused, match="would break a constraint") as refused:
        tasks.reorder(apron.store, [cover], 0)
    assert refused.value.chain[-1] == "Refit AP-05 cover"
    with pytest.raises(Refused) as refused:
        tasks.reorder(apron.store, [apron.step("casting").id], 9)
    assert refused.value.chain == ("Refit AP-01 apron casting", "Refit AP-02 half nuts")


def test_the_whole_chain_back_to_what_can_be_done_now_is_spelled_out(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    with pytest.raises(BrokenOrder) as refused:
        tasks.tick(apron.store, apron.step("cover").id)
    assert refused.value.chain == tuple(f"Refit AP-0{at} {name}" for at, name in enumerate(NAMES, 1))


def test_closing_an_opening_that_is_still_needed_warns_and_says_which(apron: Apron) -> None:
    apron.off("cover")
    drafted(apron)
    setting = tasks.add_task(apron.store, apron.machine, apron.group, "Set the worm mesh")
    tasks.add_constraint(
        apron.store, setting, ConstraintKind.THROUGH_OPENING, "hand hole", part_ids=[apron.parts["cover"]]
    )
    step = apron.step("cover").id
    with pytest.raises(
        Refused, match=r"closes the opening that “Set the worm mesh” is done through \(hand hole\)"
    ):
        tasks.tick(apron.store, step)
    tasks.tick(apron.store, setting)
    tasks.tick(apron.store, step)


def test_oil_must_be_seen_before_the_slide_goes_on(apron: Apron) -> None:
    apron.off("cover")
    drafted(apron)
    lines = tasks.add_task(apron.store, apron.machine, apron.group, "Connect the oil lines")
    tasks.add_constraint(
        apron.store, lines, ConstraintKind.PROVE_FIRST, "oil seen flowing", part_ids=[apron.parts["cover"]]
    )
    tasks.tick(apron.store, lines)  # connecting them proves nothing yet
    step = apron.step("cover").id
    with pytest.raises(Refused, match=r"not been proved yet \(oil seen flowing\)") as refused:
        tasks.tick(apron.store, step)
    ways.take(
        apron.store,
        next(way for way in refused.value.ways if way.kind is WayKind.PROVE),
        "drips at both ends",
    )
    tasks.tick(apron.store, step)
    assert apron.step("cover").state is TaskState.DONE


def test_a_cure_starts_a_clock_and_holds_what_follows(apron: Apron) -> None:
    bond = tasks.add_task(apron.store, apron.machine, apron.group, "Bond the liner")
    scrape = tasks.add_task(apron.store, apron.machine, apron.group, "Scrape the liner", after=[bond])
    tasks.add_constraint(apron.store, bond, ConstraintKind.CURE, "epoxy", rest="24 h")
    at = dt.datetime(2026, 3, 14, 18, 0)
    tasks.tick(apron.store, bond, tasks.Done(at=at))
    early = tasks.Done(at=at + dt.timedelta(hours=19))
    with pytest.raises(Refused, match="“Bond the liner” cures until 15 Mar 18:00, 5 h left"):
        tasks.tick(apron.store, scrape, early)
    tasks.tick(apron.store, scrape, tasks.Done(at=at + dt.timedelta(hours=25)))
    with apron.store.read() as connection:
        row = next(r for r in task_rows(connection, apron.machine, now=early.at) if r.id == bond)
    assert row.clocks == ("cures until 15 Mar 18:00, 5 h left",)


def test_several_troubles_are_all_said_and_one_insisting_settles_them(apron: Apron) -> None:
    decide.decide(apron.store, [apron.parts["cover"]], Decision.REMAKE, reason="cracked")
    apron.off("cover", RemovalWay.PRESSED, from_end="left")
    apron.off("worm")
    drafted(apron)
    with pytest.raises(Refused) as refused:
        tasks.tick(apron.store, apron.step("cover").id)
    words = str(refused.value)
    assert "A step before this one is still open" in words
    assert "not made yet" in words
    assert "cannot be undone" in words
    tasks.tick(apron.store, apron.step("cover").id, sure=True)


# Joints


def test_a_joint_follows_its_fasteners_apart_and_its_step_together(apron: Apron) -> None:
    apron.off("cover")
    holes.add_fastener(apron.store, apron.log()[0].id, "4 x 3/8-16 x 1 socket")
    drafted(apron)
    with apron.store.read() as connection:
        (joint,) = joint_rows.not_final(connection, apron.machine)
    assert (joint.tight, joint.lacks) == (Tightness.APART, "apart, wants snug")
    edit.edit(apron.store, "joint", [joint.id], {"wanted": "torqued", "wanted_dress": "oiled"})
    tasks.tick(apron.store, apron.step("cover").id)
    with apron.store.read() as connection:
        (joint,) = joint_rows.not_final(connection, apron.machine)
    assert joint.lacks == "finger, wants torqued; not dressed, wants oiled"
    joints.set_joints(apron.store, [joint.id], joints.JointState(dress=None, torque="25 lb-ft"))
    joints.set_joints(apron.store, [joint.id], joints.parse_joint("oiled"))
    with apron.store.read() as connection:
        assert joint_rows.not_final(connection, apron.machine) == []
        (joint,) = joint_rows.joints(connection, apron.machine)
    assert (joint.state, joint.torque_doubt) == ("torqued, oiled, 25 lb-ft", "")
    assert joint_rows.wanted_torque(joint).value.words == "27-41 N·m (20-30 lb-ft)"


def test_a_tick_with_torque_updates_the_joint_and_a_wild_torque_is_doubted(apron: Apron) -> None:
    apron.off("cover")
    holes.add_fastener(apron.store, apron.log()[0].id, "4 x 3/8-16 x 1 socket")
    drafted(apron)
    done = tasks.Done(torque="60 lb-ft", joint="oiled")
    tasks.tick(apron.store, apron.step("cover").id, done)
    with apron.store.read() as connection:
        (joint,) = joint_rows.joints(connection, apron.machine)
    assert (joint.tight, joint.state) == (Tightness.TORQUED, "torqued, oiled, 60 lb-ft")
    assert joint.torque_doubt == "wants 27-41 N·m (20-30 lb-ft)"


def test_torqued_without_a_torque_is_asked_for(apron: Apron) -> None:
    joint = joints.add_joint(apron.store, apron.machine, apron.group, "rack screws")
    with pytest.raises(BadEntry, match="Torqued to: is empty"):
        joints.set_joints(apron.store, [joint], joints.JointState(Tightness.TORQUED))
    with pytest.raises(BadEntry, match="“tightish” is not a word for a joint"):
        joints.parse_joint("tightish")


def test_the_walk_goes_round_the_machine_and_the_user_s_own_order_stands(apron: Apron) -> None:
    made = {
        place: joints.add_joint(apron.store, apron.machine, None, f"cap {place}", {"location": place})
        for place in ("rear, low", "front, top", "tailstock end", "headstock end", "front, low")
    }
    with apron.store.read() as connection:
        walked = [row.location for row in joint_rows.not_final(connection, apron.machine)]
    assert walked == ["front, top", "front, low", "tailstock end", "rear, low", "headstock end"]
    joints.set_tour(apron.store, [made["rear, low"], made["front, top"]])
    with apron.store.read() as connection:
        walked = [row.location for row in joint_rows.not_final(connection, apron.machine)]
    assert walked[:3] == ["rear, low", "front, top", "front, low"]


def test_joints_to_look_at_after_the_run_in(apron: Apron) -> None:
    joint = joints.add_joint(
        apron.store,
        apron.machine,
        apron.group,
        "cap",
        {"tight": "snug", "wanted": "snug", "look_again": "yes"},
    )
    with apron.store.read() as connection:
        assert joint_rows.not_final(connection, apron.machine) == []
        assert [row.id for row in joint_rows.after_run_in(connection, apron.machine)] == [joint]
    joints.looked_again(apron.store, [joint])
    with apron.store.read() as connection:
        assert joint_rows.after_run_in(connection, apron.machine) == []


# Attempts


def put_back(apron: Apron, order: tuple[str, ...]) -> None:
    at = dt.datetime(2026, 5, 1, 19, 0)
    for minutes, name in enumerate(order):
        done = tasks.Done(at=at + dt.timedelta(minutes=minutes))
        tasks.tick(apron.store, apron.step(name).id, done, sure=True)


def test_a_second_teardown_shows_the_missed_constraint_and_keeps_attempt_one(apron: Apron) -> None:
    take_all_off(apron)
    drafted(apron)
    put_back(apron, ("casting", "half nuts", "worm", "cover"))  # the bracket was never put back
    new = attempts.begin_attempt(
        apron.store,
        apron.machine,
        apron.group,
        stopped_by="worm would not pass the half nuts",
        changed="order",
    )
    apron.off("cover", typed={"orientation": "logo up"})
    apron.off("half nuts")
    apron.off("worm")
    apron.off("apron casting")
    with apron.store.read() as connection:
        found = second_teardown(connection, new)
        first = next(row for row in rows.attempts(connection, apron.machine) if row.number == 1)
    assert found is not None
    assert (first.stopped_by, first.changed, first.removals, first.refitted) == (
        "worm would not pass the half nuts",
        "order",
        5,
        4,
    )
    (proposal,) = found.proposals
    assert (proposal.before, proposal.after) == ("AP-03 worm", "AP-02 half nuts")
    assert (found.missing, found.new) == ((), ())
    assert [(one.part, one.what, one.now) for one in found.differences] == [
        ("AP-05 cover", "which way it sat", "logo up")
    ]

    link = proposals.accept(apron.store, proposal.before_id, proposal.after_id, proposal.reason)
    attempt_two = [row for row in apron.steps() if row.state is TaskState.OPEN and row.kind is TaskKind.REFIT]
    nuts = next(row for row in attempt_two if "half nuts" in row.title)
    worm = next(row for row in attempt_two if "worm" in row.title)
    with apron.store.read() as connection:
        assert (link, worm.id, nuts.id) in links(connection, apron.machine)
        again = second_teardown(connection, new)
    assert again is not None
    assert again.proposals[0].answer is LinkAnswer.ACCEPTED


def test_links_the_user_made_are_carried_into_the_next_attempt(apron: Apron) -> None:
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    tasks.add_link(apron.store, apron.step("half nuts").id, apron.step("cover").id, reason="my own")
    put_back(apron, ("half nuts", "worm", "cover"))
    attempts.begin_attempt(apron.store, apron.machine, apron.group)
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    fresh = {row.title: row.id for row in apron.steps() if row.state is TaskState.OPEN}
    with apron.store.read() as connection:
        pairs = {(before, after) for _, before, after in links(connection, apron.machine)}
    assert (fresh["Refit AP-02 half nuts"], fresh["Refit AP-05 cover"]) in pairs


def test_a_declined_proposal_is_remembered(apron: Apron) -> None:
    take_all_off(apron, ("cover", "worm", "half nuts"))
    drafted(apron)
    put_back(apron, ("half nuts", "worm", "cover"))
    new = attempts.begin_attempt(apron.store, apron.machine, apron.group)
    take_all_off(apron, ("worm", "cover", "half nuts"))
    with apron.store.read() as connection:
        found = second_teardown(connection, new)
    assert found is not None
    (proposal,) = found.proposals
    proposals.decline(apron.store, proposal.before_id, proposal.after_id)
    with apron.store.read() as connection:
        again = second_teardown(connection, new)
    assert again is not None
    assert again.proposals[0].answer is LinkAnswer.DECLINED
