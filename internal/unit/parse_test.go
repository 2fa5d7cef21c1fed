package unit

import (
	"errors"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLengthsAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		typed string
		sys   System
		mm    float64
	}{
		{"3", MM, 3}, {"3", Inch, 76.2}, {"3 mm", MM, 3}, {"3 mm", Inch, 3}, {"3mm", MM, 3},
		{"6,35 mm", MM, 6.35}, {"6,35", MM, 6.35}, {"3.2", MM, 3.2}, {".5", MM, 0.5}, {"5.", MM, 5},
		{"0,125", MM, 0.125}, {"1234,567", MM, 1234.567}, {"1.234", MM, 1.234},
		{"1/16\"", MM, 1.5875}, {"1/16 in", MM, 1.5875}, {"1/16", Inch, 1.5875}, {"1/16in", MM, 1.5875},
		{"2 1/4 in", MM, 57.15}, {"2-1/4\"", MM, 57.15}, {"2 1/4", Inch, 57.15}, {"2 - 1/4 in", MM, 57.15},
		{"½ ″", MM, 12.7}, {"2¼ in", MM, 57.15}, {"2 ⅜”", MM, 60.325}, {"1⁄16 in", MM, 1.5875},
		{"1/2 mm", MM, 0.5}, {"1/2 mm", Inch, 0.5},
		{"12 cm", MM, 120}, {"1.2 m", MM, 1200}, {"116 thou", MM, 2.9464}, {"0.116in", MM, 2.9464},
		{"1 ft 3 in", MM, 381}, {"1ft3in", MM, 381}, {"1' 3 1/2\"", MM, 393.7}, {"1′ 3″", MM, 381},
		{"1' 3", MM, 381}, {"2 ft", MM, 609.6}, {"1'3''", Inch, 381},
		{"-3", MM, -3}, {"−3 mm", MM, -3}, {"+3", MM, 3}, {"-1 ft 3 in", MM, -381},
		{"  3 \u00a0 MM ", MM, 3}, {"3 Inches", MM, 76.2}, {"0", MM, 0}, {"-0", MM, 0},
	} {
		got, err := ParseLength(c.typed, c.sys)
		require.NoError(t, err, "%q", c.typed)
		assert.InDelta(t, c.mm, got, 1e-12*(1+math.Abs(c.mm)), "%q in %v", c.typed, c.sys)
	}
}

// Conversions of the international inch and yard, exact by definition: NIST Special
// Publication 811 (2008), appendix B.8.
func TestPublishedConversions(t *testing.T) {
	check := func(want, got float64, err error) {
		t.Helper()
		require.NoError(t, err)
		assert.InEpsilon(t, want, got, 3e-7)
	}
	v, err := ParseLength("1 ft", MM)
	check(304.8, v, err)
	v, err = ParseStress("1 psi")
	check(6.894757e-3, v, err)
	v, err = ParseStress("1 ksi")
	check(6.894757, v, err)
	v, err = ParseDensity("1 lb/ft3")
	check(16.01846, v, err)
	v, err = ParseForce("1 oz", MM)
	check(0.2780139, v, err)
	v, err = ParseForce("1 lb", MM)
	check(4.448222, v, err)
	v, err = ParseAngle("1°")
	check(1.745329e-2, v, err)
}

