package intake

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// Each case is drawn on a sheet of 100 mm, Y down; what is wanted is in mm, Y up.
func TestSVGShapes(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"line", `<line x1="10" y1="20" x2="30" y2="20"/>`, "M 10 80 L 30 80"},
		{"line of lengths", `<line x1="1cm" y1="0" x2="50%" y2="0"/>`, "M 37.7952755905512 100 L 50 100"},
		{"polyline", `<polyline points="10,10 20,10,20 20"/>`, "M 10 90 L 20 90 L 20 80"},
		{"polygon", `<polygon points="10 10 20 10 20 20"/>`, "M 10 90 L 20 90 L 20 80 L 10 90 Z"},
		{"polygon that repeats its start", `<polygon points="10 10 20 10 20 20 10 10"/>`, "M 10 90 L 20 90 L 20 80 L 10 90 Z"},
		{"polyline that ends at its start", `<polyline points="10 10 20 10 20 20 10 10"/>`, "M 10 90 L 20 90 L 20 80 L 10 90 Z"},
		{"polyline with an odd number", `<polyline points="10 10 20 10 20"/>`, "M 10 90 L 20 90"},
		{"rect", `<rect x="10" y="10" width="30" height="20"/>`, "M 10 90 L 40 90 L 40 70 L 10 70 L 10 90 Z"},
		{"rect with corners", `<rect x="10" y="10" width="30" height="20" rx="5"/>`,
			"M 15 90 L 35 90 A 5 0 0 40 85 L 40 75 A 5 0 0 35 70 L 15 70 A 5 0 0 10 75 L 10 85 A 5 0 0 15 90 Z"},
		{"rect with only ry", `<rect x="10" y="10" width="30" height="20" ry="5"/>`,
			"M 15 90 L 35 90 A 5 0 0 40 85 L 40 75 A 5 0 0 35 70 L 15 70 A 5 0 0 10 75 L 10 85 A 5 0 0 15 90 Z"},
		{"rect all corner", `<rect x="10" y="10" width="20" height="20" rx="50"/>`,
			"M 20 90 A 10 0 0 30 80 A 10 0 0 20 70 A 10 0 0 10 80 A 10 0 0 20 90 Z"},
		{"circle", `<circle cx="50" cy="50" r="10"/>`, "M 60 50 B -1 40 50 B -1 60 50 Z"},
		{"ellipse that is a circle", `<ellipse cx="50" cy="50" rx="10"/>`, "M 60 50 B -1 40 50 B -1 60 50 Z"},
		{"nothing to draw", `<rect width="0" height="5"/><circle r="0"/><path d="M1 1"/><path d=""/><path d="none"/>`, ""},
		{"path of lines", `<path d="M10 10h10v10H10z"/>`, "M 10 90 L 20 90 L 20 80 L 10 80 L 10 90 Z"},
		{"path relative", `<path d="m10,10 l10,0 0,10"/>`, "M 10 90 L 20 90 L 20 80"},
		{"close to start already reached", `<path d="M10 10H20V20H10V10Z"/>`, "M 10 90 L 20 90 L 20 80 L 10 80 L 10 90 Z"},
		{"paths that start relative", `<path d="m1 1h9"/><path d="m2 2h9"/>`, "M 1 99 L 10 99\nM 2 98 L 11 98"},
		{"two subpaths", `<path d="M0 0H10V10Z m20,0h5"/>`, "M 0 100 L 10 100 L 10 90 L 0 100 Z\nM 20 100 L 25 100"},
		{"going on after a close", `<path d="M0 0H10V10Z L 5 5"/>`, "M 0 100 L 10 100 L 10 90 L 0 100 Z\nM 0 100 L 5 95"},
		{"numbers run together", `<path d="M.5.5.25-.75-1e1+2"/>`, "M .5 99.5 L .25 100.75 L -10 98"},
		{"cubic", `<path d="M0 0C10 0 20 10 20 20"/>`, "M 0 100 C 10 100 20 90 20 80"},
		{"smooth cubic", `<path d="M0 0C10 0 20 10 20 20S30 40 40 40"/>`, "M 0 100 C 10 100 20 90 20 80 C 20 70 30 60 40 60"},
		{"smooth cubic after a line", `<path d="M0 0H20S30 40 40 40"/>`, "M 0 100 L 20 100 C 20 100 30 60 40 60"},
		{"quadratic", `<path d="M0 0Q15 0 15 15"/>`, "M 0 100 C 10 100 15 95 15 85"},
		{"smooth quadratics", `<path d="M0 0q15 0 15 15t15 15"/>`, "M 0 100 C 10 100 15 95 15 85 C 15 75 20 70 30 70"},
		{"smooth quadratic after a line", `<path d="M0 0H15T30 0"/>`, "M 0 100 L 15 100 C 15 100 20 100 30 100"},
		{"quarter arc", `<path d="M10 0A10 10 0 0 1 20 10"/>`, "M 10 100 A 10 0 0 20 90"},
		{"arc the long way", `<path d="M10 0A10 10 0 1 1 20 10"/>`, "M 10 100 B -1 17.0710678118655 82.9289321881345 B .414213562373 0 0"},
		{"arc with flags run together", `<path d="M10 0a10 10 0 0110 10"/>`, "M 10 100 A 10 0 0 20 90"},
		{"arc too small to reach", `<path d="M10 50A1 1 0 0 0 30 50"/>`, "M 10 50 B 1 30 50"},
		{"arc without radius", `<path d="M10 50A0 5 0 0 0 30 50"/>`, "M 10 50 L 30 50"},
		{"arc to where it is", `<path d="M10 50A5 5 0 0 0 10 50H20"/>`, "M 10 50 L 20 50"},
		{"up to the fault", `<path d="M10 10H20L30 bad"/>`, "M 10 90 L 20 90"},
		{"no command first", `<path d="10 10H20"/>`, ""},
		{"unknown command", `<path d="M10 10H20R5"/>`, "M 10 90 L 20 90"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := mustSVG(t, sheet100(c.body))
			if c.name == "arc the long way" { // three quarters, in two arcs
				require.Len(t, d.Items, 1)
				require.InDelta(t, 15*math.Pi, d.Items[0].Path.Length(), 1e-9)
				require.Equal(t, plane.Pt(20, 90), d.Items[0].Path.End())
				return
			}
			requirePaths(t, c.want, d.Items, 1e-9)
			requireSound(t, d.Items)
		})
	}
}

