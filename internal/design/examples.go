package design

// Example is a ready design. What it shows is invented.
type Example struct {
	ID, Title, About string
	Design           Document
}

// Empty returns what a new design starts from: a laser, 3 mm MDF, and every field left
// to its default but for those that only the maker can fill, the size of the curve and of the panel.
func Empty() Document {
	return Document{
		Format: Format, Version: Version, Units: "mm",
		Sheet:   Sheet{Stock: "mdf-3", Readings: []string{}},
		Machine: Machine{Tool: "laser", Depths: []string{}},
		Curve:   Curve{Kind: RadiusAngle, Line: Contact},
		Panel:   Panel{Shape: Rectangle, ScoredFace: Hollow, ShowFace: Round, Spacing: Follow, Passes: "auto", Finish: "satin", Overrun: "auto"},
		Cut:     Cut{EveryThird: true},
		Rib:     Rib{Side: Hollow, Stock: "same", Foot: Plain, Short: "auto"},
	}
}

// Examples returns designs of a harbour town's reading room that does not exist.
func Examples() []Example {
	return []Example{
		{
			ID: "harbour-lamp", Title: "Harbour lamp (invented)",
			About:  "A shade of 3 mm MDF round a quay lamp: an arc wrapped over two ribs, scored on the hollow side so that nothing shows.",
			Design: harbourLamp(),
		}, {
			ID: "reading-tray", Title: "Reading-room tray (invented)",
			About:  "A tapered strip of 4 mm birch plywood held in a cradle under a shelf: span and rise, scored on the hollow side, the round side seen from below.",
			Design: readingTray(),
		}, {
			ID: "porthole-screen", Title: "Porthole screen (invented)",
			About:  "An oval screen of 3 mm MDF before the lamp of a harbour office: an ellipse with a round hole, bent over two ribs that are cut alike.",
			Design: portholeScreen(),
		}, {
			ID: "chart-rest", Title: "Tide-chart rest (invented)",
			About:  "A rest of 3 mm MDF for a tide chart: a smooth S through five points, scored on one face only. Where the bend turns back its scores open, and the verdict says what nobody knows of that.",
			Design: chartRest(),
		}, {
			ID: "lantern-case", Title: "Lantern case (invented)",
			About:  "A band of 3 mm MDF all round a storm lantern: a box with rounded corners, wrapped on two ribs and lapped at its seam.",
			Design: lanternCase(),
		}, {
			ID: "desk-shade", Title: "Desk shade (invented)",
			About:  "A round shade of 3 mm MDF for a reading desk: a cone on two rings, its scores along the slant, lapped at its seam.",
			Design: deskShade(),
		}, {
			ID: "galley-scoop", Title: "Galley scoop (invented)",
			About:  "A scoop of 3 mm MDF for a ship's galley: little more than half a cone on two ribs, given by its large diameter, slant and lean.",
			Design: galleyScoop(),
		}, {
			ID: "flared-tray", Title: "Flared tray (invented)",
			About:  "The sides of a tray of 3 mm MDF, four alike: a rounded corner, part of a cone, between two straights. They meet in the middle of each side.",
			Design: flaredTray(),
		}, {
			ID: "boathouse-arch", Title: "Boathouse arch (invented)",
			About:  "An arch of 3 mm MDF for a model boathouse that grows narrower toward its back: two ribs of unlike radius, and the one panel that lies on both.",
			Design: boathouseArch(),
		}, {
			ID: "dory-side", Title: "Dory side (invented)",
			About:  "The side of a model dory of 3 mm MDF over five frames. Its end frames bend each in its own way; the three between are cut to the panel that lies on both.",
			Design: dorySide(),
		}, {
			ID: "skylight-well", Title: "Skylight well (invented)",
			About:  "A light well of 3 mm MDF from an oblong opening with rounded corners to a round skylight: two rings of unlike shape, bevelled by hand, one panel all round.",
			Design: skylightWell(),
		},
	}
}

// invented starts an example.
func invented(name string) Document {
	d := Empty()
	d.Name, d.Revision = name, "A"
	d.Notes = "Invented example. Readings and depths are made up; cut a depth strip of your own sheet first."
	return d
}

// onMDF starts an example on 3 mm MDF as one laser scores it.
func onMDF(name string) Document {
	d := invented(name)
	d.Sheet.Readings = []string{"3.02", "3.05", "3.00", "3.04", "3.01"}
	d.Machine.Depths = []string{"1.25", "2.2", "2.55"}
	d.Machine.ScoreWidth, d.Machine.Kerf, d.Machine.DepthSpread = "0.2", "0.18", "0.08"
	return d
}

func harbourLamp() Document {
	d := onMDF("Harbour lamp")
	d.Curve.Radius, d.Curve.Angle = "110", "120"
	// Long enough a straight at both ends for the glue to hold the panel's pull.
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "15", "15", "0"
	d.Panel.Width = "140"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "30", "15", "2"
	return d
}

func readingTray() Document {
	d := invented("Reading-room tray")
	d.Sheet.Stock, d.Sheet.Grain = "birch-4", "across"
	d.Sheet.Readings = []string{"3.92", "3.95", "3.90", "3.94", "3.89"}
	d.Machine.Depths = []string{"1.5", "2.8", "3.05"}
	d.Machine.ScoreWidth, d.Machine.Kerf, d.Machine.DepthSpread = "0.2", "0.2", "0.1"
	d.Curve.Kind, d.Curve.Span, d.Curve.Rise = SpanRise, "320", "40"
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "30", "30", "0"
	d.Panel.Shape = Taper
	d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.WidestAt, d.Panel.TipWidth = "50", "60", "120", "30"
	d.Panel.TipRound = true
	d.Panel.Passes, d.Panel.Finish = "2", "gloss"
	d.Rib.Side, d.Rib.Stock, d.Rib.FootDepth, d.Rib.TipDepth = Round, "birch-6", "40", "24"
	return d
}

