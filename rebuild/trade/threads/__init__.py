"""Screw threads: limits of size, making, measuring over wires, and finding out what a thread is.

One module per system (``unified``, ``metric``, ``acme``, ``stub_acme``, ``trapezoidal``, ``whitworth``,
``ba``), each with ``limits(...) -> Worked[ThreadLimits]``. ``designation.parse_designation`` reads
``3/8-16 UNC-2B`` and its kin; ``lookup.for_designation`` goes from such a text to the limits.
"""
