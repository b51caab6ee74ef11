package reckon

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"awn/unit"
)

// byDefault is the input as it is taken when nobody gives it.
func (in *Input) byDefault() Filled {
	if len(in.Choices) > 0 {
		return Filled{Input: in, Value: math.NaN(), Word: in.Default, Written: in.Default, Default: true}
	}
	number, symbol, _ := strings.Cut(in.Default, " ")
	f, err := in.parse(number, symbol)
	if err != nil {
		return Filled{Value: math.NaN()} // a test reads every default
	}
	f.Default = true
	return f
}

// parse reads a number with its unit as a value of the input.
func (in *Input) parse(number, symbol string) (Filled, *Fault) {
	if in.plain() {
		return in.parsePlain(number, symbol)
	}
	if len(in.In) == 0 {
		return Filled{}, &Fault{Code: "reckon.word.unknown", Got: number, Allowed: in.Choices}
	}
	d, ok := in.dimension(symbol)
	if !ok {
		d = in.In[0]
	}
	symbol = in.stands(symbol)
	text := number + " " + symbol
	if strings.HasPrefix(symbol, "/") {
		text = number + symbol
	}
	q, err := d.Parse(strings.TrimSpace(text))
	if err != nil {
		return Filled{}, ofUnit(err)
	}
	return Filled{Input: in, Value: q.Value, In: d, Quantity: q, Written: text}, nil
}

// parsePlain reads a number without unit.
func (in *Input) parsePlain(number, symbol string) (Filled, *Fault) {
	if symbol != "" {
		return Filled{}, &Fault{Code: "reckon.input.place", Got: number + " " + symbol, Allowed: []string{in.form()}}
	}
	x, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil || strings.ContainsAny(number, ",'") {
		return Filled{}, &Fault{Code: "number.malformed", Got: number}
	}
	if !(x >= in.Least && x <= in.Most) {
		return Filled{}, &Fault{Code: "number.range", Got: number, Allowed: []string{plain(in.Least) + " to " + plain(in.Most)}}
	}
	return Filled{Input: in, Value: x, Written: number}, nil
}

// ofUnit turns the error of a quantity into a fault.
func ofUnit(err error) *Fault {
	var e *unit.Error
	if !errors.As(err, &e) {
		return &Fault{Code: "number.malformed", Got: err.Error()}
	}
	return &Fault{Code: e.Code, Got: e.Got, Allowed: e.Allowed, Nearest: e.Nearest}
}
