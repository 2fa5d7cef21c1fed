package intake

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/fit"
	"springrib/internal/plane"
)

// requireReadable checks what holds for any file whatever: it is refused with a
// reason, or gives sound paths that can be mended, guessed at and placed.
func requireReadable(t *testing.T, d Drawing, err error) {
	t.Helper()
	var fe *FileError
	if err != nil {
		require.True(t, errors.As(err, &fe), "%v", err)
		require.NotEmpty(t, fe.ID)
		require.Empty(t, d.Items)
		return
	}
	requireSound(t, d.Items)
	if len(d.Items) == 0 {
		require.Equal(t, 1.0, noted(d.Notes, "intake-empty"))
	}
	if len(d.Items) > 200 {
		return
	}
	for _, gap := range []float64{0, 0.2} {
		m, changes := Mend(d.Items, gap)
		requireSound(t, m.Items)
		require.Len(t, m.From, len(m.Items))
		for _, c := range changes {
			require.True(t, finite(c.At))
			require.False(t, math.IsNaN(c.Gap))
		}
		edge := []Edge{Unsaid, Inner, Both}[len(d.Items)%3]
		g := Guess(m.Items, d.Page, edge)
		require.Len(t, g.Roles, len(m.Items))
		// Mend turns paths by what they lie in. An outline in a frame, or in the outer line of
		// a double one, was turned as a hole; whoever takes it turns it back.
		free := len(g.Frames) == 0 && (g.Double == nil || edge != Inner)
		for i, role := range g.Roles {
			if role == Outline && free && m.Items[i].Path.Closed {
				box := m.Items[i].Path.Box() // there and back it has no inside, and neither sense is right
				require.GreaterOrEqual(t, m.Items[i].Path.Area(), -joined*(box.W()+box.H()))
			}
		}
	}
}

func FuzzReadSVG(f *testing.F) {
	for _, body := range []string{
		`<path d="M1 2L3 4C5 6 7 8 9 10S1 2 3 4Q5 6 7 8T9 1A3 4 5 0 1 8 9Z m1-.5.5e1,3h4v5z"/>`,
		`<g id="a" transform="translate(1,2) rotate(30) skewX(5) matrix(1 2 3 4 5 6)" stroke="red"><rect width="5" height="10%" rx="1"/></g>`,
		`<circle r="1e3mm"/><ellipse rx="3" ry="auto"/><line x2="5"/><polyline points="1 2 3 4 5 6"/><polygon points="0,0 9,0 9,9"/>`,
		`<style>#a,.b{stroke:#f00!important} path{display:none}/*x*/</style><path id="a" class="b c" d="M0 0h1"/>`,
		`<symbol id="s" viewBox="0 0 5 5" preserveAspectRatio="xMaxYMin slice"><circle r="1"/></symbol><use href="#s" x="3" width="9" height="4"/>`,
		`<svg x="1" width="50%" viewBox="1 2 3 4"><switch><line x2="1"/></switch></svg><text>a</text><image/>`,
		`<line x1="0A0"/>`, `<line x1="3vw" x2="5"/><use x="1vh" href="#a"/><svg width="1q1"/><circle r="1e999"/>`,
		`<rect width="100" height="100" fill="#fff"/><g fill="none" stroke="#000"><rect x="9" y="9" width="80" height="80"/><rect x="10" y="10" width="78" height="78"/><circle cx="50" cy="50" r="9"/></g>`,
		`<path d="M0 0L9 9V0L0 9Z"/><path stroke="#010203" d="M20 0h9"/><path stroke="#000" d="M29.3 0h9"/>`,
		`<path d="M0 0L10 0L10 10L0 10Z M0 0 10 10 10 0 0 10z" fill="none" stroke="#123"/><path d="M0 0L10 0"/><path d="M10 .1L0 .1"/>`,
	} {
		f.Add([]byte(sheet100(body)), 0.0)
	}
	f.Add([]byte(`<!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0 0 9 9" id="&a;"><line x2="3"/></svg>`), 90.0)
	f.Add([]byte(`<?xml version="1.0" encoding="latin1"?><svg width="3in"/>`), 25.4)
	f.Add([]byte(`<?xml version='1.1' encoding="KOI8-R"?><svg width="3in"><g id="`+"\xf0"+`"><line x2="3"/></g></svg>`), 0.0)
	f.Add([]byte("\xff\xfe<\x00s\x00v\x00g\x00/\x00>\x00"), 0.0)
	f.Add([]byte("\x00<\x00s\x00v\x00g\x00/\x00>"), 0.0)
	f.Fuzz(func(t *testing.T, data []byte, perInch float64) {
		if !(perInch >= 0) || math.IsInf(perInch, 0) {
			perInch = 0
		}
		d, err := ReadSVG(data, Options{PerInch: perInch})
		requireReadable(t, d, err)
	})
}

