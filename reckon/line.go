package reckon

import (
	"strings"
	"unicode"
)

// token is a number, a word or "=" of a line.
type token struct {
	text   string
	at     int // characters before it
	number bool
	glued  bool // nothing stands between it and the token before
}

// width is how many characters the token has.
func (t token) width() int { return len([]rune(t.text)) }

// tokens takes a line apart. A number ends where its unit begins, with or
// without a space: "30°C", "7/64 in", "rh=50%".
func tokens(line string) []token {
	var out []token
	text := []rune(line)
	for i := 0; i < len(text); {
		if unicode.IsSpace(text[i]) {
			i++
			continue
		}
		t := token{at: i, glued: i > 0 && !unicode.IsSpace(text[i-1])}
		end := i + 1
		switch {
		case text[i] == '=':
		case startsNumber(text[i:]):
			t.number = true
			for end < len(text) && inNumber(text[end]) {
				end++
			}
		default:
			for end < len(text) && !unicode.IsSpace(text[end]) && text[end] != '=' {
				end++
			}
		}
		t.text = string(text[i:end])
		out = append(out, t)
		i = end
	}
	return out
}

// startsNumber reports whether a number begins here, with or without a sign.
func startsNumber(text []rune) bool {
	if strings.ContainsRune("-−+", text[0]) && len(text) > 1 {
		text = text[1:]
	}
	return text[0] >= '0' && text[0] <= '9'
}

// inNumber holds of what the reader of quantities takes as part of a number,
// be it rightly written or not.
func inNumber(r rune) bool { return strings.ContainsRune("0123456789.,'", r) }