// An ellipse stays within the stated accuracy, whatever its size; perimeters of
// ellipses as computed to 20 digits by the arithmetic-geometric mean (Abramowitz &
// Stegun, 17.6).
func TestSVGEllipse(t *testing.T) {
	for _, c := range []struct{ rx, ry, perimeter float64 }{
		{2, 1, 9.688448220547676}, {3, 2, 15.86543958929059}, {5, 3, 25.52699886339813},
		{10, 1, 40.63974180100896}, {100, 50, 484.4224110273838}, {300, 100, 1336.489322055526},
	} {
		d := mustSVG(t, sheet100(`<ellipse cx="50" cy="50" rx="`+text(c.rx)+`" ry="`+text(c.ry)+`"/>`))
		require.Len(t, d.Items, 1)
		p := d.Items[0].Path
		require.InDelta(t, c.perimeter, p.Length(), 8*accuracy)
		require.InDelta(t, -math.Pi*c.rx*c.ry, p.Area(), c.perimeter*accuracy)
		for _, s := range p.Segs {
			for f := 0.0; f < 1; f += 1. / 16 {
				q := s.Point(f).Sub(plane.Pt(50, 50))
				off := math.Hypot(q.X/c.rx, q.Y/c.ry) - 1
				require.LessOrEqual(t, math.Abs(off)*c.ry, accuracy)
			}
		}
	}
}

