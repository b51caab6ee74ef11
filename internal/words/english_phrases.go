package words

// commonPhrases are what this package itself puts together.
var commonPhrases = map[string]string{
	"list.and":   " and ",
	"moment":     "{weekday} {day}, {time}",
	"day":        "{day} {month} {year}",
	"span.hours": "{hours}\u00a0h",
	"span.days":  "{days}\u00a0d",
	"span.both":  "{days}\u00a0d\u00a0{hours}\u00a0h",
}
