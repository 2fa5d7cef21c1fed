package design

import (
	"math"
	"slices"

	"springrib/internal/machine"
)

func machineFields() []Field {
	laserLike := is("machine.tool", "laser", "router", "knife")
	of := func(v *Values) machine.Setup { return machine.Defaults(v.Machine.Tool, v.Sheet.T) }
	return []Field{
		{Path: "machine.tool", Label: "What cuts", Kind: Choose, text: "laser",
			Choices: []Choice{{"laser", "Laser cutter"}, {"router", "Router"}, {"saw", "Saw"}, {"knife", "Knife or drag blade"}},
			Help:    "It decides how a depth is set and what a score looks like.",
			into: func(v *Values, r reading) {
				v.Machine.Setup = machine.Defaults(machine.Tool(slices.Index(tools[:], r.text)), v.Sheet.T)
			}},
		{Path: "machine.reference", Label: "Depth is set from", Kind: Choose, usual: func(v *Values) string { return references[v.Machine.Reference] },
			Choices: []Choice{{"top", "The top face: type depths"}, {"table", "The table: type the skin left"}},
			Help:    "A laser works down from the top face; a saw or a router zeroed on the table leaves the same skin however thick the sheet.",
			into: func(v *Values, r reading) {
				v.Machine.Reference = machine.Reference(slices.Index(references[:], r.text))
			}},
		{Path: "machine.scoreWidth", Label: "Width of a score at its mouth", Kind: Length, Min: 0.02, Max: 12,
			preset: func(v *Values) float64 { return of(v).ScoreWidth },
			Help:   "Not the same as the width of a through cut; a width strip measures it.",
			into:   func(v *Values, r reading) { v.Machine.ScoreWidth, v.Machine.WidthTyped = r.num, r.typed }},
		{Path: "machine.depths", Label: "Total depth after each pass", Kind: Lengths,
			Help: "From the top face, as in 1.2 2.0 2.35; set from the table, it is the skin left under the score.", list: (*reader).depths},
		{Path: "machine.tested", Label: "Depths and width come from test strips", Kind: Check,
			Help: "Without test strips of this sheet the answer is a guess with a wide range.",
			into: func(v *Values, r reading) {
				v.Machine.Tested = r.on && v.Machine.Typed
				v.Machine.WidthTested = v.Machine.Tested
			}},
		{Path: "machine.depthSpread", Label: "How far a depth may be off", Kind: Length, Min: 0, Max: 3, preset: func(v *Values) float64 { return of(v).DepthSpread },
			More: true,
			Help: "Plus or minus, over the bed and along a line.", into: func(v *Values, r reading) { v.Machine.DepthSpread, v.Machine.SpreadTyped = r.num, r.typed }},
		{Path: "machine.apart", Label: "What of it differs from score to score", Kind: Length, Min: 0.001, Max: 3, More: true, Auto: "seven tenths of it",
			Help: "Plus or minus; five skins of one strip, each measured, tell it.",
			into: func(v *Values, r reading) {
				if r.typed {
					v.Machine.Apart = r.num
				}
			}},
		{Path: "machine.widthSpread", Label: "How far the width of a score may be off", Kind: Length, Min: 0, Max: 3, preset: widthSpread, More: true,
			Help: "Plus or minus; a narrower mouth pinches sooner."},
		{Path: "machine.bottom", Label: "Bottom of the score", Kind: Choose, usual: func(v *Values) string { return bottoms[v.Machine.Bottom] }, More: true,
			Choices: []Choice{{"round", "Round"}, {"flat", "Flat"}, {"vee", "V"}},
			Help:    "A laser's is round, a saw's flat.", into: func(v *Values, r reading) { v.Machine.Bottom = machine.Bottom(slices.Index(bottoms[:], r.text)) }},
		{Path: "machine.kerf", Label: "Width of a through cut", Kind: Length, Min: 0, Max: 12, preset: func(v *Values) float64 { return of(v).Kerf },
			Help: "Half of it is added outside each part and inside each hole."},
		{Path: "machine.bedWidth", Label: "Bed, left to right", Kind: Length, Min: 20, Max: 20000, preset: func(v *Values) float64 { return of(v).BedWidth },
			Help: "The largest sheet the machine takes."},
		{Path: "machine.bedHeight", Label: "Bed, front to back", Kind: Length, Min: 20, Max: 20000, preset: func(v *Values) float64 { return of(v).BedHeight },
			Help: "The largest sheet the machine takes."},
		{Path: "machine.setting", Label: "Setting", Kind: Text, More: true, Help: "Your name for power, speed, focus and air; readings of strips belong to it."},
		{Path: "machine.speed", Label: "Speed while scoring", Kind: Speed, Min: 0.1, Max: 5000, preset: func(v *Values) float64 { return of(v).Speed }, More: true,
			Help: "The depths hold for this speed only."},
		{Path: "machine.acceleration", Label: "Acceleration of the head", Kind: Acceleration, Min: 1, Max: 200000,
			preset: func(v *Values) float64 { return of(v).Acceleration }, More: true, When: laserLike,
			Help: "A head that slows at a line's end burns deeper, so lines run past the edge."},
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

// What the choices of a machine are saved as.
var (
	tools      = [...]string{machine.Laser: "laser", machine.Router: "router", machine.Saw: "saw", machine.Knife: "knife"}
	references = [...]string{machine.Top: "top", machine.Table: "table"}
	bottoms    = [...]string{machine.Round: "round", machine.Flat: "flat", machine.Vee: "vee"}
)
