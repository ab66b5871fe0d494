"""Painters: each turns a scene, or the SVG painted from it, into something to look at."""
