package report

import (
	"crypto/ed25519"
	"io"
	"math"
	"time"

	"awn/certificate"
	"awn/internal/house"
	"awn/internal/sheet"
	"awn/internal/words"
	"awn/malt"
)

// CertificateSheet is a certificate and the reader it is set for. Whoever sets
// it has checked the signature; Key is nil of one that is not signed yet.
type CertificateSheet struct {
	*certificate.Certificate
	Key ed25519.PublicKey
	URL string // where the same can be read and checked; may be empty

	Units   words.Units
	Version house.Version
}

// Leaf is the certificate as a document to read and to print.
func (c CertificateSheet) Leaf() Leaf {
	u := c.Units
	l := Leaf{
		Title: u.Say("certificate.title"), Number: c.Number, Foot: c.House.Name + " · " + c.Number, Stamp: stamp(c.Version, u), At: time.UnixMilli(c.IssuedMs),
		URL: c.URL, About: c.about(), First: c.first(), Parts: c.parts(), Proof: c.proof(), Units: u,
	}
	if c.Key != nil {
		l.Last = u.Say("certificate.good")
	}
	return l
}

// PDF writes the certificate as a printed sheet.
func (c CertificateSheet) PDF(w io.Writer, paper sheet.Paper) error { return c.Leaf().PDF(w, paper) }

// Text writes the certificate for a terminal. A key says that the signature
// was checked with it.
func (c CertificateSheet) Text(w io.Writer) error { return c.Leaf().Text(w) }

// about is whose malt it is, for whom, and which load.
func (c CertificateSheet) about() [][2]string {
	u := c.Units
	return [][2]string{
		{u.Say("certificate.house"), join([]string{c.House.Name, c.House.Address, c.House.Contact})},
		{u.Say("certificate.buyer"), join([]string{c.Buyer.Name, c.Buyer.Address, c.Buyer.Contact})},
		{u.Say("certificate.order"), c.Order},
		{u.Say("certificate.shipment"), join([]string{c.Shipment, c.Vehicle, c.seal()})},
		{u.Say("certificate.product"), join([]string{c.Product, words.Figure("malt_kg", c.NetKg, u)})},
		{u.Say("certificate.issued"), c.moment(c.IssuedMs)},
		{u.Say("certificate.replaces"), c.Replaces},
	}
}

func (c CertificateSheet) seal() string {
	if c.Seal == "" {
		return ""
	}
	return c.Units.Say("certificate.seal", "seal", c.Seal)
}

// moment is a time by the clock of the house; empty if it is not known.
func (c CertificateSheet) moment(ms int64) string {
	if ms == 0 {
		return ""
	}
	return c.Units.Moment(ms, c.OffsetMin)
}

// first is what the reader must know before any figure: whether it is one lot,
// whether all was measured on it, and whether it is what was agreed.
func (c CertificateSheet) first() (out []string) {
	u := c.Units
	if c.Blend() {
		out = append(out, u.Say("certificate.blend", "count", u.Number(float64(len(c.Lots)), 0)))
	}
	fails, typical := 0, 0
	agreed := 0
	for _, v := range c.Values {
		if v.Of == certificate.OfTypical {
			typical++
		}
		switch v.Word() {
		case malt.Fails:
			fails++
			agreed++
		case malt.Passes:
			agreed++
		}
	}
	count := func(n int) string { return u.Number(float64(n), 0) }
	switch {
	case fails > 0:
		out = append(out, u.Say("certificate.misses", "count", count(fails), "of", count(agreed)))
	case agreed > 0 && len(c.Unmeasured) > 0:
		out = append(out, u.Say("certificate.meets-partly", "of", count(agreed), "name", c.Specification))
	case agreed > 0:
		out = append(out, u.Say("certificate.meets", "of", count(agreed), "name", c.Specification))
	}
	if len(c.Unmeasured) > 0 {
		var names []string
		for _, p := range c.Unmeasured {
			names = append(names, u.Parameter(p))
		}
		out = append(out, u.Say("certificate.unmeasured", "list", u.List(names)))
	}
	if typical > 0 {
		out = append(out, u.Say("certificate.typical", "count", count(typical)))
	}
	return out
}

