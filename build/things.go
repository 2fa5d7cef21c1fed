package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// shelved is a thing as the page shows it on the shelf of a new design.
type shelved struct {
	ID      string                     `json:"id"`
	Name    string                     `json:"name"`
	This    string                     `json:"this"`
	Says    string                     `json:"says"`
	Fields  []design.ThingField        `json:"fields"`
	Designs map[string]design.Document `json:"designs"`  // by units
	Verdict map[string]wire.Verdict    `json:"verdicts"` // by units
	Turn    float64                    `json:"turn"`     // of the drawing, degrees
	Box     string                     `json:"box"`      // of the drawing, as SVG has it
	Drawing []inked                    `json:"drawing"`  // back to front
}

// inked is a path of a small drawing, with its role.
type inked struct {
	Role string `json:"role"`
	D    string `json:"d"`
}

// makeThings works out what stands on the shelf of a new design, as JSON.
func makeThings() (string, error) {
	var out []shelved
	for _, t := range design.Things() {
		s := shelved{ID: t.ID, Name: t.Name, This: t.This, Says: t.Says, Fields: t.Fields, Designs: map[string]design.Document{}, Verdict: map[string]wire.Verdict{}}
		for _, units := range []string{"mm", "in"} {
			s.Designs[units] = design.Convert(t.Design, units)
			raw, err := json.Marshal(s.Designs[units])
			if err != nil {
				return "", err
			}
			reply, streams, err := answered(wire.Request{Kind: "plan", Design: raw, Show: "isometric", Folded: 1})
			if err != nil {
				return "", err
			}
			var r wire.Reply
			if err := json.Unmarshal(reply, &r); err != nil {
				return "", err
			}
			if r.Plan.Verdict.Severity != "sound" {
				return "", fmt.Errorf("the %s of the shelf is not sound: %s", t.ID, r.Plan.Verdict.Sentence)
			}
			s.Verdict[units] = r.Plan.Verdict
			last := len(r.Plan.Drawings) - 1
			if t.Stands {
				s.Turn = 120 // seen along the diagonal of the axes, that puts the third in the place of the second
			}
			s.Box, s.Drawing = small(r.Plan.Drawings[last].Items, streams[last], s.Turn)
		}
		out = append(out, s)
	}
	text, err := json.Marshal(out)
	return string(text), err
}

// smallWidth and smallHeight are the room of a small drawing, in halves of a pixel; nothing in it is finer than finest.
const (
	smallWidth, smallHeight = 480.0, 340.0
	finest                  = 2
)

