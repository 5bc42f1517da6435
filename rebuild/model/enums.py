"""The closed word lists of the trade; the value is the word shown and stored."""

from __future__ import annotations

from enum import StrEnum


class MachineKind(StrEnum):
    """What the machine does."""

    LATHE = "lathe"
    MILL = "mill"
    SHAPER = "shaper"
    SURFACE_GRINDER = "surface grinder"
    PLANER = "planer"
    OTHER = "other"


class Scope(StrEnum):
    """How far the owner means to go; it sets what is good enough for every part."""

    GET_RUNNING = "get running"
    REFURBISH = "refurbish"
    RECONDITION = "recondition"
    RESTORE = "restore"


class Identity(StrEnum):
    """How sure we are what a loose part is."""

    UNKNOWN = "unknown"
    SUSPECTED = "suspected"
    CONFIRMED = "confirmed"
    NOT_OURS = "not ours"


class Origin(StrEnum):
    """Where a part came from."""

    ORIGINAL = "original"
    EARLIER_REPAIR = "earlier repair"
    DONOR = "donor"
    BOUGHT = "bought"
    REMADE = "remade"
    UNKNOWN = "unknown"
    MISSING = "missing"


class Decision(StrEnum):
    """What is to become of a part."""

    OPEN = "open"
    REUSE = "reuse"
    REWORK = "rework"
    REMAKE = "remake"
    BUY = "buy"
    DEFER = "defer"


class PlaceKind(StrEnum):
    """The sort of place a part lies in."""

    BAG = "bag"
    TOTE = "tote"
    SHELF = "shelf"
    BENCH = "bench"
    BATH = "bath"
    AT_A_SHOP = "at a shop"
    LENT = "lent"
    ON_THE_MACHINE = "on the machine"
    OTHER = "other"


class FeatureKind(StrEnum):
    """What is measured on a part."""

    OUTSIDE_DIAMETER = "outside diameter"
    BORE = "bore"
    WIDTH = "width"
    DEPTH = "depth"
    LENGTH = "length"
    THREAD = "thread"
    TAPER = "taper"
    FLAT = "flat"
    STRAIGHTNESS = "straightness"
    RUNOUT = "runout"
    GEAR = "gear"
    KEYWAY = "keyway"
    WAY = "way"
    GAP = "gap"
    END_PLAY = "end play"
    LOST_MOTION = "lost motion"
    HEIGHT = "height"
    OTHER = "other"


class SpecOrigin(StrEnum):
    """Where a limit comes from."""

    DRAWING = "drawing"
    HANDBOOK = "handbook"
    UNWORN_END = "unworn end"
    MATE = "mate"
    JUDGEMENT = "judgement"


class Stage(StrEnum):
    """When in the part's life a reading was taken, in order."""

    AS_FOUND = "as found"
    CLEANED = "cleaned"
    REWORKED = "reworked"
    AS_MADE = "as made"
    FITTED = "fitted"


STAGES: tuple[Stage, ...] = tuple(Stage)


class InstrumentKind(StrEnum):
    """What a reading was taken with."""

    OUTSIDE_MICROMETER = "outside micrometer"
    INSIDE_MICROMETER = "inside micrometer"
    DEPTH_MICROMETER = "depth micrometer"
    CALIPER = "caliper"
    DIAL_INDICATOR = "dial indicator"
    TEST_INDICATOR = "test indicator"
    BORE_GAUGE = "bore gauge"
    TELESCOPING_GAUGE = "telescoping gauge and micrometer"
    SMALL_HOLE_GAUGE = "small-hole gauge and micrometer"
    HEIGHT_GAUGE = "height gauge"
    FEELER = "feeler gauge"
    GAUGE_BLOCKS = "gauge blocks"
    THREAD_WIRES = "thread wires and micrometer"
    LEVEL = "precision level"
    AUTOCOLLIMATOR = "autocollimator"
    CRUSHABLE_STRIP = "crushable strip"
    RULE = "rule"
    OTHER = "other"


class TaskKind(StrEnum):
    """What sort of work a task is."""

    REMOVE = "remove"
    CLEAN = "clean"
    INSPECT = "inspect"
    MEASURE = "measure"
    DECIDE = "decide"
    MAKE = "make"
    BUY = "buy"
    SEND_OUT = "send out"
    REWORK = "rework"
    PAINT = "paint"
    REFIT = "refit"
    ADJUST = "adjust"
    ALIGN = "align"
    LUBRICATE = "lubricate"
    COMMISSION = "commission"
    OTHER = "other"


