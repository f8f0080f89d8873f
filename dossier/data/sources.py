"""Publications that formulas and tables rest on, in alphabetical order of their names here.

``Standing.SEEN`` is kept for texts that were seen or recalled and then reproduced by an independent library.
"""

from dossier.notation import Source, Standing

ASHRAE_BOILING_POINTS = Source(
    "ASHRAE Handbook of Fundamentals", "freezing and boiling points of aqueous glycols", Standing.FROM_MEMORY
)
ASHRAE_GLYCOL_SHARES = Source(
    "ASHRAE Handbook of Fundamentals 2001", "chapter 21, as carried in the open data files of CoolProp"
)
EN_12828_VESSEL = Source("EN 12828:2012", "annex D", Standing.FROM_MEMORY)
HYDROSTATICS = Source("hydrostatics, with the standard acceleration of free fall 9.80665 m/s²")
IAPWS_IF97_SATURATION = Source("IAPWS R7-97(2012)", "region 4, equations 30 and 31")
ISA_PRESSURE = Source("ISO 2533:1975, standard atmosphere", "", Standing.FROM_MEMORY)
RAOULT = Source("Raoult's law for an ideal mixture")
