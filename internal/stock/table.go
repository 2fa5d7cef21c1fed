package stock

import (
	"slices"
	"sync"
)

// Sources, written once. Where it says "from memory" the table itself was not open.
const (
	woodHandbook = "Wood Handbook FPL-GTR-190 (2010), chapter 12, Table 12-1"
	species      = "Wood Handbook FPL-GTR-190 (2010), chapter 5, Table 5-3"
	ratios       = "Wood Handbook FPL-GTR-190 (2010), chapter 5, Table 5-1, from memory, confidence fair"
	en622        = "EN 622-5:2009, Table 3, from memory, confidence high"
	ec5          = "EN 1995-1-1, Table 3.2, from memory, confidence high"
	finnish      = "Handbook of Finnish Plywood (Finnish Forest Industries Federation, 2007), from memory, confidence fair"
	derived      = "bending strength over bending modulus, nominal"
	laminated    = "plies added by their second moment from veneer figures"
	low          = "from memory, confidence low: within a factor of two"
	fair         = "from memory, confidence fair"
	high         = "from memory, confidence high"
	practice     = "common practice, no source"
)

func fig(v, lo, hi float64, source string, g Grade) Figure { return Figure{v, lo, hi, source, g} }

// All returns every stock, in the order in which a list should show them.
func All() []Stock { return slices.Clone(table()) }

// table makes the table once: the figures of a ply take their reckoning.
var table = sync.OnceValue(func() []Stock {
	return []Stock{
		mdf("mdf-3", "MDF 3 mm", 3, thinFaces),
		mdf("mdf-6", "MDF 6 mm", 6, fig(1.15, 1, 1.3, faces, Computed)),
		hardboard(),
		birch("birch-3", "Birch plywood 3 mm", 3, []float64{1, 1, 1}, 0.25),
		birch("birch-4", "Birch plywood 4 mm", 4, []float64{1.3, 1.4, 1.3}, 0.4),
		birch("birch-6", "Birch plywood 6 mm", 6, []float64{1.05, 1.3, 1.3, 1.3, 1.05}, 0.4),
		basswood(), acrylic(), greyboard(), rigidPVC(),
	}
})

// Faces of about 1000 kg/m³ and a core of 600 to 700 (read of thick board, see package hinge),
// a modulus that goes as the density or as its square (that it rises with density: Ganev and
// others, as below, abstract) and a parabola between: 1.15 to 1.3 times the modulus in bending.
const faces = "1.15 to 1.3 from densities of 1000 at the face and 650 kg/m³ inside"

var thinFaces = fig(1.10, 1, 1.25, faces+"; thin board is nearer to even, from memory, confidence low", MemoryLow)

func mdf(id, name string, t float64, face Figure) Stock {
	return Stock{
		ID: id, Name: name, Family: Fibreboard, Face: face,
		Thickness: fig(t, t-0.2, t+0.2, "EN 622-1, tolerance +-0.2 mm, from memory, confidence high", MemoryOK),
		EAlong:    fig(3590, 2700, 4300, woodHandbook+"; lower end EN 622-5 over 4 to 6 mm", Published),
		MORAlong:  fig(35.85, 23, 45, woodHandbook+"; lower end "+en622, Published),
		// Boards miss their grade: of five plants' boards of one grade two met the strength
		// (Dettmer & Smith, BioResources 10(3) 6032-6043, 2015), hence the lower end.
		RuptureAlong: fig(0.010, 0.0075, 0.014, derived+" ("+woodHandbook+")", Computed),
		GInPlane:     fig(1380, 800, 1600, "E/(2(1+nu)); lower end EN 12369-1:2001 for MDF.LA, from memory, confidence fair", Computed),
		// Ganev, Gendron, Cloutier & Beauregard, Wood Fiber Sci. 37(2) 314-326 (2005), order
		// E1 >> G13 > E3; their numbers were not seen, and the ratios .07 and .055 of E
		// lie in the middle of what the law was checked with.
		EZ:           fig(250, 100, 400, "0.07 E, "+low, MemoryLow),
		GXZAlong:     fig(200, 80, 300, "0.055 E, "+low, MemoryLow),
		NuXY:         fig(0.30, 0.25, 0.33, fair, MemoryMid),
		NuXZ:         fig(0.30, 0.20, 0.40, low, MemoryLow),
		Density:      fig(750, 700, 880, woodHandbook+" and a maker's sheet for thin board", Published),
		InternalBond: fig(0.65, 0.32, 1.2, en622+"; lower end ANSI A208.2-2009, Table 2, grade 210", MemoryOK),
		KDef1:        fig(2.25, 2.25, 2.25, ec5, MemoryOK),
		KDef2:        fig(3, 3, 3, ec5, MemoryOK),
		Notes: []string{
			"MDF dust is fine and carries resin: extract it and wear a mask that fits.",
		},
		BeamNotes: []string{
			"Laser fumes hold formaldehyde and other irritants. Extract outdoors; a filter that blows back into the room does not stop the gases.",
		},
	}
}

