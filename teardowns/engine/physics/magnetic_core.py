"""What a gapped ferrite core stores: flux density, gap, inductance factor, power."""
import numpy as np

MU_0 = 4e-7 * np.pi              # H/m
# Path of a core over the root of its cross-section, 5 to 9 for the standard sizes; permeability
# of the ungapped set, 1400 for EFD 15/8/5 (EPCOS B66413).
PATH, PERMEABILITY = 8.0, 1300.0


def flux_density(inductance, peak_current, turns, area):
    r"""Peak flux density in the core.

    .. math:: B = \frac{L I_{pk}}{N A_e}

    Parameters
    ----------
    inductance : (n,) float
        Inductance of the winding. [H]
    peak_current : (n,) float
        Peak current in the winding. [A]
    turns : (n,) float
        Turns of the winding. [1]
    area : (n,) float
        Effective cross-section. [m²]

    Returns
    -------
    (n,) float
        Flux density. [T]

    Errors
    ------
    Formula: exact below saturation.

    Examples
    --------
    >>> round(float(flux_density(1400e-6, 0.4, 100.0, 20.1e-6)), 4)
    0.2786

    References
    ----------
    .. [1] Flux linkage L·I = N·B·A.
    """
    return inductance * peak_current / (turns * area)


def gapped_inductance_factor(area, gap, ungapped, fringing):
    r"""Inductance a squared turn of a core with an air gap.

    .. math:: A_L = \left(\frac{l_g}{\mu_0 A_e F} + \frac{1}{A_{L,0}}\right)^{-1}

    Parameters
    ----------
    area : (n,) float
        Effective cross-section. [m²]
    gap : (n,) float
        Total gap in the path. [m]
    ungapped : (n,) float
        Inductance factor of the same core without gap. [H]
    fringing : (n,) float
        F, by how much the field widens the gap's area: 1.0 to 1.3. [1]

    Returns
    -------
    (n,) float
        Inductance factor A_L. [H]

    Errors
    ------
    Formula: models of the fringing field differ by 25 %, so that a measured inductance is worth
    much more.

    Examples
    --------
    >>> round(float(gapped_inductance_factor(15e-6, 0.17e-3, 780e-9, 1.0)) * 1e9, 1)
    97.1

    References
    ----------
    .. [1] Reluctances of gap and core in series.
    """
    return 1 / (gap / (MU_0 * area * fringing) + 1 / ungapped)


def ungapped_inductance_factor(area):
    r"""Inductance a squared turn of a core set that nobody ground a gap into.

    .. math:: A_{L,0} = \mu_0 \mu_e \frac{\sqrt{A_e}}{k}

    with the magnetic path as :math:`k \sqrt{A_e}`.

    Parameters
    ----------
    area : (n,) float
        Effective cross-section. [m²]

    Returns
    -------
    (n,) float
        Inductance factor. [H]

    Errors
    ------
    Formula: 40 % (k = 1), for cores of one cross-section differ in path and material.

    Examples
    --------
    >>> round(1e9 * float(ungapped_inductance_factor(15e-6)))
    791

    References
    ----------
    .. [1] EPCOS B66413: 780 nH for EFD 15/8/5, 15.0 mm², of N87.
    """
    return MU_0 * PERMEABILITY * np.sqrt(area) / PATH


def air_gap(area, inductance_factor, ungapped):
    r"""Gap that a measured inductance asks for, without fringing.

    .. math:: l_g = \mu_0 A_e\left(\frac{1}{A_L} - \frac{1}{A_{L,0}}\right)

    Parameters
    ----------
    area : (n,) float
        Effective cross-section. [m²]
    inductance_factor : (n,) float
        Inductance a squared turn. [H]
    ungapped : (n,) float
        The same without gap; infinity leaves the core out. [H]

    Returns
    -------
    (n,) float
        Gap. [m]

    Errors
    ------
    Formula: the true gap is up to 1.3 times larger, by the fringing field.

    Examples
    --------
    >>> round(float(air_gap(15e-6, 97.1e-9, 780e-9)) * 1e3, 3)
    0.17

    References
    ----------
    .. [1] `gapped_inductance_factor` with F = 1, solved for the gap.
    """
    return MU_0 * area * (1 / inductance_factor - 1 / ungapped)


