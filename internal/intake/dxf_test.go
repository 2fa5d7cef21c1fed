package intake

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// groupsOf writes "code value; code value" as the lines of a DXF file.
func groupsOf(text string) string {
	var b strings.Builder
	for part := range strings.SplitSeq(text, ";") {
		code, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		if code != "" {
			fmt.Fprintf(&b, "%3s\n%s\n", code, value)
		}
	}
	return b.String()
}

// dxfOf makes a drawing in mm of entities and blocks written as groups.
func dxfOf(entities, blocks string) string {
	return groupsOf(`0 SECTION; 2 HEADER; 9 $ACADVER; 1 AC1015; 9 $INSUNITS; 70 4; 0 ENDSEC;
		0 SECTION; 2 BLOCKS; ` + blocks + `; 0 ENDSEC; 0 SECTION; 2 ENTITIES; ` + entities + `; 0 ENDSEC; 0 EOF`)
}

func mustDXF(t *testing.T, text string) Drawing {
	t.Helper()
	d, err := ReadDXF([]byte(text), Options{})
	require.NoError(t, err)
	requireSound(t, d.Items)
	return d
}

func TestDXFEntities(t *testing.T) {
	for _, c := range []struct{ name, entities, want string }{
		{"line", "0 LINE; 8 A; 10 1; 20 2; 11 3; 21 4", "M 1 2 L 3 4"},
		{"line without some figures", "0 LINE; 8 A; 11 3", "M 0 0 L 3 0"},
		{"circle", "0 CIRCLE; 10 5; 20 5; 40 2", "M 7 5 B 1 3 5 B 1 7 5 Z"},
		{"circle mirrored", "0 CIRCLE; 10 5; 20 5; 40 2; 230 -1", "M -7 5 B -1 -3 5 B -1 -7 5 Z"},
		{"arc", "0 ARC; 10 0; 20 0; 40 10; 50 0; 51 90", "M 10 0 A 10 0 1 0 10"},
		{"arc over zero", "0 ARC; 10 0; 20 0; 40 10; 50 270; 51 0", "M 0 -10 A 10 0 1 10 0"},
		{"arc mirrored", "0 ARC; 10 0; 20 0; 40 10; 50 0; 51 90; 230 -1", "M -10 0 A 10 0 0 0 10"},
		{"arc that is a circle", "0 ARC; 10 0; 20 0; 40 10; 50 0; 51 360", "M 10 0 B 1 -10 0 B 1 10 0 Z"},
		{"round ellipse", "0 ELLIPSE; 10 0; 20 0; 11 10; 21 0; 40 1; 41 0; 42 6.283185307179586", "M 10 0 B 1 -10 0 B 1 10 0 Z"},
		{"half a round ellipse", "0 ELLIPSE; 10 0; 20 0; 11 10; 21 0; 40 1; 41 0; 42 3.141592653589793", "M 10 0 B 1 -10 0"},
		{"half a round ellipse from below", "0 ELLIPSE; 10 0; 20 0; 11 10; 21 0; 40 1; 41 0; 42 3.141592653589793; 230 -1", "M 10 0 B -1 -10 0"},
		{"light polyline", "0 LWPOLYLINE; 90 3; 70 0; 10 0; 20 0; 10 5; 20 0; 42 1; 10 5; 20 4", "M 0 0 L 5 0 B 1 5 4"},
		{"light polyline closed", "0 LWPOLYLINE; 90 3; 70 1; 10 0; 20 0; 10 5; 20 0; 10 5; 20 4; 42 -.5", "M 0 0 L 5 0 L 5 4 B -.5 0 0 Z"},
		{"light polyline with plinegen", "0 LWPOLYLINE; 90 2; 70 129; 10 0; 20 0; 42 1; 10 5; 20 0; 42 1", "M 0 0 B 1 5 0 B 1 0 0 Z"},
		{"light polyline mirrored", "0 LWPOLYLINE; 70 0; 38 7; 10 1; 20 0; 42 1; 10 5; 20 0; 230 -1", "M -1 0 B -1 -5 0"},
		{"light polyline that repeats its start", "0 LWPOLYLINE; 70 1; 10 0; 20 0; 10 5; 20 0; 10 5; 20 4; 10 0; 20 0", "M 0 0 L 5 0 L 5 4 L 0 0 Z"},
		{"polyline", "0 POLYLINE; 66 1; 70 1; 0 VERTEX; 10 0; 20 0; 42 1; 0 VERTEX; 10 5; 20 0; 0 SEQEND", "M 0 0 B 1 5 0 L 0 0 Z"},
		{"polyline with spline frame", "0 POLYLINE; 70 4; 0 VERTEX; 70 16; 10 9; 20 9; 0 VERTEX; 70 8; 10 0; 20 0; 0 VERTEX; 70 8; 10 5; 20 0; 0 SEQEND", "M 0 0 L 5 0"},
		{"polyline without end mark", "0 POLYLINE; 0 VERTEX; 10 0; 20 0; 0 VERTEX; 10 5; 20 0; 0 LINE; 11 1", "M 0 0 L 5 0\nM 0 0 L 1 0"},
		{"spline of degree 1", "0 SPLINE; 71 1; 40 0; 40 0; 40 1; 40 2; 40 2; 10 0; 20 0; 10 5; 20 0; 10 5; 20 5", "M 0 0 L 5 0 L 5 5"},
		{"spline of degree 2", "0 SPLINE; 71 2; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 10 0; 20 0; 10 15; 20 0; 10 15; 20 15", "M 0 0 C 10 0 15 5 15 15"},
		{"spline that is a Bézier curve", "0 SPLINE; 71 3; 40 0; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 40 1; 10 0; 20 0; 10 1; 20 2; 10 3; 20 2; 10 4; 20 0", "M 0 0 C 1 2 3 2 4 0"},
		{"weights that are alike", "0 SPLINE; 71 3; 40 0; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 40 1; 41 2; 41 2; 41 2; 41 2; 10 0; 20 0; 10 1; 20 2; 10 3; 20 2; 10 4; 20 0", "M 0 0 C 1 2 3 2 4 0"},
		// A quarter circle as rational quadratic: middle weight cos 45 degrees (Piegl &
		// Tiller, The NURBS Book, section 7.3).
		{"rational spline that is an arc", "0 SPLINE; 71 2; 40 0; 40 0; 40 0; 40 1; 40 1; 40 1; 41 1; 41 .707106781186548; 41 1; 10 10; 20 0; 10 10; 20 10; 10 0; 20 10", "M 10 0 A 10 0 1 0 10"},
		{"straight spline through points", "0 SPLINE; 71 3; 11 0; 21 0; 11 3; 21 0", "M 0 0 C 1 0 2 0 3 0"},
		{"paper space", "0 LINE; 67 1; 11 3", ""},
		{"invisible", "0 LINE; 60 1; 11 3", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := mustDXF(t, dxfOf(c.entities, ""))
			requirePaths(t, c.want, d.Items, 1e-9)
		})
	}
}