// small makes a drawing in space light: a flat of the panel is its convex outline, and
// what no eye could tell apart at this size is left out.
func small(items []wire.Item, stream []float32, turn float64) (box string, out []inked) {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	turned := func(x, y float32) plane.Point {
		return plane.Pt(float64(x)*cos-float64(y)*sin, float64(x)*sin+float64(y)*cos)
	}
	bounds := plane.BoxOf(slices.Concat(runsOf(stream, turned)...)...)
	scale := math.Min(smallWidth/bounds.W(), smallHeight/bounds.H())
	box = fmt.Sprintf("-4 -4 %.0f %.0f", bounds.W()*scale+8, bounds.H()*scale+8)
	for _, item := range items {
		role := item.Role
		runs := runsOf(stream[item.From:item.To], func(x, y float32) plane.Point {
			return turned(x, y).Sub(bounds.Min).Mul(scale)
		})
		path := ""
		switch item.Role {
		case "slot", "flat":
			continue
		case "face", "flank":
			var all []plane.Point
			for _, r := range runs {
				all = append(all, r...)
			}
			path = polygon(hull(all), true)
			if role == "face" {
				role += tone(runsOf(stream[item.From:item.To], func(x, y float32) plane.Point { return plane.Pt(float64(x), float64(y)) }), turn)
			}
		case "score":
			for _, r := range runs {
				path += polygon(r, false)
			}
		case "wall": // a strip of many: the narrow ones together
			for i := 0; i < len(runs); {
				j := i
				for j+1 < len(runs) && len(runs[j]) == 4 && runs[j][1].Sub(runs[j+1][0]).Len() < 0.01 && runs[i][0].Sub(runs[j+1][1]).Len() < 10 {
					j++
				}
				path += polygon(hull(slices.Concat(runs[i:j+1]...)), true)
				i = j + 1
			}
		default:
			for _, r := range runs {
				path += polygon(r, true)
			}
		}
		if path == "" {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Role == role {
			out[n-1].D += path
		} else {
			out = append(out, inked{role, path})
		}
	}
	return box, out
}

// tone is how much light a flat of a panel gets, from " t0", least, to " t4": its profile lies
// in the plane of the first two axes, which are seen at thirty degrees, all three in one
// scale. The light comes from the upper left, before the drawing. The page does the same for
// what it draws anew (site/views/new.ts).
func tone(runs [][]plane.Point, turn float64) string {
	var along plane.Point // of the profile: the chord furthest from the direction of the scores
	const cos30, sin30 = 0.8660254037844386, 0.5
	scores := plane.Pt(cos30, -sin30)
	for _, r := range runs {
		for i, p := range r {
			if d := r[(i+1)%len(r)].Sub(p); math.Abs(d.Unit().Cross(scores)) > math.Abs(along.Unit().Cross(scores))+1e-3 {
				along = d
			}
		}
	}
	x := along.X / cos30
	normal := plane.Pt(along.Y-x*sin30, x).Unit() // of first and second axis, which has Y up
	if normal.X+normal.Y < 0 {
		normal = normal.Mul(-1)
	}
	across, down, near := normal.X/math.Sqrt2, -(2*normal.Y-normal.X)/math.Sqrt(6), (normal.X+normal.Y)/math.Sqrt(3)
	sin, cos := math.Sincos(turn * math.Pi / 180)
	light := -0.54*(across*cos-down*sin) - 0.59*(across*sin+down*cos) + 0.6*near
	return " t" + strconv.Itoa(int(math.Round(4*math.Max(0, math.Min(1, light)))))
}

// hull returns the convex outline of points (Andrew's monotone chain, 1979).
func hull(pts []plane.Point) []plane.Point {
	slices.SortFunc(pts, func(a, b plane.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	var out []plane.Point
	for _, way := range [2]int{1, -1} {
		start := len(out)
		for i := range pts {
			p := pts[i]
			if way < 0 {
				p = pts[len(pts)-1-i]
			}
			for n := len(out); n >= start+2 && out[n-1].Sub(out[n-2]).Cross(p.Sub(out[n-2])) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
	}
	return out
}

// runsOf reads the commands of a drawing as runs of points; curves by their ends and middle.
func runsOf(stream []float32, at func(x, y float32) plane.Point) (runs [][]plane.Point) {
	for i := 0; i < len(stream); {
		n := len(runs) - 1
		switch stream[i] {
		case 0:
			runs = append(runs, []plane.Point{at(stream[i+1], stream[i+2])})
			i += 3
		case 1:
			runs[n] = append(runs[n], at(stream[i+1], stream[i+2]))
			i += 3
		case 2:
			from, a, b, to := runs[n][len(runs[n])-1], at(stream[i+1], stream[i+2]), at(stream[i+3], stream[i+4]), at(stream[i+5], stream[i+6])
			for k := 1.0; k <= 4; k++ {
				t := k / 4
				u := 1 - t
				runs[n] = append(runs[n], from.Mul(u*u*u).Add(a.Mul(3*u*u*t)).Add(b.Mul(3*u*t*t)).Add(to.Mul(t*t*t)))
			}
			i += 7
		default:
			i++
		}
	}
	return runs
}

// polygon writes points, each from the one before, without those that lie within the
// finest distance of the one before.
func polygon(pts []plane.Point, closed bool) string {
	var b strings.Builder
	var last [2]int
	n := 0
	for i, p := range pts {
		at := [2]int{int(math.Round(p.X)), int(math.Round(p.Y))}
		d := [2]int{at[0] - last[0], at[1] - last[1]}
		switch {
		case n == 0:
			b.WriteString("M" + pair(at))
		case max(d[0], -d[0], d[1], -d[1]) < finest && (closed || i < len(pts)-1):
			continue
		case n == 1:
			b.WriteString("l" + pair(d))
		default:
			if d[0] >= 0 {
				b.WriteByte(' ')
			}
			b.WriteString(pair(d))
		}
		last = at
		n++
	}
	if n < 2 {
		return ""
	}
	if closed {
		b.WriteByte('z')
	}
	return b.String()
}

// pair writes two figures; a minus parts them too.
func pair(p [2]int) string {
	if p[1] < 0 {
		return strconv.Itoa(p[0]) + strconv.Itoa(p[1])
	}
	return strconv.Itoa(p[0]) + " " + strconv.Itoa(p[1])
}
