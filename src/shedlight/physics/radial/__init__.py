"""Field in concentric layers, closed form, and what starts at a metal edge on them."""