func hardboard() Stock {
	return Stock{
		ID: "hardboard-3", Name: "Hardboard 3 mm", Family: Fibreboard,
		Thickness:    fig(3, 2.8, 3.3, high, MemoryOK),
		EAlong:       fig(4310, 3100, 5520, woodHandbook+", middle and ends of its range", Published),
		MORAlong:     fig(43.8, 31.02, 56.54, woodHandbook+", middle and ends of its range", Published),
		RuptureAlong: fig(0.0102, 0.0075, 0.014, derived+" ("+woodHandbook+")", Computed),
		GInPlane:     fig(1660, 1200, 2100, "E/(2(1+nu))", Computed),
		EZ:           fig(300, 150, 600, "0.07 E, "+low, MemoryLow),
		GXZAlong:     fig(240, 120, 480, "0.055 E, "+low, MemoryLow),
		NuXY:         fig(0.30, 0.25, 0.35, fair, MemoryMid),
		NuXZ:         fig(0.30, 0.20, 0.40, low, MemoryLow),
		Density:      fig(950, 900, 1000, woodHandbook, Published),
		InternalBond: fig(0.8, 0.5, 1.3, low, MemoryLow),
		KDef1:        fig(2.25, 2.25, 2.25, ec5+", HB.LA", MemoryOK),
		KDef2:        fig(3, 3, 3, ec5+", HB.HLA", MemoryOK),
		Notes: []string{
			"One face may carry a mesh: measure the thickness between flat jaws.",
		},
		BeamNotes: []string{"Hardboard chars and smokes more than MDF. Extract outdoors."},
	}
}

// birch builds a birch plywood from its plies. Veneer along its grain: 14 GPa between
// paper birch (11.0) and what the Finnish tables imply (17.5); across: E_T/E_L 0.050.
func birch(id, name string, t float64, plies []float64, tol float64) Stock {
	s := ply(plies, veneer{
		el: fig(14000, 11000, 17500, species+", yellow and paper birch; upper end "+finnish, Published),
		et: fig(700, 400, 1100, ratios, MemoryMid),
		// Strength of the clear wood; the strain is kept below its MOR/MOE of .0082 at the
		// low end because AC 43.13-1B allows 0.4-0.5 % to unscored aircraft plywood.
		mor: fig(110, 75, 130, species+", yellow birch 114, paper birch 85", Published), strain: fig(0.0082, 0.005, 0.0115, derived+" ("+species+", yellow birch)", Computed),
		ez: fig(900, 500, 1300, "0.065 E along the grain, "+ratios, MemoryMid), glr: fig(950, 500, 1300, "0.068 E along the grain, "+ratios, MemoryMid), grt: fig(240, 120, 400, "0.017 E along the grain, "+ratios, MemoryMid),
	})
	s.ID, s.Name = id, name
	s.Thickness = fig(t, t-tol, t+0.2, "nominal; sanded sheets run thin, "+fair, MemoryMid)
	s.Density = fig(660, 600, 720, fair, MemoryMid)
	s.InternalBond = fig(1.5, 0.8, 3, low, MemoryLow)
	return s
}

