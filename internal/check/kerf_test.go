package check

import (
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// No outline of a design is known that the parallel fails on, so what the part would say
// of it is put in its place: files of a part half a kerf small must not leave.
func TestAPartWithoutItsKerfIsAStop(t *testing.T) {
	v, _ := design.Read(sound())
	p := plan.Make(v)
	require.True(t, p.Drawn)
	require.Empty(t, kerfLost(&p))
	pt := &p.Sheets[0].Parts[0]
	pt.Allowance.Failed = true
	found := kerfLost(&p)
	require.Len(t, found, 1)
	require.Equal(t, "kerf-not-allowed", found[0].ID)
	require.Equal(t, finding.Stop, found[0].Severity)
	require.Equal(t, pt.ID, found[0].Place.Part)
	require.Equal(t, v.Machine.Kerf, found[0].Numbers["kerf"])
	require.Equal(t, finding.Withheld, found[0].Effect())
}
