"""Floor 6: pictures. Records become a frozen scene; painters turn the scene into SVG, PDF, PNG.

A figure computes nothing about a bushing: every number it shows comes from the records it is given.
"""
