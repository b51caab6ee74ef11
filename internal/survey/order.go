// Package survey reads the samples of a harvest with all that goes with them and
// reports on it: the same for the command line, for pages and for programs.
package survey

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"awn/crop"
	"awn/internal/paper"
)

// Order is what is asked of a survey. Files stand by their names.
type Order struct {
	Name          string // of the harvest
	Samples       string
	Before        []string // samples of earlier seasons
	Frame, Places string   // "" where there is none
	Contracts     []Contract
	ElsewhereT    float64 // what a refused tonne earns elsewhere; NaN where nobody said
	Within        []Within
	Columns       map[string]crop.Column // what a column holds, where its head does not say it
	Sheet         string                 // of a workbook
	Drawn, Lonely string                 // "" is the usual way
	MostSeen      bool                   // most of the frame was sampled
	Malt          *Malt                  // nil where nothing is malted
}

// Contract is one that barley is taken on, with the tonnes that are wanted; NaN
// where nobody said.
type Contract struct {
	File    string
	WantedT float64
}

// Within is how well the mean of a quality shall be known next time.
type Within struct {
	Quality string
	Half    float64
}

// Malt is how lots of the harvest are malted.
type Malt struct {
	Piece          string // house, programme and specification
	Pilots         string // measured pilot malts, "" where there are none
	Specifications []string
	Lots           int
	Seed           uint64
}

// How many lots are malted where nothing is said, and by which seed.
const (
	UsualLots = 60
	UsualSeed = 1
)

// OrderOf is what a document asks for; place is where a file lies that it names.
func OrderOf(doc paper.Survey, place func(string) string) Order {
	at := func(file string) string {
		if file == "" {
			return ""
		}
		return place(file)
	}
	o := Order{
		Name: doc.Name, Samples: at(doc.Samples), Frame: at(doc.Frame), Places: at(doc.Places), ElsewhereT: math.NaN(),
		Sheet: doc.Sheet, Drawn: doc.Drawn, Lonely: doc.Lonely, MostSeen: doc.MostSeen,
	}
	for _, file := range doc.Before {
		o.Before = append(o.Before, at(file))
	}
	for _, c := range doc.Contracts {
		one := Contract{at(c.Contract), math.NaN()}
		if c.Wanted != nil {
			one.WantedT = c.Wanted.In("t")
		}
		o.Contracts = append(o.Contracts, one)
	}
	if doc.Elsewhere != nil {
		o.ElsewhereT = doc.Elsewhere.In("¤/t")
	}
	for _, quality := range slices.Sorted(maps.Keys(doc.Within)) {
		o.Within = append(o.Within, Within{quality, doc.Within[quality]})
	}
	for header, what := range doc.Columns {
		if o.Columns == nil {
			o.Columns = map[string]crop.Column{}
		}
		o.Columns[header], _ = crop.ColumnNamed(what) // the document was checked
	}
	if m := doc.Malt; m != nil {
		o.Malt = &Malt{Piece: at(m.Piece), Pilots: at(m.Pilots), Lots: UsualLots, Seed: UsualSeed}
		for _, file := range m.Specifications {
			o.Malt.Specifications = append(o.Malt.Specifications, at(file))
		}
		if m.Lots != nil {
			o.Malt.Lots = *m.Lots
		}
		if m.Seed != nil {
			o.Malt.Seed = uint64(*m.Seed)
		}
	}
	return o
}

// question is what the order asks of the samples.
func (o Order) question() crop.Question {
	q := crop.Question{ElsewhereT: o.ElsewhereT}
	q.Lonely = crop.Lonely(cmp.Or(o.Lonely, string(crop.Adjust)))
	if o.Drawn == "by-district" {
		q.Clusters = crop.FarmInDistrict
	}
	if o.MostSeen {
		q.Rest = crop.BinsRest
	}
	return q
}
