"""Conductivities and vapour factors of the material table against EN 12524, ISO 10456, CIBSE and ASHRAE.

EN 12524:2000 and the ASHRAE tables are read from the open library ``ht``, which carries them.
"""

import pytest
from ht.insulation import ASHRAE, building_materials

from dossier.data.materials import material, materials

EN_12524 = {
    "steel": "Metals, steel",
    "stainless_steel": "Metals, stainless steel",
    "cast_iron": "Metals, iron, cast",
    "aluminium": "Metals, aluminium alloys",
    "copper": "Metals, copper",
    "bronze": "Metals, bronze",
    "brass": "Metals, brass",
    "lead": "Metals, lead",
    "zinc": "Metals, zinc",
    "oak": "Timber, 700 kg/m^3",
    "teak": "Timber, 700 kg/m^3",
    "iroko": "Timber, 700 kg/m^3",
    "pine": "Timber, 500 kg/m^3",
    "plywood": "Wood, plywood 500 kg/m^3",
    "marine_plywood": "Wood, plywood 700 kg/m^3",
    "particle_board": "Wood, particleboard, 600 kg/m^3",
    "strand_board": "Wood, oriented strand board",
    "fibreboard": "Wood, fibreboard, 600 kg/m^3",
    "acrylic": "Plastics, polymethylmethacrylate (PMMA)",
    "polycarbonate": "Plastics, polycarbonates",
    "pvc": "Plastics, Polyvinylchloride (PVC)",
    "polyethylene": "Plastics, polyethylene / polythene, high density",
    "epoxy": "Plastics, epoxy resin",
    "polyester_resin": "Plastics, polyester resin",
    "polyethylene_foam": "Sealant, polyethylene foam",
    "cork": "Floor covering, underlay, cork",
    "felt": "Floor covering, underlay, felt",
    "carpet": "Floor covering, carpet / textile flooring",
    "linoleum": "Floor covering, Linoleum",
    "rubber": "Floor covering, rubber",
    "plastic_floor": "Floor covering, plastic",
    "gypsum": "Gypsum, plasterboard",
    "cement_board": "Wood, cement-bonded particleboard",
    "concrete": "Concrete, high density",
    "ferrocement": "Concrete, reinforced with 2% steel",
    "bitumen": "Bitumen, pure",
    "bitumen_sheet": "Bitumen, felt or sheet",
    "glass": "Glass, soda lime",
}


@pytest.mark.parametrize("name", EN_12524)
def test_density_conductivity_and_specific_heat_of_en_12524(name):
    """EN 12524:2000 by ``ht.insulation.building_materials``: density, conductivity, specific heat."""
    ours = material(name)
    assert (ours.density, ours.conductivity, ours.specific_heat) == building_materials[EN_12524[name]]


def test_cork_tiles_conduct_a_thousand_times_less_than_one_library_says():
    """EN 12524:2000 has 0.065 W/mK; ``ht`` lists 65."""
    assert building_materials["Floor covering, tiles, cork"][1] == 65
    assert material("cork_tiles").conductivity == 0.065


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("mineral_wool", "Mineral wool, felted, 32 kg/m^3"),
        ("stone_wool", "Mineral wool, felted, 100 kg/m^3"),
        ("eps", "Expanded polystyrene, molded beads"),
        ("sprayed_foam", "Spray-applied Polyurethane foam, 40 kg/m^3"),
        ("cellular_glass", "Cellular glass"),
        ("expanded_rubber", "Expanded rubber"),
        ("cellulose", "Loose fill, Cellulosic"),
        ("oak", "Oak"),
        ("ash", "Ash"),
        ("pine", "Southern yellow pine"),
        ("larch", "Douglas fir/larch"),
        ("cedar", "Western red cedar"),
        ("glass_wool", "Glass-fiber batts, 90 mm"),
    ],
)
def test_conductivity_of_ashrae(name, row):
    """ASHRAE Handbook of Fundamentals by ``ht.insulation.ASHRAE``; products of one kind scatter by 15 %."""
    assert material(name).conductivity == pytest.approx(ASHRAE[row][2], rel=0.15)


@pytest.mark.parametrize(
    ("name", "conductivity", "scatter"),
    [
        ("steel", 45, 0.25),
        ("copper", 384, 0.1),
        ("brass", 110, 0.1),
        ("glass", 1.05, 0.1),
        ("rubber", 0.17, 0.1),
        ("expanded_rubber", 0.032, 0.1),
        ("pvc_foam", 0.035, 0.1),
        ("closed_cell_foam", 0.028, 0.1),
        ("sprayed_foam", 0.028, 0.1),
        ("pir", 0.030, 0.1),
        ("phenolic_foam", 0.040, 0.1),
    ],
)
def test_conductivity_of_cibse(name, conductivity, scatter):
    """CIBSE Guide A, tables 3.36-3.37, public excerpt."""
    assert material(name).conductivity == pytest.approx(conductivity, rel=scatter)


@pytest.mark.xfail(
    strict=True,
    reason="CIBSE lists pure aluminium, 230 W/mK; hulls are of the alloys of EN 12524, 160 W/mK",
)
def test_conductivity_of_aluminium_by_cibse():
    assert material("aluminium").conductivity == pytest.approx(230, rel=0.25)


def test_conductivity_of_glass_fibre_polyester():
    """Draft of EN 12524 on a public page: 0.40 W/mK at 1900 kg/m3."""
    assert (material("grp").conductivity, material("grp").density) == (0.40, 1900)


@pytest.mark.parametrize(
    ("name", "factor"),
    [
        ("acrylic", 50000),
        ("polycarbonate", 5000),
        ("pvc", 50000),
        ("spruce", 50),
        ("oak", 200),
        ("plywood", 200),
        ("marine_plywood", 220),
        ("mineral_wool", 1),
        ("eps", 60),
        ("xps", 150),
        ("closed_cell_foam", 60),
        ("phenolic_foam", 50),
        ("cellular_glass", 1e6),
    ],
)
def test_vapour_factor_of_iso_10456(name, factor):
    """ISO 10456:2007, dry cup, from memory; the plastics EN 12524 on a public page."""
    assert material(name).vapour_factor == factor


@pytest.mark.parametrize("name", materials())
def test_every_material_lies_within_what_materials_are(name):
    """Common practice, no source: between silica aerogel and silver, between foam and lead."""
    ours = material(name)
    assert 0.012 <= ours.conductivity <= 430
    assert 5 <= ours.density <= 11400
    assert 100 <= ours.specific_heat <= 2500
    assert 1 <= ours.vapour_factor_wet <= ours.vapour_factor <= 1e6
    assert ours.source