func TestDXFInserts(t *testing.T) {
	const blocks = `0 BLOCK; 8 0; 2 Tick; 10 1; 20 0; 0 LINE; 8 0; 10 1; 20 0; 11 3; 21 0; 0 LINE; 8 own; 62 5; 10 1; 20 0; 11 1; 21 1; 0 ENDBLK;
		0 BLOCK; 2 PAIR; 10 0; 20 0; 0 INSERT; 8 0; 2 TICK; 10 0; 20 0; 0 INSERT; 8 far; 2 tick; 10 0; 20 5; 50 90; 0 ENDBLK;
		0 BLOCK; 2 EMPTY; 0 ENDBLK`
	for _, c := range []struct{ name, insert, want string }{
		{"plain", "2 TICK; 10 10; 20 20", "M 10 20 L 12 20\nM 10 20 L 10 21"},
		{"scaled", "2 TICK; 10 10; 20 20; 41 2; 42 3", "M 10 20 L 14 20\nM 10 20 L 10 23"},
		{"turned", "2 TICK; 10 10; 20 20; 50 90", "M 10 20 L 10 22\nM 10 20 L 9 20"},
		{"mirrored", "2 TICK; 10 10; 20 20; 41 -1", "M 10 20 L 8 20\nM 10 20 L 10 21"},
		{"from below", "2 TICK; 10 10; 20 20; 230 -1", "M -10 20 L -12 20\nM -10 20 L -10 21"},
		{"columns", "2 TICK; 70 2; 44 5; 50 90; 41 2", "M 0 0 L 0 4\nM 0 0 L -1 0\nM 0 5 L 0 9\nM 0 5 L -1 5"},
		{"rows", "2 TICK; 71 2; 45 5", "M 0 0 L 2 0\nM 0 0 L 0 1\nM 0 5 L 2 5\nM 0 5 L 0 6"},
		{"nested", "2 PAIR; 10 1; 20 1", "M 1 1 L 3 1\nM 1 1 L 1 2\nM 1 6 L 1 8\nM 1 6 L 0 6"},
		{"empty, many", "2 EMPTY; 70 32767; 71 32767", ""},
		{"missing", "2 NOWHERE", ""},
		{"attributes", "2 TICK; 66 1; 0 ATTRIB; 10 1; 1 hello; 0 SEQEND; 0 LINE; 11 1", "M 0 0 L 2 0\nM 0 0 L 0 1\nM 0 0 L 1 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := mustDXF(t, dxfOf("0 INSERT; 8 here; 62 1; "+c.insert, blocks))
			requirePaths(t, c.want, d.Items, 1e-9)
		})
	}
	d := mustDXF(t, dxfOf("0 INSERT; 8 here; 2 PAIR", blocks))
	var layers []string
	for _, it := range d.Items {
		layers = append(layers, it.Layer)
	}
	require.Equal(t, []string{"here", "own", "far", "own"}, layers, "what lies on layer 0 of a block goes with the insert")
}

