"""Glaze: what its compression adds to the strength, what it costs the body, when it crazes."""

from shedlight.physics.domain import finite, not_negative, positive, within
from shedlight.sources import cite
from shedlight.trace import formula

_COMPRESSION = ("Compression in the glaze", 'sigma_"g"', "MPa")


@formula(
    ("Strength with glaze", "sigma", "MPa"),
    'sigma_"b" + eta sigma_"g"',
    {
        "body_strength": ("Strength of the bare body", 'sigma_"b"', "MPa"),
        "compression": _COMPRESSION,
        "share": ("Share of the compression that counts", "eta", "1"),
    },
    cite("trade", "glaze raises the strength by 10 to 40 %", "practice", "medium"),
)
def glazed_strength(body_strength: float, compression: float, share: float) -> float:
    """Bending strength of a glazed body: its skin has to be pulled out of compression first.

    sigma = sigma_b + eta sigma_g

    Args:
        body_strength: Strength of the bare body [Pa].
        compression: In the glaze, tension negative [Pa].
        share: That counts, 0 to 1; 0.2 to 0.4 fits the minima of material standards [1].

    Returns:
        Strength; below that of the body if the glaze is pulled [Pa].

    Raises:
        InputError: strength not above zero, compression not finite, share outside 0 to 1.

    Source: habit of the trade — basis: practice.
    Valid for: an estimate.
    """
    positive(body_strength=body_strength)
    finite(compression=compression)
    within(0.0, 1.0, share=share)
    return body_strength + share * compression


@formula(
    ("Share of the compression that counts", "eta", "1"),
    '(sigma - sigma_"b") / sigma_"g"',
    {
        "glazed": ("Strength with glaze", "sigma", "MPa"),
        "bare": ("Strength of the bare body", 'sigma_"b"', "MPa"),
        "compression": _COMPRESSION,
    },
    cite("first principles", "solved from measured strengths", "exact"),
)
def glaze_share(glazed: float, bare: float, compression: float) -> float:
    """How much of a glaze's compression tests of glazed and bare bars show.

    eta = (sigma - sigma_b)/sigma_g

    Args:
        glazed: Strength of glazed bars [Pa].
        bare: Strength of bare bars [Pa].
        compression: In the glaze [Pa].

    Returns:
        Share [1].

    Raises:
        InputError: an argument not above zero.

    Source: solved from the sum — basis: exact.
    Valid for: bars of one body.
    """
    positive(glazed=glazed, bare=bare, compression=compression)
    return (glazed - bare) / compression


@formula(
    ("Tension in the body under the glaze", 'sigma_"t"', "MPa"),
    'sigma_"g" t_g / t_b',
    {
        "compression": _COMPRESSION,
        "glaze_thickness": ("Thickness of the glaze", "t_g", "mm"),
        "body_thickness": ("Thickness of the body", "t_b", "mm"),
    },
    cite("first principles", "balance of forces across the wall", "exact"),
)
def body_tension(compression: float, glaze_thickness: float, body_thickness: float) -> float:
    """Tension with which the body pays for the compression of its glaze.

    sigma_t = sigma_g t_g/t_b

    Args:
        compression: In the glaze [Pa].
        glaze_thickness: Of all glazed faces together [m].
        body_thickness: Of the body [m].

    Returns:
        Mean tension [Pa].

    Raises:
        InputError: compression not finite, glaze negative, body not above zero.

    Source: balance of forces — basis: exact.
    Valid for: walls that stay flat or round.
    """
    finite(compression=compression)
    not_negative(glaze_thickness=glaze_thickness)
    positive(body_thickness=body_thickness)
    return compression * glaze_thickness / body_thickness


@formula(
    ("Expansion difference that crazes", "Delta alpha", "µ/K"),
    '-(sigma_"u" (1 - nu)) / (E_g Delta T)',
    {
        "glaze_strength": ("Tensile strength of the glaze", 'sigma_"u"', "MPa"),
        "glaze_modulus": ("Elastic modulus of the glaze", "E_g", "GPa"),
        "cooling": ("Cooling from where the glaze sets", "Delta T", "K"),
        "poisson": ("Poisson's ratio", "nu", "1"),
    },
    cite("Timoshenko", "thin bonded layer, equal biaxial strain", "exact"),
    note="Expansion of body less glaze: below this the glaze is pulled apart.",
)
def crazing_difference(
    glaze_strength: float, glaze_modulus: float, cooling: float, poisson: float
) -> float:
    """How much more than its body a glaze may expand before it crazes.

    Delta alpha = -sigma_u (1 - nu)/(E_g Delta T)

    Args:
        glaze_strength: Tensile strength of the glaze [Pa].
        glaze_modulus: Elastic modulus of the glaze [Pa].
        cooling: From where the glaze sets to the coldest service [K].
        poisson: Poisson's ratio, 0 to 0.5 [1].

    Returns:
        Expansion of body less glaze; negative [1/K].

    Raises:
        InputError: an argument out of its domain.

    Source: thin bonded layer — basis: exact.
    Valid for: glazes thin against the wall.
    """
    positive(glaze_strength=glaze_strength, glaze_modulus=glaze_modulus, cooling=cooling)
    within(0.0, 0.5, poisson=poisson)
    return -glaze_strength * (1 - poisson) / (glaze_modulus * cooling)


@formula(
    ("Pull in the glaze", "sigma", "MPa"),
    'sigma_"b" E_g / E_b',
    {
        "body_stress": ("Tension at the surface of the body", 'sigma_"b"', "MPa"),
        "glaze_modulus": ("Elastic modulus of the glaze", "E_g", "GPa"),
        "body_modulus": ("Elastic modulus of the body", "E_b", "GPa"),
    },
    cite("Timoshenko", "thin layer that follows the strain of its body", "exact"),
)
def glaze_pull(body_stress: float, glaze_modulus: float, body_modulus: float) -> float:
    """Tension that a load on the body brings into its glaze.

    sigma = sigma_b E_g/E_b

    Args:
        body_stress: Tension at the surface of the body [Pa].
        glaze_modulus: Elastic modulus of the glaze [Pa].
        body_modulus: Elastic modulus of the body [Pa].

    Returns:
        Stress, without what firing left [Pa].

    Raises:
        InputError: stress not finite, a modulus not above zero.

    Source: Timoshenko and Goodier — basis: exact.
    Valid for: glazes thin against the wall.
    """
    finite(body_stress=body_stress)
    positive(glaze_modulus=glaze_modulus, body_modulus=body_modulus)
    return body_stress * glaze_modulus / body_modulus
