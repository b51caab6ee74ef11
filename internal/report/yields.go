package report

import (
	"math"
	"strconv"
	"strings"

	"awn/barley"
	"awn/course"
)

// dressed reports whether the piece came as far as the deculmer.
func (r Report) dressed() bool { return r.Outcome.Yield.Malt.DryKg > 0 }

// yieldLine is what became of the barley, and how well the accounts close.
func (r Report) yieldLine() string {
	y, u := r.Outcome.Yield, r.Units
	closes := u.Say("yield.closure", "closure", power(r.closes()))
	if !r.dressed() {
		return closes
	}
	return u.Say("yield.line", "malt", r.toldWeight("yield.malt_kg", y.Malt.Kg()), "per", r.told("yield.per_steeped", "tenths", y.PerSteeped),
		"loss", r.told("yield.malting_loss_dm", "loss", y.Malting), "losses", r.lossWords()) + " " + strings.TrimLeft(r.restLine()+" "+closes, " ")
}

// closes is the worst closure of dry matter, water and heat.
func (r Report) closes() float64 {
	return max(r.closure(barley.Dry), r.closure(barley.Water), r.closure(barley.HeatJ))
}

// loss is a share of the dry matter cast, under its name.
type loss struct {
	phrase string
	share  float64
}

// losses are where the dry matter went that is not malt, in grain order.
func (r Report) losses() []loss {
	y := r.Outcome.Yield
	return []loss{
		{"loss.leached", y.Leached}, {"loss.respired", y.Respired}, {"loss.kiln", y.RespiredKiln},
		{"loss.culms", y.CulmsShare}, {"loss.screenings", y.ScreensShare}, {"loss.dust", y.DustShare},
	}
}

// lossWords are the losses in a line, those too small to print left out.
func (r Report) lossWords() string {
	var parts []string
	for _, l := range r.losses() {
		if l.share >= leastShown {
			parts = append(parts, r.Units.Say("loss", "name", r.Units.Say(l.phrase), "share", r.Units.Number(100*l.share, 1)))
		}
	}
	return strings.Join(parts, ", ")
}

// leastShown is the share of the dry matter below which a loss is left out of
// the account; the report has every line.
const leastShown = 0.0005

// yieldTable is the yield on each basis that it is spoken of.
func (r Report) yieldTable() table {
	y, u := r.Outcome.Yield, r.Units
	t := table{Caption: u.Say("table.yield"), Head: []string{"", ""}}
	add := func(phrase, key string, x float64) {
		if !math.IsNaN(x) {
			t.Rows = append(t.Rows, []string{u.Say(phrase), r.figure(key, x)})
		}
	}
	add("yield.received", "loss", y.PerReceived)
	add("yield.cleaned", "loss", y.PerCleaned)
	add("yield.steeped", "loss", y.PerSteeped)
	add("yield.received-dry", "loss", y.PerReceivedDry)
	add("yield.cleaned-dry", "loss", y.PerCleanedDry)
	add("yield.dry", "loss", y.PerDry)
	t.Rows = append(t.Rows, []string{u.Say("yield.rested"), u.Span(24 * r.Outcome.Rested.Days)})
	add("yield.sent", "wb", float64(r.Outcome.Rested.Moisture))
	add("yield.extract-received", "kg_t", r.Outcome.ExtractReceived)
	add("yield.extract-steeped", "kg_t", r.Outcome.ExtractSteeped)
	add("yield.culms", "kg", y.Culms.Kg())
	add("yield.screenings", "kg", y.Screens.Kg())
	add("yield.dust", "kg", y.Dust.Kg())
	return t
}

// yield is what came out, for JSON.
func yield(o *course.Outcome) object {
	y := o.Yield
	out := object{}.num("per_received", y.PerReceived).num("per_cleaned", y.PerCleaned).num("per_steeped", y.PerSteeped).
		num("per_received_dm", y.PerReceivedDry).num("per_cleaned_dm", y.PerCleanedDry).
		num("extract_steeped_kg_t", o.ExtractSteeped).num("extract_received_kg_t", o.ExtractReceived).
		num("per_dry", y.PerDry).num("barley_per_malt", y.BarleyPerMalt).
		num("leached_dm", y.Leached).num("respired_dm", y.Respired).num("respired_kiln_dm", y.RespiredKiln).
		num("culms_dm", y.CulmsShare).num("screenings_dm", y.ScreensShare).num("dust_dm", y.DustShare).
		num("malting_loss_dm", y.Malting).num("all_losses_dm", y.All)
	if y.Malt.DryKg > 0 {
		out.num("malt_kg", y.Malt.Kg()).num("malt_wb", float64(y.Malt.Moisture)).
			num("culms_kg", y.Culms.Kg()).num("screenings_kg", y.Screens.Kg()).num("dust_kg", y.Dust.Kg())
	}
	return out
}

// power writes a very small number as the power of ten above it.
func power(x float64) string {
	if !(x > 0) {
		return "0"
	}
	superscripts := strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")
	return "10" + superscripts.Replace(strconv.Itoa(int(math.Ceil(math.Log10(x)))))
}

// dressLines are the lines of dry matter of the deculmer and the screens.
func (r Report) dressLines(g barley.Good) []balanceLine {
	if _, listed := r.stage(course.Dress); listed || g != barley.Dry || !r.dressed() {
		return nil
	}
	y, u := r.Outcome.Yield, r.Units
	stage := u.Stage(course.Dress.String())
	return []balanceLine{
		{u.Say("loss.culms"), stage, -y.Culms.DryKg}, {u.Say("loss.screenings"), stage, -y.Screens.DryKg},
		{u.Say("loss.dust"), stage, -y.Dust.DryKg},
	}
}
