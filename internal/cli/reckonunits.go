package cli

import (
	"awn/internal/report"
	"fmt"
	"io"
	"slices"
	"strings"

	"awn/internal/house"
	"awn/reckon"
	"awn/unit"
)

// listUnits writes every unit that the pocket tables read, or those of the
// quantities that are named so or have a unit written so.
func listUnits(w io.Writer, which string, asJSON bool) error {
	all := reckon.Readables()
	if which != "" {
		of := map[string]bool{}
		var names []string
		for _, r := range all {
			of[r.Quantity] = of[r.Quantity] || r.Quantity == which || slices.Contains(r.Names(), which)
			names = append(append(names, r.Quantity), r.Names()...)
		}
		all = slices.DeleteFunc(all, func(r reckon.Readable) bool { return !of[r.Quantity] })
		if len(all) == 0 {
			f := &reckon.Fault{Code: "reckon.units.unknown", Got: which, Nearest: unit.Nearest(which, names), Width: len([]rune(which))}
			return &sumError{"--units", which, reckon.Faults{f}}
		}
	}
	if asJSON {
		return report.WriteJSON(w, unitsJSON(all))
	}
	_, err := fmt.Fprint(w, unitsText(all))
	return err
}

// unitsText is a table of units under each quantity.
func unitsText(all []reckon.Readable) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Units that are read. UCUM and Rec 20 are the codes by which programs exchange\nquantities; in braces what UCUM does not know. They are read as well.\n")
	quantity := ""
	for _, r := range all {
		if r.Quantity != quantity {
			quantity = r.Quantity
			fmt.Fprintf(&b, "\n%s\n  %-20s %-14s %-7s %s\n", sentence(quantity), "unit", "UCUM", "Rec 20", "also")
		}
		also := append(slices.Clone(r.Aliases), r.Spelling.Also...)
		line := fmt.Sprintf("  %s %s %s ", pad(nameOf(r), 20), pad(r.Spelling.UCUM, 14), pad(r.Spelling.Rec20, 7))
		hang(&b, line, strings.ReplaceAll(strings.Join(also, ", "), " ", nbsp))
	}
	return b.String()
}

// nameOf is the symbol of a unit; a plain number has none.
func nameOf(r reckon.Readable) string {
	if r.Symbol == "" {
		return "a plain number"
	}
	return r.Symbol
}

// unitsJSON is the same for machines.
func unitsJSON(all []reckon.Readable) report.Pairs {
	v := house.ReadVersion()
	list := []report.Pairs{}
	for _, r := range all {
		one := report.Pairs{}.With("quantity", r.Quantity).With("symbol", r.Symbol).With("inside", r.Inside)
		if r.Kind != "" {
			one = one.With("kind", r.Kind)
		}
		if r.Spelling.UCUM != "" {
			one = one.With("ucum", r.Spelling.UCUM)
		}
		if r.Spelling.Rec20 != "" {
			one = one.With("rec20", r.Spelling.Rec20)
		}
		if also := append(slices.Clone(r.Aliases), r.Spelling.Also...); len(also) > 0 {
			one = one.With("also", also)
		}
		list = append(list, one)
	}
	return report.Pairs{}.With("awn", "units/1").With("program", v.Release).With("model", v.Model).With("result", list)
}
