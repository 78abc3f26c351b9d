"""Copper on a coil former: turn length, resistance, and what layers add to it at speed."""
import numpy as np

# The order of the layers is seldom known, so that a factor above this is not believed, and it
# only ever lowers what a winding carries.
FACTOR_CAP = 4.0


def layer_thickness(diameter, depth, pitch):
    r"""A layer of round wires as a foil, in skin depths.

    .. math:: A = (\pi/4)^{3/4}\,\frac{d}{\delta}\sqrt{d/p}

    Parameters
    ----------
    diameter : (n,) float
        Bare diameter of the wire or strand. [m]
    depth : (n,) float
        Skin depth. [m]
    pitch : (n,) float
        Distance between the centres of neighbouring wires of the layer. [m]

    Returns
    -------
    (n,) float
        Thickness of the equal foil over the skin depth. [1]

    Errors
    ------
    Formula: see `layers_factor`.

    Examples
    --------
    >>> round(float(layer_thickness(0.3e-3, 0.3e-3, 0.3e-3)), 3)
    0.834

    References
    ----------
    .. [1] Dowell, Effects of eddy currents in transformer windings, Proc. IEE 113 (1966)
       1387-1394, as the handbooks print it (from memory).
    """
    return (np.pi / 4) ** 0.75 * diameter / depth * np.sqrt(diameter / pitch)


def layers_factor(thickness, layers):
    r"""Resistance of a winding of layers to a sine current over that to a steady one.

    .. math:: F = A\left[\frac{\sinh 2A + \sin 2A}{\cosh 2A - \cos 2A}
              + \frac{2(m^2-1)}{3}\,\frac{\sinh A - \sin A}{\cosh A + \cos A}\right]

    Parameters
    ----------
    thickness : (n,) float
        A of `layer_thickness`, above zero. [1]
    layers : (n,) float
        Layers m between the place without field and the place of its peak, 1/2 for one layer
        between two halves of the other winding; of strands see `bundle_layers`. [1]

    Returns
    -------
    (n,) float
        Ratio, 1 or more. [1]

    Errors
    ------
    Formula: 15 % for round wires in full layers; unknown where the order of the layers is.
    Holds for: A from 0.01 to 300.

    Examples
    --------
    >>> round(float(layers_factor(2.0, 2)), 4)
    5.1465

    References
    ----------
    .. [1] Dowell, Proc. IEE 113 (1966) 1387-1394 (from memory).
    """
    # Over e^{2A} and e^{A}, so that a thick layer does not overflow.
    once, sine, cosine = np.exp(-thickness), np.sin(thickness), np.cos(thickness)
    twice = once * once
    skin = (1 - twice * twice + 4 * twice * sine * cosine) / (
        1 + twice * twice - 2 * twice * (1 - 2 * sine * sine))
    proximity = (1 - twice - 2 * once * sine) / (1 + twice + 2 * once * cosine)
    return thickness * (skin + 2 / 3 * (layers * layers - 1) * proximity)


def bundle_layers(layers, strands):
    r"""Layers of single strands that stand for layers of a bundle (litz).

    .. math:: m = m_b \sqrt{N_s}

    Parameters
    ----------
    layers : (n,) float
        Layers of bundles. [1]
    strands : (n,) float
        Strands in a bundle. [1]

    Returns
    -------
    (n,) float
        Layers of strands, to be used with the strand's diameter. [1]

    Errors
    ------
    Formula: 20 %; a bundle is taken as a square of strands, perfectly twisted.

    Examples
    --------
    >>> float(bundle_layers(2.0, 9.0))
    6.0

    References
    ----------
    .. [1] Common practice for litz; no source.
    """
    return layers * np.sqrt(strands)


