package cli

import "awn/internal/words"

// telling are the flags that say how a reader wants things told. The language
// of the terminal's surroundings is not asked: what is printed must be the same
// wherever a script runs.
type telling struct {
	Units  string `enum:"metric,us" default:"metric" env:"AWN_UNITS" placeholder:"WHICH" help:"Units: metric or us."`
	Tongue string `enum:"en,es" default:"en" env:"AWN_TONGUE" placeholder:"WHICH" help:"Language: en or es. What Spanish lacks is said in English."`
}

// reader is the reader that the flags name.
func (t telling) reader() words.Units {
	tongue, _ := words.TongueOf(t.Tongue) // the flag takes no other
	return words.Units{Tongue: tongue}.Preset(t.Units)
}
