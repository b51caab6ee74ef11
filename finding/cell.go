package finding

// Cell is something in a table that cannot be read. Row and Column count from 1;
// Row is 1 for the header, Column 0 for all of the row.
type Cell struct {
	Code        string
	Row, Column int
	Header      string // of the column
	Text        string // what stands there
	Meant       string // the nearest right word, or what is allowed
}