// The arc examples of SVG 1.1, section 8.3.8 ("M 125,75 a100,50 0 ?,? 100,50"): the
// four choices of flags make up two whole ellipses.
func TestSVGArcFlags(t *testing.T) {
	length := func(flags string) float64 {
		d := mustSVG(t, sheet100(`<path d="M125,75 a100,50 0 `+flags+` 100,50"/>`))
		require.Len(t, d.Items, 1)
		require.InDelta(t, 225, d.Items[0].Path.End().X, 1e-9)
		require.InDelta(t, -25, d.Items[0].Path.End().Y, 1e-9)
		return d.Items[0].Path.Length()
	}
	const whole = 484.4224110273838 // perimeter of the ellipse 100 x 50, as above
	require.InDelta(t, whole, length("0,0")+length("1,1"), 0.01)
	require.InDelta(t, whole, length("0,1")+length("1,0"), 0.01)
	require.InDelta(t, whole/4, length("0,1"), 0.01)
	require.InDelta(t, length("0,1"), length("0,0"), 1e-9)
}

func TestSVGTransforms(t *testing.T) {
	const l = `<line x1="1" y1="0" x2="2" y2="0" transform="`
	for _, c := range []struct{ transform, want string }{
		{"translate(10)", "M 11 100 L 12 100"},
		{"translate(10 20)", "M 11 80 L 12 80"},
		{"translate(10,20) scale(2)", "M 12 80 L 14 80"},
		{"scale(2) translate(10,20)", "M 22 60 L 24 60"},
		{"scale(2,3),translate(0,1)", "M 2 97 L 4 97"},
		{"rotate(90)", "M 0 99 L 0 98"},
		{"rotate(90 1 0)", "M 1 100 L 1 99"},
		{"rotate(90deg)", "M 0 99 L 0 98"},
		{"rotate(0.25turn)", "M 0 99 L 0 98"},
		{"rotate(100grad)", "M 0 99 L 0 98"},
		{"skewX(45) translate(0 5)", "M 6 95 L 7 95"},
		{"skewY(45)", "M 1 99 L 2 98"},
		{"matrix(0 1 -1 0 5 6)", "M 5 93 L 5 92"},
		{"matrix(1e0,0,0,1,-1,0)", "M 0 100 L 1 100"},
		{"  translate( 10 , 20 )  ", "M 11 80 L 12 80"},
		{"none", "M 1 100 L 2 100"},
	} {
		t.Run(c.transform, func(t *testing.T) {
			requirePaths(t, c.want, mustSVG(t, sheet100(l+c.transform+`"/>`)).Items, 1e-9)
		})
	}
	for _, bad := range []string{"spin(3)", "rotate(1 2)", "matrix(1 2 3)", "translate(1", "translate(10%)"} {
		d := mustSVG(t, sheet100(l+bad+`"/>`))
		require.Empty(t, d.Items, bad)
		require.Equal(t, 1.0, noted(d.Notes, "intake-shape-broken"), bad)
	}
}

// Circles stay arcs when turned, scaled alike or mirrored, and only then.
func TestSVGArcsStayArcs(t *testing.T) {
	kinds := func(transform string) (arcs, cubics int) {
		d := mustSVG(t, sheet100(`<circle cx="5" cy="6" r="3" transform="`+transform+`"/>`))
		for _, s := range d.Items[0].Path.Segs {
			switch s.Kind {
			case plane.Arc:
				arcs++
			case plane.Cubic:
				cubics++
			}
		}
		return arcs, cubics
	}
	for _, m := range []string{"rotate(33)", "scale(2)", "scale(-2 2)", "rotate(10) scale(3) rotate(7)", "matrix(0.8 0.6 0.6 -0.8 0 0)"} {
		a, c := kinds(m)
		require.Equal(t, [2]int{2, 0}, [2]int{a, c}, m)
	}
	for _, m := range []string{"scale(2 1)", "skewX(10)"} {
		a, c := kinds(m)
		require.Zero(t, a, m)
		require.GreaterOrEqual(t, c, 4, m)
	}
	d := mustSVG(t, sheet100(`<circle cx="5" cy="6" r="3" transform="scale(-2 2)"/>`))
	require.InDelta(t, 36*math.Pi, d.Items[0].Path.Area(), 1e-9, "mirrored: runs the other way")
}