func TestOtherQuantities(t *testing.T) {
	type reader func(string) (float64, error)
	in := func(f func(string, System) (float64, error), sys System) reader {
		return func(s string) (float64, error) { return f(s, sys) }
	}
	for _, c := range []struct {
		typed string
		read  reader
		want  float64
	}{
		{"90", ParseAngle, math.Pi / 2}, {"90 deg", ParseAngle, math.Pi / 2}, {"90°", ParseAngle, math.Pi / 2},
		{"1.57 rad", ParseAngle, 1.57}, {"22 1/2°", ParseAngle, math.Pi / 8}, {"-45", ParseAngle, -math.Pi / 4},
		{"1.2", ParsePercent, 0.012}, {"1,2 %", ParsePercent, 0.012}, {"1.2%", ParsePercent, 0.012},
		{"3600", ParseStress, 3600}, {"3.6 GPa", ParseStress, 3600}, {"3600 N/mm²", ParseStress, 3600}, {"35.9 MPa", ParseStress, 35.9},
		{"750", ParseDensity, 750}, {"0.75 g/cm³", ParseDensity, 750}, {"750 kg/m3", ParseDensity, 750},
		{"20", in(ParseForce, MM), 0.196133}, {"20 g", in(ParseForce, Inch), 0.196133}, {"1 kg", in(ParseForce, MM), 9.80665}, {"2 N", in(ParseForce, MM), 2},
		{"120", in(ParseSpeed, MM), 120}, {"5", in(ParseSpeed, Inch), 127}, {"7200 mm/min", in(ParseSpeed, Inch), 120}, {"5 in/s", in(ParseSpeed, MM), 127}, {"6 m/min", in(ParseSpeed, MM), 100},
		{"1500", in(ParseAcceleration, MM), 1500}, {"1.5 m/s²", in(ParseAcceleration, MM), 1500}, {"10", in(ParseAcceleration, Inch), 254}, {"1500 mm/s2", in(ParseAcceleration, MM), 1500},
		{"1.5", ParseNumber, 1.5}, {"3/4", ParseNumber, 0.75}, {"-2", ParseNumber, -2},
	} {
		got, err := c.read(c.typed)
		require.NoError(t, err, "%q", c.typed)
		assert.InDelta(t, c.want, got, 1e-9*(1+math.Abs(c.want)), "%q", c.typed)
	}
	n, err := ParseCount("54")
	require.NoError(t, err)
	assert.Equal(t, 54, n)
}

func TestRefusals(t *testing.T) {
	long := strings.Repeat("9", 1<<20)
	for _, c := range []struct {
		typed string
		kind  Kind
		text  string // part of what the person is told
	}{
		{"", Empty, "Nothing is written here. Write 3 mm or 1/8 in."},
		{"  \t\u00a0", Empty, ""},
		{"1/16", NeedsUnit, "1/16 of what? Write 1/16 in or 1.6 mm."},
		{"2 1/4", NeedsUnit, "2 1/4 of what? Write 2 1/4 in or 57.1 mm."},
		{"1/64", NeedsUnit, "1/64 of what? Write 1/64 in or 0.4 mm."},
		{"½", NeedsUnit, "1/2 of what? Write 1/2 in or 12.7 mm."},
		{"2 1/", Unfinished, "not finished"}, {"1/", Unfinished, ""}, {"-", Unfinished, ""}, {".", Unfinished, ""}, {"2-", Unfinished, ""},
		{"abc", NotNumber, "\"abc\" is not a figure. Write 3 mm or 1/8 in."},
		{"Inf", NotNumber, ""}, {"+Inf", NotNumber, ""}, {"NaN", NotNumber, ""}, {"∞", NotNumber, ""}, {"--3", NotNumber, ""}, {"..", NotNumber, ""}, {"1.5/2", NotNumber, ""}, {"1/2.5", NotNumber, ""}, {"1.5 1/2", NotNumber, ""}, {"1/0", NotNumber, "divides by nothing"}, {"1/in", WrongUnit, ""}, {"1 /16", WrongUnit, ""},
		{"1e308", NotNumber, "without an exponent"}, {"1e-3", NotNumber, ""}, {"1E3 mm", NotNumber, ""},
		{"0x10", Ambiguous, ""}, {"1_000", Ambiguous, ""}, {"3 kg", WrongUnit, "\"kg\" does not belong here. Write a length such as 3 mm or 1/8 in."}, {"3 mmm", WrongUnit, ""}, {"90°", WrongUnit, ""},
		{"1,234", Ambiguous, "1,234 can be read two ways. Write 1234 or 1.234."}, {"12,345 mm", Ambiguous, ""}, {"1,234.5", Ambiguous, "more than one point"}, {"1.234.567", Ambiguous, ""}, {"1.234,5", Ambiguous, ""},
		{"3 4", Ambiguous, "3 4 is more than one figure"}, {"3 mm 4 mm", Ambiguous, ""}, {"3 in 1 ft", Ambiguous, ""}, {"1 ft 2 in 3 in", Ambiguous, ""}, {"3-5", Ambiguous, ""}, {"3 - 5", Ambiguous, ""},
		{"9999999999", TooBig, ""}, {"9999999999999/1 in", TooBig, ""}, {"999999999 m", TooBig, ""},
		{long, TooLong, ""}, {strings.Repeat("1", 49), TooLong, ""}, {strings.Repeat(" ", 300) + "3", TooLong, ""},
		{"3\x00", WrongUnit, ""}, {"\xff\xfe", NotNumber, ""},
	} {
		_, err := ParseLength(c.typed, MM)
		var e *Error
		require.True(t, errors.As(err, &e), "%.40q", c.typed)
		assert.Equal(t, c.kind, e.Kind, "%.40q: %s", c.typed, e.Text)
		assert.Contains(t, e.Text, c.text, "%.40q", c.typed)
		assert.Less(t, len(e.Text), 260, "%.40q", c.typed)
		assert.NotContains(t, e.Text, "!")
		assert.NotContains(t, strings.ToLower(e.Text), "invalid")
	}
	_, err := ParseCount("2.5")
	assert.EqualError(t, err, "2.5 is not a whole number. Write 2 or 3.")
	_, err = ParseLength("3 kg", Inch)
	assert.ErrorContains(t, err, "2 1/4 in or 57 mm")
	_, err = ParseAngle("1 2")
	assert.ErrorContains(t, err, "more than one figure")
}

