package words

import "maps"

// Texts returns the English sentences of findings and of the changes that make
// them vanish, by code. Figures stand in braces, what may be missing in square
// brackets.
func Texts() (findings, acts map[string]string) {
	return maps.Clone(english.findings), maps.Clone(english.acts)
}

// Faults returns the sentences of faults in a language, by code; nil of English,
// whose sentences stand with each package.
func Faults(t Tongue) map[string]string { return maps.Clone(languages[t].faults) }
