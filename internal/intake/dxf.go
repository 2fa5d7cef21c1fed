package intake

import (
	"bytes"
	"math"
	"strings"

	"springrib/internal/plane"
)

// ReadDXF reads a DXF drawing in text form, R12 to R2018 (DXF Reference, sections
// "HEADER", "TABLES", "BLOCKS", "ENTITIES").
func ReadDXF(data []byte, opt Options) (Drawing, error) {
	checkOptions(opt)
	if err := checkSize(data); err != nil {
		return Drawing{}, err
	}
	if isBinaryDXF(data) {
		return Drawing{}, binaryDXF()
	}
	data = utf8Text(data)
	if bytes.IndexByte(data, 0) >= 0 {
		return Drawing{}, refuse(NotText, "The file is not text.")
	}
	r := dxfReader{
		groups: groups{data: data},
		layers: map[string]layer{}, blocks: map[string]*block{},
	}
	if err := r.read(); err != nil {
		return Drawing{}, err
	}
	read := r.notes
	d := Drawing{Format: DXF, Units: r.units(opt)}
	var err error
	if d.Items, err = r.draw(d.Units); err != nil {
		return Drawing{}, err
	}
	if d.Units.Stated && (implausible(d.Items) || r.notes.count[noteFar] > read.count[noteFar]) {
		r.notes = read
		d.Units = askedUnits(d.Units, opt)
		if d.Items, err = r.draw(d.Units); err != nil {
			return Drawing{}, err
		}
	}
	d.finish(&r.notes, opt)
	return d, nil
}

// draw draws the entities in mm.
func (r *dxfReader) draw(u Units) ([]Item, error) {
	k := 25.4 / u.PerInch
	x := expander{
		layers: r.layers, blocks: r.blocks, notes: &r.notes,
		elements: MaxElements, work: maxWork, pen: pen{room: MaxSegments},
	}
	err := x.all(r.entities, placed{m: plane.Scale(k, k)})
	x.prune()
	r.notes.add(noteMany, x.left)
	return x.items, err
}

// implausible tells of items that no sheet holds: over 100 m or under a tenth of a
// millimetre. A file that makes them so has its unit wrong.
func implausible(items []Item) bool {
	b := Bounds(items)
	size := math.Max(b.W(), b.H())
	return size > 1e5 || size < 0.1 && size > 0
}

// layer is a row of the table of layers.
type layer struct {
	colour      colour
	off, frozen bool
}

// block is a named group of entities with the point that is put where it is inserted.
type block struct {
	base     plane.Point
	entities []entity
}

type dxfReader struct {
	groups
	insUnits int // $INSUNITS
	lUnits   int // $LUNITS
	layers   map[string]layer
	blocks   map[string]*block
	entities []entity
	notes    notes
	count    int // entities read
	vertices int // points read
	buf      []pair
}

// key is the form in which names of layers and blocks are compared: DXF doesn't
// tell capitals apart.
func key(name string) string { return strings.ToUpper(name) }

func (r *dxfReader) read() error {
	sections := 0
	for {
		p, ok, err := r.next()
		switch {
		case err != nil:
			return err
		case !ok && sections == 0:
			return refuse(UnknownFormat, "The file is not a DXF drawing.")
		case !ok:
			return nil // the mark of the end is often missing
		case p.code != 0:
			continue
		case string(p.value) == "EOF":
			return nil
		case string(p.value) != "SECTION":
			continue
		}
		sections++
		name, ok, err := r.next()
		if err != nil || !ok {
			return err
		}
		switch string(name.value) {
		case "HEADER":
			err = r.header()
		case "TABLES":
			err = r.tables()
		case "BLOCKS":
			err = r.blockSection()
		case "ENTITIES":
			r.entities, err = r.list("ENDSEC")
		}
		if err != nil {
			return err
		}
	}
}