// The root alone: what size and place a unit square at 10,10 gets.
func TestSVGRoot(t *testing.T) {
	const square = `<rect x="10" y="10" width="10" height="10"/></svg>`
	for _, c := range []struct {
		name, root string
		perInch    float64
		want       plane.Box
		stated     bool
	}{
		{"mm and viewBox", `<svg width="100mm" height="50mm" viewBox="0 0 100 50">`, 0, box(10, 30, 20, 40), true},
		{"mm, half size", `<svg width="50mm" height="25mm" viewBox="0 0 100 50">`, 0, box(5, 15, 10, 20), true},
		{"mm without viewBox: pixels", `<svg width="100mm" height="25.4mm">`, 0, box(10/96.*25.4, 25.4-20/96.*25.4, 20/96.*25.4, 25.4-10/96.*25.4), true},
		{"in", `<svg width="1in" height="1in" viewBox="0 0 100 100">`, 0, box(2.54, 20.32, 5.08, 22.86), true},
		{"pt", `<svg width="72pt" height="72pt" viewBox="0 0 100 100">`, 0, box(2.54, 20.32, 5.08, 22.86), true},
		{"pc", `<svg width="6pc" height="6pc" viewBox="0 0 100 100">`, 0, box(2.54, 20.32, 5.08, 22.86), true},
		{"cm", `<svg width="2.54cm" height="2.54cm" viewBox="0 0 100 100">`, 0, box(2.54, 20.32, 5.08, 22.86), true},
		{"Q", `<svg width="101.6Q" height="101.6Q" viewBox="0 0 100 100">`, 0, box(2.54, 20.32, 5.08, 22.86), true},
		{"only the width", `<svg width="100mm" viewBox="0 0 100 50">`, 0, box(10, 30, 20, 40), true},
		{"only the height", `<svg height="50mm" viewBox="0 0 100 50">`, 0, box(10, 30, 20, 40), true},
		{"viewBox origin", `<svg width="100mm" height="50mm" viewBox="5 -5 100 50">`, 0, box(5, 25, 15, 35), true},
		{"a stated size is kept", `<svg width="100mm" height="50mm" viewBox="0 0 100 50">`, 72, box(10, 30, 20, 40), true},
		{"tall box, middle", `<svg width="100mm" height="50mm" viewBox="0 0 50 50">`, 0, box(35, 30, 45, 40), true},
		{"xMinYMin", `<svg width="100mm" height="50mm" viewBox="0 0 50 50" preserveAspectRatio="xMinYMin">`, 0, box(10, 30, 20, 40), true},
		{"xMaxYMid", `<svg width="100mm" height="50mm" viewBox="0 0 50 50" preserveAspectRatio="xMaxYMid meet">`, 0, box(60, 30, 70, 40), true},
		{"slice", `<svg width="100mm" height="50mm" viewBox="0 0 50 50" preserveAspectRatio="xMidYMax slice">`, 0, box(20, 60, 40, 80), true},
		{"none", `<svg width="100mm" height="50mm" viewBox="0 0 50 50" preserveAspectRatio="none">`, 0, box(20, 30, 40, 40), true},
		{"pixels", `<svg width="96" height="96px">`, 0, box(10/96.*25.4, 25.4-20/96.*25.4, 20/96.*25.4, 25.4-10/96.*25.4), false},
		{"pixels, 72 to the inch", `<svg width="72" height="72">`, 72, box(10/72.*25.4, 25.4-20/72.*25.4, 20/72.*25.4, 25.4-10/72.*25.4), false},
		{"pixels that are mm", `<svg width="100" height="50">`, 25.4, box(10, 30, 20, 40), false},
		{"only a viewBox", `<svg viewBox="0 0 100 50">`, 25.4, box(10, 30, 20, 40), false},
		{"percent", `<svg width="100%" height="100%" viewBox="0 0 100 50">`, 25.4, box(10, 30, 20, 40), false},
		{"nothing at all", `<svg>`, 25.4, box(10, 130, 20, 140), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := ReadSVG([]byte(c.root+square), Options{PerInch: c.perInch})
			require.NoError(t, err)
			require.Equal(t, c.stated, d.Units.Stated)
			b := d.Box()
			require.InDelta(t, 0, b.Min.Dist(c.want.Min), 1e-9, "%v", b)
			require.InDelta(t, 0, b.Max.Dist(c.want.Max), 1e-9, "%v", b)
			asked := !c.stated && c.perInch == 0
			require.Equal(t, asked, slices.Contains(ids(d.Notes), "intake-units-unknown"))
		})
	}
}

