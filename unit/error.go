package unit

import "strings"

// Error says why a text is not a quantity of its dimension.
type Error struct {
	Code    string   // number.* or unit.*, a key of Sentences
	Got     string   // the text, or the part of it that is at fault
	Allowed []string // what may stand there
	Nearest string   // which of those was probably meant, "" if none
}

// Error returns the sentence of the code, filled in.
func (e *Error) Error() string { return Fill(Sentences[e.Code], e.Got, e.Allowed, e.Nearest) }

// Sentences holds the English sentence of each code of Error.
var Sentences = map[string]string{
	"number.missing":     `{got} has no number; write number, space, unit.`,
	"number.malformed":   `{got} is not a number as it is written here: digits and one decimal point, a digit before the point, no leading zeros, no exponent, up to nine digits before the point and six after it.`,
	"number.ambiguous":   `{got} can be read in two ways; write a decimal point and no mark between thousands: {allowed}.`,
	"number.not-finite":  `{got} is not a finite number.`,
	"number.range":       `{got} is beyond what is possible here: {allowed}.`,
	"unit.missing":       `{got} has no unit; write one of {allowed}.`,
	"unit.unknown":       `{got} is not a unit of this quantity{nearest}; write one of {allowed}.`,
	"unit.basis.missing": `{got} does not say its basis; write one of {allowed}.`,
}

// Fill puts got, allowed and nearest in their places in a sentence.
func Fill(sentence, got string, allowed []string, nearest string) string {
	if nearest != "" {
		nearest = " (nearest: “" + nearest + "”)"
	}
	if got = shorten(got, 80); got == "" {
		got = "An empty text"
	} else {
		got = "“" + got + "”"
	}
	return strings.NewReplacer("{got}", got, "{allowed}", strings.Join(allowed, ", "), "{nearest}", nearest).Replace(sentence)
}