func portholeScreen() Document {
	d := onMDF("Porthole screen")
	d.Curve.Kind, d.Curve.Length, d.Curve.Radius = LengthRadius, "170", "130"
	// The ellipse narrows toward its ends, so that the ribs start well within the straights.
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "40", "40", "0"
	d.Panel.Shape, d.Panel.Width = Ellipse, "170"
	d.Panel.Holes = []Hole{{Kind: RoundHole, Along: "126", Across: "0", Width: "50"}}
	d.Rib.Places = []RibPlace{{Across: "-42"}, {Across: "42"}}
	d.Rib.FootDepth, d.Rib.TipDepth = "32", "24"
	return d
}

func chartRest() Document {
	d := onMDF("Tide-chart rest")
	d.Curve.Kind = Points
	d.Curve.Points = []Point{{X: "0", Y: "0"}, {X: "60", Y: "14"}, {X: "120", Y: "52"}, {X: "180", Y: "90"}, {X: "240", Y: "104"}}
	d.Curve.Foot, d.Curve.Tip, d.Rib.Short = "20", "20", "0"
	d.Panel.Width = "120"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "28", "14", "2"
	return d
}

func deskShade() Document {
	d := onMDF("Desk shade")
	d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = Cone, "130", "165", "115"
	d.Curve.Seam, d.Curve.Lap = "lap", "15"
	for range 2 {
		d.Strips.Readings = append(d.Strips.Readings,
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1.5", Value: "36", Verdict: "held"},
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1.5", Value: "28", Verdict: "broke"})
	}
	d.Panel.Finish = "hidden"
	d.Rib.FootDepth = "18"
	return d
}

func galleyScoop() Document {
	d := deskShade()
	d.Name = "Galley scoop"
	d.Curve = Curve{Kind: ConePart, Rims: BySlant, Large: "180", Slant: "130", Lean: "5", Sweep: "190", Line: Contact}
	d.Curve.Foot, d.Curve.Tip = "20", "20"
	d.Panel.Passes = "3"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "30", "30", "3"
	return d
}

func flaredTray() Document {
	d := deskShade()
	d.Name = "Flared tray"
	d.Curve = Curve{Kind: ConePart, Small: "150", Large: "160", RimHeight: "60", Sweep: "90", Line: Contact}
	d.Curve.Foot, d.Curve.Tip = "40", "40"
	d.Panel.Passes, d.Panel.Quantity = "3", "4"
	d.Rib.FootDepth, d.Rib.TipDepth = "20", "20"
	return d
}

// tested adds bend strips of 3 mm MDF to a design, two held where two broke a little tighter, and has
// its laser score nearly equally deep.
func tested(d Document) Document {
	d.Machine.DepthSpread = "0.06"
	for range 2 {
		d.Strips.Readings = append(d.Strips.Readings,
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1.5", Value: "36", Verdict: "held"},
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1.5", Value: "28", Verdict: "broke"})
	}
	return d
}

func boathouseArch() Document {
	d := tested(onMDF("Boathouse arch"))
	d.Curve = Curve{Kind: RadiusAngle, Radius: "130", Angle: "110", Far: FarArc, FarRadius: "100", Apart: "150", Foot: "30", Tip: "30", Line: Contact}
	d.Panel.Passes, d.Panel.Finish = "2", "hidden"
	d.Rib.FootDepth, d.Rib.TipDepth = "30", "30"
	return d
}

func dorySide() Document {
	d := tested(onMDF("Dory side"))
	d.Curve = Curve{Kind: Chain, Far: Chain, Apart: "240", FarUp: "15", Foot: "30", Tip: "30", Line: Contact}
	d.Curve.Pieces = []Piece{{Turn: Over, Length: "90", Radius: "260"}, {Turn: Over, Length: "120", Radius: "110"}}
	d.Curve.FarPieces = []Piece{{Turn: Over, Length: "60", Radius: "120"}, {Turn: Over, Length: "77.1", Radius: "82.31"}}
	d.Panel.Finish = "hidden"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "30", "24", "5"
	return d
}

func skylightWell() Document {
	d := tested(onMDF("Skylight well"))
	d.Curve = Curve{Kind: Box, BoxWidth: "170", BoxHeight: "140", Corner: "60", Far: Oval, FarWidth: "124", FarHeight: "124", Apart: "100", Seam: "lap", Lap: "25", Line: Contact}
	d.Panel.Finish = "hidden"
	d.Rib.FootDepth, d.Rib.Edge = "18", Bevel
	return d
}

func lanternCase() Document {
	d := onMDF("Lantern case")
	d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = Box, "150", "110", "45"
	d.Curve.Seam, d.Curve.Lap = "lap", "20"
	// Corners this tight need a sheet whose strips have been bent, and scores nearly equally deep.
	d.Machine.DepthSpread = "0.06"
	for range 2 {
		d.Strips.Readings = append(d.Strips.Readings,
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1", Value: "26", Verdict: "held"},
			Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1", Value: "20", Verdict: "broke"})
	}
	d.Panel.Width, d.Panel.Finish = "90", "hidden"
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Quantity = "28", "14", "2"
	return d
}
