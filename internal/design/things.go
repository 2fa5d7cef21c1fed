package design

// Thing is a ready beginning: a kind of thing that one may want to make, as an invented
// design that is sound as it stands.
type Thing struct {
	ID   string
	Name string // "Shade"
	This string // what its button makes: "this shade"
	// Says names the figures of Fields in a few words.
	Says string
	// Fields are the three or four figures that matter, in the order to ask them.
	Fields []ThingField
	Stands bool // on its edge, its scores upright
	Design Document
}

// ThingField is a figure of a thing: its path in the document, and a short name.
type ThingField struct {
	Path  string `json:"path"`
	Label string `json:"label"`
	Kind  Kind   `json:"kind"` // Length, Angle or Count
}

// Things returns what stands on the shelf of a new design. It is no part of the core: the
// page's builder has it worked out.
func Things() []Thing {
	return []Thing{
		{"shade", "Shade", "this shade", "radius, turn, height", []ThingField{{"curve.radius", "Radius", Length}, {"curve.angle", "Turn", Angle}, {"panel.width", "Height", Length}}, true, shade()},
		{"tray", "Tray", "this tray", "span, depth, width", []ThingField{{"curve.span", "Span", Length}, {"curve.rise", "Depth", Length}, {"panel.width", "Width", Length}}, false, tray()},
		{"arch", "Arch", "this arch", "span, rise, depth", []ThingField{{"curve.span", "Span", Length}, {"curve.rise", "Rise", Length}, {"panel.width", "Depth", Length}}, false, arch()},
		{"screen", "Screen", "this screen", "two radii, height", []ThingField{{"curve.pieces.0.radius", "First radius", Length}, {"curve.pieces.1.radius", "Second radius", Length}, {"panel.width", "Height", Length}}, true, screen()},
		{"fin", "Fin on a rib", "this fin", "bend, foot, tip", []ThingField{{"curve.radius", "Bend", Length}, {"panel.footWidth", "Foot", Length}, {"panel.tipWidth", "Tip", Length}, {"panel.quantity", "How many", Count}}, false, fin()},
		{"apron", "Apron by saw", "this apron", "radius, turn, height, blade", []ThingField{{"curve.radius", "Radius", Length}, {"curve.angle", "Turn", Angle}, {"panel.width", "Height", Length}, {"machine.scoreWidth", "Blade", Length}}, true, apron()},
		{"cone", "Cone", "this cone", "head, foot, height", []ThingField{{"curve.small", "Head, across", Length}, {"curve.large", "Foot, across", Length}, {"curve.rimHeight", "Height", Length}}, true, cone()},
		{"skin", "Two unlike ribs", "this panel", "two radii, turn, distance", []ThingField{{"curve.radius", "Near radius", Length}, {"curve.farRadius", "Far radius", Length}, {"curve.angle", "Turn", Angle}, {"curve.apart", "Rib to rib", Length}}, false, unlike()},
		{"box", "Wrapped box", "this box", "length, width, corners, height", []ThingField{{"curve.boxWidth", "Length", Length}, {"curve.boxHeight", "Width", Length}, {"curve.corner", "Corners", Length}, {"panel.width", "Height", Length}}, true, box()},
		{"outline", "Outline drawn elsewhere", "this outline", "your SVG or DXF", []ThingField{{"panel.drawnLength", "Length", Length}, {"curve.span", "Span", Length}, {"curve.rise", "Rise", Length}}, false, outline()},
	}
}

// begun starts a thing: an example without a name of its own.
func begun(from Document) Document {
	from.Notes = "Readings and depths are made up; cut a depth strip of your own sheet first."
	return from
}

func shade() Document {
	d := begun(harbourLamp())
	d.Name = "Shade"
	d.Rib.FootDepth, d.Rib.TipDepth = "45", "30" // stiff enough for larger ones too
	return d
}

func tray() Document {
	d := begun(readingTray())
	d.Name = "Tray"
	d.Curve.Span, d.Curve.Rise = "300", "40"
	d.Panel = Empty().Panel
	d.Panel.Width, d.Panel.Finish, d.Panel.Passes = "160", "gloss", "2"
	d.Rib.Side, d.Rib.Stock, d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = Round, "same", "40", "34", "2"
	return d
}

func arch() Document {
	d := begun(onMDF("Arch"))
	d.Curve.Kind, d.Curve.Span, d.Curve.Rise = SpanRise, "260", "58"
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "20", "20", "0"
	d.Panel.Width = "150"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "28", "28", "2"
	return d
}

func screen() Document {
	d := begun(onMDF("Screen"))
	d.Curve.Kind = Chain
	d.Curve.Pieces = []Piece{{Turn: "over", Length: "150", Radius: "190"}, {Turn: "over", Length: "130", Radius: "105"}}
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "25", "25", "0"
	d.Panel.Width = "180"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "28", "24", "2"
	return d
}

func fin() Document {
	d := begun(onMDF("Fin"))
	d.Curve.Radius, d.Curve.Angle = "140", "70"
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "25", "25", "0"
	d.Panel.Shape, d.Panel.Edges, d.Panel.FootWidth, d.Panel.TipWidth = Taper, "one", "70", "30"
	d.Rib.FootDepth, d.Rib.TipDepth = "30", "15"
	return d
}

func apron() Document {
	d := begun(invented("Apron"))
	d.Sheet.Stock, d.Sheet.Grain = "birch-6", "across"
	d.Machine.Tool, d.Machine.Reference, d.Machine.Depths, d.Machine.Bottom = "saw", "table", []string{"1.2"}, "flat"
	d.Machine.ScoreWidth = "1.8" // the thinnest that a table saw takes: common practice, no source
	d.Curve.Radius, d.Curve.Angle = "450", "60"
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "60", "60", "0"
	d.Panel.Width, d.Panel.Finish = "90", "hidden"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "50", "50", "2"
	return d
}

func cone() Document {
	d := begun(deskShade())
	d.Name = "Cone"
	return d
}

func unlike() Document {
	d := begun(boathouseArch())
	d.Name = "Panel"
	return d
}

func box() Document {
	d := begun(lanternCase())
	d.Name = "Box"
	d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = "150", "120", "52"
	return d
}

func outline() Document {
	d := begun(onMDF("Outline"))
	d.Curve.Kind, d.Curve.Span, d.Curve.Rise = SpanRise, "240", "50"
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "25", "25", "0"
	d.Panel.Shape = "drawn"
	d.Panel.Drawn = Drawing{Source: "visor.svg", Outline: "M0 -40C90 -75 220 -75 310 -40L310 40C220 75 90 75 0 40Z"}
	d.Panel.DrawnLength = "320.8" // all of the curve
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "28", "20", "2"
	return d
}
