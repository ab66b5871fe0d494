"""Floor 2: shape. The meridian section and everything that can be measured on it.

Nothing here asks for a material or a voltage: what does belongs to a room of physics.
"""
