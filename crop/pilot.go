package crop

import (
	"math"

	"awn/malt"
	"awn/odds"
	"awn/unit"
)

// ReadPilots reads malts that were made of the harvest and measured: a row for
// each, a column for each figure under its name, with its basis or on the usual
// one: “extract_fine”, “fan_mg_100g_dm”. Shares stand in per cent.
func ReadPilots(rows [][]string) ([]malt.Analysis, []Fault) {
	c := &cells{}
	if len(rows) == 0 {
		return nil, []Fault{{Code: "survey.table.empty", Row: 1}}
	}
	c.head(rows[0])
	names, all := pilotNames()
	at := make([]*pilotColumn, len(c.header))
	any := false
	for i, header := range c.header {
		name := unit.Spelled(header)
		if found, ok := names[name]; ok {
			at[i], any = &found, true
		} else if near := unit.Nearest(name, all); near != "" && columnWords[name] == "" {
			c.fault("survey.header.unknown", 1, i, header).Meant = near
		}
	}
	if !any {
		c.fault("survey.header.missing", 1, -1, string(malt.ExtractFine)).Meant = ""
	}
	var out []malt.Analysis
	for n, row := range rows[1:] {
		a := malt.Analysis{}
		for i, col := range at {
			if col == nil {
				continue
			}
			if x := c.between(n+2, i, cellOf(row, i), 0, mostPilot); !math.IsNaN(x) {
				a[col.Parameter] = malt.Result{Value: odds.Alone(x*col.inside, odds.Measured), Basis: col.basis}
			}
		}
		if len(a) > 0 {
			out = append(out, a)
		}
	}
	return out, c.faults
}

// mostPilot is more than any figure of a malt comes to.
const mostPilot = 1e5

// pilotColumn is a figure of malt as a column may hold it.
type pilotColumn struct {
	malt.Parameter
	basis  malt.Basis
	inside float64 // what one of its unit is
}

// shared are the figures that are shares, and stand in per cent.
var shared = map[malt.Parameter]bool{
	malt.Moisture: true, malt.ExtractFine: true, malt.ExtractCoarse: true, malt.ExtractGap: true, malt.Protein: true, malt.SolubleProtein: true,
	malt.KolbachIndex: true, malt.Friability: true, malt.PartlyUnmodified: true, malt.WhollyUnmodified: true, malt.AttenuationLimit: true,
	malt.Screenings: true,
}

func pilotNames() (names map[string]pilotColumn, all []string) {
	names = map[string]pilotColumn{}
	for _, p := range malt.Parameters() {
		for i, b := range p.Bases() {
			col := pilotColumn{p, b, 1}
			if shared[p] {
				col.inside = 0.01
			}
			if i == 0 {
				names[string(p)] = col
				all = append(all, string(p))
			}
			names[p.Key(b)] = col
			all = append(all, p.Key(b))
		}
	}
	return names, all
}

// Compare sets measured pilot malts beside the expected figures: the mean of
// those that can be told on the same basis.
func (m *Malting) Compare(pilots []malt.Analysis) {
	m.Pilots = len(pilots)
	if len(m.Seasons) == 0 {
		return
	}
	for i := range m.Seasons[0].Figures {
		f := &m.Seasons[0].Figures[i]
		sum, n := 0.0, 0.0
		for _, a := range pilots {
			if found, reason := a.On(f.Parameter, f.Basis); reason == malt.Given {
				sum, n = sum+found.Value.Mid, n+1
			}
		}
		f.Pilot = sum / n // NaN where none was measured
	}
}