func basswood() Stock { return basswoodOf([]float64{0.5, 0.5, 0.5}) }

func basswoodOf(plies []float64) Stock {
	s := ply(plies, veneer{
		el:  fig(10100, 8500, 11500, species+", American basswood", Published),
		et:  fig(270, 170, 450, "0.027 E along the grain, "+ratios, MemoryMid),
		mor: fig(60, 45, 70, species+", American basswood, "+high, MemoryOK), strain: fig(0.0060, 0.0045, 0.009, derived+" ("+species+")", Computed),
		ez: fig(470, 250, 670, "between E_T and E_R, "+ratios, MemoryMid), glr: fig(570, 350, 700, "0.056 E along the grain, "+ratios, MemoryMid), grt: fig(120, 60, 220, low, MemoryLow),
	})
	s.ID, s.Name = "basswood-1.5", "Basswood plywood 1.5 mm"
	s.Thickness = fig(1.5, 1.35, 1.65, practice, Practice)
	s.Density = fig(450, 380, 520, fair, MemoryMid)
	s.InternalBond = fig(1.0, 0.5, 2, low, MemoryLow)
	return s
}

// veneer holds the figures of one ply in its own directions.
type veneer struct{ el, et, mor, strain, ez, glr, grt Figure }

// ply returns what follows from the plies for any plywood.
func ply(plies []float64, v veneer) Stock {
	var along, cross [3]float64
	for i, e := range [3][2]float64{{v.el.Value, v.et.Value}, {v.el.Low, v.et.Low}, {v.el.High, v.et.High}} {
		along[i], cross[i] = Laminate(plies, e[0], e[1])
	}
	source := laminated + "; " + v.el.Source
	share := along[0] / v.el.Value
	return Stock{
		Family: Plywood, Grain: true, Plies: plies,
		EAlong:   fig(along[0], along[1], along[2], source, Computed),
		ECross:   fig(cross[0], cross[1], cross[2], source, Computed),
		MORAlong: Figure{v.mor.Value * share, v.mor.Low * share, v.mor.High * share, laminated + "; " + v.mor.Source, Computed},
		// Bent across its face grain the cross plies carry: their outer fibre lies nearer the
		// middle. A factor of two either way covers what that leaves out.
		MORCross:     fig(v.mor.Value*cross[0]/v.el.Value*1.5, v.mor.Low*cross[0]/v.el.Value, v.mor.High*cross[0]/v.el.Value*3, low, MemoryLow),
		RuptureAlong: v.strain,
		RuptureCross: fig(0.010, 0.005, 0.016, "strain across the grain of a veneer, "+low, MemoryLow),
		GInPlane:     fig(650, 450, 800, fair, MemoryMid),
		EZ:           v.ez, GXZAlong: v.glr, GXZCross: v.grt,
		NuXY:  fig(0.08, 0.03, 0.20, "cross plies hold it low, "+low, MemoryLow),
		NuXZ:  fig(0.40, 0.30, 0.50, ratios, MemoryMid),
		KDef1: fig(0.8, 0.8, 0.8, ec5, MemoryOK),
		KDef2: fig(1, 1, 1, ec5, MemoryOK),
		Notes: []string{"Plywood holds cured resin in its glue lines: extract the dust where it is made."},
		BeamNotes: []string{
			"Glue lines burn at another rate than the veneer, so that a laser's depth jumps there. Cut a depth strip of this very sheet.",
			"Extract the fumes of plywood outdoors.",
		},
	}
}

