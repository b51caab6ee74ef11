package crop

import (
	"math"
	"testing"

	"awn/intake"
)

// contracts are the three of the invented survey.
func contracts(t testing.TB) (out []Buyer) {
	t.Helper()
	all := rows(t, public(t, "crop", "contracts.csv"))
	for _, row := range all[1:] {
		c := &intake.Contract{Name: row[0], PriceT: math.NaN()}
		wanted := math.NaN()
		for i, name := range all[0] {
			x := number(t, row[i], i == 0)
			per := func(f intake.Factor, least bool) {
				term := intake.Term{Column: intake.Column{Key: intake.Of(f), In: intake.PerCent, Decimals: 1}, Least: math.NaN(), Most: math.NaN()}
				if f == intake.Held {
					term.SlotM = plumpSlotM
				}
				if f == intake.DON {
					term.In, term.Decimals = intake.MgPerKg, -1
				}
				if least {
					term.Least = x
				} else {
					term.Most = x
				}
				c.Terms = append(c.Terms, term)
			}
			switch name {
			case "moisture_max":
				per(intake.Moisture, false)
			case "protein_min":
				per(intake.Protein, true)
			case "protein_max":
				c.Terms[len(c.Terms)-1].Most = x
			case "plump_min":
				per(intake.Held, true)
			case "germination_min":
				per(intake.Energy, true)
			case "don_max":
				per(intake.DON, false)
			case "tonnes_wanted":
				wanted = x
			}
		}
		out = append(out, Buyer{c, wanted})
	}
	return out
}

// limitNames are those of the reference, in the order of the contracts' limits.
var limitNames = []string{"moisture", "protein_low", "protein_high", "plump", "germination", "don"}

func sharesAlike(want node, got Share) {
	want.t.Helper()
	want.at("n").near(float64(got.Samples), 0)
	want.at("farms").near(float64(got.Farms), 0)
	want.at("df").near(float64(got.Freedom), 0)
	want.at("p").near(got.Value, sums)
	want.at("se").near(got.SE, sums)
	if want.has("degenerate") {
		want.at("cp_farms", 0).near(got.Low, tails)
		want.at("cp_farms", 1).near(got.High, tails)
		return
	}
	want.at("kg_capped", 0).near(got.Low, tails)
	want.at("kg_capped", 1).near(got.High, tails)
}

func TestContractsOfTheReference(t *testing.T) {
	s := dev(t)
	d := s.Design(Options{})
	for k, b := range contracts(t) {
		want, got := reference(t).at("contracts", k), s.Take(d, b, math.NaN())
		accepted := want.at("accepted")
		sharesAlike(accepted.at("overall"), got.All.Complete)
		for i, name := range s.Districts() {
			sharesAlike(accepted.at(name), got.District[i].Complete)
		}
		for i, name := range s.Varieties() {
			sharesAlike(accepted.at(name), got.Variety[i].Complete)
		}
		for i, r := range got.Reasons {
			reason := want.at("refused", limitNames[i])
			sharesAlike(reason.at("complete_rows"), r.Complete)
			sharesAlike(reason.at("all_rows_with_value"), r.All)
			sharesAlike(reason.at("only_reason"), r.Only)
		}
		want.at("share_undetermined_filled").like(got.All.Share.Value, sums)
		want.at("bounds_missing", "all_unknown_refused").like(got.All.Least, sums)
		want.at("bounds_missing", "all_unknown_accepted").like(got.All.Most, sums)
		want.at("bounds_missing", "undetermined_samples").near(float64(got.All.Open), 0)
		tonnes := got.All.Complete.times(got.All.TonnesT)
		want.at("tonnes_combined", "tonnes").like(tonnes.Value, sums)
		want.at("tonnes_combined", "se").like(tonnes.SE, sums)
		want.at("tonnes_combined", "prob_at_least_wanted").near(tonnes.ChanceAbove(b.WantedT), tails)
		j := s.judge(b.Contract)
		y := j.column(func(i int) (bool, bool) { return j.in(i), j.complete(i) })
		separate := s.SeparateTotal(d, y)
		want.at("tonnes_separate", "tonnes").like(separate.Value, sums)
		want.at("tonnes_separate", "se").like(separate.SE, sums)
		t.Logf("%s: %.0f t by complete samples, %.0f ± %.0f t filled", b.Contract.Name, tonnes.Value, got.All.TonnesT*got.All.Share.Value, got.All.TonnesT*got.All.Share.SE)
	}
}
