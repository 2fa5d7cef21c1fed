package unit_test

import (
	"fmt"

	"springrib/internal/unit"
)

// What is typed may be in the other unit, or a fraction; what is stored is millimetres.
func ExampleParseLength() {
	for _, typed := range []string{"12,5", "1/8 in", `2' 3 1/4"`, "3 cm"} {
		v, err := unit.ParseLength(typed, unit.MM)
		fmt.Println(v, err)
	}
	_, err := unit.ParseLength("about 3", unit.MM)
	fmt.Println(err)
	// Output:
	// 12.5 <nil>
	// 3.175 <nil>
	// 692.15 <nil>
	// 30 <nil>
	// "about 3" is not a figure. Write 3 mm or 1/8 in.
}
