package finding_test

import (
	"fmt"

	"springrib/internal/finding"
)

// The gravest of several findings decides what becomes of the files.
func ExampleGravest() {
	found := []finding.Finding{
		{ID: "bridges", Severity: finding.Note},
		{ID: "kerf-pinches", Severity: finding.Stop},
		{ID: "slots-meet", Severity: finding.Stop},
	}
	worst, because := finding.Gravest(found)
	fmt.Println(worst, because[0].ID+";", "a file would say:", finding.Marks(found))
	// Output: withheld slots-meet; a file would say: the scores may pinch shut
}
