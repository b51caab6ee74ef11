package report

import (
	"io"
	"math"

	"awn/finding"
	"awn/internal/house"
	"awn/internal/words"
	"awn/odds"
	"awn/silo"
)

// StoreAccount is a silo of barley with how it stands, and the reader it is
// written for.
type StoreAccount struct {
	Store   silo.Store
	Account silo.Account

	Units   words.Units
	Version house.Version
	Inputs  []Input
}

// findings are all that is to be said, with the cautions of what it asks
// somebody to do.
func (a StoreAccount) findings() []finding.Finding {
	all := a.Account.Findings
	acts := map[string]silo.Act{"act.silo.inspect": silo.Entering, "act.silo.use-first": silo.Unloading, "act.silo.dry": silo.Unloading}
	for _, f := range a.Account.Findings {
		if act, ok := acts[f.Act]; ok {
			all = append(all, silo.Cautions(act)...)
		}
	}
	return once(all, a.Units)
}

// Text writes the account for a terminal.
func (a StoreAccount) Text(w io.Writer) error {
	p, u := &printer{}, a.Units
	p.pair(join([]string{u.Say("store.title", "name", a.Store.Name), u.Say("store.day", "day", u.Number(a.Store.Today, 0))}), stamp(a.Version, u))
	p.rule()
	rows, future := a.stands(), a.future()
	p.fit(rows)
	p.part(u.Say("store.now"), nil, rows)
	p.fit(future)
	p.part(u.Say("store.ahead"), nil, future)
	p.part("", []string{a.windows()}, nil)
	p.rule()
	sayAll(p, a.findings(), u)
	_, err := io.WriteString(w, p.String())
	return err
}

// stands is how the silo stands today.
func (a StoreAccount) stands() (out []entry) {
	u, s := a.Units, a.Account
	row := func(name, figure, note string) { out = append(out, entry{u.Say(name), figure, note}) }
	figure := func(unit string, x float64) string { return words.Figure(unit, x, u) }
	known := func(name, unit string, x float64) {
		if !math.IsNaN(x) {
			row(name, figure(unit, x), "")
		}
	}
	known("store.moisture", "wb", s.Moisture)
	known("store.temperature", "c", s.TempC)
	if !math.IsNaN(s.HumidityLow) {
		row("store.humidity", u.Number(100*s.HumidityLow, 0)+"–"+figure("rh", s.HumidityHigh), u.Say("store.isotherm"))
	}
	known("store.used", "tenths", s.Used)
	if !math.IsNaN(s.LeftDays) {
		row("store.left", figure("d", s.LeftDays), a.plan())
	}
	if !math.IsNaN(s.RespirationMgKgD) {
		row("store.breath", u.Number(s.RespirationMgKgD, 2)+" mg/kg·d", u.Say("store.heat", "figure", u.Number(s.HeatWT, 2)+" W/t"))
	}
	for _, v := range []struct {
		name string
		odds odds.Value
	}{{"store.living", s.Living}, {"store.at-steep", s.AtSteep}, {"store.dormant", s.Dormant}} {
		if v.odds.Known() {
			row(v.name, u.Doubt("tenths", v.odds), u.Standing(v.odds.Standing))
		}
	}
	for _, fall := range []struct {
		name string
		silo.Days
	}{{"store.to95", s.To95}, {"store.to90", s.To90}} {
		if !math.IsNaN(fall.Mid) || !math.IsNaN(fall.Low) {
			row(fall.name, a.days(fall.Days), "")
		}
	}
	if len(out) == 0 {
		row("store.nothing", "", "")
	}
	for _, counts := range []struct {
		name  string
		trend *silo.Trend
	}{{"store.energy", s.Energy}, {"store.capacity", s.Capacity}} {
		if t := counts.trend; t != nil {
			row(counts.name, u.Going(t.Going()), u.Say("store.falling", "odds", u.Number(100*t.FallingChance(), 0)))
		}
	}
	return out
}

// plan is how many of the days left a plan may count on.
func (a StoreAccount) plan() string {
	u := a.Units
	share := u.Number(100*silo.PlanShare, 0)
	if !(a.Account.PlanDays > 0) {
		return u.Say("store.plan.none", "share", share)
	}
	return u.Say("store.plan", "figure", words.Figure("d", a.Account.PlanDays, u), "share", share)
}

