"""Physics, one room per field of knowledge; no room opens into another.

Pure functions on SI floats. What returns one number is declared with
:func:`shedlight.trace.formula`, so that its use can be shown line by line.
"""