def mean_turn_length(width, depth, wall, build):
    r"""Mean length of a turn around a rectangular leg.

    .. math:: l = 2(a+b) + (\pi + 4)(w + h/2)

    Turns with round corners give :math:`2\pi(w+h/2)` beside :math:`2(a+b)`, square ones
    :math:`8(w+h/2)`; the mean of both is taken.

    Parameters
    ----------
    width : (n,) float
        One side a of the leg. [m]
    depth : (n,) float
        The other side b of the leg. [m]
    wall : (n,) float
        Wall w of the coil former with its clearance. [m]
    build : (n,) float
        Height h of the winding above the former. [m]

    Returns
    -------
    (n,) float
        Mean length of a turn. [m]

    Errors
    ------
    Formula: 15 % (k = 1).

    Examples
    --------
    >>> round(float(mean_turn_length(5.3e-3, 2.4e-3, 0.6e-3, 1.79e-3)) * 1e3, 1)
    26.1

    References
    ----------
    .. [1] Geometry; compared with the coil former of EPCOS B66414 (EFD 15/8/5): 29 mm.
    """
    return 2 * (width + depth) + (np.pi + 4) * (wall + build / 2)


def winding_resistance(resistivity, turns, turn_length, area):
    r"""Resistance of a winding to a steady current.

    .. math:: R = \rho N l / S

    Parameters
    ----------
    resistivity : (n,) float
        Of the wire. [Ω·m]
    turns : (n,) float
        Turns N. [1]
    turn_length : (n,) float
        Mean length of a turn. [m]
    area : (n,) float
        Copper area of the conductor, all strands. [m²]

    Returns
    -------
    (n,) float
        Resistance. [Ω]

    Errors
    ------
    Formula: exact.
    Inputs: first order, each in full.

    Examples
    --------
    >>> round(float(winding_resistance(1.7241e-8, 100.0, 0.05, 0.1e-6)), 3)
    0.862

    References
    ----------
    .. [1] Ohm's law.
    """
    return resistivity * turns * turn_length / area


def resistance_factor(resistivity, turn_length, window, fill):
    r"""Resistance of a full coil former a squared turn, as catalogues give it.

    .. math:: A_R = \frac{\rho\,l_N}{k_{cu} A_N}, \qquad R = A_R N^2

    Parameters
    ----------
    resistivity : (n,) float
        Of the wire. [Ω·m]
    turn_length : (n,) float
        Mean length of a turn. [m]
    window : (n,) float
        Winding cross-section of the coil former. [m²]
    fill : (n,) float
        Share of it that is copper. [1]

    Returns
    -------
    (n,) float
        Resistance factor. [Ω]

    Errors
    ------
    Formula: exact; catalogues round the turn length.

    Examples
    --------
    >>> round(float(resistance_factor(1.7241e-8, 29e-3, 15.8e-6, 0.5)) * 1e6, 1)
    63.3

    References
    ----------
    .. [1] EPCOS B66414, coil former of EFD 15/8/5: 63.1 µΩ.
    """
    return resistivity * turn_length / (fill * window)


def carrying_area(area, thickness, layers, rms_over_average):
    r"""Copper area that would carry a winding's current with the same heat if it were steady.

    Its average knows no skin effect, the rest sees F times the resistance:

    .. math:: S' = S\,\sqrt{\frac{r^2}{1 + (r^2 - 1)\min(F, 4)}}

    Parameters
    ----------
    area : (n,) float
        Copper area of the conductor, all strands. [m²]
    thickness : (n,) float
        A of `layer_thickness` at the switching frequency. [1]
    layers : (n,) float
        Layers of the winding. [1]
    rms_over_average : (n,) float
        Current of the winding, rms over average. [1]

    Returns
    -------
    (n,) float
        Area, never more than `area`. [m²]

    Errors
    ------
    Formula: 20 %; F is taken of the fundamental, harmonics see more.
    Holds for: comparing windings with a habit of the trade, not for their losses.

    Examples
    --------
    >>> round(float(carrying_area(1e-6, 0.1, 1.0, 1.6)) * 1e6, 3)
    1.0

    References
    ----------
    .. [1] `layers_factor`; the cap is our own choice.
    """
    square = rms_over_average * rms_over_average
    factor = np.clip(layers_factor(thickness, layers), 1.0, FACTOR_CAP)
    return area * np.sqrt(square / (1 + (square - 1) * factor))
