"""How lengths are written on drawings: millimetres without a unit, no digits that mean nothing."""


def given(length: float) -> str:
    """A length from a description [m] in millimetres, to the hundredth where it has one."""
    return f"{round(1e3 * length, 2):.2f}".rstrip("0").rstrip(".").replace("-", "−")


def measured(length: float) -> str:
    """A length measured on the outline [m] in millimetres: whole from 100 on, else to a tenth."""
    millimetres = 1e3 * length
    return f"{millimetres:.0f}" if millimetres >= 99.95 else f"{millimetres:.1f}"


def diameter(radius: float) -> str:
    """A diameter from its radius [m], with its sign."""
    return f"Ø {given(2 * radius)}"
