package export

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"math"
	"slices"

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
	c := &canvas{w: w, h: h, img: image.NewRGBA(image.Rect(0, 0, w, h)), cover: make([]uint8, w*h)}
	for i := range c.img.Pix {
		c.img.Pix[i] = 0xff
	}
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
	var b bytes.Buffer
	// A third of the time for a file half as large again.
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, c.img); err != nil {
		panic(err) // a bytes.Buffer takes everything and the size is sound
	}
	return withResolution(b.Bytes(), k)
}

// withResolution returns a PNG with the chunk that says how many pixels a metre has, which
// the library doesn't write (PNG, W3C Recommendation 2003, 11.3.5.3, pHYs). It stands behind
// the header, which is 25 bytes after the 8 of the signature.
func withResolution(file []byte, perMM float64) []byte {
	const head = 8 + 25
	chunk := []byte("\x00\x00\x00\x09pHYs")
	n := uint32(math.Round(1000 * perMM))
	for range 2 { // across and down
		chunk = binary.BigEndian.AppendUint32(chunk, n)
	}
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return slices.Concat(file[:head], chunk, file[head:])
}

// canvas draws lines with soft edges. Coverage is gathered for all strokes of one
// colour first, so that joints and crossings are not painted twice.
type canvas struct {
	w, h  int
	img   *image.RGBA
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
		pix := c.img.Pix[4*i:]
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
