package sheet

// Sum puts the placed copies of a layout made elsewhere in order and works out how each
// sheet is used. Copies on sheets that there are not are left for Verify to find.
func (l *Layout) Sum(job *Job) {
	l.order()
	l.summary(job)
}
