package intake

import (
	"strings"

	"springrib/internal/plane"
)

// ReadSVG reads an SVG drawing (SVG 1.1, Second Edition, and what of SVG 2 and CSS
// programs write).
func ReadSVG(data []byte, opt Options) (Drawing, error) {
	checkOptions(opt)
	if err := checkSize(data); err != nil {
		return Drawing{}, err
	}
	root, err := parseTree(data)
	if err != nil {
		return Drawing{}, err
	}
	r := svgReader{ids: map[string]*node{}, work: maxWork, elements: MaxElements, pen: pen{room: MaxSegments}}
	r.units = svgUnits(root, opt)
	if err := r.index(root); err != nil {
		return Drawing{}, err
	}
	s, ok, err := r.enter(root, r.page(root))
	if ok {
		err = r.svg(root, s, nil)
	}
	if err != nil {
		return Drawing{}, err
	}
	r.prune()
	r.notes.add(noteMany, r.left)
	d := Drawing{Format: SVG, Items: r.items, Page: r.sheet, Units: r.units}
	d.finish(&r.notes, opt)
	return d, nil
}

// svgUnits tells what a user unit of the file measures. Pixels are no answer:
// programs have put 72, 90 and 96 of them to the inch.
func svgUnits(root *node, opt Options) Units {
	for _, a := range []string{"width", "height"} {
		l, _, _ := parseLength(root.get(a))
		if _, ok := perInch(l.unit); ok && l.value > 0 {
			return Units{Stated: true, Name: l.unit, PerInch: pxPerInch}
		}
	}
	u := Units{PerInch: opt.PerInch, Choices: []Choice{
		{Label: "96 units to the inch (the SVG standard)", PerInch: pxPerInch},
		{Label: "90 units to the inch (some older programs)", PerInch: 90},
		{Label: "72 units to the inch (points)", PerInch: 72},
		{Label: "1 unit is 1 mm", PerInch: 25.4},
	}}
	if u.PerInch == 0 {
		u.PerInch = u.Choices[0].PerInch
	}
	return u
}

type svgReader struct {
	units Units
	ids   map[string]*node
	css   sheet
	notes notes
	pen   pen
	sheet plane.Box
	keeper
	using []*node // what is being drawn through use, outermost first
	shape int     // drawn elements so far
	wrong bool    // a figure of the element being read could not be

	elements, work int // what may still be done
}

// index finds the elements that have an id and reads the style elements, which
// hold for the whole file wherever they stand.
func (r *svgReader) index(n *node) error {
	if id := n.get("id"); id != "" && r.ids[id] == nil {
		r.ids[id] = n
	}
	if n.name == "style" {
		nested, err := r.css.parse(string(n.text))
		if err != nil {
			return err
		}
		if nested > 0 {
			r.notes.add(noteSelector, nested)
		}
	}
	for _, c := range n.children {
		if err := r.index(c); err != nil {
			return err
		}
	}
	return nil
}

// scope is what an element takes over from those around it.
type scope struct {
	m                    plane.Affine // to mm, Y up
	view                 viewport
	stroke, fill, colour string
	hidden               bool
	layer                string
	rank                 int // how sure layer is: see layerOf
	depth                int
}

// page returns the scope outside the root: the viewport in pixels, its lower left
// corner at the origin.
func (r *svgReader) page(root *node) scope {
	s := scope{view: viewport{300, 150}, fill: "#000000", colour: "#000000"} // CSS 2.1, 10.3.2
	box, hasBox := parseViewBox(root.get("viewBox"))
	w, okW := r.sizeOf(root, "width")
	h, okH := r.sizeOf(root, "height")
	switch {
	case okW && okH:
		s.view = viewport{w, h}
	case hasBox && okW && box.w > 0:
		s.view = viewport{w, w * box.h / box.w}
	case hasBox && okH && box.h > 0:
		s.view = viewport{h * box.w / box.h, h}
	case hasBox:
		s.view = viewport{box.w, box.h}
	}
	k := 25.4 / r.units.PerInch
	s.m = plane.Affine{k, 0, 0, -k, 0, s.view.h * k}
	r.sheet = plane.Box{Max: plane.Pt(s.view.w*k, s.view.h*k)}
	return s
}

// sizeOf reads an absolute length of the root.
func (r *svgReader) sizeOf(root *node, name string) (float64, bool) {
	l, ok, _ := parseLength(root.get(name))
	if !ok || l.unit == "%" {
		return 0, false
	}
	v, ok := l.user(r.units.PerInch, viewport{}, alongX)
	return v, ok && v > 0
}

// spend takes n from the work that may still be done.
func (r *svgReader) spend(n int) error {
	if r.work -= n; r.work < 0 {
		return refuse(TooMany, "The file repeats so much that it can't be read in a sensible time.")
	}
	return nil
}

// walk draws n and what is in it.
func (r *svgReader) walk(n *node, s scope) error {
	if r.elements--; r.elements < 0 {
		return refuse(TooMany, "With its repeated parts the drawing has more than %d elements.", MaxElements)
	}
	if s.depth++; s.depth > MaxDepth {
		return refuse(TooDeep, "Groups and repeated parts are nested more than %d deep.", MaxDepth)
	}
	switch n.name {
	case "text":
		r.notes.add(noteText, 1)
		return nil
	case "image":
		r.notes.add(noteImage, 1)
		return nil
	case "foreignObject":
		r.notes.add(noteForeign, 1)
		return nil
	case "g", "a", "switch", "svg", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon":
	default: // definitions, descriptions, animation
		return nil
	}
	s, ok, err := r.enter(n, s)
	if !ok {
		return err
	}
	switch n.name {
	case "g", "a":
		return r.children(n, s)
	case "switch":
		for _, c := range n.children {
			if c.name != "" && c.name != "foreignObject" && c.get("requiredExtensions") == "" {
				return r.walk(c, s)
			}
		}
		return nil
	case "svg":
		return r.svg(n, s, nil)
	case "use":
		return r.use(n, s)
	}
	if s.hidden {
		r.notes.add(noteHidden, 1)
		return nil
	}
	return r.draw(n, s)
}

