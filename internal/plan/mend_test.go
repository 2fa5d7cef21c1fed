package plan

// mend gives the findings of a plan the changes that mend them, as package check does: it
// is set by the tests outside, since package remedy stands on this one.
var mend func(p *Plan)

// SetMend sets it.
func SetMend(f func(p *Plan)) { mend = f }