func box(x0, y0, x1, y1 float64) plane.Box {
	return plane.Box{Min: plane.Pt(x0, y0), Max: plane.Pt(x1, y1)}
}

// A file without units shows the size that each reading gives.
func TestSVGChoices(t *testing.T) {
	d := mustSVG(t, `<svg width="360" height="180"><rect width="360" height="180"/></svg>`)
	var sizes [][3]float64
	for _, c := range d.Units.Choices {
		sizes = append(sizes, [3]float64{c.PerInch, c.Width, c.Height})
	}
	require.Equal(t, [][3]float64{{96, 95.25, 47.625}, {90, 101.6, 50.8}, {72, 127, 63.5}, {25.4, 360, 180}}, sizes)
	f := d.Notes[0]
	require.Equal(t, "intake-units-unknown", f.ID)
	require.Len(t, f.Remedies, 4)
	require.Equal(t, map[string]string{"perInch": "25.4"}, f.Remedies[3].Set)
	require.Equal(t, map[string]string{"perInch": "90"}, f.Remedies[1].Set)
	for _, c := range d.Units.Choices {
		e, err := ReadSVG([]byte(`<svg width="360" height="180"><rect width="360" height="180"/></svg>`), Options{PerInch: c.PerInch})
		require.NoError(t, err)
		require.InDelta(t, c.Width, e.Box().W(), 1e-9)
		require.InDelta(t, c.Height, e.Box().H(), 1e-9)
		require.Empty(t, e.Notes)
	}
}

