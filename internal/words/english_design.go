package words

// designPhrases are what the page says on which a programme is designed, beyond
// what an account says.
var designPhrases = map[string]string{
	"pull.at":      "{what} at {hour}",
	"pull.waits":   "{what} at {hour} waits for {until} and cannot be pulled",
	"pull.waiting": "These wait for the grain and cannot be pulled: {list}.",
	"pull.item":    "{what} ({until})",
	"pull.drain":   "drain steep {number}",
	"pull.fill":    "fill steep {number}",
	"pull.cast":    "couch",
	"pull.begin":   "begin {what}",
	"pull.growth":  "growth {number} begins",
	"pull.load":    "load the kiln",
	"pull.strip":   "strip",
	"pull.turn":    "first turn",
	"pull.how":     "Pull a filled peg along the hours, move it with the arrow keys, or type its hour; the field beside it follows. Open pegs wait for the grain.",
}
