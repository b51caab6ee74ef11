package exchange

import (
	"math"
	"slices"
	"strings"

	"awn/ledger"
	"awn/unit"
)

// ending is how the name of a quantity ends, or the whole name of one that has
// neither basis nor unit, and what a result of that name is kept in. Shares
// are kept as fractions.
type ending struct {
	text   string
	is     unit.Dimension
	symbol string
	share  bool
}

// endings go from the longest to the shortest, so that the first that fits is
// the right one.
var endings = []ending{
	{"_mg_kg_asis", unit.Concentration, "mg/kg", false},
	{"_mg_100g_dm", unit.AminoNitrogen, "mg/100g dm", false},
	{"_l_t_asis", unit.SpiritYield, "L/t asis", false},
	{"_mg_kg_dm", unit.Trace, "mg/kg dm", false},
	{"_du_asis", unit.AlphaAmylase, "DU asis", false},
	{"_l_t_dm", unit.SpiritYield, "L/t dm", false},
	{"_du_dm", unit.AlphaAmylase, "DU dm", false},
	{"_share", unit.Percent, "%", true},
	{"_kg_hl", unit.TestWeight, "kg/hL", false},
	{"_mpas", unit.Viscosity, "mPa.s", false},
	{"_asis", unit.MassFraction, "% asis", true},
	{"_mg_l", unit.Concentration, "mg/L", false},
	{"_ebc", unit.Colour, "EBC", false},
	{"_wb", unit.Moisture, "% wb", true},
	{"_dm", unit.MassFraction, "% dm", true},
	{"_wk", unit.DiastaticPower, "WK", false},
	{"_c", unit.Temperature, "°C", false},
	{"_s", unit.Duration, "s", false},
	{"friability", unit.Percent, "%", true},
	{"pug", unit.Percent, "%", true},
	{"wug", unit.Percent, "%", true},
	{"kolbach", unit.Percent, "%", true},
	{"attenuation_limit", unit.Percent, "%", true},
	{"screenings", unit.Percent, "%", true},
	{"germination", unit.Percent, "%", true},
}

// fits reports whether a quantity is one of these.
func (e ending) fits(quantity string) bool {
	return quantity == e.text || e.text[0] == '_' && strings.HasSuffix(quantity, e.text)
}

func endingTexts() []string {
	texts := make([]string, len(endings))
	for i, e := range endings {
		texts[i] = e.text
	}
	return texts
}

// checkUnit finds a quantity that cannot be kept, and a unit that is none.
func (in *importer) checkUnit(line int, c *column) {
	d, known := map[string]unit.Dimension{
		"gross": unit.Mass, "tare": unit.Mass, "net": unit.Mass, "u_net": unit.Mass, "moisture": unit.Moisture, "u_moisture": unit.Percent,
	}[c.Field]
	if c.Quantity != "" {
		i := slices.IndexFunc(endings, func(e ending) bool { return e.fits(c.Quantity) })
		if i < 0 {
			in.fault(line, c.header, Fault{Code: "import.quantity.ending", Got: c.Quantity, Allowed: endingTexts(), Nearest: unit.Nearest(c.Quantity, endingTexts())})
			return
		}
		c.ending, d, known = endings[i], endings[i].is, true
	}
	if c.Unit == "" || !known {
		return
	}
	if _, ok := d.Unit(c.Unit); !ok {
		in.fault(line, c.header, Fault{Code: "import.unit.unknown", Got: c.Unit, Allowed: d.Symbols(), Nearest: unit.Nearest(c.Unit, d.Symbols())})
	}
}

// analysis reads a row of the laboratory.
func (r *row) analysis() ledger.Body {
	b := &ledger.Analysis{Sample: ledger.Code(r.text("sample")), Lab: r.text("lab"), Note: r.text("note")}
	for field, kind := range map[string]string{
		"delivery": ledger.DeliveryKind, "lot": ledger.LotKind, "piece": ledger.Piece, "silo": ledger.Silo,
	} {
		_, named := r.find(field)
		if _, fixed := r.in.fixed[field]; named || fixed {
			b.Of = place(kind, r.needed(field)).Ref()
			r.there(field, b.Of)
		}
	}
	before := len(r.in.faults)
	for _, c := range r.in.columns {
		if c.Quantity == "" {
			continue
		}
		if f, ok := r.result(c); ok {
			b.Results = append(b.Results, f)
		}
	}
	if len(b.Results) == 0 && len(r.in.faults) == before {
		r.in.fault(r.line, "", Fault{Code: "import.row.empty"})
	}
	if b.Sample != "" {
		r.once("sample", string(b.Sample))
	}
	return b
}

// there refuses a thing that the record knows nothing of.
func (r *row) there(field string, thing ledger.Ref) {
	things := r.in.by.Things
	if thing == "" || things == nil || things[thing] {
		return
	}
	var codes []string
	for t := range things {
		if ledger.Account(t).Kind() == ledger.Account(thing).Kind() {
			codes = append(codes, ledger.Account(t).Code())
		}
	}
	slices.Sort(codes)
	code := ledger.Account(thing).Code()
	r.in.fault(r.line, r.header(field), Fault{Code: "import.row.unknown", Got: code, Nearest: unit.Nearest(code, codes)})
}

// result reads one figure; false if the cell is empty or at fault. A figure
// behind < is a limit that it is below.
func (r *row) result(c column) (ledger.Figure, bool) {
	text, ok := r.cell(c)
	if !ok || text == "" {
		return ledger.Figure{}, false
	}
	text, less := strings.CutPrefix(text, "<")
	x, ok := r.in.figure(r.line, c, strings.TrimSpace(text))
	if !ok {
		return ledger.Figure{}, false
	}
	f := ledger.Figure{Quantity: ledger.Quantity(c.Quantity), Value: x, Less: less, Method: c.Method}
	if c.Uncertainty != "" {
		u, ok := r.in.spread(r.line, c)
		if !ok {
			return f, false
		}
		f.U = &u
	}
	return f, true
}

// figure is a number in what its quantity is kept in.
func (in *importer) figure(line int, c column, text string) (float64, bool) {
	q, err := c.ending.is.Parse(in.withUnit(text, c.Unit))
	if err == nil {
		u, _ := c.ending.is.Unit(c.ending.symbol) // an ending's symbol is one of its dimension
		if u.Kind != q.Kind {
			in.fault(line, c.header, Fault{Code: "import.unit.unknown", Got: q.Symbol, Allowed: alike(c.ending.is, u.Kind)})
			return 0, false
		}
		x, _ := c.ending.is.In(q.Value, c.ending.symbol)
		if c.ending.share {
			x /= 100
		}
		return figures(x), true
	}
	(&row{in: in, line: line}).wrong(c.header, err)
	return 0, false
}

// alike lists the units of a kind.
func alike(d unit.Dimension, kind string) (symbols []string) {
	for _, u := range d.Units {
		if u.Kind == kind {
			symbols = append(symbols, u.Symbol)
		}
	}
	return symbols
}

// spread is the standard uncertainty of a column: the difference that it makes
// to one unit more, so that a scale with a shifted zero is no trouble.
func (in *importer) spread(line int, c column) (float64, bool) {
	low, ok := in.figure(line, c, "1")
	if !ok {
		return 0, false
	}
	q, err := unit.Ratio.Parse(c.Uncertainty)
	if err != nil {
		(&row{in: in, line: line}).wrong(c.header, err)
		return 0, false
	}
	high, ok := in.figure(line, c, "2")
	return figures(math.Abs(high-low) * q.Value), ok
}
