package words

// tablePhrases are what tables say of themselves.
var tablePhrases = map[string]string{
	"table.find":   "find",
	"table.look":   "Find",
	"table.found":  "{count} of {all} rows",
	"table.rows":   "rows {first} to {last} of {count}",
	"table.before": "the rows before",
	"table.after":  "the rows after",
}