func FuzzReadDXF(f *testing.F) {
	const blocks = "0 BLOCK; 2 B; 10 1; 20 2; 0 LINE; 8 0; 62 0; 11 1; 0 CIRCLE; 40 2; 0 ENDBLK"
	for _, entities := range []string{
		"0 LINE; 8 A; 10 1; 20 2; 11 3; 21 4; 0 ARC; 40 5; 50 10; 51 100; 230 -1; 0 CIRCLE; 40 3; 210 1; 220 .5",
		"0 LWPOLYLINE; 8 A; 70 1; 10 0; 20 0; 42 1; 10 5; 20 0; 42 -.3; 10 5; 20 4",
		"0 POLYLINE; 70 1; 0 VERTEX; 10 0; 20 0; 42 1; 0 VERTEX; 10 5; 20 0; 0 SEQEND",
		"0 ELLIPSE; 11 10; 21 3; 40 .4; 41 1; 42 4",
		"0 SPLINE; 71 3; 40 0; 40 0; 40 0; 40 0; 40 1; 40 2; 40 2; 40 2; 40 2; 41 1; 41 2; 41 1; 41 3; 41 1; 10 0; 20 0; 10 1; 20 2; 10 3; 20 2; 10 4; 20 0; 10 6; 20 6",
		"0 SPLINE; 71 3; 11 0; 21 0; 11 3; 21 1; 11 5; 21 7; 12 1; 22 1",
		"0 INSERT; 8 C; 2 B; 41 2; 42 -3; 50 30; 70 3; 71 2; 44 5; 45 6; 66 1; 0 ATTRIB; 1 x; 0 SEQEND; 0 TEXT; 1 y",
		"0 LINE; 10 five; 0 CIRCLE; 40 1e999; 0 POLYLINE; 0 VERTEX; 10 x; 0 SEQEND; 0 LWPOLYLINE; 10 0; 20 NaN",
		"0 SOLID; 10 0; 20 0; 11 9; 12 0; 22 9; 13 9; 23 9; 0 3DFACE; 11 9; 12 9; 22 9; 0 HELIX; 71 1; 40 0; 40 0; 40 1; 40 1; 10 0; 20 0; 10 1; 20 1; 100 AcDbHelix; 40 7",
		"0 LINE; 11 9; 0 LINE; 10 9; 11 9; 21 9; 0 LINE; 10 9; 20 9",
	} {
		f.Add([]byte(dxfOf(entities, blocks)), 0.0)
	}
	f.Add([]byte(groupsOf("0 SECTION; 2 HEADER; 9 $INSUNITS; 70 7; 9 $LUNITS; 70 4; 0 ENDSEC; 0 SECTION; 2 ENTITIES; 0 LINE; 8 A; 11 1")), 1.0)
	f.Add([]byte(groupsOf("999 x; 0 SECTION; 2 TABLES; 0 TABLE; 2 LAYER; 0 LAYER; 2 A; 62 -3; 420 99; 0 ENDSEC; 0 SECTION; 2 ENTITIES; 0 LINE; 8 A; 11 1")), 1.0)
	f.Fuzz(func(t *testing.T, data []byte, perInch float64) {
		if !(perInch >= 0) || math.IsInf(perInch, 0) {
			perInch = 0
		}
		d, err := ReadDXF(data, Options{PerInch: perInch})
		requireReadable(t, d, err)
	})
}

// FuzzCompact fits whatever path: nothing may panic, and what comes out reads back and
// lies within the tolerance.
func FuzzCompact(f *testing.F) {
	for _, s := range []string{
		"M 0 0 L 10 0 L 10 10 Z", "M 0 0 L 1 0 2 0.1 3 0 4 0.2 5 5 C 9 9 4 1 0 0 Z", "M 0 0 B 0.5 9 9 B -1 0 0 Z",
		"M 0 0 L 31.3066 0.0547 L 32.2028 0.056 L 32.5453 0.0603 L 48.9174 0.3371 L 51.842 0.3888 L 72.6531 0.5703 Z",
		"M 0 0 L 3.3928 0.0234 L 3.6644 0.0707 L 4.2147 0.1677 Z", "M 0 0 L 7.1253 -0.148 7.243 -0.1526 35.6922 -1.2347 36.927 -1.2813 38.8176 -1.3552",
		"M 2.834854308388123 3.9936409349484183 B 0.9999737660930192 3.165146025035177 4.0063504000957515 B 0.9999737660930195 2.8348536419961605 3.993658264877561",
		"M 0 0 L 0 0 0 0 0 0 0 0 0 0", "M 5 5 L 6 6 5 5 6 6 5 5 6 6 Z", "M 0 0 C 0 0 0 0 0 0 Z", "M 0 0 L 1e8 0 1e8 1e8 0 1e8 5 5 Z",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := plane.Parse(text)
		if err != nil || len(p.Segs) > 60 || p.Box().W()+p.Box().H() > 1e6 {
			t.Skip()
		}
		got, ok := compact(p, 0.01)
		require.True(t, ok)
		require.Equal(t, p.Closed, got.Closed)
		if len(got.Segs) == 0 {
			require.Less(t, p.Box().W()+p.Box().H(), 0.02)
			return
		}
		back, err := plane.Parse(got.String())
		require.NoError(t, err)
		require.Equal(t, got.String(), back.String())
		// Cubics are Fit's own concern, which has its fuzz target.
		if size := p.Box().W() + p.Box().H(); size < 300 && p.Length() < 1000 && !strings.Contains(p.String(), "C") {
			_, hi := fit.Deviation(p, got, 1e-3)
			require.Less(t, hi, 0.01+2e-3)
		}
	})
}
