"""Every kind of act a killed program may be in the middle of, each on something chosen at random."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

from rebuild.store.photo_copies import backup_with_photos
from rebuild.store.store import Store
from rebuild.words.charts import LevelWay
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.lubrication import FlowProof
from rebuild.words.photos import MarkKind
from rebuild.words.run_in import CutKind
from rebuild.words.steps import ConstraintKind
from rebuild.words.surveys import SurveyMethod
from rebuild.words.waiting import ClockKind
from rebuild.work.charts import acts as charts, acts_levelling
from rebuild.work.decisions import acts as decisions, acts_odd_sizes, acts_options
from rebuild.work.editing import acts as editing
from rebuild.work.fits import acts as fits
from rebuild.work.joints import acts as joints
from rebuild.work.lists import acts as lists
from rebuild.work.lists.fields import What
from rebuild.work.lists.line import Line
from rebuild.work.log import acts as log
from rebuild.work.lubrication import acts as lubrication
from rebuild.work.machines import acts as machines
from rebuild.work.making import acts as making, acts_sizes, acts_steps
from rebuild.work.photos import acts as photos, acts_take
from rebuild.work.plan import acts_week
from rebuild.work.readings import acts as readings, acts_features as features
from rebuild.work.records import acts_settings
from rebuild.work.records.ways_out import Refused
from rebuild.work.refit import acts as refit
from rebuild.work.run_in import acts as run_in
from rebuild.work.steps import acts as steps, acts_again
from rebuild.work.surveys import acts as surveys
from rebuild.work.teardown import acts as teardown, acts_attempts, acts_fasteners
from rebuild.work.waiting import acts as waiting, acts_clocks
from rebuild.work.where_was_i import acts as sessions
from tests.faults.shop import pick, pictures


class Hand:
    """One who does acts at random on an open file; ``word`` is new each time."""

    def __init__(self, store: Store, seed: int) -> None:
        self.store = store
        self.rng = random.Random(seed)
        self.machine = 1

    @property
    def word(self) -> str:
        """A word nobody typed before."""
        return f"w{self.rng.getrandbits(40):x}"

    def some(self, table: str, where: str = "1") -> int:
        """One row of a table."""
        return pick(self.store, table, where, self.rng.randrange(1_000_000))

    def size(self) -> str:
        """A diameter near 25 mm."""
        return f"24.{self.rng.randint(940, 990)}"

    def group(self) -> int:
        """A subassembly."""
        return self.some("subassembly")

    # What needs more than one line

    def read(self) -> object:
        entry = readings.Entry(self.some("feature"), note=self.word)
        return readings.record_reading(self.store, self.size(), entry, confirmed=True)

    def read_at_station(self) -> object:
        station = self.some("station")
        with self.store.read() as connection:
            feature = connection.exec_driver_sql(
                "SELECT feature_id FROM station WHERE id = ?", (station,)
            ).scalar()
        entry = readings.Entry(int(feature or 0), station)
        return readings.record_reading(self.store, self.size(), entry, confirmed=True)

    def mark(self) -> object:
        return photos.mark_photo(
            self.store, self.some("photo"), MarkKind.MATCH_MARK, (0.1, 0.2), (0.3, 0.2), self.word
        )

    def tighten(self) -> object:
        state = joints.JointState(self.rng.choice([Tightness.LOOSE, Tightness.SNUG, Tightness.FINGER]))
        return joints.set_joints(self.store, [self.some("joint")], state)

    def prove_oil(self) -> object:
        proof = self.rng.choice([FlowProof.PROVED, FlowProof.BLOCKED])
        return lubrication.prove_flow(self.store, [self.some("oil_point")], proof, self.word)

    def read_position(self) -> object:
        text = f"0.00{self.rng.randint(1, 9)}"
        return charts.read_position(self.store, self.some("chart_line"), text, confirmed=True)

    def feel_bearing(self) -> object:
        return run_in.read_bearing(self.store, self.some("run_step"), "front", self.rng.randint(0, 90), "33")

    def day_off(self) -> object:
        day = f"2027-0{self.rng.randint(1, 9)}-1{self.rng.randint(0, 9)}"
        return acts_week.add_day_off(self.store, day, why=self.word)

    def paste(self) -> object:
        cells = [readings.Pasted(self.size(), readings.Entry(self.some("feature"))) for _ in range(20)]
        return readings.paste_readings(self.store, cells, confirmed=True)

    def add_fit(self) -> object:
        entry = fits.FitEntry(
            self.some("feature", "kind = 'bore'"), self.some("feature", "kind = 'outside diameter'")
        )
        return fits.add_fit(self.store, entry, confirmed=True)

    def bring_in(self) -> object:
        lines = tuple(
            Line(number, {"code": self.word, "name": f"imported {number}", "subassembly": "HS"})
            for number in range(15)
        )
        return lists.bring_in(self.store, self.machine, [lists.Batch(What.PARTS, lines)], confirmed=True)

    def remove_group(self) -> object:
        group = self.some("subassembly", "id > 3")
        return editing.remove(self.store, "subassembly", [group])

    def take_in(self) -> object:
        lying = sorted(pictures(self.store.path).glob("*.png"))
        return acts_take.take_in(self.store, self.machine, self.rng.sample(lying, 2))

    def tick(self) -> object:
        """Tick a step off; one that is refused all the same."""
        step, done = self.some("task", "state = 'open'"), steps.Done(note=self.word)
        try:
            return steps.tick(self.store, step, done, confirmed=True)
        except Refused:
            return steps.tick(self.store, step, done, reason=self.word)

    def link(self) -> object:
        return steps.add_link(self.store, self.some("task"), self.some("task"))

    def survey(self) -> object:
        return surveys.add_survey(
            self.store, self.machine, self.word, SurveyMethod.LEVEL, lines=["front V"],
            typed={"unit": "mm/m", "step": "200 mm"},
        )  # fmt: skip

    def cut(self) -> object:
        typed = {
            "first": "40.000",
            "second": "40.030",
            "apart": "150",
            "allowed": "0.01",
            "allowed_over": "150",
        }
        return run_in.add_cut(self.store, self.machine, CutKind.TWO_COLLAR, typed)

    def off(self) -> object:
        off = teardown.Off((self.some("part"),), what="")
        return teardown.log_removal(self.store, self.machine, self.group(), off, again=teardown.Again.ALIKE)

    def keep(self) -> str:
        word = self.word
        self.store.keep_entry("a place", word, "to see")
        return word

    def way_back(self) -> object:
        return self.store.undo()

    def back_up(self) -> Path:
        return backup_with_photos(self.store.path).path


M = 1
Do = Callable[[Hand], object]
KINDS: dict[str, Do] = {
    "reading": Hand.read,
    "reading at a station": Hand.read_at_station,
    "strike": lambda h: readings.strike_reading(h.store, h.some("reading", "struck IS NULL"), h.word),
    "paste": Hand.paste,
    "import": Hand.bring_in,
    "new subassembly": lambda h: machines.add_subassembly(h.store, M, h.word, h.word[:6]),
    "new part": lambda h: machines.add_part(h.store, M, h.group(), h.word, h.word),
    "move": lambda h: machines.move_parts(h.store, [h.some("part")], h.group()),
    "new place": lambda h: machines.add_place(h.store, h.word),
    "put away": lambda h: machines.put(h.store, [h.some("part")], h.some("place")),
    "matched set": lambda h: machines.add_matched_set(h.store, M, h.word, [h.some("part")]),
    "edit": lambda h: editing.edit(h.store, "part", [h.some("part")], {"condition": h.word}),
    "remove a part": lambda h: editing.remove(h.store, "part", [h.some("part", "id > 12")]),
    "remove a subassembly": Hand.remove_group,
    "remove a question": lambda h: editing.remove(h.store, "question", [h.some("question")]),
    "new feature": lambda h: features.add_feature(h.store, h.some("part"), h.word, spec="max 0.01"),
    "spec": lambda h: features.set_spec(h.store, [h.some("feature", "id > 12")], f"max 0.{h.rng.randint(1, 9)}"),
    "station": lambda h: features.add_station(h.store, h.some("feature"), h.word),
    "instrument": lambda h: features.add_instrument(h.store, h.word, {"resolution": "0.01", "mpe": "0.005"}),
    "decide": lambda h: decisions.decide(h.store, [h.some("part")], h.rng.choice([*Decision]), reason=h.word),
    "concession": lambda h: decisions.concede(h.store, h.some("part"), h.word),
    "odd size": lambda h: acts_odd_sizes.add_odd_size(h.store, h.some("part"), acts_odd_sizes.OddEntry(h.word)),
    "option": lambda h: acts_options.add_option(h.store, h.some("part"), Decision.REUSE, {"method": h.word}),
    "fit": Hand.add_fit,
    "look at a fit": lambda h: fits.look(h.store, [h.some("fit")]),
    "wanted": lambda h: fits.set_wanted(h.store, h.some("fit"), f"0.0{h.rng.randint(1, 4)}-0.06", confirmed=True),
    "making sheet": lambda h: making.start_sheet(h.store, h.some("part"), allow_uncertainty=True),
    "sheet refreshed": lambda h: making.refresh(h.store, h.some("making_sheet")),
    "sheet step": lambda h: acts_steps.add_step(h.store, h.some("making_sheet"), h.word),
    "sheet tool": lambda h: acts_steps.add_tool(h.store, h.some("making_sheet"), h.word),
    "sheet size": lambda h: acts_sizes.add_size(h.store, h.some("making_sheet"), h.word, "20"),
    "photos": Hand.take_in,
    "sort a photo": lambda h: photos.sort_photos(h.store, [h.some("photo")], acts_take.About(part_id=h.some("part"))),
    "mark a photo": Hand.mark,
    "new step": lambda h: steps.add_task(h.store, M, h.group(), h.word),
    "link": Hand.link,
    "tick": Hand.tick,
    "untick": lambda h: acts_again.open_again(h.store, h.some("task", "state = 'done'"), h.word, all_the_same=True),
    "constraint": lambda h: steps.add_constraint(h.store, h.some("task"), ConstraintKind.CURE, "24 h"),
    "joint": lambda h: joints.add_joint(h.store, M, h.group(), h.word, {"wanted": "torqued"}),
    "state of a joint": Hand.tighten,
    "oil point": lambda h: lubrication.add_point(h.store, M, h.word),
    "oil proved": Hand.prove_oil,
    "oil map": lambda h: lubrication.put_on_map(h.store, h.some("oil_point"), (h.rng.random(), h.rng.random())),
    "survey": Hand.survey,
    "survey reading": lambda h: surveys.enter_reading(h.store, h.some("survey_line"), 0, f"0.0{h.rng.randint(1, 9)}"),
    "geometry test": lambda h: charts.add_test(h.store, M, h.word, ("left", "right"), limit={"allowed": "0.01"}),
    "geometry reading": Hand.read_position,
    "level": lambda h: acts_levelling.read_level(h.store, M, h.word, LevelWay.ACROSS, "0.05"),
    "run-in step": lambda h: run_in.add_step(h.store, M, h.word, {"speed_rpm": "60"}),
    "bearing temperature": Hand.feel_bearing,
    "cut test": Hand.cut,
    "check before power": lambda h: run_in.add_check(h.store, M, h.word),
    "check done": lambda h: run_in.check_done(h.store, h.some("run_look", "done_at IS NULL"), "me"),
    "order": lambda h: waiting.add_waiting(h.store, M, h.word, part_id=h.some("part")),
    "stock": lambda h: waiting.add_stock(h.store, h.word),
    "clock": lambda h: acts_clocks.start_clock(h.store, M, ClockKind.CURE, h.word, after=["48 h"]),
    "clock closed": lambda h: acts_clocks.close_clock(h.store, [h.some("clock", "closed_at IS NULL")]),
    "removal logged": Hand.off,
    "new attempt": lambda h: acts_attempts.begin_attempt(h.store, M, h.group()),
    "fastener": lambda h: acts_fasteners.add_fastener(h.store, h.some("removal"), "4 x M8 x 20 socket"),
    "refit draft": lambda h: refit.draft(h.store, h.some("attempt")),
    "question": lambda h: log.ask(h.store, M, h.word),
    "answer": lambda h: log.answer(h.store, h.some("question"), h.word),
    "log entry": lambda h: log.log_session(h.store, M, {"did": h.word, "hours": "1"}),
    "end of a session": lambda h: sessions.end_session(h.store, M, did=h.word),
    "days off": Hand.day_off,
    "owner": lambda h: acts_settings.set_owner(h.store, h.word),
    "kept entry": Hand.keep,
    "undo": Hand.way_back,
    "redo": lambda h: h.store.redo(),
}  # fmt: skip
