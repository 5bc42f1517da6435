"""Name what is there: shop, machines, subassemblies, parts with features, steps with their links."""

from __future__ import annotations

from collections.abc import Iterator

from rebuild.demo.built import Built, Ids, at
from rebuild.demo.records import Group, InstrumentData, MachineData, PartData, PlaceData, StepData
from rebuild.trade.results.cautions import suggest
from rebuild.words.steps import TaskKind
from rebuild.work.machines.acts import add_machine, add_matched_set, add_part, add_place, add_subassembly
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.acts_features import add_feature, add_instrument
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.steps.acts import add_caution, add_constraint, add_link, add_task

#: Kinds of step on which the usual cautions are put when their words occur.
RISKY = (
    TaskKind.REMOVE, TaskKind.CLEAN, TaskKind.MAKE, TaskKind.REWORK, TaskKind.SEND_OUT, TaskKind.PAINT,
    TaskKind.REFIT, TaskKind.ADJUST, TaskKind.ALIGN, TaskKind.LUBRICATE, TaskKind.COMMISSION,
)  # fmt: skip
MOST_CAUTIONS = 3
#: What drops when it is let go is proposed by the part's name alone; it is taken where that part is moved.
WHEN_MOVED = "heavy-drop"


def shop(built: Built, places: tuple[PlaceData, ...], instruments: tuple[InstrumentData, ...]) -> None:
    """Places and instruments."""
    for place in places:
        built.places[place.key] = add_place(
            built.store, place.name, place.kind, place.note, since=at(place.since, 9)
        )
    for tool in instruments:
        built.instruments[tool.key] = add_instrument(built.store, tool.name, tool.typed)


def machine(built: Built, data: MachineData) -> Ids:
    """A machine with its tree, parts, features, matched sets and steps."""
    ids = Ids(add_machine(built.store, data.name, data.typed), data)
    built.machines.append(ids)
    for group in data.groups:
        parent = ids.groups[group.parent] if group.parent else None
        ids.groups[group.code] = add_subassembly(
            built.store, ids.machine, group.name, group.code, parent_id=parent, typed=group.typed
        )
        for part in group.parts:
            _part(built, ids, part, ids.groups[group.code])
    for part in data.loose:
        _part(built, ids, part, None)
    _stations(built, ids)
    for kept in data.sets:
        codes = [ids.parts[code] for code in kept.codes]
        add_matched_set(built.store, ids.machine, kept.name, codes, kept.note)
    _steps(built, ids)
    return ids


def _part(built: Built, ids: Ids, data: PartData, group_id: int | None) -> None:
    typed = {name: text for name, text in data.typed.items() if text}
    if data.spare_of:
        typed["spare_of_id"] = str(ids.parts[data.spare_of])
    part_id = add_part(built.store, ids.machine, group_id, data.name, data.code, typed=typed)
    ids.parts[data.code] = part_id
    for feature in data.features:
        ids.features[f"{data.code}/{feature.name}"] = add_feature(
            built.store, part_id, feature.name, feature.kind,
            unit=feature.unit or None, spec=feature.spec, origin=feature.origin, stations=feature.stations,
            typed=feature.typed,
        )  # fmt: skip


def _stations(built: Built, ids: Ids) -> None:
    names = {feature_id: name for name, feature_id in ids.features.items()}
    with built.store.read() as connection:
        keys = grid.keys(connection, grid.Asked(ids.machine), verdict_rule(built.store), {})
        for row in grid.rows(connection, keys, verdict_rule(built.store), {}):
            if row.station_id:
                ids.stations[f"{names[row.feature_id]}@{row.station}"] = row.station_id


def steps_of(data: MachineData) -> Iterator[tuple[Group | None, StepData]]:
    """Every step of a machine with its group, in the order of the tables."""
    for group in data.groups:
        for step in group.steps:
            yield group, step
    for step in data.general:
        yield None, step


def before_of(step: StepData) -> tuple[str, ...]:
    """Keys of the steps that come before one."""
    return (*step.after, *(wait.before for wait in step.because))


def _steps(built: Built, ids: Ids) -> None:
    listed = list(steps_of(ids.data))
    later: list[tuple[str, str]] = []
    for group, step in listed:
        known = [key for key in step.after if key in ids.steps]
        later += [(key, step.key) for key in step.after if key not in ids.steps]
        ids.steps[step.key] = add_task(
            built.store, ids.machine, ids.groups[group.code] if group else None, step.title, step.kind,
            part_id=ids.parts[step.part] if step.part else None,
            after=[ids.steps[key] for key in known],
            typed=step.typed,
        )  # fmt: skip
    for before, after in later:
        add_link(built.store, ids.steps[before], ids.steps[after])
    for _, step in listed:
        _bind(built, ids, step)


def _bind(built: Built, ids: Ids, step: StepData) -> None:
    """Links with their reason, constraints and cautions of one step."""
    for wait in step.because:
        add_link(built.store, ids.steps[wait.before], ids.steps[step.key], wait.kind, wait.reason)
    for number, need in enumerate(step.needs):
        ids.needs[step.key, number] = add_constraint(
            built.store, ids.steps[step.key], need.kind, need.detail,
            rest=need.rest, part_ids=[ids.parts[code] for code in need.parts],
        )  # fmt: skip
    for topic in dict.fromkeys((*step.cautions, *_proposed(step))):
        add_caution(built.store, ids.steps[step.key], topic)


def _proposed(step: StepData) -> tuple[str, ...]:
    """The cautions the program proposes and a sensible owner takes."""
    if step.kind not in RISKY:
        return ()
    moved = step.kind in (TaskKind.REMOVE, TaskKind.REFIT)
    topics = [topic for topic in suggest(step.title) if moved or topic != WHEN_MOVED]
    return tuple(topics[:MOST_CAUTIONS])