func TestDXFLayersAndColours(t *testing.T) {
	const tables = `0 SECTION; 2 TABLES; 0 TABLE; 2 LAYER; 0 LAYER; 2 Cut; 62 1; 70 0; 0 LAYER; 2 Off; 62 -3; 70 0;
		0 LAYER; 2 Ice; 62 4; 70 1; 0 LAYER; 2 True; 62 7; 420 1193046; 0 ENDTAB; 0 ENDSEC;`
	read := func(entities string) Drawing {
		return mustDXF(t, groupsOf(tables+"0 SECTION; 2 BLOCKS; 0 BLOCK; 2 B; 0 LINE; 8 0; 62 0; 11 1; 0 LINE; 8 0; 11 2; 0 ENDBLK; 0 ENDSEC;"+
			"0 SECTION; 2 ENTITIES;"+entities+"; 0 ENDSEC; 0 EOF"))
	}
	for _, c := range []struct{ entity, layer, colour string }{
		{"0 LINE; 8 Cut; 11 1", "Cut", "#ff0000"},
		{"0 LINE; 8 cut; 11 1", "cut", "#ff0000"},
		{"0 LINE; 8 Cut; 62 256; 11 1", "Cut", "#ff0000"},
		{"0 LINE; 8 Cut; 62 5; 11 1", "Cut", "#0000ff"},
		{"0 LINE; 8 Cut; 62 5; 420 255; 11 1", "Cut", "#0000ff"},
		{"0 LINE; 8 Cut; 420 16711935; 11 1", "Cut", "#ff00ff"},
		{"0 LINE; 8 True; 11 1", "True", "#123456"},
		{"0 LINE; 8 unknown; 11 1", "unknown", "#000000"},
		{"0 LINE; 8 <b>x</b>; 11 1", "b x /b", "#000000"},
		{`0 LINE; 8 Gr\U+00F6\U+00DFe; 11 1`, "Größe", "#000000"},
		{"0 LINE; 8 Gr\xf6\xdfe; 11 1", "Größe", "#000000"},
		{"0 LINE; 8 Größe; 11 1", "Größe", "#000000"},
	} {
		d := read(c.entity)
		require.Len(t, d.Items, 1, c.entity)
		require.Equal(t, [2]string{c.layer, c.colour}, [2]string{d.Items[0].Layer, d.Items[0].Stroke}, c.entity)
	}
	for _, hidden := range []string{"0 LINE; 8 Off; 11 1", "0 LINE; 8 Ice; 11 1", "0 INSERT; 8 Ice; 2 B", "0 LINE; 8 Cut; 60 1; 11 1"} {
		d := read(hidden)
		require.Empty(t, d.Items, hidden)
		require.Equal(t, 1.0, noted(d.Notes, "intake-hidden"), hidden)
	}
	d := read("0 INSERT; 8 Cut; 62 3; 2 B")
	require.Equal(t, [2]string{"#00ff00", "#ff0000"}, [2]string{d.Items[0].Stroke, d.Items[1].Stroke}, "by block, by layer")
}

