package export

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"math"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// PNGOptions are the choices of a picture.
type PNGOptions struct {
	// PerMM is how many pixels a millimetre has; 0 takes what makes the longer side
	// pngSide. It is lowered where the picture would be larger than pngLargest.
	PerMM float64
}

const (
	pngSide    = 2000 // pixels
	pngLargest = 6000 // pixels a side: 144 MB while it is drawn
)

// PNG returns job as a picture on white, operations in their colours: to look at or
// to send, not to cut from.
//
// Lines are drawn by their distance from each pixel, with plain arithmetic, so that
// the bytes are the same on every machine.
func PNG(job cut.Job, o PNGOptions) []byte {
	long := max(Round(job.Width), Round(job.Height), 1)
	k := o.PerMM
	if k <= 0 {
		k = pngSide / long
	}
	k = min(k, pngLargest/long)
	w, h := max(1, int(math.Ceil(job.Width*k-1e-9))), max(1, int(math.Ceil(job.Height*k-1e-9)))
	c := &canvas{w: w, h: h, pix: bytes.Repeat([]byte{0xff}, 3*w*h), cover: make([]uint8, w*h)}
	// Y is flipped here and nowhere else: pixels count from the top.
	m := plane.Translate(0, job.Height*k).Mul(plane.Scale(k, -k))
	c.strokes([]cut.Stroke{{Path: sheetEdge(job)}}, m, 1, Grey(200))
	for _, op := range job.Operations {
		width := max(1, 0.25*k)
		if op.Kind == cut.Inner || op.Kind == cut.Outer {
			width = max(1.5, 0.4*k)
		}
		c.strokes(op.Strokes, m, width, operationColour(op))
	}
	return c.file(k)
}

// file writes what is drawn as PNG: its four chunks, 8 bits a colour, each row as its
// difference from the one above (PNG, W3C Recommendation 2003, 5.3, 11.2 and 11.3.5.3). The
// standard library's writer brings its reader along and leaves out how many pixels a metre has.
func (c *canvas) file(perMM float64) []byte {
	const up = 2 // the filter of a row
	var rows bytes.Buffer
	// A third of the time for a file half as large again.
	z, err := zlib.NewWriterLevel(&rows, zlib.BestSpeed)
	if err != nil {
		panic(err) // the level is sound
	}
	row := make([]byte, 1+3*c.w)
	row[0] = up
	for y := range c.h {
		for i := range 3 * c.w {
			row[1+i] = c.pix[3*c.w*y+i]
			if y > 0 {
				row[1+i] -= c.pix[3*c.w*(y-1)+i]
			}
		}
		z.Write(row) // a bytes.Buffer takes everything
	}
	z.Close()
	words := func(ws ...uint32) (out []byte) {
		for _, w := range ws {
			out = binary.BigEndian.AppendUint32(out, w)
		}
		return out
	}
	perMetre := uint32(math.Round(1000 * perMM))
	const bits, colours, metre = 8, 2, 1
	out := []byte("\x89PNG\r\n\x1a\n")
	for _, chunk := range []struct {
		name string
		data []byte
	}{
		{"IHDR", append(words(uint32(c.w), uint32(c.h)), bits, colours, 0, 0, 0)},
		{"pHYs", append(words(perMetre, perMetre), metre)},
		{"IDAT", rows.Bytes()},
		{"IEND", nil},
	} {
		out = append(out, words(uint32(len(chunk.data)))...)
		from := len(out)
		out = append(append(out, chunk.name...), chunk.data...)
		out = append(out, words(crc32.ChecksumIEEE(out[from:]))...)
	}
	return out
}

// canvas draws lines with soft edges. Coverage is gathered for all strokes of one
// colour first, so that joints and crossings are not painted twice.
type canvas struct {
	w, h  int
	pix   []uint8 // red, green and blue, row by row from the top
	cover []uint8 // by pixel, 0 to 255
}

// strokes paints strokes, placed by m, with lines of width pixels.
func (c *canvas) strokes(strokes []cut.Stroke, m plane.Affine, width float64, colour RGB) {
	for _, s := range strokes {
		pts := s.Path.Apply(m).Flatten(0.1)
		for i := 1; i < len(pts); i++ {
			c.line(pts[i-1], pts[i], width/2)
		}
	}
	for i, v := range c.cover {
		if v == 0 {
			continue
		}
		c.cover[i] = 0
		pix := c.pix[3*i:]
		pix[0] = blend(pix[0], colour.R, v)
		pix[1] = blend(pix[1], colour.G, v)
		pix[2] = blend(pix[2], colour.B, v)
	}
}

func blend(under, over, cover uint8) uint8 {
	return uint8((int(under)*(255-int(cover)) + int(over)*int(cover) + 127) / 255)
}

// line covers the pixels whose middles are within half of the line from a to b, and
// fades out over one pixel.
func (c *canvas) line(a, b plane.Point, half float64) {
	reach := half + 0.5
	y0, y1 := max(0, int(min(a.Y, b.Y)-reach-0.5)), min(c.h-1, int(max(a.Y, b.Y)+reach))
	v := b.Sub(a)
	l2 := v.Dot(v)
	for y := y0; y <= y1; y++ {
		x0, x1 := columns(a, b, float64(y)+0.5, reach)
		for x := max(0, int(x0-0.5)); x <= min(c.w-1, int(x1)); x++ {
			q := plane.Pt(float64(x)+0.5, float64(y)+0.5)
			f := 0.0
			if l2 > 0 {
				f = min(1, max(0, q.Sub(a).Dot(v)/l2))
			}
			d := gapTo(q, a, v, f)
			if cover := min(1, max(0, reach-d)); cover > 0 {
				i := y*c.w + x
				c.cover[i] = max(c.cover[i], uint8(cover*255+0.5))
			}
		}
	}
}

// columns returns from where to where the line from a to b, reach thick, can meet
// the row at height y.
func columns(a, b plane.Point, y, reach float64) (x0, x1 float64) {
	x0, x1 = min(a.X, b.X)-reach, max(a.X, b.X)+reach
	dy := b.Y - a.Y
	if math.Abs(dy) < 1 {
		return x0, x1
	}
	// The stretch of the line within reach of the row, and its width to both sides.
	slope := (b.X - a.X) / dy
	at, wide := a.X+(y-a.Y)*slope, reach*(1+math.Abs(slope))
	return max(x0, at-wide), min(x1, at+wide)
}

func gapTo(q, a, v plane.Point, f float64) float64 {
	dx, dy := q.X-a.X-f*v.X, q.Y-a.Y-f*v.Y
	return math.Sqrt(dx*dx + dy*dy)
}
