"""Pure engineering, usable alone as a library: no Qt, no SQL, no files but the tables in ``assets/tables``.

The folders, each a noun of the trade:

- ``sizes``: lengths, durations and torques as people type them, their units, how they are shown again.
- ``results``: a value with its working and sources, published tables, cautions, the form of a figure.
- ``limits``: limits of one part (ISO 286), uncertainty of a reading (GUM), verdicts (ISO 14253-1).
- ``fits``: two parts together: standard fits, a fit as it is now, limits to suit a measured mate.
- ``wear``: what the wear rules propose for a part that was measured.
- ``threads``: limits, designations, identifying, wires and cutting of inch, metric, Acme and British threads.
- ``tapers``: which taper it is, how it is gauged, how the machine is set to it.
- ``gears``: involute gears: identify, blank, measure, mesh, rack, worm and change gears.
- ``joints``: press and shrink fits, bolts, set screws, pins, keys and dowels.
- ``bearings``: bushes, their oiling, rolling bearings and their seats.
- ``geometry``: straightness, flatness, squareness, roundness, and what wear does to the work.
- ``charts``: geometry tests with signed limits, and whether the bed has settled.
- ``making``: what a making sheet carries: sizes by shape, limits, blank, steps, tools.
- ``drawing``: dimensioned drawings of the parts one turns or files.
- ``drives``: belts between pulleys, the spindle speeds of a whole drive. ``springs``: what a coil spring does.
- ``shop``: materials, stock and blanks, drills, speeds, weights and slings.
- ``lubrication``: viscosity in old and new units, grades, the tree of oil lines.
- ``machines``: kinds of machine and what they are usually made of.
- ``boxes``: unknown things by their clues. ``documents``: a page, a figure and its item, as people write them.
- ``photos``: what was in hand when one was taken. ``labels``: the stock they go on, and their short codes.
- ``teardown``: removals, fasteners and shims as said at the bench. ``refit``: the words of a refit step.
- ``treatments``: what a part wants done to its surface, in which bath, and for how long.
- ``run_in``: what is checked before power, warming up in steps, cut tests.
- ``waiting``: clocks, and what one already has. ``schedule``: when it can be finished.
- ``figures``: everything above that can be worked out from a few entries, by topic.

A result is a ``Worked`` value; what cannot be taken raises an error of ``rebuild.errors`` with a sentence.
The close running fit H7/g6 at 25 mm (ISO 286-2: hole 0 to +21 µm, shaft -20 to -7 µm):

>>> from rebuild.trade.limits.iso286 import iso_fit
>>> fit = iso_fit(25, "H7", "g6")
>>> fit.value.hole.high_mm, fit.value.shaft.low_mm, fit.value.min_clearance_mm
(25.021, 24.98, 0.007)
>>> print(fit.working.steps[-1].text)
clearance fit; a negative clearance is an interference
>>> iso_fit("25 mm", "H7", "g6")
Traceback (most recent call last):
rebuild.errors.BadEntry: Nominal size: “25 mm” is not a number. Give the bare number, as 25 or 12.5; ...
"""