func TestDXFUnits(t *testing.T) {
	line := func(header string) string {
		return groupsOf("0 SECTION; 2 HEADER;" + header + "; 0 ENDSEC; 0 SECTION; 2 ENTITIES; 0 LINE; 11 10; 0 ENDSEC; 0 EOF")
	}
	for _, c := range []struct {
		header  string
		perInch float64
		stated  bool
		length  float64
	}{
		{"9 $INSUNITS; 70 4", 0, true, 10},
		{"9 $INSUNITS; 70 1", 0, true, 254},
		{"9 $INSUNITS; 70 2", 0, true, 3048},
		{"9 $INSUNITS; 70 5", 0, true, 100},
		{"9 $INSUNITS; 70 6", 0, true, 10000},
		{"9 $INSUNITS; 70 9", 0, true, .254},
		{"9 $INSUNITS; 70 13", 0, false, 10}, // a hundredth of a millimetre is no sheet
		{"9 $INSUNITS; 70 7", 0, false, 10},  // nor are 10 km
		{"9 $INSUNITS; 70 7", 1, false, 254},
		{"9 $INSUNITS; 70 17", 0, false, 10},
		{"9 $INSUNITS; 70 17", 2.54, false, 100},
		{"9 $LUNITS; 70 4", 0, true, 254},
		{"9 $LUNITS; 70 3; 9 $INSUNITS; 70 0", 0, true, 254},
		{"9 $LUNITS; 70 4; 9 $INSUNITS; 70 1", 0, true, 254},
		{"9 $LUNITS; 70 2; 9 $INSUNITS; 70 4", 0, true, 10},
		{"9 $LUNITS; 70 4; 9 $INSUNITS; 70 4", 0, false, 10}, // they disagree
		{"9 $LUNITS; 70 5", 0, false, 10},
		{"9 $INSUNITS; 70 14", 0, true, 1000},
		{"9 $INSUNITS; 70 21", 0, true, 12000e3 / 3937},
		{"9 $INSUNITS; 70 4", 1, true, 10},
		{"9 $INSUNITS; 70 0", 0, false, 10},
		{"9 $INSUNITS; 70 0", 1, false, 254},
		{"9 $INSUNITS; 70 99", 2.54, false, 100},
		{"9 $MEASUREMENT; 70 0", 0, false, 10},
		{"", 25.4, false, 10},
	} {
		d, err := ReadDXF([]byte(line(c.header)), Options{PerInch: c.perInch})
		require.NoError(t, err)
		require.Equal(t, c.stated, d.Units.Stated, c.header)
		require.InEpsilon(t, c.length, d.Items[0].Path.Length(), 1e-12, c.header)
		require.Equal(t, !c.stated && c.perInch == 0, len(d.Notes) == 1 && d.Notes[0].ID == "intake-units-unknown", c.header)
		if !c.stated {
			require.InDelta(t, 254, d.Units.Choices[1].Width, 1e-9)
			require.InDelta(t, 10, d.Units.Choices[0].Width, 1e-9)
		}
	}
}

