package report

import (
	"math"

	"awn/internal/draw"
	"awn/internal/words"
	"awn/silo"
)

// Live is how long the silo keeps, how it stands, and the time to come with and
// without the fan.
func (a StoreAccount) Live() *Live {
	u := a.Units
	n := &counter{}
	l := &Live{Verdict: a.keeps(), units: u}
	if text := a.windows(); text != "" {
		l.Lines = append(l.Lines, text)
	}
	l.Figures = n.figures([]string{u.Say("store.keeps")}, a.keepingPicture())
	if a.Account.Still != nil && len(a.Account.Still.Days()) > 1 {
		l.Figures = append(l.Figures, n.figures([]string{u.Say("store.weather")}, a.aheadPicture())...)
	}
	l.find(inWords(a.findings(), u))
	head := []string{"", "", ""}
	l.First = filled([]table{listed(u.Say("store.now"), head, a.stands())})
	l.Tables = filled([]table{listed(u.Say("store.ahead"), head, a.future())})
	return l.numbered()
}

// keeps is the first sentence: how long it keeps as it lies.
func (a StoreAccount) keeps() string {
	u, d := a.Units, a.Account.To95
	number := func(x float64) string { return u.Number(x, 0) }
	switch {
	case math.IsNaN(d.Mid):
		return u.Say("store.unsaid", "name", a.Store.Name)
	case math.IsNaN(d.Low) || math.IsNaN(d.High):
		return u.Say("store.verdict", "name", a.Store.Name, "days", u.Say("store.about", "mid", number(d.Mid)))
	}
	return u.Say("store.verdict", "name", a.Store.Name, "days", u.Say("store.for", "mid", number(d.Mid), "low", number(d.Low), "high", number(d.High)))
}

func (a StoreAccount) pen() draw.Pen { return draw.Pen{Number: a.Units.Number} }

// keepingPicture is the keeping line of the silo.
func (a StoreAccount) keepingPicture() draw.Picture {
	u := a.Units
	end := func(share float64, d silo.Days) draw.KeepEnd {
		return draw.KeepEnd{Word: u.Number(100*share, 0) + "\u00a0%", Early: d.Low, At: d.Mid, Late: d.High}
	}
	steep := a.Store.SteepDay - a.Store.Today
	name := u.Say("store.keeping", "name", a.Store.Name)
	return a.pen().Keeping(draw.Keeping{
		ID: "keeping", Title: u.Say("store.keeps"), Says: a.keeps(), Axis: u.Say("store.axis"), Steep: u.Say("store.steeped"),
		Head: []string{u.Say("load.silo"), u.Say("store.below"), u.Say("store.early"), u.Say("store.likely"), u.Say("store.late"), u.Say("store.steeped")},
		Rows: []draw.Keep{{Name: name, Ends: [2]draw.KeepEnd{end(0.95, a.Account.To95), end(0.90, a.Account.To90)}, Steep: steep}},
	})
}

// aheadPicture is the mean temperature in the time to come.
func (a StoreAccount) aheadPicture() draw.Picture {
	u := a.Units
	still := a.Account.Still.Days()
	means := func(days []silo.Day) []float64 {
		out := make([]float64, len(days))
		for i, d := range days {
			out[i] = words.Value("c", d.MeanC, u)
		}
		return out
	}
	panel := draw.Panel{
		Title: u.Say("store.temps", "unit", words.Symbol("c", u)), Decimals: 1,
		Lines: []draw.Line{{Word: u.Say("store.still"), Values: means(still), Stroke: draw.Solid}},
	}
	if a.Account.Aired != nil {
		panel.Lines = append(panel.Lines, draw.Line{Word: u.Say("store.with-fan"), Values: means(a.Account.Aired.Days()), Stroke: draw.Accent})
	}
	days := make([]float64, len(still))
	for i := range days {
		days[i] = float64(i + 1)
	}
	return a.pen().Course(draw.Course{
		ID: "ahead", Title: u.Say("store.weather"), Says: u.Say("store.weather") + ".", HourWord: u.Say("store.axis"),
		Days: true, ToH: days[len(days)-1], TimeH: days, Panels: []draw.Panel{panel},
	})
}
