"""Heat through the walls: U-value from layers, the areas of a box, its foam with edges and corners, and the gasket."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from coldwright.cabinet.checks import CENTIMETRES, INCHES, MILLIMETRES, MILLIWATTS, check_between
from coldwright.errors import InputError

INSIDE_FILM, OUTSIDE_FILM = 6.0, 9.0  # W/(m² K): still air with radiation, illustrative
FOAM_W_PER_M_K = 0.022  # new polyurethane foam, common practice, no source; it rises with age and water
GASKET_W_PER_M_K = 0.08  # illustrative: a good gasket with its metal edges
EDGE, CORNER = 0.54, 0.15  # shape factors of an edge, for each metre, and of a corner, for each metre of wall


class Layer(NamedTuple):
    """One layer of a wall: thickness [m] and conductivity [W/(m K)]."""

    thickness_m: float
    conductivity: float


class Box(NamedTuple):
    """Inside width, height and depth of a cabinet and the thickness of its walls [m]."""

    width_m: float
    height_m: float
    depth_m: float
    wall_m: float


def check_wall(thickness_m: float, conductivity: float) -> None:
    """Refuse a layer that no wall has.

    Parameters
    ----------
    thickness_m : float
        Thickness [m]
    conductivity : float
        Conductivity [W/(m K)]

    Raises
    ------
    InputError
        If one is outside its span; the likely slip is named.
    """
    check_between("the thickness of a wall's layer", thickness_m, "m", 1e-5, 0.5, MILLIMETRES, CENTIMETRES)
    check_between("the conductivity of a wall's layer", conductivity, "W/(m K)", 0.002, 500.0, MILLIWATTS)


def u_value(layers: Sequence[Layer], inside_film: float = INSIDE_FILM, outside_film: float = OUTSIDE_FILM) -> float:
    r"""Heat through a square metre of flat wall for each kelvin between the air on both sides.

    .. math:: 1/U = 1/h_i + \sum d/k + 1/h_o

    Parameters
    ----------
    layers : sequence
        Layers of the wall [-]
    inside_film, outside_film : float
        Heat transfer of the air at both faces, inf for none counted [W/(m² K)]

    Returns
    -------
    float
        U-value [W/(m² K)]

    Raises
    ------
    InputError
        If there is no layer, or a value is outside its span.
    """
    if not layers:
        raise InputError("the wall has no layer; a wall has at least one, such as 50 mm of foam")
    for name, film in (("inside", inside_film), ("outside", outside_film)):
        check_between(f"the film coefficient {name}", film, "W/(m² K)", 0.5, math.inf)
    for layer in layers:
        check_wall(*layer)
    return 1.0 / (1.0 / inside_film + sum(d / k for d, k in layers) + 1.0 / outside_film)


def check_box(box: Box) -> None:
    """Refuse a box that no small cooler has.

    Parameters
    ----------
    box : Box
        The box [-]

    Raises
    ------
    InputError
        If a side or the wall is outside its span; the likely slip is named.
    """
    for name, side in zip(("width", "height", "depth"), box[:3], strict=True):
        check_between(f"the inside {name} of the cabinet", side, "m", 0.1, 3.0, MILLIMETRES, CENTIMETRES, INCHES)
    check_between("the wall of the cabinet", box.wall_m, "m", 0.01, 0.2, MILLIMETRES, CENTIMETRES, INCHES)


def inside_area(box: Box) -> float:
    """Area of the six faces inside.

    Parameters
    ----------
    box : Box
        The box [-]

    Returns
    -------
    float
        Area [m²]
    """
    a, b, c = box[:3]
    return 2.0 * (a * b + b * c + c * a)


def outside_area(box: Box) -> float:
    """Area of the six faces outside.

    Parameters
    ----------
    box : Box
        The box [-]

    Returns
    -------
    float
        Area [m²]
    """
    grow = 2.0 * box.wall_m
    return inside_area(Box(box.width_m + grow, box.height_m + grow, box.depth_m + grow, box.wall_m))


def volume(box: Box) -> float:
    """Volume inside.

    Parameters
    ----------
    box : Box
        The box [-]

    Returns
    -------
    float
        Volume [m³]
    """
    return box.width_m * box.height_m * box.depth_m


def shape_factor(box: Box) -> float:
    r"""What the foam's conductivity is multiplied by: faces, edges and corners of the box.

    .. math:: S = A_i / d + 0.54 \cdot 4 (a + b + c) + 8 \cdot 0.15 \, d

    Parameters
    ----------
    box : Box
        The box [-]

    Returns
    -------
    float
        Shape factor [m]

    Notes
    -----
    For inside faces more than a fifth of the wall's thickness wide.

    References
    ----------
    .. [1] Langmuir, Adams & Meikle, 1913, as in the tables of shape factors of textbooks on heat transfer (from
       memory).
    """
    check_box(box)
    edges = 4.0 * sum(box[:3])
    return inside_area(box) / box.wall_m + EDGE * edges + 8.0 * CORNER * box.wall_m


def walls_conductance(
    box: Box,
    foam: float = FOAM_W_PER_M_K,
    inside_film: float = INSIDE_FILM,
    outside_film: float = OUTSIDE_FILM,
) -> float:
    """Heat through all the walls of a foamed box for each kelvin between room and cabinet air.

    Parameters
    ----------
    box : Box
        The box [-]
    foam : float
        Conductivity of the foam; of wet foam several times that of dry [W/(m K)]
    inside_film, outside_film : float
        Heat transfer of the air at the faces [W/(m² K)]

    Returns
    -------
    float
        Conductance [W/K]

    Raises
    ------
    InputError
        If a value is outside its span.

    Notes
    -----
    Liner and sheet metal are left out: beside the foam they stop no heat. A hot condenser in the wall is not counted.
    """
    factor = shape_factor(box)
    check_wall(box.wall_m, foam)
    for name, film in (("inside", inside_film), ("outside", outside_film)):
        check_between(f"the film coefficient {name}", film, "W/(m² K)", 0.5, math.inf)
    films = 1.0 / (inside_film * inside_area(box)) + 1.0 / (outside_film * outside_area(box))
    return 1.0 / (films + 1.0 / (foam * factor))


def gasket_conductance(
    length_m: float,
    good_w_per_m_k: float = GASKET_W_PER_M_K,
    damaged_m: float = 0.0,
    damaged_times: float = 10.0,
) -> float:
    """Heat past the door's gasket for each kelvin between room and cabinet air.

    Parameters
    ----------
    length_m : float
        Length of the gasket all round [m]
    good_w_per_m_k : float
        Heat past each metre that seals [W/(m K)]
    damaged_m : float
        Length of it that does not seal [m]
    damaged_times : float
        How many times as much passes there; 10 is illustrative, the true figure hangs on the gap [1]

    Returns
    -------
    float
        Conductance [W/K]

    Raises
    ------
    InputError
        If a value is outside its span, or more is damaged than there is.
    """
    check_between("the length of the gasket", length_m, "m", 0.0, 20.0, MILLIMETRES, CENTIMETRES, INCHES)
    check_between("the heat past a metre of gasket", good_w_per_m_k, "W/(m K)", 0.0, 2.0, MILLIWATTS)
    check_between("the damaged length of the gasket", damaged_m, "m", 0.0, length_m, MILLIMETRES, CENTIMETRES)
    check_between("what a damaged metre lets in, times a good one,", damaged_times, "", 1.0, 1000.0)
    return good_w_per_m_k * (length_m + (damaged_times - 1.0) * damaged_m)