class TaskState(StrEnum):
    """How far a task is."""

    OPEN = "open"
    UNDER_WAY = "under way"
    DONE = "done"
    LEFT_OUT = "left out"


class LinkKind(StrEnum):
    """How one task holds another."""

    BEFORE = "before"
    WHILE_OFF = "while it is still off"


class ConstraintKind(StrEnum):
    """What a step asks of the one who does it, apart from order."""

    AT_POSITION = "only with it at position"
    TWO_PEOPLE = "needs two people or a hoist"
    THROUGH_OPENING = "done through an opening"
    CURE = "must cure or rest"
    PROVE_FIRST = "must be proved before closing"
    WARMTH = "needs warmth"


class QuestionState(StrEnum):
    """How far an open question is."""

    OPEN = "open"
    ANSWERED = "answered"
    ASSUMED = "assumed"


class FitJoint(StrEnum):
    """What the two features of a fit are to each other: outer first."""

    HOLE_AND_SHAFT = "hole and shaft"
    NUT_AND_SCREW = "nut and screw"
    SLIDE_AND_WAY = "slide and way"
    TAPER = "taper"
    GEAR_MESH = "gear mesh"


class FitKind(StrEnum):
    """How the two are meant to sit together."""

    RUNNING = "running"
    SLIDING = "sliding"
    PUSH = "push"
    PRESS = "press"
    SHRINK = "shrink"
    REGISTER = "register"
    THREAD = "thread"
    TAPER = "taper"
    MESH = "mesh"


class Side(StrEnum):
    """A side of a fit."""

    OUTER = "outer"
    INNER = "inner"


class Adjuster(StrEnum):
    """What takes up the clearance of a fit."""

    NONE = "none"
    SHIM = "shim"
    GIB = "gib"
    REAM = "ream"
    NUT = "adjustable nut"


class WantedOrigin(StrEnum):
    """Where the wanted range of a fit comes from."""

    STANDARD = "standard fit"
    RULE = "rule of the trade"
    HANDBOOK = "handbook"
    DRAWING = "drawing"
    OWN = "own"


class RemovalWay(StrEnum):
    """How something came off."""

    LIFTED = "lifted"
    SLID = "slid off"
    UNSCREWED = "unscrewed"
    LEFT_HAND = "unscrewed left hand"
    DRIVEN = "driven out"
    PRESSED = "pressed out"
    PULLED = "pulled"
    DRILLED = "drilled out"
    CUT = "cut"
    BROKEN = "broken off"
    OTHER = "another way"


class FastenerKind(StrEnum):
    """What sits in a hole."""

    SCREW = "screw"
    BOLT = "bolt"
    STUD = "stud"
    NUT = "nut"
    SET_SCREW = "set screw"
    TAPER_PIN = "taper pin"
    DOWEL = "dowel"
    ROLL_PIN = "roll pin"
    KEY = "key"
    RIVET = "rivet"
    RING = "retaining ring"
    OTHER = "other"


class FastenerPoint(StrEnum):
    """The point of a set screw."""

    CUP = "cup"
    CONE = "cone"
    FLAT = "flat"
    DOG = "dog"
    HALF_DOG = "half dog"
    OVAL = "oval"


class FastenerState(StrEnum):
    """How a fastener was found."""

    TIGHT = "tight"
    SNUG = "snug"
    FINGER = "finger"
    LOOSE = "loose"
    PINNED = "pinned"
    ADJUSTED = "adjusted"
    MISSING = "missing"
    BROKEN = "broken"
    STRIPPED = "stripped"


class Tightness(StrEnum):
    """How far a joint is, from apart to pinned; the order is the order of the list."""

    APART = "apart"
    LOOSE = "loose"
    FINGER = "finger"
    SNUG = "snug"
    TORQUED = "torqued"
    LOCKED = "locked"
    PINNED = "pinned"


class Dressing(StrEnum):
    """What is on the faces and threads of a joint."""

    DRY = "dry"
    OILED = "oiled"
    GREASED = "greased"
    SEALED = "sealed"


class LinkAnswer(StrEnum):
    """What was answered to a proposed link."""

    ACCEPTED = "accepted"
    DECLINED = "declined"


class ClockKind(StrEnum):
    """What runs by itself."""

    BATH = "in the bath"
    RECOAT = "recoat"
    CURE = "cure"
    RETORQUE = "re-torque"
    RELEVEL = "re-level"
    LOOK = "look again"


