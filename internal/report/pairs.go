package report

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strconv"
)

// WriteJSON writes a value as indented JSON.
func WriteJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// Pairs is a JSON object whose keys keep their order.
type Pairs []pair

type pair struct {
	key   string
	value any
}

// digits are those of a number in JSON: fewer than a float64 has, so that 0.95
// is not 0.9500000000000001.
const digits = 12

// With adds a key. A number that is not known has no key.
func (p Pairs) With(key string, value any) Pairs {
	if x, ok := value.(float64); ok {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return p
		}
		value = json.Number(strconv.FormatFloat(x, 'g', digits, 64))
	}
	return append(p, pair{key, value})
}

// MarshalJSON writes the object.
func (p Pairs) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, kv := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		for j, v := range []any{kv.key, kv.value} {
			if j > 0 {
				b.WriteByte(':')
			}
			var data bytes.Buffer
			e := json.NewEncoder(&data)
			e.SetEscapeHTML(false)
			if err := e.Encode(v); err != nil {
				return nil, err
			}
			b.Write(bytes.TrimSuffix(data.Bytes(), []byte("\n")))
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}
