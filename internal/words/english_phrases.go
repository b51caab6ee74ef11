package words

// commonPhrases are what this package itself puts together.
var commonPhrases = map[string]string{
	"list.and":   " and ",
	"moment":     "{weekday} {day} {month} {year}, {time}",
	"span.hours": "{hours} h",
	"span.days":  "{days} d",
	"span.both":  "{days} d {hours} h",
}
