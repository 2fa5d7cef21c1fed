package main

import (
	"fmt"
	"os"
)

func try2d() {
	dir, _ := os.MkdirTemp("", "reference")
	for i, p := range []float64{0.533, 1.067, 1.333, 2.667} {
		for _, e := range []float64{0, 0.1} {
			c := refCase{name: "x", depth: 0.733, wide: 0.067, gaps: []float64{p}, ez: e, g: 0.06}
			if e == 0 {
				c.g = 0
			}
			m := c.mesh()
			got, err := m.solve(dir, fmt.Sprintf("try%d", i), c)
			fmt.Println(p, e, err, "strain", got.scores[0].strain/2, c.law().Strain(p, 1/p), "mouth", got.scores[0].mouth/2, "m", got.moment/2, got.fibre)
		}
	}
}

func trySizes() {
	dir, _ := os.MkdirTemp("", "reference")
	for _, e := range []float64{0.1} {
		for _, z := range []size{{0.0167, 1, 1.7, 1}, {0.0167, 1, 1.7, .5}, {0.0112, 1, 1.5, .5}, {0.0112, 1, 1.7, .7}, {0.0084, 1, 1.7, .5}, {0.0084, 1, 1.4, .5}} {
			c := solidCase{name: "x", depth: 0.733, wide: 0.067, gap: 0.533, ez: e, g: 0.6 * e, from: 0, to: 1}
			b := c.mesh(z)
			got, err := b.solve(dir, "size")
			fmt.Println(e, z, len(b.cols), len(b.zs), len(b.ids), err, "strain", got)
		}
	}
}

func trySolid(z size, from int) {
	dir, _ := os.MkdirTemp("", "reference")
	defer os.RemoveAll(dir)
	for n, c := range solidCases()[from:] {
		b := c.mesh(z)
		got, err := b.solve(dir, fmt.Sprintf("solid%d", n))
		if err != nil {
			fmt.Println(err)
			continue
		}
		l := c.law()
		fmt.Println(c.name, c.ez, c.gap, "nodes", len(b.ids))
		for _, s := range got {
			p := c.spacing(s.x)
			th := s.folds[0]
			if c.turn == 0 {
				th = 1
			}
			fmt.Printf("x %7.3f p %.3f folds %.5f strain %.4f law %.4f 2p %.4f  mouth %.4f law %.4f y_n %.4f %.4f\n", s.x, p, s.folds, s.strain, l.Strain(p, th/p), l.Strain(2*p, 2*th/(2*p)), s.mouth, th*l.MouthLever(p), l.Neutral(p), s.fibre)
		}
	}
}