// header looks for the unit. Groups before the first variable don't matter.
func (r *dxfReader) header() error {
	name := ""
	for {
		p, ok, err := r.next()
		if err != nil || !ok || p.code == 0 {
			return err
		}
		if p.code == 9 {
			name = string(p.value[:min(len(p.value), 40)])
		} else if f := (figures{list: []pair{p}}); p.code == 70 && name == "$INSUNITS" {
			r.insUnits = f.int(70, 0)
		} else if p.code == 70 && name == "$LUNITS" {
			r.lUnits = f.int(70, 0)
		}
	}
}

// tables reads the layers.
func (r *dxfReader) tables() error {
	for {
		p, ok, err := r.next()
		if err != nil || !ok || p.code == 0 && string(p.value) == "ENDSEC" {
			return err
		}
		if p.code != 0 || string(p.value) != "LAYER" {
			continue
		}
		if r.buf, err = r.rest(r.buf[:0]); err != nil {
			return err
		}
		f := figures{list: r.buf}
		c := f.int(62, 7)
		l := layer{colour: colour{index: c}, off: c < 0, frozen: f.int(70, 0)&1 != 0}
		if c < 0 {
			l.colour.index = -c
		}
		if f.has(420) {
			l.colour = colour{rgb: f.int(420, 0), exact: true}
		}
		if len(r.layers) >= MaxElements {
			return refuse(TooMany, "The drawing has more than %d layers.", MaxElements)
		}
		r.layers[key(f.text(2))] = l
	}
}

func (r *dxfReader) blockSection() error {
	for {
		p, ok, err := r.next()
		if err != nil || !ok || p.code == 0 && string(p.value) == "ENDSEC" {
			return err
		}
		if p.code != 0 || string(p.value) != "BLOCK" {
			continue
		}
		if r.buf, err = r.rest(r.buf[:0]); err != nil {
			return err
		}
		f := figures{list: r.buf}
		b := &block{base: plane.Pt(f.float(10, 0), f.float(20, 0))}
		name := key(f.text(2))
		if len(r.blocks) >= MaxElements {
			return refuse(TooMany, "The drawing has more than %d blocks.", MaxElements)
		}
		if b.entities, err = r.list("ENDBLK"); err != nil {
			return err
		}
		if !f.spoilt(&r.notes) {
			r.blocks[name] = b
		}
	}
}

// colour of an entity: an index of the standard palette, or exact.
type colour struct {
	index int // 0 is the block's, 256 the layer's
	rgb   int
	exact bool
}

const (
	byBlock = 0
	byLayer = 256
)

func (c colour) hex() string {
	if c.exact {
		return rgb(c.rgb>>16&255, c.rgb>>8&255, c.rgb&255)
	}
	return rgb(palette(c.index))
}

// palette returns a colour of the standard palette of 255. Black stands for 7, which
// is drawn black or white, whatever shows. Colours 10 to 249 go round the hues in 24
// steps of 15 degrees; in each step five brightnesses, pure and half as strong. The
// shades are from memory and serve only to tell items apart.
func palette(index int) (r, g, b int) {
	switch {
	case index < 1 || index > 255 || index == 7:
		return 0, 0, 0
	case index < 7:
		on := [7][3]int{1: {255, 0, 0}, 2: {255, 255, 0}, 3: {0, 255, 0}, 4: {0, 255, 255}, 5: {0, 0, 255}, 6: {255, 0, 255}}[index]
		return on[0], on[1], on[2]
	case index == 8:
		return 128, 128, 128
	case index == 9:
		return 192, 192, 192
	case index >= 250:
		grey := [6]int{51, 80, 105, 130, 190, 255}[index-250]
		return grey, grey, grey
	}
	value := [5]float64{255, 165, 127, 76, 38}[index%10/2]
	hue := float64(index/10-1) / 4 // in sixths of the circle
	part := func(shift float64) int {
		// The usual tent: full for two sixths, rising and falling over one.
		d := math.Abs(math.Mod(hue+shift, 6) - 3)
		x := math.Max(0, math.Min(1, d-1))
		if index%2 == 1 {
			x = (1 + x) / 2
		}
		return int(value * x)
	}
	return part(0), part(4), part(2)
}