// days are days with their limits; a dash stands for a limit that is not seen.
func (a StoreAccount) days(d silo.Days) string {
	n := func(x float64) string { return a.Units.Number(x, 0) }
	if math.IsNaN(d.Mid) && math.IsNaN(d.Low) {
		return n(d.Mid)
	}
	return n(d.Mid) + " (" + n(d.Low) + " to " + n(d.High) + ") d"
}

// mostWindows is how many stretches of the fan an account shows.
const mostWindows = 5

// future is the time to come: each month with and without the fan.
func (a StoreAccount) future() (out []entry) {
	s, u := a.Account, a.Units
	if s.Still == nil {
		return nil
	}
	still := s.Still.Days()
	for d := 29; d < len(still); d += 30 {
		note := ""
		if math.IsNaN(still[d].MeanC) {
			note = u.Say("store.too-hot")
		}
		if s.Aired != nil {
			note = u.Say("store.aired", "figure", words.Figure("c", s.Aired.Days()[d].MeanC, u), "warmest", words.Figure("c", s.Aired.Days()[d].WarmestC, u))
		}
		out = append(out, entry{u.Say("store.in-days", "days", u.Number(float64(d+1), 0)), words.Figure("c", still[d].MeanC, u), note})
	}
	if s.Aired == nil {
		return out
	}
	return append(out,
		entry{u.Say("store.fan"), u.Number(float64(s.Aired.FanHours()), 0) + " h", u.Number(s.Aired.FanKWhT(), 2) + " kWh/t"},
		entry{u.Say("store.cool"), words.Figure("h", s.CoolHours, u), u.Say("store.core", "figure", words.Figure("d", s.CoreDays, u))})
}

// windows says when the fan is to run.
func (a StoreAccount) windows() string {
	if a.Account.Aired == nil {
		return ""
	}
	u := a.Units
	var when []string
	windows := a.Account.Aired.Windows()
	for _, w := range windows[:min(len(windows), mostWindows)] {
		when = append(when, u.Say("store.window", "from", u.Number(float64(w.FromH), 0), "to", u.Number(float64(w.ToH), 0)))
	}
	if len(when) == 0 {
		return ""
	}
	return u.Say("store.windows", "windows", u.List(when))
}

// JSON writes the account, in SI units and fractions.
func (a StoreAccount) JSON(w io.Writer) error {
	s := a.Account
	out := object{"sprouted": a.Store.Sprouted}.text("silo", a.Store.Name).num("day_d", a.Store.Today).num("moisture_wb", s.Moisture).num("temp_c", s.TempC).
		num("humidity_low_rh", s.HumidityLow).num("humidity_high_rh", s.HumidityHigh).num("used", s.Used).num("left_d", s.LeftDays).num("plan_d", s.PlanDays).
		num("respiration_mg_kg", s.RespirationMgKgD).num("storage_wb", s.StorageWB).
		num("to_95_d", s.To95.Mid).num("to_95_early_d", s.To95.Low).num("to_95_late_d", s.To95.High).
		num("to_90_d", s.To90.Mid).num("to_90_early_d", s.To90.Low).num("to_90_late_d", s.To90.High)
	for key, v := range map[string]odds.Value{"living": s.Living, "at_steep": s.AtSteep, "dormant": s.Dormant} {
		if v.Known() {
			out[key] = object{"standing": v.Standing}.num("value", v.Mid).num("p5", v.Low).num("p95", v.High)
		}
	}
	for key, r := range map[string]*silo.Run{"still": s.Still, "aired": s.Aired} {
		if r == nil {
			continue
		}
		out[key] = object{
			"fan_h": r.FanHours(),
			"days": each(r.Days(), func(d silo.Day) object {
				return object{}.num("mean_c", d.MeanC).num("warmest_c", d.WarmestC).num("moistest_wb", d.MoistestWB)
			}),
			"windows": each(r.Windows(), func(w silo.Window) object { return object{"from_h": w.FromH, "to_h": w.ToH} }),
			"layers": each(r.Layers(), func(l silo.LayerState) object {
				return object{}.num("temp_c", l.TempC).num("moisture_wb", l.Moisture).num("used", l.Used)
			}),
		}.num("power_kwh_t", r.FanKWhT())
	}
	return envelope(w, "store-account/1", a.Version, a.Inputs, nil, out, a.findings())
}