class WaitingKind(StrEnum):
    """What is waited for, or owed back."""

    ORDER = "order"
    SENT_OUT = "sent out"
    QUOTE = "quote"
    LENT = "lent out"
    BORROWED = "borrowed"


class PartShape(StrEnum):
    """The shape a part to be made has, for its drawing, steps and tools."""

    BUSH = "bush"
    SHAFT = "stepped shaft"
    NUT = "nut"
    SCREW = "screw"
    PIN = "pin"
    TAPER_PIN = "taper pin"
    COLLAR = "collar"
    WASHER = "washer"
    SPACER = "spacer"
    HANDLE = "handle"
    KEY = "key"
    GIB = "gib strip"
    GEAR = "gear"
    OTHER = "other"


class MakingProgress(StrEnum):
    """How far a making sheet is; between draft and being made it waits or is ready."""

    DRAFT = "draft"
    RELEASED = "released"
    BEING_MADE = "being made"
    MADE = "made"
    ACCEPTED = "accepted"
    SCRAPPED = "scrapped"


class LimitsFrom(StrEnum):
    """Where the limits on a making sheet come from."""

    MATE = "mate"
    SPEC = "spec of the feature"
    TABLE = "table"
    GENERAL = "general tolerance"
    OLD_PART = "old part"
    OWN = "own"


class LimitSign(StrEnum):
    """Which way a geometry test may be off."""

    SIZE = "size only"
    EITHER = "either way"
    PLUS_ONLY = "plus only"


class LimitLength(StrEnum):
    """How a limit given over a length holds for another length."""

    FIXED = "over that length"
    PROPORTION = "in proportion to the length"


class LimitStatus(StrEnum):
    """How far a limit can be trusted; always shown beside it."""

    PUBLISHED = "published"
    ONE_RECORD = "one maker's record"
    PRACTICE = "common practice, no source"
    MEMORY = "from memory"
    OWN = "the owner's own"


class ChartStage(StrEnum):
    """When a geometry test was read."""

    AS_FOUND = "as found"
    AFTER = "after"


class LevelWay(StrEnum):
    """How the level lay on the bed."""

    ACROSS = "across"
    ALONG = "along"


class OilPointKind(StrEnum):
    """What a lubrication point is, or a piece of the line that feeds it."""

    FLIP_LID_CUP = "flip-lid cup"
    FLIP_LID_WICK = "flip-lid cup and wick"
    BALL_OILER = "ball oiler"
    OIL_HOLE = "plain hole"
    PLUG_SCREW = "plug screw"
    SIGHT_FEED = "sight feed"
    RESERVOIR = "reservoir"
    GREASE_NIPPLE = "grease nipple"
    BY_HAND = "by hand"
    PUMP = "pump or oiler"
    LINE = "line"
    JUNCTION = "junction"
    METER = "metering unit"


class FlowProof(StrEnum):
    """Whether oil was seen to arrive."""

    NOT_PROVED = "not proved"
    PROVED = "flow proved"
    BLOCKED = "blocked"
    NOT_NEEDED = "nothing to prove"


class RunState(StrEnum):
    """How far a step of the run-in is."""

    TO_RUN = "to run"
    RUN = "run"
    STOPPED = "stopped"


class CutKind(StrEnum):
    """The piece a cut test is made on."""

    TWO_COLLAR = "two collars"
    FACING = "facing"


class LookWhen(StrEnum):
    """When something is looked at."""

    BEFORE_POWER = "before power"
    FIRST_POWER = "first power"
    AFTER_RUN = "after the run-in"


class SurveyMethod(StrEnum):
    """How a line of a way or plate was read."""

    LEVEL = "level, step by step"
    AUTOCOLLIMATOR = "autocollimator, step by step"
    INDICATOR = "indicator from a reference"
    THICKNESS = "micrometer over the thickness"
    LASER = "laser, heights"
    ACROSS = "level across the ways"
    PLATE = "plate by eight lines"


class PhotoPhase(StrEnum):
    """When in the work a photo was taken."""

    AS_FOUND = "as found"
    DURING = "during"
    AFTER = "after"
    QUESTION = "question"


class MarkKind(StrEnum):
    """What is drawn on a photo."""

    ARROW = "arrow"
    RING = "ring"
    MATCH_MARK = "match mark"
    LABEL = "label"
