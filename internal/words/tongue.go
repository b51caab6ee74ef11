package words

import (
	"slices"
	"strings"
)

// Tongue is a language.
type Tongue int

// The languages. Spanish is not whole: what it lacks is said in English, and a
// test lists it.
const (
	English Tongue = iota
	Spanish
)

// tags are the languages as HTML and PDF name them.
var tags = [...]string{English: "en", Spanish: "es"}

// Tag is the language as HTML and PDF name it.
func (t Tongue) Tag() string { return tags[t] }

// Tongues are all languages.
func Tongues() []Tongue { return []Tongue{English, Spanish} }

// TongueOf is the language of a tag such as "es" or "es-MX".
func TongueOf(tag string) (Tongue, bool) {
	first, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(tag)), "-")
	at := slices.Index(tags[:], first)
	return Tongue(max(at, 0)), at >= 0
}
