"""Publications that formulas and tables rest on, in alphabetical order of their names here.

``Standing.SEEN`` is kept for texts that were seen or recalled and then reproduced by an independent library.
"""

from dossier.notation import Source, Standing

ABYC_E11 = Source("ABYC E-11", "circular mil formula CM = K · I · L/E with K = 10.75", Standing.FROM_MEMORY)
AFFINITY = Source(
    "affinity laws of centrifugal pumps: flow as the speed, head as its square, power as its cube"
)
AIR_ATMOSPHERE = Source(
    "U.S. Standard Atmosphere 1976", "ideal gas, Sutherland's viscosity and conductivity of air"
)
ANNULAR_FIN = Source("annular fin of infinite extent, closed form with Bessel functions K0 and K1")
ANNULUS_CONVECTION = Source(
    "Bergman, Lavine, Incropera, DeWitt: Fundamentals of Heat and Mass Transfer, 7th ed.",
    "natural convection between concentric cylinders",
    Standing.FROM_MEMORY,
)
ANSI_HI_9_6_7 = Source(
    "ANSI/HI 9.6.7", "viscosity correction of centrifugal pumps by parameter B", Standing.FROM_MEMORY
)
ASHRAE_GLYCOL_SHARES = Source(
    "ASHRAE Handbook of Fundamentals 2001", "chapter 21, as carried in the open data files of CoolProp"
)
AWG_SIZES = Source("American wire gauge", "geometric series of diameters, 0.005 in at gauge 36")
BENDS_ANGLE = Source("Crane TP-410", "appendix A, bends and coils of more than 90°", Standing.FROM_MEMORY)
BLACK_BODY = Source("Stefan-Boltzmann law, linearised, with σ = 5.670374e-8 W/m²K⁴")
BURNER_CYCLES = Source("balance of heat of a store between two switching temperatures", standing=Standing.OWN)
COLEBROOK_WHITE = Source("Colebrook 1939, J. Inst. Civil Engineers 11", "turbulent flow in rough pipes")
COMBUSTION = Source("combustion of carbon, hydrogen and sulphur, arithmetic of the elements")
COPPER = Source("NBS Handbook 100, annealed copper", "temperature coefficient 0.00393 1/K at 20 °C")
CRANE_K = Source("Crane TP-410", "appendix A, loss factors of valves and fittings")
CRANE_TEES = Source("Crane TP-410, 2009 and later", "chapter 2, tees", Standing.FROM_MEMORY)
CYLINDER_CONDUCTION = Source("steady conduction through concentric cylinders, form of ISO 12241")
DARCY_WEISBACH = Source("Darcy-Weisbach equation with loss factors")
DEFINITION = Source("definition of the quantity")
EFFECTIVENESS_NTU = Source(
    "Bergman, Lavine, Incropera, DeWitt: Introduction to Heat Transfer, 6th ed.",
    "effectiveness-NTU method, chapter 11",
)
EN_1264_FLOOR = Source("EN 1264-2", "basic characteristic curve q = 8.92 · (θ_F − θ_i)^1.1")
EN_12828_VESSEL = Source("EN 12828:2012", "annex D", Standing.FROM_MEMORY)
EN_12831_VENTILATION = Source("EN 12831", "ventilation heat loss", Standing.FROM_MEMORY)
EN_14336_TIGHTNESS = Source(
    "EN 14336", "tightness test at 1.3 times the highest working pressure", Standing.FROM_MEMORY
)
EN_442 = Source("EN 442-2", "characteristic equation of a radiator")
EN_673_GLAZING = Source("EN 673:2011", "multiple glazing", Standing.FROM_MEMORY)
FIN = Source(
    "Bergman, Lavine, Incropera, DeWitt: Fundamentals of Heat and Mass Transfer, 7th ed.",
    "section 3.6, straight fin with adiabatic tip",
    Standing.FROM_MEMORY,
)
FIXED_GAS = Source("law of a fixed amount of ideal gas", standing=Standing.OWN)
FLOW_FACTOR = Source("IEC 60534-1", "flow coefficient Kv: m³/h of water at 1 bar", Standing.FROM_MEMORY)
GEOMETRY = Source("geometry", standing=Standing.OWN)
HEAT_BALANCE = Source("balance of heat", standing=Standing.OWN)
HYDROSTATICS = Source("hydrostatics, standard acceleration of free fall 9.80665 m/s²", standing=Standing.OWN)
IAPWS_IF97_SATURATION = Source("IAPWS R7-97(2012)", "region 4, equations 30 and 31")
ISA_PRESSURE = Source("ISO 2533:1975, standard atmosphere", "", Standing.FROM_MEMORY)
ISO_10133_AMPACITY = Source("ISO 10133", "table A.1 with its factors", Standing.FROM_MEMORY)
ISO_11855_RESISTANCE = Source("ISO 11855-2", "resistance method, pipes in a bed", Standing.FROM_MEMORY)
ISO_12241 = Source("ISO 12241:2008", "pipes: convection and radiation at the surface", Standing.FROM_MEMORY)
ISO_13788_GLASER = Source("ISO 13788:2012", "clause 6, interstitial condensation", Standing.FROM_MEMORY)
ISO_13788_SATURATION = Source("ISO 13788:2012", "saturation pressure of water vapour", Standing.FROM_MEMORY)
ISO_13788_SURFACE = Source("ISO 13788:2012", "clause 5, surface humidity", Standing.FROM_MEMORY)
ISO_6946_AIR_LAYERS = Source("ISO 6946:2007", "table 2")
ISO_6946_COMBINED = Source("ISO 6946:2017", "combined method", Standing.FROM_MEMORY)
ISO_6946_LAYERS = Source("ISO 6946:2017", "homogeneous layers")
ISO_6946_WIND = Source("ISO 6946:2017", "annex C", Standing.FROM_MEMORY)
LARGER_OF_BOTH_SETS = Source("larger of the pure and the inhibited data set", standing=Standing.OWN)
LOG_MEAN_DIFFERENCE = Source("logarithmic mean temperature difference")
LUMPED_CAPACITY = Source("warming of one lumped heat capacity, closed form of any heat transfer textbook")
MAKERS_TABLE = Source("maker's table of the valve")
JANSEN = Source(
    "Jansen: Analysis of variance designs for model output, Computer Physics Communications 117 (1999)",
    "estimator of the total index",
    Standing.FROM_MEMORY,
)
JCGM_101 = Source(
    "JCGM 101:2008, propagation of distributions using a Monte Carlo method", standing=Standing.FROM_MEMORY
)
MASS_BALANCE = Source("balance of mass: what the coolant weighs does not change", standing=Standing.OWN)
MIXING_BALANCE = Source("balance of volumes poured together", standing=Standing.OWN)
NPSH = Source("definition of net positive suction head")
OHM = Source("Ohm's law", standing=Standing.OWN)
ORIFICE = Source("discharge through a sharp-edged opening, Δp = ρ/2 · (q_V/(C_d · A))²")
PLANE_TO_CYLINDER = Source(
    "view factor from a small plane to a parallel cylinder, radius over distance of the axes"
)
RAOULT = Source("Raoult's law for an ideal mixture, less an allowance", standing=Standing.OWN)
SALTELLI = Source(
    "Saltelli and others: Variance based sensitivity analysis, Computer Physics Communications 181 (2010)",
    "estimator of the first-order index",
    Standing.FROM_MEMORY,
)
SCALD_TIMES = Source(
    "Moritz and Henriques, American Journal of Pathology 23 (1947)",
    "times of adult skin, as printed on a public page",
)
SUDDEN_CHANGE = Source(
    "Borda-Carnot; Rennels and Hudson, Pipe Flow (2012)", "sudden expansion and contraction"
)
TRANSITION_CUBIC = Source(
    "Hagen-Poiseuille; Colebrook 1939; cubic between them in the form of Dunlop 1991",
    "as given in the EPANET 2.2 User Manual, analysis algorithms",
)
UNIT_SIMILARITY = Source(
    "similarity of flow in one unit: pressure drop as density, flow and viscosity in powers of one exponent",
    standing=Standing.OWN,
)
VALVE_CHARACTERISTIC = Source("IEC 60534-2-4", "inherent characteristics of valves", Standing.FROM_MEMORY)
TODINI_PILATI = Source(
    "Todini, Pilati: A gradient algorithm for the analysis of pipe networks, 1988",
    "flows and heads together",
    Standing.FROM_MEMORY,
)
