package plane

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTextIsStable(t *testing.T) {
	for _, s := range []string{
		"M 0 0 L 10 0",
		"M 0 0 L 10 0 L 10 5.5 Z",
		"M 1 0 A 1 0 1 -1 0 A 1 0 1 1 0 Z",
		"M 0 0 A 10 1 0 3 4",
		"M -1.25 0.1 C 1 2 3 4 5 6 L 0.000001 3",
		"M 0 0 B 0.999999999 10 0",
	} {
		p, err := Parse(s)
		require.NoError(t, err, s)
		assert.Equal(t, s, p.String())
	}
	assert.Equal(t, "M 0 0 L 1 0 L 2 0 L 3 -1", MustParse("M0,0 1,0,2 0L3 -1").String())
	assert.Equal(t, "", Path{}.String())
}

func TestTextRoundTrip(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	paths := []Path{CirclePath(Pt(1, 2), 3), fourCubics(Pt(0, 0), 3, 2)}
	for _, s := range segmentZoo() {
		paths = append(paths, Path{Segs: []Segment{s}})
	}
	for range 50 {
		paths = append(paths, starPath(rng, Pt(0, 0), 100, 12))
	}
	for _, p := range paths {
		text := p.String()
		q, err := Parse(text)
		require.NoError(t, err, text)
		assert.Equal(t, text, q.String())
		require.Len(t, q.Segs, len(p.Segs), text)
		assert.Equal(t, p.Closed, q.Closed)
		for i, s := range p.Segs {
			u := q.Segs[i]
			assert.InDelta(t, s.Bulge, u.Bulge, 2e-11*(1+s.Bulge*s.Bulge))
			u.Bulge = s.Bulge
			assert.Equal(t, s, u)
		}
	}
}

func TestTextErrors(t *testing.T) {
	for _, s := range []string{
		"", "L 1 2", "M", "M 1", "M 1 2", "M 0 0 L 1", "M 0 0 A 1 0 1 5 0", "M 0 0 A 1 0 2 1 0", "M 0 0 A 1 0.5 1 1 0",
		"M 0 0 L NaN 0", "M 0 0 L 1e300 0", "M 0 0 L 1 0 Z 3", "M 0 0 Z", "M 0 0 L 1 1 M 2 2 L 3 3", "M 0 0 Q 1 1 2 2",
		"M 0 0 A 1 0 1 0 0", "M 0 0 L 1 0 Z L 2 2", "M 0 0 l 1 1", "\x00",
	} {
		_, err := Parse(s)
		assert.Error(t, err, "%q", s)
	}
	assert.Panics(t, func() { MustParse("x") })
}

func FuzzParse(f *testing.F) {
	f.Add("M 0 0 L 10 0 L 10 5.5 Z")
	f.Add("M1,0A1 0 1-1 0A1 0 1 1 0Z")
	f.Add("M 0 0 B -3 1 1 C 1 2 3 4 5 6 7 8 9 1 2 3")
	f.Add("M 0 0 A 5 1 0 1e-300 0")
	f.Fuzz(func(t *testing.T, s string) {
		p, err := Parse(s)
		if err != nil {
			return
		}
		text := p.String()
		q, err := Parse(text)
		if err != nil {
			t.Fatalf("%q came back as %q: %v", s, text, err)
		}
		if again := q.String(); again != text {
			t.Fatalf("%q is not stable: %q", text, again)
		}
		if l := p.Length(); math.IsNaN(l) || l < 0 {
			t.Fatalf("length %g of %q", l, text)
		}
		p.Area()
		p.Contains(Pt(1, 1))
		if b := p.Box(); b.Empty() {
			t.Fatalf("no box: %q", text)
		}
	})
}
