package intake

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"springrib/internal/plane"
)

// ringSVG is an outline of n points with a hole of half as many, as a program writes
// it that knows polygons only.
func ringSVG(n int) []byte {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="600mm" viewBox="0 0 600 600"><path d="`)
	ring := func(n int, r float64) {
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			w := r * (1 + 0.1*math.Sin(9*a))
			fmt.Fprintf(&b, "%c%.3f %.3f", "ML"[min(i, 1)], 300+w*math.Cos(a), 300+w*math.Sin(a))
		}
		b.WriteString("Z")
	}
	ring(n*2/3, 250)
	ring(n-n*2/3, 120)
	b.WriteString(`"/></svg>`)
	return []byte(b.String())
}

func ringDXF(n int) []byte {
	var b strings.Builder
	b.WriteString("0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\nA\n70\n1\n")
	for i := range n {
		p := plane.Dir(2 * math.Pi * float64(i) / float64(n)).Mul(250 * (1 + 0.1*math.Sin(float64(9*i)/float64(n)*2*math.Pi)))
		fmt.Fprintf(&b, " 10\n%.4f\n 20\n%.4f\n", p.X, p.Y)
	}
	b.WriteString("0\nENDSEC\n0\nEOF\n")
	return []byte(b.String())
}

func sizes() []int { return []int{20_000, 80_000, 320_000} }

func BenchmarkReadSVG(b *testing.B) {
	for _, n := range sizes() {
		data := ringSVG(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := ReadSVG(data, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkReadDXF(b *testing.B) {
	for _, n := range sizes() {
		data := ringDXF(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := ReadDXF(data, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkMend mends an outline in as many pieces as it has points.
func BenchmarkMend(b *testing.B) {
	for _, n := range sizes() {
		d, err := ReadSVG(ringSVG(n), Options{})
		if err != nil {
			b.Fatal(err)
		}
		var pieces []Item
		for _, it := range d.Items {
			for _, s := range it.Path.Segs {
				pieces = append(pieces, Item{Path: plane.Path{Segs: []plane.Segment{s}}})
			}
		}
		b.Run(fmt.Sprint("whole/", n), func(b *testing.B) {
			for b.Loop() {
				Mend(d.Items, 0.1)
			}
		})
		b.Run(fmt.Sprint("pieces/", n), func(b *testing.B) {
			for b.Loop() {
				Mend(pieces, 1e-3)
			}
		})
	}
}

// BenchmarkHostile shows what each hostile file costs; none may take two seconds.
func BenchmarkHostile(b *testing.B) {
	for _, h := range hostileSVG() {
		b.Run("svg/"+h.name, func(b *testing.B) {
			data := []byte(h.file())
			for b.Loop() {
				_, _ = ReadSVG(data, Options{})
			}
		})
	}
	for _, h := range hostileDXF() {
		b.Run("dxf/"+h.name, func(b *testing.B) {
			data := []byte(h.file())
			for b.Loop() {
				_, _ = ReadDXF(data, Options{})
			}
		})
	}
}