// Lengths in mm after NIST Special Publication 811, Guide for the Use of the
// International System of Units (2008), appendix B.8, and the SI prefixes; the survey
// foot is 1200/3937 m by definition.
func TestDXFUnitTable(t *testing.T) {
	for value, mm := range map[int]float64{
		1: 25.4, 2: 304.8, 3: 1609344, 4: 1, 5: 10, 6: 1e3, 7: 1e6, 8: 2.54e-5, 9: .0254, 10: 914.4, 11: 1e-7,
		12: 1e-6, 13: 1e-3, 14: 100, 15: 1e4, 16: 1e5,
		21: 304.8006096, 22: 25.4000508, 23: 914.4018288, 24: 1609347.219,
	} {
		_, perInch, ok := unitOf(value)
		require.True(t, ok)
		require.InEpsilon(t, mm, 25.4/perInch, 1e-9, value)
	}
	for _, none := range []int{-1, 0, 17, 18, 19, 20, 25} {
		_, _, ok := unitOf(none)
		require.False(t, ok, none)
	}
}

func TestDXFNotTaken(t *testing.T) {
	for _, c := range []struct {
		entities, id string
		count        float64
	}{
		{"0 TEXT; 1 hello; 0 MTEXT; 1 hello", "intake-text", 2},
		{"0 IMAGE; 10 0", "intake-image", 1},
		{"0 HATCH; 10 0; 0 HATCH; 10 1", "intake-entity", 2},
		{"0 POLYLINE; 70 64; 0 VERTEX; 10 1; 0 SEQEND", "intake-entity", 1},
		{"0 CIRCLE; 40 0; 0 CIRCLE; 40 -1; 0 ELLIPSE; 40 1", "intake-shape-broken", 3},
		{"0 SPLINE; 71 3; 40 0; 10 0; 20 0", "intake-shape-broken", 1},
		{"0 SPLINE; 71 1; 40 0; 40 1; 40 .5; 40 2; 10 0; 10 1", "intake-shape-broken", 1},
		{"0 SPLINE; 71 1; 40 0; 40 0; 40 1; 40 1; 41 1; 41 0; 10 0; 10 1", "intake-shape-broken", 1},
		{"0 INSERT; 2 NOWHERE", "intake-missing", 1},
		{"0 LINE; 67 1; 11 1", "intake-paper", 1},
		{"0 LWPOLYLINE; 43 2; 10 0; 20 0; 10 5; 20 0", "intake-width", 1},
		{"0 CIRCLE; 40 3; 210 1; 230 1", "intake-tilted", 1},
		{"0 SPLINE; 11 0; 21 0; 11 3; 21 1", "intake-fit-points", 1},
		{"", "intake-empty", 1},
	} {
		d := mustDXF(t, dxfOf(c.entities, ""))
		require.Equal(t, c.count, noted(d.Notes, c.id), c.entities)
	}
}

// Odd but readable: other line ends, white space, no header, no end mark.
func TestDXFForm(t *testing.T) {
	plain := dxfOf("0 LINE; 8 A; 11 3", "")
	for name, text := range map[string]string{
		"as it is":     plain,
		"CR LF":        strings.ReplaceAll(plain, "\n", "\r\n"),
		"CR":           strings.ReplaceAll(plain, "\n", "\r"),
		"spaces":       strings.ReplaceAll(plain, "\n", "  \n   "),
		"no end":       strings.TrimSuffix(plain, groupsOf("0 EOF")),
		"comment":      groupsOf("999 made by hand") + plain,
		"only lines":   groupsOf("0 SECTION; 2 ENTITIES; 0 LINE; 11 3"),
		"byte order":   "\xef\xbb\xbf" + plain,
		"blank at end": plain + "\n\n",
	} {
		d, err := Read([]byte(text), Options{})
		require.NoError(t, err, name)
		require.Equal(t, DXF, d.Format, name)
		requirePaths(t, "M 0 0 L 3 0", d.Items, 1e-12)
	}
}

