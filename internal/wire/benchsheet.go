package wire

// BenchSheet is what lies beside the machine and the vice, in words, tables and figures.
// The arrays of the reply belong to its figures, one by one in their order.
type BenchSheet struct {
	Warning  string         `json:"warning,omitempty"` // what is wrong with files that were let go all the same
	Title    string         `json:"title"`
	Lead     string         `json:"lead"`
	Sections []BenchSection `json:"sections"`
}

// BenchSection is a part of the sheet; what it has is shown in the order of its members.
type BenchSection struct {
	ID      string        `json:"id"` // "watch", "cautions", "steps", "parts", "machine"...
	Title   string        `json:"title"`
	NewPage bool          `json:"newPage"` // begins a page on paper
	Lines   []string      `json:"lines"`
	Steps   []BenchStep   `json:"steps"`
	Loose   bool          `json:"loose"` // the steps are in no order
	Head    []string      `json:"head"`
	Rows    []BenchRow    `json:"rows"`
	Ruled   bool          `json:"ruled"` // the table is written in
	Figures []BenchFigure `json:"figures"`
}

// BenchRow is one row of a section's table.
type BenchRow struct {
	Cells []string `json:"cells"`
}

// BenchStep is one thing to do.
type BenchStep struct {
	ID   string `json:"id"`
	What string `json:"what"`
	How  string `json:"how"`
}

// BenchFigure is a drawing and how it is printed: at one to Scale of its size, or as it
// fits where Scale is 0.
type BenchFigure struct {
	Drawing Drawing `json:"drawing"`
	Scale   float64 `json:"scale"`
	Wide    bool    `json:"wide"` // over the whole width
	Text    float64 `json:"text"` // height of the letters of its labels, in its own mm
}