def effective_permeability(inductance_factor, core_constant):
    r"""Relative permeability of the whole path.

    .. math:: \mu_e = \frac{A_L}{\mu_0}\sum\frac{l}{A}

    Parameters
    ----------
    inductance_factor : (n,) float
        Inductance a squared turn. [H]
    core_constant : (n,) float
        Sum of length over area along the path. [1/m]

    Returns
    -------
    (n,) float
        Effective permeability. [1]

    Errors
    ------
    Formula: exact by definition.

    Examples
    --------
    >>> round(float(effective_permeability(780e-9, 2270.0)))
    1409

    References
    ----------
    .. [1] IEC 60205, effective parameters of magnetic piece parts, from memory.
    """
    return inductance_factor * core_constant / MU_0


def gap_energy(flux_density, area, gap):
    r"""Energy that the gap holds.

    .. math:: E = \frac{B^2 A_e l_g}{2\mu_0}

    Parameters
    ----------
    flux_density : (n,) float
        Peak flux density. [T]
    area : (n,) float
        Effective cross-section. [m²]
    gap : (n,) float
        Total gap in the path. [m]

    Returns
    -------
    (n,) float
        Energy a cycle. [J]

    Errors
    ------
    Formula: without fringing, and without what the core itself holds, a tenth or less.

    Examples
    --------
    >>> round(float(gap_energy(0.3, 20e-6, 0.2e-3)) * 1e6, 1)
    143.2

    References
    ----------
    .. [1] Energy density B²/2µ₀ times the volume of the gap.
    """
    return flux_density * flux_density * area * gap / (2 * MU_0)


def saturation_power(flux_density, area, inductance_factor, frequency):
    r"""Power through a flyback core that reaches a flux density every period.

    .. math:: P = \frac{B^2 A_e^2 f}{2 A_L}

    The turns cancel: more turns lower the flux of a given current and raise the inductance.

    Parameters
    ----------
    flux_density : (n,) float
        Peak flux density, at most that of saturation. [T]
    area : (n,) float
        Effective cross-section. [m²]
    inductance_factor : (n,) float
        Primary inductance over the square of the primary turns. [H]
    frequency : (n,) float
        Switching frequency; the highest of a converter that varies it. [Hz]

    Returns
    -------
    (n,) float
        Power from the bus, in discontinuous conduction: the most in any mode. [W]

    Errors
    ------
    Formula: exact for a linear core; 5 % for what it holds while it begins to saturate.
    Inputs: twice the relative error of flux density and area, once that of the others.
    Holds for: flyback converters; not forward or resonant half-bridge converters.

    Examples
    --------
    >>> round(float(saturation_power(0.30, 20.1e-6, 140e-9, 65e3)) * 0.8, 2)
    6.75

    References
    ----------
    .. [1] L·I²·f/2 with I = N·B·A_e/L and A_L = L/N².
    """
    linkage = flux_density * area
    return linkage * linkage * frequency / (2 * inductance_factor)


def area_product_power(flux_density, area, winding_area, current_density, copper_fill,
                       primary_share, duty, frequency):
    r"""Power that a core and its winding space carry together, in discontinuous conduction.

    .. math:: P = \frac{\tfrac12 B f J K_u a_p A_e A_w}{\sqrt{D/3}}

    Parameters
    ----------
    flux_density : (n,) float
        Peak flux density. [T]
    area : (n,) float
        Effective cross-section of the core. [m²]
    winding_area : (n,) float
        Winding space of the bobbin, 0.4 to 0.6 of the core's window. [m²]
    current_density : (n,) float
        In the copper of the primary, rms. [A/m²]
    copper_fill : (n,) float
        K_u, copper over winding space. [1]
    primary_share : (n,) float
        a_p, the primary's share of the winding space. [1]
    duty : (n,) float
        Duty cycle. [1]
    frequency : (n,) float
        Switching frequency. [Hz]

    Returns
    -------
    (n,) float
        Power from the bus; continuous conduction carries less. [W]

    Errors
    ------
    Formula: exact; the uncertainty lies in what is practicable for J, K_u and a_p.

    Examples
    --------
    >>> round(float(area_product_power(0.3, 14.4e-6, 8.65e-6, 1e7, 0.35, 0.5, 0.45, 1e5)), 2)
    8.44

    References
    ----------
    .. [1] N·I_pk = J·K_u·a_p·A_w/√(D/3) in L·I_pk = N·B·A_e and P = L·I_pk²·f/2.
    """
    ampere_turns = (current_density * copper_fill * primary_share * winding_area
                    / np.sqrt(duty / 3))
    return 0.5 * flux_density * area * ampere_turns * frequency
