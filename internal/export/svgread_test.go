package export

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"springrib/internal/plane"
)

// A small reader of SVG, written from the SVG 1.1 recommendation and sharing
// nothing with the writer, so that tests see what another program would see.

type svgGroup struct {
	ID, Title, Stroke string
	Paths             []plane.Path // Y up again
}

type svgFile struct {
	Width, Height string
	ViewBox       [4]float64
	Title         string
	Groups        []svgGroup
}

func readSVG(data []byte) (svgFile, error) {
	var f svgFile
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = true
	var stack []string
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return f, nil
		}
		if err != nil {
			return f, err
		}
		switch el := tok.(type) {
		case xml.StartElement:
			stack = append(stack, el.Name.Local)
			if err := f.start(el); err != nil {
				return f, err
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			if len(stack) > 1 && stack[len(stack)-1] == "title" {
				if len(stack) == 2 {
					f.Title += string(el)
				} else {
					f.Groups[len(f.Groups)-1].Title += string(el)
				}
			}
		case xml.ProcInst:
		default:
			return f, fmt.Errorf("unexpected %T", tok)
		}
	}
}

func (f *svgFile) start(el xml.StartElement) error {
	attr := map[string]string{}
	for _, a := range el.Attr {
		attr[a.Name.Local] = a.Value
	}
	switch el.Name.Local {
	case "svg":
		f.Width, f.Height = attr["width"], attr["height"]
		for i, t := range strings.Fields(attr["viewBox"]) {
			f.ViewBox[i], _ = strconv.ParseFloat(t, 64)
		}
	case "g":
		f.Groups = append(f.Groups, svgGroup{ID: attr["id"], Stroke: attr["stroke"]})
	case "path":
		p, err := readPathData(attr["d"], f.ViewBox[3])
		if err != nil {
			return err
		}
		g := &f.Groups[len(f.Groups)-1]
		g.Paths = append(g.Paths, p)
	case "title", "desc":
	default:
		return fmt.Errorf("unexpected element %s", el.Name.Local)
	}
	return nil
}

// readPathData reads the absolute commands M, L, A, C and Z.
func readPathData(d string, height float64) (plane.Path, error) {
	var p plane.Path
	fields := strings.Fields(d)
	next := func() float64 {
		v, err := strconv.ParseFloat(fields[0], 64)
		if err != nil {
			panic(err)
		}
		if strings.ContainsAny(fields[0], "eE") || fields[0] == "-0" {
			panic("not a plain decimal: " + fields[0])
		}
		fields = fields[1:]
		return v
	}
	point := func() plane.Point { x := next(); return plane.Pt(x, height-next()) }
	var start, at plane.Point
	for len(fields) > 0 {
		cmd := fields[0]
		fields = fields[1:]
		switch cmd {
		case "M":
			start = point()
			at = start
			continue
		case "L":
			p.Segs = append(p.Segs, plane.Segment{A: at, B: point()})
		case "C":
			p.Segs = append(p.Segs, plane.Segment{Kind: plane.Cubic, A: at, C: point(), D: point(), B: point()})
		case "A":
			rx, ry, rot, large, sweep := next(), next(), next(), next(), next()
			end := point()
			if rx != ry || rot != 0 {
				return p, fmt.Errorf("not circular: %v %v %v", rx, ry, rot)
			}
			// SVG 1.1, appendix F.6.6: a radius too small is grown to half the chord.
			half := math.Min(1, at.Dist(end)/2/rx)
			turn := 2 * math.Asin(half)
			if large == 1 {
				turn = 2*math.Pi - turn
			}
			if sweep == 1 { // clockwise when Y points up
				turn = -turn
			}
			p.Segs = append(p.Segs, plane.Segment{Kind: plane.Arc, A: at, B: end, Bulge: math.Tan(turn / 4)})
		case "Z":
			if at != start {
				p.Segs = append(p.Segs, plane.Segment{A: at, B: start})
			}
			p.Closed = true
			continue
		default:
			return p, fmt.Errorf("unexpected command %q", cmd)
		}
		at = p.Segs[len(p.Segs)-1].B
	}
	return p, nil
}
