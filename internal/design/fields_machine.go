package design

import (
	"math"

	"springrib/internal/machine"
)

func machineFields() []Field {
	laserLike := is("machine.tool", "laser", "router", "knife")
	of := func(v *Values) machine.Setup { return machine.Defaults(v.Machine.Tool, v.Sheet.T) }
	return []Field{
		{
			Path: "machine.tool", Card: "machine", Label: "What cuts", Kind: Choose, text: "laser",
			Choices: []Choice{{"laser", "Laser cutter"}, {"router", "Router"}, {"saw", "Saw"}, {"knife", "Knife or drag blade"}},
			Help:    "It decides how a depth is set and what a score looks like.",
			into: func(v *Values, r reading) {
				tool := map[string]machine.Tool{"laser": machine.Laser, "router": machine.Router, "saw": machine.Saw, "knife": machine.Knife}[r.text]
				v.Machine.Setup = machine.Defaults(tool, v.Sheet.T)
			},
		}, {
			Path: "machine.reference", Card: "machine", Label: "Depth is set from", Kind: Choose,
			Choices: []Choice{{"top", "The top face: type depths"}, {"table", "The table: type the skin left"}},
			Help:    "A laser works down from the top face; a saw or a router zeroed on the table leaves the same skin however thick the sheet.",
			into: func(v *Values, r reading) {
				switch r.text {
				case "top":
					v.Machine.Reference = machine.Top
				case "table":
					v.Machine.Reference = machine.Table
				}
			},
		}, {
			Path: "machine.scoreWidth", Card: "machine", Label: "Width of a score at its mouth", Kind: Length, Min: 0.02, Max: 12,
			Help:   "Not the same as the width of a through cut; a width strip measures it.",
			preset: func(v *Values) float64 { return of(v).ScoreWidth },
			into:   func(v *Values, r reading) { v.Machine.ScoreWidth, v.Machine.WidthTyped = r.num, r.typed },
		}, {
			Path: "machine.depths", Card: "machine", Label: "Depth after 1, 2, 3... passes", Kind: Lengths,
			Help: "In all, not each: from the top face, or the skin left when set from the table.",
		}, {
			Path: "machine.tested", Card: "machine", Label: "Depths and width come from test strips", Kind: Check,
			Help: "Without test strips of this sheet the answer is a guess with a wide range.",
			into: func(v *Values, r reading) {
				v.Machine.Tested = r.on && v.Machine.Typed
				v.Machine.WidthTested = v.Machine.Tested
			},
		}, {
			Path: "machine.depthSpread", Card: "machine", Label: "How far a depth may be off", Kind: Length, More: true, Min: 0, Max: 3,
			Help:   "Plus or minus, over the bed and along a line.",
			preset: func(v *Values) float64 { return of(v).DepthSpread },
			into:   func(v *Values, r reading) { v.Machine.DepthSpread, v.Machine.SpreadTyped = r.num, r.typed },
		}, {
			Path: "machine.widthSpread", Card: "machine", Label: "How far the width of a score may be off", Kind: Length, More: true, Min: 0, Max: 3,
			Help:   "Plus or minus; a narrower mouth pinches sooner.",
			preset: widthSpread,
			into:   func(v *Values, r reading) { v.Machine.WidthSpread = r.num },
		}, {
			Path: "machine.bottom", Card: "machine", Label: "Bottom of the score", Kind: Choose, More: true,
			Choices: []Choice{{"round", "Round"}, {"flat", "Flat"}, {"vee", "V"}},
			Help:    "A laser's is round, a saw's flat.",
			into: func(v *Values, r reading) {
				switch r.text {
				case "round":
					v.Machine.Bottom = machine.Round
				case "flat":
					v.Machine.Bottom = machine.Flat
				case "vee":
					v.Machine.Bottom = machine.Vee
				}
			},
		}, {
			Path: "machine.kerf", Card: "machine", Label: "Width of a through cut", Kind: Length, Min: 0, Max: 12,
			Help:   "Half of it is added outside each part and inside each hole.",
			preset: func(v *Values) float64 { return of(v).Kerf },
			into:   func(v *Values, r reading) { v.Machine.Kerf = r.num },
		}, {
			Path: "machine.bedWidth", Card: "machine", Label: "Bed, left to right", Kind: Length, Min: 20, Max: 20000,
			Help:   "The largest sheet the machine takes.",
			preset: func(v *Values) float64 { return of(v).BedWidth },
			into:   func(v *Values, r reading) { v.Machine.BedWidth = r.num },
		}, {
			Path: "machine.bedHeight", Card: "machine", Label: "Bed, front to back", Kind: Length, Min: 20, Max: 20000,
			Help:   "The largest sheet the machine takes.",
			preset: func(v *Values) float64 { return of(v).BedHeight },
			into:   func(v *Values, r reading) { v.Machine.BedHeight = r.num },
		}, {
			Path: "machine.setting", Card: "machine", Label: "Setting", Kind: Text, More: true,
			Help: "Your name for power, speed, focus and air; readings of strips belong to it.",
			into: func(v *Values, r reading) { v.Machine.Setting = r.text },
		}, {
			Path: "machine.speed", Card: "machine", Label: "Speed while scoring", Kind: Speed, More: true, Min: 0.1, Max: 5000,
			Help:   "The depths hold for this speed only.",
			preset: func(v *Values) float64 { return of(v).Speed },
			into:   func(v *Values, r reading) { v.Machine.Speed = r.num },
		}, {
			Path: "machine.acceleration", Card: "machine", Label: "Acceleration of the head", Kind: Acceleration, More: true, When: laserLike, Min: 1, Max: 200000,
			Help:   "A head that slows at a line's end burns deeper, so lines run past the edge.",
			preset: func(v *Values) float64 { return of(v).Acceleration },
			into:   func(v *Values, r reading) { v.Machine.Acceleration = r.num },
		},
	}
}

// widthSpread is the tool's usual spread in proportion to the width. A width strip reads
// to 4 % (package coupon); 7 % either way is nine in ten of that.
func widthSpread(v *Values) float64 {
	w, usual := v.Machine.ScoreWidth, machine.Defaults(v.Machine.Tool, v.Sheet.T)
	if v.Machine.Tested {
		return math.Max(0.01, sized(0.07*w))
	}
	return math.Max(0.01, sized(usual.WidthSpread*w/usual.ScoreWidth))
}

// referenceOf and bottomOf name what a tool does when nobody says otherwise.
func referenceOf(m machine.Setup) string {
	if m.Reference == machine.Table {
		return "table"
	}
	return "top"
}

func bottomOf(m machine.Setup) string {
	return [...]string{machine.Round: "round", machine.Flat: "flat", machine.Vee: "vee"}[m.Bottom]
}
