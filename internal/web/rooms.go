package web

import (
	"cmp"
	"math"
	"net/url"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/words"
	"awn/ledger"
)

// openRooms opens the pages of the record.
func (s *Server) openRooms() {
	for _, r := range []struct {
		path string
		use  malthouse.Use
		page func(visit) (room, error)
	}{
		{"/floor", malthouse.UseLook, s.floor},
		{"/deliveries", malthouse.UseLook, s.deliveries},
		{"/stock", malthouse.UseLook, s.stock},
		{"/pieces", malthouse.UseLook, s.pieces},
		{"/malt", malthouse.UseLook, s.malt},
		{"/trace", malthouse.UseLook, s.trace},
		{"/balance", malthouse.UseLook, s.balance},
	} {
		s.room("GET "+r.path, r.use, r.page)
	}
	s.room("GET /pieces/{code}", malthouse.UseLook, s.pieceRoom)
	s.let("GET /pieces/{code}/table.csv", malthouse.UseLook, s.handed(s.pieceTable))
	s.let("GET /trace/{thing}/table.csv", malthouse.UseLook, s.handed(s.originTable))
	s.room("GET /things/{thing}", malthouse.UseLook, s.thingRoom)
	s.openSeries()
	s.openSlips()
	s.openScripts()
	s.openDuties()
	s.openCertificates()
	s.openLive()
	s.openWeeks()
	s.openPlans()
}

// thingAt is where a thing of the record is told.
func thingAt(thing string) string {
	a := ledger.Account(thing)
	switch a.Kind() {
	case ledger.Piece:
		return "/pieces/" + url.PathEscape(a.Code())
	case ledger.CertificateKind:
		return certificateAt(a.Code())
	}
	return "/things/" + url.PathEscape(thing)
}

func (v visit) kg(g ledger.Grams) string { return words.Figure("kg", float64(g)/1000, v.Units) }

// mass, share and the others below are cells that are sorted by what they say.
// A mass is of what lies in places of a kind: barley in silos, malt in malt
// stores, for whoever counts in bushels.
func (v visit) mass(kind string, g ledger.Grams) cell {
	name := map[string]string{ledger.Silo: "barley_kg", ledger.MaltStore: "malt_kg"}[kind]
	return figure(words.Figure(cmp.Or(name, "kg"), float64(g)/1000, v.Units)).by(float64(g))
}

func (v visit) share(x float64) cell { return figure(words.Figure("tenths", x, v.Units)).by(x) }

func (v visit) moment(f ledger.Fact) cell {
	return word(v.Units.Moment(f.At, f.OffsetMin)).by(float64(f.At))
}

func (v visit) time(at time.Time) cell { return word(v.clock(at)).by(float64(at.UnixMilli())) }

func (v visit) dry(kg float64) cell { return figure(words.Figure("kg_dm", kg, v.Units)).by(kg) }

func (v visit) thing(name string) cell {
	return cell{Text: report.Thing(name, v.Units), Href: thingAt(name), code: true}
}

// band is the least and the most of a share.
func (v visit) band(least, most float64) cell {
	if math.Abs(least-most) < 5e-4 {
		return figure(v.Units.Say("record.exact")).by(least)
	}
	return figure(v.Units.Say("record.band", "least", v.share(least).Text, "most", v.share(most).Text)).by(least)
}

// moisture is that of what a place holds, empty where it holds nothing.
func (v visit) moisture(b ledger.Balance) cell {
	if b.Dry <= 0 || b.Water < 0 {
		return figure("")
	}
	wet := float64(b.Water) / float64(b.Dry+b.Water)
	return figure(words.Figure("wb", wet, v.Units)).by(wet)
}