func TestSVGNesting(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"groups", `<g transform="translate(10 0)"><g transform="scale(2)"><line x2="5"/></g></g>`, "M 10 100 L 20 100"},
		{"nested svg", `<svg x="10" y="20" width="50" height="50" viewBox="0 0 10 10"><line x2="10"/></svg>`, "M 10 80 L 60 80"},
		{"nested svg, all there is", `<svg viewBox="0 0 50 50"><line x2="10"/></svg>`, "M 0 100 L 20 100"},
		{"nested svg, percent inside", `<svg width="50" height="50" viewBox="0 0 10 10"><line x2="50%"/></svg>`, "M 0 100 L 25 100"},
		{"nested svg of no size", `<svg width="0" viewBox="0 0 50 50"><line x2="10"/></svg>`, ""},
		{"use", `<defs><line id="a" x2="10"/></defs><use href="#a" x="5" y="6"/>`, "M 5 94 L 15 94"},
		{"use before its definition", `<use xlink:href="#a"/><defs><line id="a" x2="10"/></defs>`, "M 0 100 L 10 100"},
		{"use of what is shown", `<line id="a" x2="10"/><use href="#a" y="1"/>`, "M 0 100 L 10 100\nM 0 99 L 10 99"},
		{"use with transform", `<defs><line id="a" x2="10"/></defs><use href="#a" x="5" transform="scale(2)"/>`, "M 10 100 L 30 100"},
		{"use of use", `<defs><line id="a" x2="10"/><use id="b" href="#a" x="1"/></defs><use href="#b" x="2"/>`, "M 3 100 L 13 100"},
		{"symbol", `<symbol id="s" viewBox="0 0 10 10"><line x2="10"/></symbol><use href="#s" x="20" width="40" height="40"/>`, "M 20 100 L 60 100"},
		{"symbol, its own size", `<symbol id="s" viewBox="0 0 10 10" width="30" height="30"><line x2="10"/></symbol><use href="#s"/>`, "M 0 100 L 30 100"},
		{"symbol, all there is", `<symbol id="s" viewBox="0 0 10 10"><line x2="10"/></symbol><use href="#s"/>`, "M 0 100 L 100 100"},
		{"symbol without viewBox", `<symbol id="s"><line x2="10"/></symbol><use href="#s" x="1" width="5" height="5"/>`, "M 1 100 L 11 100"},
		{"use of svg", `<defs><svg id="s" x="1" width="5" height="5" viewBox="0 0 10 10"><line x2="10"/></svg></defs><use href="#s" width="20" height="20"/>`, "M 1 100 L 21 100"},
		{"switch", `<switch><g requiredExtensions="x"><line x2="1"/></g><g><line x2="2"/></g><g><line x2="3"/></g></switch>`, "M 0 100 L 2 100"},
		{"link", `<a href="#q"><line x2="2"/></a>`, "M 0 100 L 2 100"},
		{"definitions draw nothing", `<defs><line x2="1"/></defs><symbol><line x2="1"/></symbol><clipPath><rect width="5" height="5"/></clipPath><mask><rect width="5" height="5"/></mask><pattern><line x2="2"/></pattern><marker><line x2="2"/></marker>`, ""},
		{"another language", `<x:g xmlns:x="urn:other"><x:line x2="5"/><line x2="5"/></x:g>`, ""},
		{"prefix of its own", `<s:line xmlns:s="http://www.w3.org/2000/svg" x2="5"/>`, "M 0 100 L 5 100"},
	} {
		t.Run(c.name, func(t *testing.T) {
			requirePaths(t, c.want, mustSVG(t, sheet100(c.body)).Items, 1e-9)
		})
	}
}

func TestSVGHidden(t *testing.T) {
	for _, c := range []struct {
		body  string
		shown int
	}{
		{`<line x2="1" display="none"/>`, 0},
		{`<line x2="1" style="display:none"/>`, 0},
		{`<g display="none"><line x2="1" display="inline"/></g>`, 0},
		{`<g visibility="hidden"><line x2="1"/><line x2="1" visibility="visible"/></g>`, 1},
		{`<g visibility="collapse"><line x2="1"/></g>`, 0},
		{`<style>.off{display:none}</style><line x2="1" class="a off b"/><line x2="2"/>`, 1},
		{`<defs><line id="a" x2="1"/></defs><use href="#a" display="none"/>`, 0},
	} {
		d := mustSVG(t, sheet100(c.body))
		require.Len(t, d.Items, c.shown, c.body)
		require.Equal(t, 1.0, noted(d.Notes, "intake-hidden"), c.body)
	}
}

