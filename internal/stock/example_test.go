package stock_test

import (
	"fmt"

	"springrib/internal/stock"
)

func ExampleLookup() {
	s, ok := stock.Lookup("mdf-3")
	fmt.Println(ok, s.Name, s.Thickness.Value, "mm,", s.EAlong.Value, "MPa from", s.EAlong.Low, "to", s.EAlong.High)
	// Output: true MDF 3 mm 3 mm, 3590 MPa from 2700 to 4300
}