// What an error proposes must itself be readable.
func TestProposalsCanBeTyped(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	for range 2000 {
		den := 1 << (1 + rng.Intn(6))
		typed := []string{"", "3 ", "17-"}[rng.Intn(3)] + Decimal(float64(1+rng.Intn(den)), 0) + "/" + Decimal(float64(den), 0)
		_, err := ParseLength(typed, MM)
		var e *Error
		require.ErrorAs(t, err, &e)
		_, said, _ := strings.Cut(e.Text, "Write ")
		a, b, _ := strings.Cut(strings.TrimSuffix(said, "."), " or ")
		va, err := ParseLength(a, MM)
		require.NoError(t, err, e.Text)
		vb, err := ParseLength(b, MM)
		require.NoError(t, err, e.Text)
		assert.InDelta(t, va, vb, 0.0501, e.Text)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"3", "6,35 mm", "2-1/4\"", "½ ″", "1 ft 3 in", "1e308", "0x10", "Inf", "1,234", "2 1/", "90°", "750 kg/m³", "−3", "1/0", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		one := func(v float64, err error) {
			var e *Error
			if err != nil {
				if !errors.As(err, &e) || e.Text == "" || len(e.Text) > 400 {
					t.Fatalf("%q: unhelpful error %v", s, err)
				}
			} else if !(math.Abs(v) <= 1e9*9806.65) { // the largest figure, in the largest unit: g, mm/s²
				t.Fatalf("%q gave %v", s, v)
			}
		}
		for _, sys := range []System{MM, Inch} {
			v, err := ParseLength(s, sys)
			one(v, err)
			if err == nil && math.Abs(v) < 1e6 {
				back, err := ParseLength(Bare(v, sys), sys)
				if sys == MM && strings.Contains(Bare(v, sys), "/") || err != nil || math.Abs(back-v) > bareFraction*1.001 {
					t.Fatalf("%q: %v went out as %q and came back as %v, %v", s, v, Bare(v, sys), back, err)
				}
			}
			one(ParseForce(s, sys))
			one(ParseSpeed(s, sys))
			one(ParseAcceleration(s, sys))
		}
		one(ParseAngle(s))
		one(ParseNumber(s))
		one(ParsePercent(s))
		one(ParseStress(s))
		one(ParseDensity(s))
		n, err := ParseCount(s)
		one(float64(n), err)
	})
}
