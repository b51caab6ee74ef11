package exchange

import (
	"io"
	"iter"

	"github.com/parquet-go/parquet-go"
)

// Reading is one value of a series, with what it was read of.
type Reading struct {
	Series   string  `parquet:"series,dict,snappy"`                     // as in KILN1-AIR-ON
	Quantity string  `parquet:"quantity,dict,snappy"`                   // as in temperature
	Unit     string  `parquet:"unit,dict,snappy"`                       // that the value is in
	AtMS     int64   `parquet:"at,timestamp(millisecond),delta,snappy"` // UTC
	Value    float64 `parquet:"value,snappy"`
}

// readingsAtOnce is how many readings are held before they are handed on.
const readingsAtOnce = 4096

// readingsInGroup is how many readings a row group has: what a reader must
// take up at once.
const readingsInGroup = 1 << 20

// Readings writes readings as Parquet, and says how many.
func Readings(w io.Writer, readings iter.Seq2[Reading, error]) (n int64, err error) {
	p := parquet.NewGenericWriter[Reading](w, parquet.MaxRowsPerRowGroup(readingsInGroup), parquet.CreatedBy("awn", "", ""))
	held := make([]Reading, 0, readingsAtOnce)
	for r, err := range readings {
		if err != nil {
			return n, err
		}
		if held = append(held, r); len(held) < cap(held) {
			continue
		}
		if _, err := p.Write(held); err != nil {
			return n, err
		}
		n, held = n+int64(len(held)), held[:0]
	}
	if _, err := p.Write(held); err != nil {
		return n, err
	}
	return n + int64(len(held)), p.Close()
}
