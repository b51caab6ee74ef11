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

// apiPhrases are what the page for people who write programs says.
var apiPhrases = map[string]string{
	"page.api.pages":    "Lists come a page at a time: {usual} without limit, {most} at most. The address of the next page stands as “next” in the answer and in Link; its cursor holds while entries come in.",
	"page.api.tags":     "Answers carry an ETag. Send it as If-None-Match, and what still holds is answered with 304. What somebody else may have changed is changed with If-Match.",
	"page.api.twice":    "An entry brings its own id, a UUID made where it was typed. The same entry sent twice is entered once and answered with what was entered; another one with that id is refused with 409.",
	"page.api.wrong":    "What is wrong comes as application/problem+json with all faults, each with its code:",
	"page.api.statuses": "Refusals by status",
	"page.api.codes":    "Codes of a refusal",
	"page.api.must":     "(must be given)",
	"page.api.fields":   "Fields, each a text",
	"page.api.as-kept":  "Answers the document itself, byte for byte.",
	"page.api.may":      "For:",
	"page.api.anybody":  "For whoever may come in.",
	"page.api.refuses":  "Refuses with",
}
