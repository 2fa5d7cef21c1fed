package export

// The AutoCAD colour index, the numbered palette that DXF layers have had from the
// start: 1 to 9 named colours and greys, 10 to 249 a wheel of 24 hues with five
// brightnesses at full and half saturation, 250 to 255 greys.
//
// The wheel is rebuilt here from its rule; the values agree with the table in the
// ezdxf library (M. Moitzi), which a test compares.

// aci returns the colour of index i, 1 to 249.
func aci(i int) RGB {
	if i < 10 {
		return [...]RGB{1: {255, 0, 0}, 2: {255, 255, 0}, 3: {0, 255, 0}, 4: {0, 255, 255}, 5: {0, 0, 255},
			6: {255, 0, 255}, 7: {255, 255, 255}, 8: {128, 128, 128}, 9: {192, 192, 192}}[i]
	}
	bright := [...]int{255, 165, 127, 76, 38}[i%10/2]
	dim := i % 2 * bright / 2
	// A hue of 15 degree steps is a quarter of the way between two corners of the
	// colour hexagon.
	quarter := i/10 - 1
	rise := dim + (bright-dim)*(quarter%4)/4
	fall := dim + (bright-dim)*(4-quarter%4)/4
	b, d, r, f := uint8(bright), uint8(dim), uint8(rise), uint8(fall)
	switch quarter / 4 {
	case 0:
		return RGB{b, r, d}
	case 1:
		return RGB{f, b, d}
	case 2:
		return RGB{d, b, r}
	case 3:
		return RGB{d, f, b}
	case 4:
		return RGB{r, d, b}
	}
	return RGB{b, d, f}
}

// nearestACI returns the index closest to c that is not in taken, so that two
// operations never share a number. Index 7 is drawn black on white paper and white
// on a dark screen and stands for both. Ties go to the lower index.
func nearestACI(c RGB, taken map[int]bool) int {
	best, bestD := 0, 0
	for i := 1; i < 250; i++ {
		if taken[i] {
			continue
		}
		d := colourDistance(c, aci(i))
		if i == 7 {
			d = min(d, colourDistance(c, RGB{}))
		}
		if best == 0 || d < bestD {
			best, bestD = i, d
		}
	}
	return best
}

func colourDistance(a, b RGB) int {
	r, g, bl := int(a.R)-int(b.R), int(a.G)-int(b.G), int(a.B)-int(b.B)
	return r*r + g*g + bl*bl
}
