package design

import (
	"springrib/internal/unit"
)

func cutFields() []Field {
	fields := []Field{
		{Path: "name", Label: "Name of the design", Kind: Text, text: "Untitled", Help: "It goes on the files and on the bench sheet."},
		{Path: "revision", Label: "Revision", Kind: Text, Help: "So that two prints can be told apart."},
		{Path: "notes", Label: "Notes", Kind: Text, More: true, Help: "Anything worth keeping with the design."},
		{Path: "cut.gap", Label: "Between parts", Kind: Length, Min: 0, Max: 500, preset: byTool(3, 8, 10, 3), Help: "Sound sheet left between two parts."},
		{Path: "cut.margin", Label: "Free along the edge of the bed", Kind: Length, Min: 0, Max: 500, preset: practice(5),
			Help: "For clamps, and for the sheet's rough edge."},
		{Path: "cut.everyThird", Label: "Score every third line, in three sweeps", Kind: Check,
			Help: "No line is run beside one that is still hot, and the sheet lifts less."},
		{Path: "cut.repeatLayers", Label: "Write each pass as a layer of its own", Kind: Check, More: true,
			Help: "For machines that run every layer once; the whole layer cools between passes."},
		{Path: "cut.travelSpeed", Label: "Speed between strokes", Kind: Speed, Min: 1, Max: 5000, preset: practice(200), More: true,
			Help: "For the estimate of time."},
		{Path: "cut.sheetPrice", Label: "Price of a whole sheet", Kind: Number, Min: 0, Max: 1e6, preset: always(0), More: true, job: true,
			Help: "Of the panel's stock, of the size of the bed; leave it empty for no price."},
		{Path: "cut.hourPrice", Label: "Price of a machine hour", Kind: Number, Min: 0, Max: 1e6, preset: always(0), More: true,
			Help: "Leave it empty for no price."},
		{Path: "cut.currency", Label: "Currency", Kind: Text, More: true, Help: "Written before a price."},
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
		{Path: "cut.curves", Label: "Free curves in DXF files", Kind: Choose, text: "arcs", More: true,
			Choices: []Choice{{"arcs", "As arcs: one closed line around each part"}, {"splines", "As splines: smoother, but in loose pieces"}},
			Help:    "Arcs stay within 0.005 mm of the curve, and every reader takes them.", into: func(v *Values, r reading) { v.Cut.Splines = r.text == "splines" }},
		{Path: "cut.paper", Label: "Paper", Kind: Choose, text: "auto", More: true,
			Choices: []Choice{{"auto", "As the unit goes: A4 with millimetres, Letter with inches"}, {"a4", "A4"}, {"letter", "Letter"}},
			Help:    "For templates in tiles and for the bench sheet.",
			into: func(v *Values, r reading) {
				v.Cut.Letter = r.text == "letter" || r.text == "auto" && v.Units == unit.Inch
			}},
	}
}

// operationFields returns the fields of operation i. The colours are from M. Okabe & K.
// Ito, "Color Universal Design (CUD)", 2008: told apart with any colour vision.
func operationFields(i int) []Field {
	id := OperationIDs()[i]
	name := [...]string{"1 score", "2 mark", "3 inner cuts", "4 outer cuts"}[i]
	what := [...]string{"Scores", "Marks", "Inner cuts", "Outer cuts"}[i]
	colour := [...]string{"#E69F00", "#56B4E9", "#009E73", "#CC79A7"}[i]
	path := "cut.operations." + id + "."
	layers, passes, speed := "", always(1), "not known; its time is left out"
	if id == "score" {
		layers, passes, speed = "one layer, run as often as planned", nil, "as on the machine card"
	}
	return []Field{
		{Path: path + "name", Label: what + " are called", Kind: Text, text: name, More: true, Help: "The name of the group or layer in the file."},
		{Path: path + "colour", Label: what + " are drawn in", Kind: Colour, text: colour, More: true, Help: "Your machine tells operations apart by it."},
		{Path: path + "passes", Label: what + ": layers in the file", Kind: Count, Min: 1, Max: 40, preset: passes, More: true,
			Help: "Each pass can be a layer of its own, for a machine that runs a layer once.", Auto: layers},
		{Path: path + "speed", Label: what + ": speed", Kind: Speed, Min: 0.1, Max: 5000, More: true, Help: "For the time the job takes.", Auto: speed,
			into: func(v *Values, r reading) {
				v.Cut.Operations[i].Speed = r.num
				if !r.typed && id == "score" {
					v.Cut.Operations[i].Speed = v.Machine.Speed
				}
			}},
	}
}