func TestSVGColours(t *testing.T) {
	for _, c := range []struct{ name, body, stroke, fill string }{
		{"none given: filled black", `<rect §/>`, "", "#000000"},
		{"attributes", `<rect § stroke="red" fill="none"/>`, "#ff0000", ""},
		{"inherited", `<g stroke="#0f0" fill="#123456"><rect §/></g>`, "#00ff00", "#123456"},
		{"inherit", `<g stroke="blue"><rect § stroke="inherit"/></g>`, "#0000ff", "#000000"},
		{"rgb", `<rect § stroke="rgb(1, 2, 255)" fill="rgb(100%,50%,0%)"/>`, "#0102ff", "#ff8000"},
		{"clear", `<rect § stroke="rgba(1,2,3,0)" fill="#11223300"/>`, "", ""},
		{"transparent", `<rect § fill="transparent"/>`, "", ""},
		{"gradient", `<rect § fill="url(#g)" stroke="url(#g) red"/>`, "#ff0000", otherPaint},
		{"current colour", `<g color="teal"><rect § stroke="currentColor"/></g>`, "#008080", "#000000"},
		{"unknown", `<rect § stroke="blurple"/>`, otherPaint, "#000000"},
		{"style attribute wins", `<style>rect{stroke:lime}</style><rect § stroke="red" style="stroke:blue; fill:none"/>`, "#0000ff", ""},
		{"rule wins over attribute", `<style>rect{stroke:lime}</style><rect § stroke="red"/>`, "#00ff00", "#000000"},
		{"class over type", `<style>.a{stroke:red} rect{stroke:lime}</style><rect § class="a"/>`, "#ff0000", "#000000"},
		{"id over class", `<style>#b{stroke:blue}.a{stroke:red}</style><rect § class="a" id="b"/>`, "#0000ff", "#000000"},
		{"later over earlier", `<style>.a{stroke:red}.b{stroke:lime}</style><rect § class="b a"/>`, "#00ff00", "#000000"},
		{"list", `<style>circle, .a,#z { stroke : red }</style><rect § class="a"/>`, "#ff0000", "#000000"},
		{"all", `<style>*{stroke:red}</style><rect § stroke="lime"/>`, "#ff0000", "#000000"},
		{"compound", `<style>rect.a.b{stroke:red} circle.a{stroke:lime}</style><rect § class="b a"/>`, "#ff0000", "#000000"},
		{"compound that fails", `<style>rect.a.c{stroke:red}</style><rect § class="b a"/>`, "", "#000000"},
		{"important", `<style>rect{stroke:red!important}</style><rect § style="stroke:blue"/>`, "#ff0000", "#000000"},
		{"comments, at-rules, data", `<style><![CDATA[/* rect{stroke:red} */ @import "x"; @media print{rect{stroke:red}} rect{stroke:lime}]]></style><rect §/>`, "#00ff00", "#000000"},
		{"style after use", `<rect § class="a"/><style>.a{stroke:red}</style>`, "#ff0000", "#000000"},
		{"through use", `<defs><rect id="r" §/></defs><use href="#r" stroke="red"/>`, "#ff0000", "#000000"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := mustSVG(t, sheet100(strings.ReplaceAll(c.body, "§", `width="1" height="1"`)))
			require.Len(t, d.Items, 1)
			require.Equal(t, [2]string{c.stroke, c.fill}, [2]string{d.Items[0].Stroke, d.Items[0].Fill})
		})
	}
}

func TestSVGLayers(t *testing.T) {
	const ns = ` xmlns:i="urn:layers"`
	for _, c := range []struct{ body, layer, name string }{
		{`<line x2="1"/>`, "", ""},
		{`<line id="edge" x2="1"/>`, "", "edge"},
		{`<g id="cut"><line x2="1"/></g>`, "cut", ""},
		{`<g id="cut"><g id="inner"><line x2="1"/></g></g>`, "inner", ""},
		{`<g` + ns + ` i:groupmode="layer" i:label="Score lines" id="layer1"><g id="g12"><line x2="1"/></g></g>`, "Score lines", ""},
		{`<g` + ns + ` i:label="Edge"><g id="g12"><line x2="1"/></g></g>`, "Edge", ""},
		{`<g id="&lt;img src=x onerror=alert(1)&gt;"><line id="a&#10;b&#x202e;c" x2="1"/></g>`, "img src x onerror alert(1)", "a b c"},
		{`<g id="` + strings.Repeat("long", 30) + `"><line x2="1"/></g>`, strings.Repeat("long", 10), ""},
		{`<g id="Größe №5"><line x2="1"/></g>`, "Größe 5", ""},
	} {
		d := mustSVG(t, sheet100(c.body))
		require.Len(t, d.Items, 1, c.body)
		require.Equal(t, [2]string{c.layer, c.name}, [2]string{d.Items[0].Layer, d.Items[0].Name}, c.body)
		require.Equal(t, "line", d.Items[0].Source)
	}
}