func acrylic() Stock {
	return Stock{
		ID: "acrylic-3", Name: "Cast acrylic 3 mm", Family: Plastic,
		Thickness:    fig(3, 2.6, 3.4, "cast sheet varies by about a tenth, "+fair, MemoryMid),
		EAlong:       fig(3000, 2760, 3300, "cast PMMA sheet data, ISO 178 and ISO 527; lower end UFGS 4-159-01, Table 3-1", Published),
		MORAlong:     fig(115, 97, 120, "cast PMMA sheet data, ISO 178; lower end UFGS 4-159-01, Table 3-1", Published),
		RuptureAlong: fig(0.035, 0.02, 0.05, "flexural strength over modulus; lower end elongation by UFGS 4-159-01, Table 3-1", Computed),
		GInPlane:     fig(1095, 1000, 1200, "E/(2(1+nu))", Computed),
		EZ:           fig(3000, 2760, 3300, "the same in every direction", Computed),
		GXZAlong:     fig(1095, 1000, 1200, "E/(2(1+nu))", Computed),
		NuXY:         fig(0.37, 0.35, 0.40, high, MemoryOK),
		NuXZ:         fig(0.37, 0.35, 0.40, high, MemoryOK),
		Density:      fig(1190, 1180, 1200, "PMMA sheet data", Published),
		InternalBond: fig(8, 4, 15, "solvent joint, "+low, MemoryLow),
		Sustained:    fig(0.0033, 0.0025, 0.005, "long-term design stress near 10 MPa over the modulus, low authority", MemoryLow),
		BeamNotes:    []string{"Acrylic flares while it is cut. Stay with the machine, air assist on, a wet cloth and an extinguisher at hand."},
		Notes: []string{
			"Scored acrylic held in a bend crazes with time, sooner with solvent or cleaner on it.",
		},
	}
}

func greyboard() Stock {
	return Stock{
		ID: "greyboard-2", Name: "Greyboard 2 mm", Family: Paper, Grain: true,
		Thickness: fig(2, 1.9, 2.1, practice, Practice),
		EAlong:    fig(3000, 2000, 4000, low, MemoryLow), ECross: fig(1500, 900, 2200, "half of the machine direction, "+low, MemoryLow),
		MORAlong: fig(33, 20, 45, low, MemoryLow), MORCross: fig(20, 12, 30, low, MemoryLow),
		RuptureAlong: fig(0.011, 0.007, 0.02, low, MemoryLow), RuptureCross: fig(0.014, 0.008, 0.03, low, MemoryLow),
		GInPlane: fig(800, 500, 1200, low, MemoryLow),
		EZ:       fig(60, 25, 120, low, MemoryLow),
		GXZAlong: fig(90, 40, 180, low, MemoryLow), GXZCross: fig(70, 30, 140, low, MemoryLow),
		NuXY: fig(0.3, 0.15, 0.4, low, MemoryLow), NuXZ: fig(0.1, 0, 0.3, low, MemoryLow),
		Density:      fig(650, 600, 700, low, MemoryLow),
		InternalBond: fig(0.25, 0.12, 0.5, low, MemoryLow),
		BeamNotes:    []string{"Board catches fire and glows on after the beam has gone. Stay with the machine and wait before the next layer."},
		Notes: []string{
			"Board rolls more easily about a line along its grain: bend two strips to find which way that is.",
		},
	}
}

func rigidPVC() Stock {
	return Stock{
		ID: "pvc-3", Name: "Rigid PVC 3 mm (not for the laser)", Family: Plastic,
		Thickness:    fig(3, 2.8, 3.2, fair, MemoryMid),
		EAlong:       fig(3000, 2500, 3400, fair, MemoryMid),
		MORAlong:     fig(85, 70, 100, fair, MemoryMid),
		RuptureAlong: fig(0.04, 0.025, 0.08, fair, MemoryMid),
		GInPlane:     fig(1090, 900, 1250, "E/(2(1+nu))", Computed),
		EZ:           fig(3000, 2500, 3400, "the same in every direction", Computed),
		GXZAlong:     fig(1090, 900, 1250, "E/(2(1+nu))", Computed),
		NuXY:         fig(0.38, 0.35, 0.42, fair, MemoryMid), NuXZ: fig(0.38, 0.35, 0.42, fair, MemoryMid),
		Density:      fig(1400, 1350, 1450, fair, MemoryMid),
		InternalBond: fig(8, 4, 15, "solvent joint, "+low, MemoryLow),
		Laser:        Laser{Never: true, Why: "It holds chlorine. Under a laser it gives off hydrogen chloride, which harms lungs and eats the machine."},
		Notes:        []string{"Saw, mill or knife only. Do not heat it to shape it in a closed room."},
	}
}
