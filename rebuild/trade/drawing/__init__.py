"""Dimensioned drawings of the parts one turns or files: pure geometry in mm, true to size.

A shape is drawn from the sizes of its making sheet, so that drawing and sheet agree by construction; where the
dimension lines stand on the paper is settled later, by scale (``lay_out``).
"""