// Subpaths of one element share its number.
func TestSVGElementNumbers(t *testing.T) {
	d := mustSVG(t, sheet100(`<path d="M0 0H9V9Z M2 1H5V3Z"/><line x2="1"/>`))
	require.Len(t, d.Items, 3)
	require.Equal(t, [3]int{1, 1, 2}, [3]int{d.Items[0].Element, d.Items[1].Element, d.Items[2].Element})
}

func TestSVGNotTaken(t *testing.T) {
	const r = `<rect width="5" height="5" `
	for _, c := range []struct {
		body, id string
		count    float64
	}{
		{`<text x="1">Hello</text><text/>`, "intake-text", 2},
		{`<image href="data:image/png;base64,AAAA"/>`, "intake-image", 1},
		{`<foreignObject><p>hello</p></foreignObject>`, "intake-foreign", 1},
		{r + `clip-path="url(#c)"/>`, "intake-clip", 1},
		{r + `style="mask:url(#c)"/>`, "intake-mask", 1},
		{r + `mask="none" clip-path="none"/>`, "intake-mask", 0},
		{`<line x2="5" marker-end="url(#m)"/>`, "intake-marker", 1},
		{`<use href="other.svg#a"/>`, "intake-outside", 1},
		{`<use href="#nowhere"/>`, "intake-missing", 1},
		{r + `transform="rotate(3)" style="transform-origin:center"/>`, "intake-transform-origin", 1},
		{`<style>g rect{fill:red} a>b, c:hover{fill:lime}</style>`, "intake-selector", 3},
		{`<path d="M0 0L5"/><path d="M0 0 A1 1 0 2 0 5 5"/>`, "intake-path-broken", 2},
		{`<rect width="5"/><circle/><circle r="-1"/><ellipse/>`, "intake-shape-broken", 4},
		{r + `fill="none"/>`, "intake-unpainted", 1},
		{``, "intake-empty", 1},
	} {
		d := mustSVG(t, sheet100(c.body))
		require.Equal(t, c.count, noted(d.Notes, c.id), c.body)
	}
}

// Names declared in the document type, as drawing programs have written them for
// name spaces.
func TestSVGEntities(t *testing.T) {
	d := mustSVG(t, `<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "svg11.dtd" [
	<!ENTITY ns_svg "http://www.w3.org/2000/svg">
	<!ENTITY ten '10'>
]>
<svg xmlns="&ns_svg;" width="100mm" height="100mm" viewBox="0 0 100 100"><line x2="&ten;"/></svg>`)
	requirePaths(t, "M 0 100 L 10 100", d.Items, 1e-9)
}

func TestSVGEncodings(t *testing.T) {
	plain := `<svg width="100mm" height="100mm" viewBox="0 0 100 100"><g id="Größe"><line x2="10"/></g></svg>`
	latin := make([]byte, 0, len(plain))
	for _, c := range plain {
		latin = append(latin, byte(c))
	}
	wide := []byte("\xff\xfe")
	narrow := []byte("\xfe\xff")
	for _, c := range plain {
		wide = append(wide, byte(c), byte(c>>8))
		narrow = append(narrow, byte(c>>8), byte(c))
	}
	for name, data := range map[string][]byte{
		"utf-8":       []byte(plain),
		"byte order":  []byte("\xef\xbb\xbf" + plain),
		"latin-1":     append([]byte(`<?xml version="1.0" encoding="ISO-8859-1"?>`), latin...),
		"utf-16 le":   wide,
		"utf-16 be":   narrow,
		"white space": []byte("\n  " + plain),
	} {
		d, err := Read(data, Options{})
		require.NoError(t, err, name)
		require.Len(t, d.Items, 1, name)
		require.Equal(t, "Größe", d.Items[0].Layer, name)
	}
}
