package solve

import "sort"

// SearchFrom is sort.SearchFloat64s(a, x), which looks next to i first.
func SearchFrom(a []float64, x float64, i int) int {
	for near := max(i-1, 0); near <= i+1 && near <= len(a); near++ {
		if (near == len(a) || a[near] >= x) && (near == 0 || a[near-1] < x) {
			return near
		}
	}
	return sort.SearchFloat64s(a, x)
}
