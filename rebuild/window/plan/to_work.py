"""Where work of the graph is done: a making sheet drawn up, the line that orders a part, or its very row."""

from __future__ import annotations

from rebuild.trade.schedule.graph import Node
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.work.plan.laying import draws_up, orders


def to_work(desk: Desk, node: Node) -> None:
    """Turn to where a piece of work is done."""
    if draws_up(node) and node.part_id is not None:
        # Imported when asked for: a start loads no act.
        from rebuild.window.making.one_click import sheet_of

        sheet_of(desk, node.part_id)
        return
    page = "waiting" if orders(node) else ""
    follow(desk, node.ref, part_id=node.part_id, subassembly_id=node.subassembly_id, page=page)
