package plan

import (
	"math"
	"testing"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
)

// FuzzOutline types corners, holes and places of ribs. Whatever it is, the plan comes to
// findings with a place or to one sound outline on which every score lies.
func FuzzOutline(f *testing.F) {
	f.Add("polygon", "flat", "0 -40 5;120 -50 0;130 40 10;0 45 2", "round 60 0 20 0 0;slot 90 10 6 30 45", "0", "0", "-10;10", "0", "0")
	f.Add("polygon", "seen", "0 0;100 100;100 0;0 100", "", "5", "-3", "", "", "")
	f.Add("polygon", "flat", "0 0;0 0;1 1", "round 1e9 0 1", "-1e9", "1/0", "a;b", "", "")
	f.Add("ellipse", "seen", "", "slot 50 0 10 200 90", "40", "0", "30", "20", "20")
	f.Add("lens", "flat", "", "", "0", "0", "", "29.9", "59")
	f.Add("sector", "flat", "", "round 5 0 3", "0", "0", "2", "170", "0")
	f.Add("rectangle", "seen", "", "", "-30", "0", "59.5", "60", "")
	f.Fuzz(func(t *testing.T, shape, view, corners, holes, along, across, ribs, a, b string) {
		d := archDesign()
		p := &d.Panel
		p.Shape, p.View, p.Along, p.Across = shape, view, along, across
		p.CornerRadius, p.FootRadius, p.TipRadius, p.InnerRadius, p.SectorAngle, p.Length = a, a, b, b, a, b
		for _, r := range rows(corners) {
			p.Corners = append(p.Corners, design.Corner{Along: r[0], Across: r[1], Radius: r[2]})
		}
		for _, r := range rows(holes) {
			p.Holes = append(p.Holes, design.Hole{Kind: r[0], Along: r[1], Across: r[2], Width: r[3], Length: r[4], Turn: r[5]})
		}
		for _, r := range rows(ribs) {
			d.Rib.Places = append(d.Rib.Places, design.RibPlace{Across: r[0], Thickness: r[1], Foot: r[2]})
		}
		v, found := design.Read(d)
		if finding.Worst(found) == finding.Stop || v.Panel.Width > 3000 || v.Panel.Length.V > 3000 {
			return
		}
		made := Make(v)
		for _, g := range made.Findings {
			if g.Place == (finding.Place{}) && g.ID != "no-room" {
				t.Fatalf("%s has no place: %s", g.ID, g.Text)
			}
		}
		if !made.Drawn {
			if finding.Worst(made.Findings) != finding.Stop {
				t.Fatalf("neither drawn nor stopped: %+v", made.Findings)
			}
			return
		}
		for _, k := range part.Faults(made.Outline.Region, 0) {
			t.Fatalf("%+v of %+v", k, d.Panel)
		}
		for _, s := range made.Panel.Flat.Segments {
			if m := s.A.Lerp(s.B, 0.49); s.A.Dist(s.B) > 0.1 && !made.Panel.Flat.Outline.Contains(m) {
				t.Fatalf("score %d outside at %v: %+v", s.Score, m, d.Panel)
			}
		}
		for _, s := range made.Supports.All {
			for _, x := range []float64{s.Task.Start, s.Task.End, s.Hold.RibUse, s.Hold.Peel.Use, s.Mark.To, s.Mark.Gap, made.Strength.Hold.EndForce} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%v: %+v of %+v", x, s.Hold, d.Panel)
				}
			}
		}
	})
}

// rows splits "a b c;d e" into rows of six texts, at most a dozen.
func rows(text string) [][6]string {
	var out [][6]string
	var row [6]string
	n, any := 0, false
	flush := func() {
		if any && len(out) < 12 {
			out = append(out, row)
		}
		row, n, any = [6]string{}, 0, false
	}
	for _, c := range text {
		switch {
		case c == ';':
			flush()
		case c == ' ':
			n++
		case n < len(row):
			row[n] += string(c)
			any = true
		}
	}
	flush()
	return out
}
