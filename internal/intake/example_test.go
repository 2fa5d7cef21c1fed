package intake_test

import (
	"fmt"

	"springrib/internal/intake"
	"springrib/internal/plane"
)

// A square whose last side is 0.05 mm short is closed, and what was done is told.
func ExampleMend() {
	svg := `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
		<path d="M10 10H90V90H10V10.05" fill="none" stroke="#000"/><circle cx="50" cy="50" r="5"/></svg>`
	d, err := intake.ReadSVG([]byte(svg), intake.Options{})
	m, changes := intake.Mend(d.Items, 0.1)
	fmt.Println(err, len(d.Items), "items")
	for _, c := range changes {
		fmt.Println(c.Text)
	}
	for i, role := range intake.Guess(m.Items, plane.Box{}, intake.Unsaid).Roles {
		fmt.Println(role, m.Items[i].Path.Closed, m.Items[i].Box().W())
	}
	// Output:
	// <nil> 2 items
	// Closed over a gap of 0.050 mm.
	// Outline turned counter-clockwise.
	// outline true 80
	// hole true 10
}
