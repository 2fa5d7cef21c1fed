package design

import (
	"springrib/internal/machine"
	"springrib/internal/unit"
)

func cutFields() []Field {
	fields := []Field{
		{
			Path: "name", Card: "cut", Label: "Name of the design", Kind: Text, text: "Untitled",
			Help: "It goes on the files and on the bench sheet.",
			into: func(v *Values, r reading) { v.Name = r.text },
		}, {
			Path: "revision", Card: "cut", Label: "Revision", Kind: Text,
			Help: "So that two prints can be told apart.",
			into: func(v *Values, r reading) { v.Revision = r.text },
		}, {
			Path: "notes", Card: "cut", Label: "Notes", Kind: Text, More: true,
			Help: "Anything worth keeping with the design.",
			into: func(v *Values, r reading) { v.Notes = r.text },
		}, {
			Path: "cut.gap", Card: "cut", Label: "Between parts", Kind: Length, Min: 0, Max: 500,
			Help: "Sound sheet left between two parts.",
			preset: func(v *Values) float64 {
				// Common practice, no source.
				return map[machine.Tool]float64{machine.Laser: 3, machine.Router: 8, machine.Saw: 10, machine.Knife: 3}[v.Machine.Tool]
			},
			into: func(v *Values, r reading) { v.Cut.Gap = r.num },
		}, {
			Path: "cut.margin", Card: "cut", Label: "Free along the edge of the bed", Kind: Length, Min: 0, Max: 500,
			Help: "For clamps, and for the sheet's rough edge.", preset: always(5), // common practice, no source
			into: func(v *Values, r reading) { v.Cut.Margin = r.num },
		},
		{
			Path: "cut.everyThird", Card: "cut", Label: "Score every third line, in three sweeps", Kind: Check,
			Help: "No line is run beside one that is still hot, and the sheet lifts less.",
			into: func(v *Values, r reading) { v.Cut.EveryThird = r.on },
		}, {
			Path: "cut.repeatLayers", Card: "cut", Label: "Write each pass as a layer of its own", Kind: Check, More: true,
			Help: "For machines that run every layer once; the whole layer cools between passes.",
			into: func(v *Values, r reading) { v.Cut.RepeatLayers = r.on },
		}, {
			Path: "cut.travelSpeed", Card: "cut", Label: "Speed between strokes", Kind: Speed, More: true, Min: 1, Max: 5000,
			Help: "For the estimate of time.", preset: always(200), // common practice, no source
			into: func(v *Values, r reading) { v.Cut.TravelSpeed = r.num },
		}, {
			Path: "cut.sheetPrice", Card: "cut", Label: "Price of a whole sheet", Kind: Number, More: true, Min: 0, Max: 1e6,
			Help: "Of the panel's stock, of the size of the bed; leave it empty for no price.", preset: always(0),
			into: func(v *Values, r reading) { v.Cut.SheetPrice = r.num },
		}, {
			Path: "cut.hourPrice", Card: "cut", Label: "Price of a machine hour", Kind: Number, More: true, Min: 0, Max: 1e6,
			Help: "Leave it empty for no price.", preset: always(0),
			into: func(v *Values, r reading) { v.Cut.HourPrice = r.num },
		}, {
			Path: "cut.currency", Card: "cut", Label: "Currency", Kind: Text, More: true,
			Help: "Written before a price.",
			into: func(v *Values, r reading) { v.Cut.Currency = r.text },
		},
	}
	fields = append(fields, layFields()...)
	fields = append(fields, fileFields()...)
	for i := range OperationIDs() {
		fields = append(fields, operationFields(i)...)
	}
	return fields
}

// fileFields ask how files are written.
func fileFields() []Field {
	return []Field{
		{
			Path: "cut.curves", Card: "cut", Label: "Free curves in DXF files", Kind: Choose, text: "arcs", More: true,
			Choices: []Choice{{"arcs", "As arcs: one closed line around each part"}, {"splines", "As splines: smoother, but in loose pieces"}},
			Help:    "Arcs stay within 0.005 mm of the curve, and every reader takes them.",
			into:    func(v *Values, r reading) { v.Cut.Splines = r.text == "splines" },
		}, {
			Path: "cut.paper", Card: "cut", Label: "Paper", Kind: Choose, text: "auto", More: true,
			Choices: []Choice{{"auto", "As the unit goes: A4 with millimetres, Letter with inches"}, {"a4", "A4"}, {"letter", "Letter"}},
			Help:    "For templates in tiles and for the bench sheet.",
			into: func(v *Values, r reading) {
				v.Cut.Letter = r.text == "letter" || r.text == "auto" && v.Units == unit.Inch
			},
		},
	}
}

// operationFields returns the fields of operation i. The colours are from M. Okabe & K.
// Ito, "Color Universal Design (CUD)", 2008: told apart with any colour vision.
func operationFields(i int) []Field {
	id := OperationIDs()[i]
	name := [...]string{"1 score", "2 mark", "3 inner cuts", "4 outer cuts"}[i]
	what := [...]string{"Scores", "Marks", "Inner cuts", "Outer cuts"}[i]
	colour := [...]string{"#E69F00", "#56B4E9", "#009E73", "#CC79A7"}[i]
	at := func(v *Values) *OperationValues { return &v.Cut.Operations[i] }
	path := "cut.operations." + id + "."
	passes := Field{
		Path: path + "passes", Card: "cut", Label: what + ": layers in the file", Kind: Count, More: true, Min: 1, Max: 40,
		Help: "Each pass can be a layer of its own, for a machine that runs a layer once.", preset: always(1),
		into: func(v *Values, r reading) { at(v).Passes = int(r.num) },
	}
	if id == "score" {
		passes.Auto = "one layer, run as often as planned"
		passes.preset = nil
	}
	return []Field{
		{
			Path: path + "name", Card: "cut", Label: what + " are called", Kind: Text, More: true, text: name,
			Help: "The name of the group or layer in the file.",
			into: func(v *Values, r reading) { at(v).Name = r.text },
		}, {
			Path: path + "colour", Card: "cut", Label: what + " are drawn in", Kind: Colour, More: true, text: colour,
			Help: "Your machine tells operations apart by it.",
			into: func(v *Values, r reading) { at(v).Colour = r.text },
		}, passes, {
			Path: path + "speed", Card: "cut", Label: what + ": speed", Kind: Speed, More: true, Min: 0.1, Max: 5000,
			Help: "For the time the job takes.", Auto: speedAuto(id),
			into: func(v *Values, r reading) {
				at(v).Speed = r.num
				if !r.typed && id == "score" {
					at(v).Speed = v.Machine.Speed
				}
			},
		},
	}
}

func speedAuto(id string) string {
	if id == "score" {
		return "as on the machine card"
	}
	return "not known; its time is left out"
}
