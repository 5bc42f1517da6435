"""The steps of the chosen subassembly, to put in order, link and tick off."""

from rebuild.window.task_list.pane import TaskList

__all__ = ["TaskList"]
