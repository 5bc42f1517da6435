"""Pure engineering: no Qt, no SQL, no files but the tables in ``assets/tables``.

Usable alone as a library. Every result comes with its working (see ``working.py``).
"""
