"""Work beside the window: values and sentences come back, older work is dropped, and it can be stopped."""

from __future__ import annotations

from collections.abc import Iterator
from threading import Event

import pytest
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry
from rebuild.window.desk.job import Job, Tell, Work


@pytest.fixture
def job(qapp: object) -> Iterator[Job]:
    made = Job()
    yield made
    made.drop()


def until_stopped(started: Event) -> Work:
    def work(tell: Tell) -> object:
        started.set()
        while tell(0.5, "half"):
            pass
        raise BadEntry("stopped.", where="Work")

    return work


def test_it_hands_over_values_and_sentences(job: Job, qtbot: QtBot) -> None:
    def work(tell: Tell) -> object:
        assert tell(0.5, "half")
        return 42

    def trouble(_tell: Tell) -> object:
        raise BadEntry("cannot be.", where="Work")

    told: list[tuple[float, str]] = []
    job.progressed.connect(lambda share, words: told.append((share, words)))
    with qtbot.waitSignal(job.done) as done:
        assert job.start(work)
        assert not job.start(work)
    assert done.args == [42]
    assert told == [(0.5, "half")]
    with qtbot.waitSignal(job.failed) as failed:
        assert job.start(trouble)
    assert failed.args == ["Work: cannot be."]
    assert not job.running


def test_the_newest_question_alone_is_answered(job: Job, qtbot: QtBot) -> None:
    answers: list[object] = []
    troubles: list[str] = []
    job.done.connect(answers.append)
    job.failed.connect(troubles.append)
    started = Event()
    job.ask(until_stopped(started))
    assert started.wait(5)
    job.ask(lambda _tell: "second")
    with qtbot.waitSignal(job.done):
        job.ask(lambda _tell: "third")
    qtbot.wait(50)
    assert answers == ["third"]
    assert troubles == []


def test_finish_waits_and_still_tells_the_end(job: Job, qtbot: QtBot) -> None:
    started = Event()
    with qtbot.waitSignal(job.failed) as failed:
        job.start(until_stopped(started))
        assert started.wait(5)
        job.finish()
        assert job.running, "the end is told when the window has its turn"
    assert failed.args == ["Work: stopped."]


def test_drop_waits_and_tells_nothing(job: Job, qtbot: QtBot) -> None:
    troubles: list[str] = []
    job.failed.connect(troubles.append)
    started = Event()
    job.start(until_stopped(started))
    assert started.wait(5)
    job.drop()
    assert not job.running
    qtbot.wait(50)
    assert troubles == []