func (r *svgReader) children(n *node, s scope) error {
	for _, c := range n.children {
		if err := r.walk(c, s); err != nil {
			return err
		}
	}
	return nil
}

// enter applies what n itself declares; ok is false when n isn't shown at all.
func (r *svgReader) enter(n *node, s scope) (inner scope, ok bool, err error) {
	d, tried := r.css.style(n)
	if err := r.spend(20 + 50*tried + len(n.get("style")) + len(d.value[propTransform])); err != nil {
		return s, false, err
	}
	v := d.value
	if v[propDisplay] == "none" {
		r.notes.add(noteHidden, 1)
		return s, false, nil
	}
	if c := v[propColour]; c != "" && c != "inherit" {
		s.colour = paint(c, s.colour)
	}
	if c := v[propStroke]; c != "" && c != "inherit" {
		s.stroke = paint(c, s.colour)
	}
	if c := v[propFill]; c != "" && c != "inherit" {
		s.fill = paint(c, s.colour)
	}
	if c := v[propVisibility]; c != "" && c != "inherit" {
		s.hidden = c != "visible"
	}
	if t := v[propTransform]; t != "" {
		m, ok := parseTransform(t, r.units.PerInch)
		if !ok {
			r.notes.add(noteBrokenShape, 1)
			return s, false, nil
		}
		if v[propOrigin] != "" {
			r.notes.add(noteOrigin, 1)
		}
		s.m = s.m.Mul(m)
	}
	for p, note := range [properties]note{propClip: noteClip, propMask: noteMask, propMarker: noteMarker} {
		if note != 0 && v[p] != "" && v[p] != "none" {
			r.notes.add(note, 1)
		}
	}
	s.layer, s.rank = layerOf(n, s)
	return s, true, nil
}

// layerOf returns the name that shapes in n go by: a group marked as layer before
// any other, then the innermost one with a label, then the innermost with an id.
func layerOf(n *node, s scope) (name string, rank int) {
	if n.name != "g" {
		return s.layer, s.rank
	}
	label, id := n.get("label"), n.get("id")
	switch {
	case n.get("groupmode") == "layer" && label+id != "":
		rank = 3
	case label != "":
		rank = 2
	case id != "":
		rank = 1
	}
	if label == "" {
		label = id
	}
	if label = plainName(label); rank == 0 || rank < s.rank || label == "" {
		return s.layer, s.rank
	}
	return label, rank
}

// svg draws what is in a root, nested or referenced svg or symbol element. by is
// the use element that sets its size, if any.
func (r *svgReader) svg(n *node, s scope, by *node) error {
	view := s.view
	if s.depth > 0 {
		if n.name == "svg" {
			x, _ := r.length(n, "x", alongX, s)
			y, _ := r.length(n, "y", alongY, s)
			s.m = s.m.Mul(plane.Translate(x, y))
		}
		view.w = r.extent(n, by, "width", alongX, s)
		view.h = r.extent(n, by, "height", alongY, s)
		if r.spoilt() {
			return nil
		}
	}
	if box, ok := parseViewBox(n.get("viewBox")); ok {
		if box.w == 0 || box.h == 0 || view.w <= 0 || view.h <= 0 {
			return nil // the standard: not drawn
		}
		s.m = s.m.Mul(box.fit(view, n.get("preserveAspectRatio")))
		view = viewport{box.w, box.h}
	}
	s.view = view
	return r.children(n, s)
}

// extent returns the width or height of an inner viewport: all there is by default.
func (r *svgReader) extent(n, by *node, name string, a axis, s scope) float64 {
	if by != nil && by.get(name) != "" {
		n = by
	}
	if v, ok := r.length(n, name, a, s); ok {
		return v
	}
	return s.view.extent(a)
}

// use draws what a use element refers to.
func (r *svgReader) use(n *node, s scope) error {
	ref, local := strings.CutPrefix(strings.TrimSpace(n.get("href")), "#")
	if !local {
		r.notes.add(noteOutside, 1)
		return nil
	}
	target := r.ids[ref]
	if target == nil {
		r.notes.add(noteMissing, 1)
		return nil
	}
	for _, u := range r.using {
		if u == target {
			return refuse(Circular, "The part %q of the drawing contains itself.", plainName(ref))
		}
	}
	r.using = append(r.using, target)
	defer func() { r.using = r.using[:len(r.using)-1] }()
	x, _ := r.length(n, "x", alongX, s)
	y, _ := r.length(n, "y", alongY, s)
	if r.spoilt() {
		return nil
	}
	s.m = s.m.Mul(plane.Translate(x, y))
	if target.name != "symbol" && target.name != "svg" {
		return r.walk(target, s)
	}
	if r.elements--; r.elements < 0 || s.depth >= MaxDepth {
		return refuse(TooMany, "With its repeated parts the drawing has more than %d elements.", MaxElements)
	}
	s, ok, err := r.enter(target, s)
	if !ok {
		return err
	}
	s.depth++
	return r.svg(target, s, n)
}
