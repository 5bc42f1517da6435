"""The words of the screens and the printed sheets, one for one idea, each in a line.

The rule for a new text: if its idea stands here, it is called by this word.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Meaning:
    """A word and what it means, in one line; ``never`` are words for the same thing that are not used.

    ``inside`` are such words that stand nowhere in a text either.
    """

    word: str
    line: str
    never: tuple[str, ...] = ()
    inside: tuple[str, ...] = ()


GLOSSARY: tuple[Meaning, ...] = (
    Meaning("as found", "how it measured or stood before anything was done to it"),
    Meaning("attempt", "one going at taking a subassembly apart, or at making a part; the one before stays"),
    Meaning("batch", "parts that go through one bath, or under one coat, together"),
    Meaning("both directions", "tried or read going out and coming back", ("both ways",)),
    Meaning("call-out", "an item number on a page of a manual, tied to the part it names"),
    Meaning("checklist not set up", "no list of checks before power yet: that is no clearance"),
    Meaning("clock", "a bath, a cure or a coat that must not come out before, or stay in after, a time"),
    Meaning("closure", "how far a round of level readings misses its own beginning: a measure of their error"),
    Meaning("concession", "a part taken into use outside its spec, with who says so and why"),
    Meaning("% critical", "in how many of the simulated schedules a step decides the finish",
            ("Share of plans",)),
    Meaning("current reading", "the newest reading at the latest stage; it speaks for the feature",
            inside=("newest reading",)),
    Meaning("days saved", "how many days sooner the finish comes when the step is done now"),
    Meaning("delete entry", "take a mistaken reading or line out, with the reason; the history keeps it",
            ("Strike a reading",), ("Strike from", "struck:", "struck reading")),
    Meaning("dressed", "what is on a thread or joint: dry, oiled, greased, sealed"),
    Meaning("effect on work", "what the wear does to a part turned or cut on the machine", ("On the work",)),
    Meaning("feature", "one thing to measure on a part: a bore, a length, a thread"),
    Meaning("finger tight", "run home by hand, not tightened"),
    Meaning("fits tonight", "steps that can be done in the time, with the help and the hoist there are"),
    Meaning("follower", "the side of a fit that is made to suit the other"),
    Meaning("guard band", "the strip inside a limit where the uncertainty of the reading leaves it undecided"),
    Meaning("held by", "what must come first: a step, a reading, an order, a means, a check"),
    Meaning("high spot", "where metal stands proud of the rest and comes off first", ("Take off most at",)),
    Meaning("if I skip this", "what stays as it is, and what it costs, when the part is left alone"),
    Meaning("inbox", "photos taken in that are not yet said to be of anything"),
    Meaning("limits", "the two sizes a reading must lie between", ("Allowed",),
            ("Allowed deviation", "Allowed closure", "Shape allowed", ", allowed ")),
    Meaning("longest way to the finish", "the chain of steps and waits that moves the finish when it is late",
            inside=("longest path", "critical path")),
    Meaning("margin", "how far a reading lies inside the nearer limit, or outside it",
            inside=("off spec",)),
    Meaning("master", "the side of a fit that is finished first and gives the other its size"),
    Meaning("match mark", "what was struck or scribed on two parts so that they go together the same way"),
    Meaning("matched set", "parts that belong together and are put back as they were, not swapped"),
    Meaning("means", "a tool, gauge, material or helper a step cannot be done without"),
    Meaning("minimum zone", "the two closest parallel lines with the whole curve between them"),
    Meaning("new teardown", "the same subassembly taken apart again, beside the first order", ("Second teardown",)),
    Meaning("no constraint", "either of two parts may go on first"),
    Meaning("not tight yet", "a joint that is not yet as tight, or not dressed, as it is to be"),
    Meaning("plus means", "which way a reading counts up, e.g. plus is high"),
    Meaning("rechecked after run-in", "a joint looked at again once the machine has run warm",
            ("Held after run-in", "Checked after run-in")),
    Meaning("reference line", "the straight line deviations of a survey are counted from"),
    Meaning("refit", "putting together again, in the order of the removal log read backwards",
            inside=("utting back", "as put back", "is put back")),
    Meaning("seen", "oil was seen to arrive at the point"),
    Meaning("simulated schedules", "plans drawn at random from the estimates, to see how sure a date is",
            ("drawn plans",)),
    Meaning("source status", "how far a figure can be trusted: published, computed, common practice, from memory",
            ("How sure",)),
    Meaning("spec", "what a feature is to measure, as typed: 25 H7, 1.7495-1.7500, max 0.004"),
    Meaning("stage", "when a reading was taken: as found, cleaned, reworked, as made, fitted"),
    Meaning("stale", "worked out from a reading that has changed since"),
    Meaning("stand at", "the side of the machine from which a joint is reached", ("Stand",)),
    Meaning("starves", "gets no oil because the line before it is blocked"),
    Meaning("station", "a place along a feature where it is measured"),
    Meaning("still to be decided", "nobody has said yet what becomes of the part; of a reading the word is undecided",
            (), ("not decided", "no decision yet")),
    Meaning("store", "write what is typed into the file; nothing else has to be pressed",
            ("Keep as option", "Keep bed sizes", "Set limit"), ("Kept as an option",)),
    Meaning("stored in", "the bag, tray or shelf a part lies in", ("Put in",)),
    Meaning("tight", "negative clearance: the inner part is larger than the outer before it is pressed"),
    Meaning("to be", "what is asked for, beside what is now: a fit's range, how tight a joint ends",
            ("Still wants", "Wanted range"),
            ("orque wanted", "anted torque", "no range wanted", "Measurements wanted", "What is wanted",
             "Finish wanted", "wanted range")),
    Meaning("torque per bolt", "the torque of each single screw, never of the joint", ("Torque of each",)),
    Meaning("unallocated", "hours or cost that no subassembly or part was named for", ("not split",)),
    Meaning("unblocks now", "steps that could start as soon as this one is done", ("Frees", "Frees at once")),
    Meaning("undecided", "the reading and its uncertainty do not prove either side of the limit; never said of a part"),
    Meaning("unknown", "a thing nobody knows the place of yet, with what was seen on it"),
)  # fmt: skip
