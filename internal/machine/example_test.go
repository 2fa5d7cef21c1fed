package machine_test

import (
	"fmt"

	"springrib/internal/machine"
)

// A head of 100 mm/s that gains 1000 mm/s^2 needs v^2/2a = 5 mm to be at speed, and for 200 mm
// from rest to rest v/a longer than at full speed all the way.
func ExampleStrokeTime() {
	const speed, gain = 100, 1000
	fmt.Printf("overrun %.1f mm, stroke %.1f s\n", machine.LeastOverrun(speed, gain), machine.StrokeTime(speed, gain, 200))
	// Output: overrun 5.0 mm, stroke 2.1 s
}
