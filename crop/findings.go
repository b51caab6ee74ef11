package crop

import (
	"cmp"
	"math"
	"slices"

	"awn/finding"
	"awn/intake"
)

// Bounds of what is told of a harvest. Common practice, no source.
const (
	surelyMet     = 0.9  // chance above which a demand counts as met
	leadingReason = 0.05 // share refused for a limit that is worth a word
	worseDistrict = 1.5  // refusals of a district over those of all
	openWorth     = 0.05 // gap between the bounds of a share
	surelyMoved   = 0.95 // chance that a change is one
	lostWorth     = 0.02 // part of the price that refusals cost
)

// acts are what can be done about a limit that is missed, by factor.
var acts = map[intake.Factor]string{
	intake.Moisture: "act.crop.dry", intake.Held: "act.crop.screen", intake.Through: "act.crop.screen", intake.DON: "act.crop.test-don",
	intake.Energy: "act.crop.retest", intake.Energy8: "act.crop.retest", intake.Capacity: "act.crop.retest", intake.Protein: "act.crop.sort-protein",
	intake.Sprouted: "act.crop.use-first", intake.FallingNumber: "act.crop.use-first", intake.Viscosity: "act.crop.use-first",
	intake.Skinned: "act.crop.thresh",
}

type telling struct {
	sum *Summary
	out []Remark
}

func (t *telling) say(code string, severity finding.Severity, chance, cost float64, act string, figures ...finding.Figure) *Remark {
	f := finding.New(code, severity, ofHarvest, figures...)
	f.Chance, f.Cost, f.Act, f.Source = chance, cost, act, practice
	t.out = append(t.out, Remark{Finding: f})
	return &t.out[len(t.out)-1]
}

// findings are what the harvest has to say to those who trade in it, weightiest
// first.
func (sum *Summary) findings() []Remark {
	t := telling{sum: sum}
	for _, taking := range sum.Takings {
		t.demand(taking)
		t.reason(taking)
		t.district(taking)
		t.open(taking)
		t.lost(taking)
		for _, k := range taking.Unjudged {
			m := t.say("crop.contract.unjudged", finding.Caution, 1, 0.02, "act.crop.measure")
			m.Contract, m.Key = taking.Contract.Name, k
		}
	}
	for _, l := range sum.Lines {
		t.change(l)
		t.trace(l)
	}
	for _, p := range sum.Plans {
		t.more(p)
	}
	slices.SortStableFunc(t.out, func(a, b Remark) int {
		return cmp.Or(cmp.Compare(b.Severity, a.Severity), cmp.Compare(b.Weight(), a.Weight()))
	})
	return t.out
}

// demand says whether a buyer can be served.
func (t *telling) demand(k Taking) {
	if !(k.WantedT > 0) || math.IsNaN(k.All.Met) || k.All.Met >= surelyMet {
		return
	}
	severity := finding.Caution
	if k.All.Met < 0.5 {
		severity = finding.Alarm
	}
	value, low, high := k.All.Tonnes()
	t.say("crop.demand.short", severity, 1-k.All.Met, max(0, 1-value/k.WantedT), "act.crop.tell-buyer",
		figure("wanted_t", k.WantedT), figure("taken_t", value), figure("low_t", low), figure("high_t", high), figure("chance", k.All.Met)).Contract = k.Contract.Name
}

// leading is the limit that refuses most.
func (k Taking) leading() (Reason, bool) {
	if len(k.Reasons) == 0 {
		return Reason{}, false
	}
	r := slices.MaxFunc(k.Reasons, func(a, b Reason) int { return cmp.Compare(a.All.Value, b.All.Value) })
	return r, r.All.Value >= leadingReason
}

func (t *telling) reason(k Taking) {
	r, ok := k.leading()
	if !ok {
		return
	}
	m := t.say("crop.reason.leading", finding.Caution, r.All.Value, 0.1, acts[r.Limit.Factor],
		figure("share", r.All.Value), figure("low", r.All.Low), figure("high", r.All.High), figure("only", r.Only.Value))
	m.Contract, m.Key = k.Contract.Name, r.Limit.Key
}

// district names where most is refused.
func (t *telling) district(k Taking) {
	worst, share := "", 0.0
	all := 1 - k.All.Share.Value
	for i, d := range k.District {
		if t.sum.Districts[i].Withheld || !(d.Share.Farms > 0) {
			continue
		}
		// The interval keeps out what chance may have done.
		if out := 1 - d.Share.Value; 1-d.Share.High > all && out > worseDistrict*all && out > share {
			worst, share = d.Name, out
		}
	}
	if worst != "" {
		m := t.say("crop.district.worse", finding.Caution, share, 0.05, "act.crop.look-there", figure("share", share), figure("all", all))
		m.Contract, m.District = k.Contract.Name, worst
	}
}

func (t *telling) open(k Taking) {
	if gap := k.All.Most - k.All.Least; gap > openWorth {
		m := t.say("crop.samples.open", finding.Note, gap, 0.05, "act.crop.complete", count("samples_n", k.All.Open), figure("least", k.All.Least), figure("most", k.All.Most))
		m.Contract = k.Contract.Name
	}
}

func (t *telling) lost(k Taking) {
	if k.All.Lost.Value > lostWorth*k.Contract.PriceT*k.All.TonnesT {
		half := k.All.Lost.SE
		m := t.say("crop.refusals.cost", finding.Note, 1, k.All.Lost.Value/(k.Contract.PriceT*k.All.TonnesT), "",
			figure("lost_n", k.All.Lost.Value), figure("error_n", half), figure("each_x", k.All.Lost.Value/k.All.TonnesT))
		m.Contract = k.Contract.Name
	}
}

func (t *telling) change(l Line) {
	if l.Change == nil || math.IsNaN(l.Change.Rise) {
		return
	}
	rise := l.Change.Rise
	code := "crop.quality.rose"
	if rise < 0.5 {
		code, rise = "crop.quality.fell", 1-rise
	}
	if rise < surelyMoved {
		return
	}
	t.say(code, finding.Note, rise, 0.03, "", l.figure("now", l.Change.Now.Value), l.figure("before", l.Change.Before.Value), figure("odds", rise)).Key = l.Key
}

func (t *telling) trace(l Line) {
	if l.Trace == nil || !l.Trace.Fitted {
		return
	}
	for _, k := range t.sum.Takings {
		for _, r := range k.Reasons {
			if r.Limit.Key != l.Key || !(r.All.Value >= leadingReason) {
				continue
			}
			t.say("crop.toxin.spread", finding.Caution, r.All.Value, 0.15, "act.crop.test-don",
				l.figure("mean", l.Trace.Mean.Value), l.figure("p90", l.Trace.P90.Value), figure("share", l.Trace.UnderShare)).Key = l.Key
			return
		}
	}
}

func (t *telling) more(p Sowing) {
	wanted, now := 0, 0
	for i, n := range p.Plan.Farms {
		wanted, now = wanted+max(0, n-p.Plan.Strata[i].Now), now+p.Plan.Strata[i].Now
	}
	if wanted > 0 {
		t.say("crop.survey.more", finding.Note, 0.5, 0.01, "act.crop.sample-more", count("farms_n", wanted), count("now_n", now),
			p.Quality.figure("half", p.Half), p.Quality.figure("now", p.Now)).Key = p.Key
	}
}