// parts are those that have something to say.
func (c CertificateSheet) parts() (out []part) {
	for _, p := range []part{c.valuePart(), c.residuePart(), c.additionPart(), c.lotPart(), c.originPart(), c.wordPart()} {
		if len(p.rows)+len(p.says) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// valuePart is the analysis.
func (c CertificateSheet) valuePart() part {
	u := c.Units
	p := part{
		title: u.Say("certificate.values"), align: "lrlll",
		head: []string{"", u.Say("certificate.found"), u.Say("certificate.agreed"), u.Say("certificate.method"), u.Say("certificate.of")},
	}
	for _, v := range c.Values {
		p.rows = append(p.rows, []string{u.Parameter(v.Parameter), c.figure(v), c.agreed(v), join([]string{v.Method, v.Lab}), u.Say("certificate.of-" + string(v.Of))})
	}
	p.rows = append(p.rows, c.asIs()...)
	return p
}

// figure is a value with its band.
func (c CertificateSheet) figure(v certificate.Value) string {
	text := words.Figure(v.Key(), v.Value, c.Units)
	if v.Low == nil || v.High == nil {
		return text
	}
	n := words.Decimals(v.Key(), c.Units)
	bound := func(x float64) string { return c.Units.Number(words.Value(v.Key(), x, c.Units), n) }
	return c.Units.Say("certificate.band", "figure", text, "low", bound(*v.Low), "high", bound(*v.High))
}

// agreed is what was agreed, and whether the value is that.
func (c CertificateSheet) agreed(v certificate.Value) string {
	l := malt.Limit{Min: math.NaN(), Max: math.NaN()}
	if v.Least != nil {
		l.Min = *v.Least
	}
	if v.Most != nil {
		l.Max = *v.Most
	}
	text := (Report{Units: c.Units}).limit(v.Key(), l)
	if text == "" {
		return ""
	}
	return text + "  " + c.Units.Verdict(v.Word())
}

// asIs works extract out on malt as it stands, where the certificate gives it
// of dry matter and the moisture too: what a brewer weighs out.
func (c CertificateSheet) asIs() (out [][]string) {
	wet := math.NaN()
	stated := map[malt.Parameter]bool{}
	for _, v := range c.Values {
		if v.Parameter == malt.Moisture {
			wet = v.Value
		}
		if v.Basis == malt.AsIs {
			stated[v.Parameter] = true
		}
	}
	for _, v := range c.Values {
		if extract := v.Parameter == malt.ExtractFine || v.Parameter == malt.ExtractCoarse; !extract || v.Basis != malt.Dry || stated[v.Parameter] || math.IsNaN(wet) {
			continue
		}
		as := words.Figure(v.Parameter.Key(malt.AsIs), v.Value*(1-wet), c.Units)
		out = append(out, []string{c.Units.Parameter(v.Parameter), as, "", c.Units.Say("certificate.by-moisture"), ""})
	}
	return out
}

// residuePart is what was looked for that nobody wants.
func (c CertificateSheet) residuePart() part {
	u := c.Units
	p := part{
		title: u.Say("certificate.residues"), align: "lrrll",
		head: []string{"", u.Say("certificate.found"), u.Say("certificate.most"), u.Say("certificate.law"), u.Say("certificate.of")},
	}
	for _, r := range c.Residues {
		found := words.Figure("ug_kg", 1e9*r.KgKg, u)
		if r.Below {
			found = u.Say("certificate.below", "figure", found)
		}
		most := ""
		if r.MostKgK != nil {
			most = words.Figure("ug_kg", 1e9**r.MostKgK, u)
		}
		p.rows = append(p.rows, []string{r.Name, found, most, join([]string{r.Law, r.Method}), u.Say("certificate.of-" + string(r.Of))})
	}
	return p
}

// additionPart is what was put on the grain.
func (c CertificateSheet) additionPart() part {
	u := c.Units
	p := part{title: u.Say("certificate.additions"), align: "lrl", head: []string{"", u.Say("certificate.dose"), u.Say("certificate.permitted")}}
	for _, a := range c.Additions {
		p.rows = append(p.rows, []string{a.Name, words.Figure("mg_kg", 1e6*a.KgKg, u), a.Permitted})
	}
	return p
}

// lotPart is the lots and varieties of the load.
func (c CertificateSheet) lotPart() part {
	u := c.Units
	p := part{title: u.Say("certificate.lots"), align: "lrrl", head: []string{u.Say("certificate.lot"), u.Say("certificate.share"), u.Say("certificate.crop"), u.Say("certificate.kilned")}}
	share := func(x float64) string { return words.Figure("tenths", x, u) }
	for _, l := range c.Lots {
		crop := ""
		if l.CropYear > 0 {
			crop = time.Date(l.CropYear, 1, 1, 0, 0, 0, 0, time.UTC).Format("2006")
		}
		p.rows = append(p.rows, []string{l.Code, share(l.Share), crop, c.moment(l.KilnedMs)})
	}
	var varieties []string
	for _, v := range c.Varieties {
		varieties = append(varieties, v.Name+" "+share(v.Share))
	}
	if len(varieties) > 0 {
		p.says = []string{u.Say("certificate.varieties", "list", u.List(varieties))}
	}
	return p
}

// originPart is where the barley grew.
func (c CertificateSheet) originPart() part {
	u := c.Units
	p := part{title: u.Say("certificate.origins"), align: "lrr", head: []string{"", u.Say("certificate.share"), u.Say("certificate.range")}}
	share := func(x float64) string { return words.Figure("tenths", x, u) }
	for _, o := range c.Origins {
		p.rows = append(p.rows, []string{o.Name, share(o.Share.Share), share(o.Least) + "–" + share(o.Most)})
	}
	if len(p.rows) > 0 {
		p.says = []string{u.Say("certificate.mixing")}
	}
	return p
}

// wordPart is what is said in words.
func (c CertificateSheet) wordPart() part {
	u := c.Units
	p := part{title: u.Say("certificate.words")}
	for _, d := range c.Deviations {
		agreed := u.Say("certificate.not-agreed")
		if d.Agreed != "" {
			agreed = u.Say("certificate.by", "who", d.Agreed)
		}
		p.says = append(p.says, u.Say("certificate.deviation", "what", words.Capital(u.Parameter(d.Parameter)), "offer", d.Offered, "agreed", agreed))
	}
	if c.Changes != "" {
		p.says = append(p.says, u.Say("certificate.changes", "what", c.Changes))
	}
	p.says = append(p.says, c.Statements...)
	if s := c.Sample; s != nil {
		p.says = append(p.says, u.Say("certificate.sample", "code", s.Code, "where", join([]string{s.Where, c.moment(s.UntilMs)})))
	}
	if r := c.Released; r != nil {
		p.says = append(p.says, u.Say("certificate.released", "who", r.By, "when", c.moment(r.AtMs), "why", r.Reason))
	}
	return p
}

// proof is how the certificate can be checked.
func (c CertificateSheet) proof() (out []string) {
	u := c.Units
	if c.Key != nil {
		out = append(out, u.Say("certificate.proof", "key", certificate.Fingerprint(c.Key)))
	}
	if h := c.Record; h != nil {
		out = append(out, u.Say("certificate.head", "seq", u.Number(float64(h.Seq), 0), "hash", h.Hash))
	}
	return out
}