// told is a table of facts.
func (v visit) told(id string, facts []malthouse.Told) *grid {
	u := v.Units
	g := &grid{ID: id, Caption: u.Say("room.told"), Head: []string{u.Say("room.when"), u.Say("room.what"), "", u.Say("room.who"), u.Say("room.entry")}}
	for _, t := range facts {
		what := u.Say("happened." + string(t.Fact.Kind))
		if t.Struck {
			what += u.Say("record.is-struck")
		}
		g.Rows = append(g.Rows, []cell{
			v.moment(t.Fact), word(what), word(report.Detail(t.Body, u)), word(t.Who),
			link(u.Number(float64(t.Fact.Seq), 0), slipsAt+"strike?fact="+url.QueryEscape(t.Fact.ID)+"&back="+url.QueryEscape(v.URL.Path)).by(float64(t.Fact.Seq)),
		})
	}
	return g
}

// may leaves out the forms that somebody may not hand in.
func (v visit) may(forms ...slipForm) (out []slipForm) {
	for _, f := range forms {
		if v.Actor.Role.May(slips[f.Name]().Use()) {
			out = append(out, f)
		}
	}
	return out
}

// results is a table of what was found of a thing.
func (v visit) results(found []ledger.Result) *grid {
	u := v.Units
	g := &grid{ID: "results", Caption: u.Say("room.results"), Head: []string{"", u.Say("room.found"), u.Say("room.method"), u.Say("room.lab")}}
	for _, r := range found {
		text := words.Figure(string(r.Quantity), r.Value, u)
		if r.Less {
			text = "< " + text
		}
		g.Rows = append(g.Rows, []cell{word(report.Quantity(r.Quantity, u)), figure(text).by(r.Value), word(r.Method), word(r.Lab)})
	}
	return g
}

// thingRoom tells one thing of the record: what was done to it, what was found
// of it, where it came from and went.
func (s *Server) thingRoom(v visit) (room, error) {
	u := v.Units
	r := s.House.Store.Read(s.House.Code)
	ref, err := malthouse.Find(v.Context(), r, v.PathValue("thing"))
	if err != nil {
		return room{}, err
	}
	name := string(ref)
	t, err := s.House.Thing(v.Context(), v.Actor, ref)
	if err != nil {
		return room{}, err
	}
	known := url.Values{"thing": {name}}
	here := thingAt(name)
	out := room{Title: words.Capital(report.Thing(name, u)), API: apiAt + "/things/" + url.PathEscape(name), Parts: []roomPart{{Grid: v.told("told", t.Told)}}}
	if t.Subject.Leave != "" {
		out.Says = append(out.Says, saying{Text: words.Capital(u.Say("leave."+string(t.Subject.Leave))) + ".", Grave: t.Subject.Leave == ledger.OnHold})
	}
	if len(t.Results) > 0 {
		out.Parts = append(out.Parts, roomPart{Grid: v.results(t.Results)})
	}
	if t.Traced {
		out.Says = append(out.Says, saying{Text: u.Say("room.trace-it"), Href: "/trace?of=" + url.QueryEscape(name)})
	}
	if a := ledger.Account(ref); a.Kind() == ledger.LotKind {
		out.Says = append(out.Says, saying{Text: u.Say("complaint.about"), Href: complaintOf(a.Code())})
	}
	var forms []slipForm
	switch ledger.Account(ref).Kind() {
	case ledger.LotKind, ledger.DeliveryKind, ledger.Silo, ledger.MaltStore, ledger.ByProduct:
		forms = append(forms, s.form(v, "analyse", here, known), s.form(v, "release", here, known), s.form(v, "hold", here, known))
	case ledger.Shipment:
		forms = append(forms, s.form(v, "analyse", here, known), s.form(v, "return", here, url.Values{"shipment": {string(ledger.Account(ref).Code())}}))
	}
	sensed, err := s.glances(v, []stay{{vessel: ledger.Account(ref).Code()}})
	if err != nil {
		return room{}, err
	}
	out.Parts = append(out.Parts, sensed...)
	if forms = v.may(forms...); len(forms) > 0 {
		out.Parts = append(out.Parts, roomPart{Heading: u.Say("room.enter"), Slips: forms})
	}
	return out, nil
}