// Random splines of every degree, rational or not, lie where the recursion of Cox
// and de Boor puts them (de Boor, A Practical Guide to Splines, 1978, chapter X).
func TestSplineAgainstRecursion(t *testing.T) {
	for degree := 1; degree <= 7; degree++ {
		for _, rational := range []bool{false, true} {
			s := wavySpline(degree, 11, rational)
			require.True(t, s.valid())
			p := pen{m: plane.Scale(3, -2), room: MaxSegments}
			s.draw(&p)
			p.lift()
			require.Len(t, p.paths, 1)
			flat := p.paths[0].Flatten(1e-4)
			const n = 300
			for i := range n {
				u := s.knots[degree] + (s.knots[len(s.ctrl)]-s.knots[degree])*(float64(i)+0.5)/n
				q := p.m.Apply(s.recursion(u))
				near := math.Inf(1)
				for k := 1; k < len(flat); k++ {
					near = math.Min(near, plane.LineDistance(q, flat[k-1], flat[k]))
				}
				require.LessOrEqual(t, near, accuracy+1e-4, "degree %d, rational %v, u %g", degree, rational, u)
			}
			if !rational && degree == 3 {
				require.Len(t, p.paths[0].Segs, 7, "one exact cubic for each stretch between knots")
			}
		}
	}
}

// wavySpline has uneven and double knots, not clamped at its ends.
func wavySpline(degree, n int, rational bool) spline {
	s := spline{degree: degree}
	for i := range n {
		s.ctrl = append(s.ctrl, plane.Pt(float64(i)*5, 12*math.Sin(float64(i*i))))
		if rational {
			s.weights = append(s.weights, 1.5+math.Cos(float64(3*i)))
		}
	}
	for i := range n + degree + 1 {
		k := float64(i) + 0.3*math.Sin(float64(i))
		if i == degree+3 && degree > 1 {
			k = s.knots[i-1]
		}
		s.knots = append(s.knots, k)
	}
	return s
}

func (s spline) recursion(u float64) plane.Point {
	var basis func(i, p int) float64
	basis = func(i, p int) float64 {
		if p == 0 {
			if s.knots[i] <= u && u < s.knots[i+1] {
				return 1
			}
			return 0
		}
		v := 0.0
		if d := s.knots[i+p] - s.knots[i]; d > 0 {
			v += (u - s.knots[i]) / d * basis(i, p-1)
		}
		if d := s.knots[i+p+1] - s.knots[i+1]; d > 0 {
			v += (s.knots[i+p+1] - u) / d * basis(i+1, p-1)
		}
		return v
	}
	var sum plane.Point
	w := 0.0
	for i, c := range s.ctrl {
		b := basis(i, s.degree)
		if s.weights != nil {
			b *= s.weights[i]
		}
		sum, w = sum.Add(c.Mul(b)), w+b
	}
	return sum.Mul(1 / w)
}

// A spline through points on a parabola or circle comes close to it, passes through
// each point and has the curvature continuous.
func TestSplineThroughPoints(t *testing.T) {
	var pts []plane.Point
	for i := range 13 {
		pts = append(pts, plane.Dir(float64(i)*math.Pi/12).Mul(10))
	}
	start, end := plane.Pt(0, 1), plane.Pt(0, -1)
	segs := through(pts, &start, &end)
	require.Len(t, segs, 12)
	for i, s := range segs {
		require.Equal(t, pts[i], s.A)
		for f := 0.0; f <= 1; f += 0.125 {
			require.InDelta(t, 10, s.Point(f).Len(), 1e-3)
		}
		if i > 0 {
			require.InDelta(t, segs[i-1].Curvature(1), s.Curvature(0), 1e-9)
		}
	}
	free := through(pts, nil, nil)
	require.InDelta(t, 0, free[0].Curvature(0), 1e-9)
	require.InDelta(t, 0, free[11].Curvature(1), 1e-9)
}

// The palette as drawing programs show it, from memory: the named colours 1 to 7, the
// pure hues at 10, 50, 90... and a tint.
func TestPalette(t *testing.T) {
	for index, want := range map[int]string{
		1: "#ff0000", 2: "#ffff00", 3: "#00ff00", 4: "#00ffff", 5: "#0000ff", 6: "#ff00ff", 7: "#000000",
		10: "#ff0000", 50: "#ffff00", 90: "#00ff00", 130: "#00ffff", 170: "#0000ff", 210: "#ff00ff",
		30: "#ff7f00", 11: "#ff7f7f", 255: "#ffffff", 0: "#000000", 256: "#000000",
	} {
		require.Equal(t, want, colour{index: index}.hex(), index)
	}
}
