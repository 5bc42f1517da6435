"""Tools of a sheet are got beside each other and the material; a tool leads to its own row."""

from __future__ import annotations

from rebuild.trade.schedule.graph import Ref
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.work.plan.chains_of_making import made
from rebuild.work.plan.facts import PartFact, SheetFact


def test_no_tool_waits_for_another_or_for_the_material() -> None:
    """Seen: "Get ready for SP-03: Reamer" was held by "Get ready for SP-03: Form cutter"."""
    part = PartFact(3, None, "SP-03", "Rack pinion", decision=Decision.REMAKE)
    sheet = SheetFact(7, 3, MakingProgress.DRAFT)
    chain = made(part, sheet, ((11, "Form cutter"), (12, "Reamer")))
    titles = {node.key: node.title for node in chain.nodes}
    before = {
        titles[key]: sorted(titles[edge.before] for edge in chain.edges if edge.after == key)
        for key in chain.keys
    }
    sheet_first = ["Release the making sheet of SP-03 Rack pinion"]
    ready = ["Get ready for SP-03 Rack pinion: Form cutter", "Get ready for SP-03 Rack pinion: Reamer"]
    material = "Material for SP-03 Rack pinion to hand"
    assert before == {
        sheet_first[0]: [],
        material: sheet_first,
        ready[0]: sheet_first,
        ready[1]: sheet_first,
        "Make SP-03 Rack pinion": sorted([material, *ready]),
        "Measure and accept SP-03 Rack pinion by its making sheet": ["Make SP-03 Rack pinion"],
    }
    (tool,) = [node for node in chain.nodes if node.title.endswith("Reamer")]
    assert tool.ref == Ref("making_tool", 12)
