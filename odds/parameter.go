package odds

import (
	"fmt"
	"reflect"
)

// Standing says how well a number is known; it is printed beside the number.
type Standing string

// The standings, best first.
const (
	Measured Standing = "measured" // read on this lot or house
	Checked  Standing = "checked"  // model figure that passed a check outside the project
	Sourced  Standing = "sourced"  // from a publication that was read
	Practice Standing = "practice" // common practice, no source
	Recalled Standing = "recalled" // from memory of a publication nobody here has read
	Weak     Standing = "weak"     // a judgement; tune it to the house
)

// Distribution names the shape that draws of a parameter follow between its
// low and high, which are its 5th and 95th percentiles.
type Distribution string

// The shapes.
const (
	Normal    Distribution = "normal"
	LogNormal Distribution = "log-normal"
	Uniform   Distribution = "uniform" // low and high are its ends
)

// Parameter is one uncertain constant of the model: one line of the parameter
// table. Its key is the same in documents, ensembles, pages and JSON.
type Parameter struct {
	Key          string // e.g. "kiln.k.multiplier"
	Unit         string // "1" if dimensionless
	Default      float64
	Low, High    float64
	Distribution Distribution
	Source       string   // key in SOURCES.md or "common practice, no source"
	Mark         Standing // how well it is known
}

// Fill sets each float64 field of *constants that carries a `param:"key"` tag
// to the value in values, or else to the default in table. It returns an error
// that names the key if the table lacks it.
func Fill(constants any, table []Parameter, values map[string]float64) error {
	byKey := make(map[string]Parameter, len(table))
	for _, p := range table {
		byKey[p.Key] = p
	}
	v := reflect.ValueOf(constants).Elem()
	for i := range v.NumField() {
		key, ok := v.Type().Field(i).Tag.Lookup("param")
		if !ok {
			continue
		}
		p, ok := byKey[key]
		if !ok {
			return fmt.Errorf("parameter %s is used but missing from the table", key)
		}
		x := p.Default
		if given, ok := values[key]; ok {
			x = given
		}
		v.Field(i).SetFloat(x)
	}
	return nil
}
