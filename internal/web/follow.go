package web

import (
	"net/url"
	"time"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/words"
	"awn/ledger"
)

// trace follows a thing both ways.
func (s *Server) trace(v visit) (room, error) {
	u := v.Units
	out := room{Title: u.Say("page.go.trace"), Under: u.Say("room.trace.under")}
	q := v.URL.Query()
	out.Ask = &question{At: "/trace", Fields: []askField{{Name: "of", Label: u.Say("room.trace-of"), Value: q.Get("of")}}, Word: u.Say("room.follow")}
	if q.Get("of") == "" {
		return out, nil
	}
	ref, err := malthouse.Find(v.Context(), s.House.Store.Read(s.House.Code), q.Get("of"))
	if err != nil {
		return out, err
	}
	t, err := s.House.Trace(v.Context(), v.Actor, ref, ledger.AsEntered)
	if err != nil {
		return out, err
	}
	out.Title = words.Capital(report.Thing(string(t.Thing), u))
	out.API = apiAt + "/trace?of=" + url.QueryEscape(string(ref))
	if arms := report.Origins(t, u); arms != nil {
		at := "/trace/" + url.PathEscape(string(ref)) + "/table.csv"
		body, err := set(arms, at)
		if err != nil {
			return out, err
		}
		out.Parts = append(out.Parts, roomPart{Body: body, At: at})
	}
	if len(t.Sources) > 0 {
		g := &grid{ID: "behind", Caption: u.Say("record.behind"), Head: []string{u.Say("room.delivery"), u.Say("room.share"), u.Say("room.range"), u.Say("room.dry"), u.Say("room.grower"), u.Say("room.field"), u.Say("room.variety")}}
		for _, x := range t.Sources {
			g.Rows = append(g.Rows, []cell{
				v.thing(string(x.Origin)), v.share(x.Share), v.band(x.Least, x.Most), v.dry(x.DryKg),
				word(x.Grower), word(x.Grown), word(x.Variety),
			})
		}
		out.Parts = append(out.Parts, roomPart{Grid: g})
	}
	if len(t.Pieces) > 0 {
		g := &grid{ID: "lots", Caption: u.Say("room.lots"), Head: []string{u.Say("room.lot"), u.Say("room.piece"), u.Say("room.share"), u.Say("room.range")}}
		for _, l := range t.Pieces {
			piece := word("")
			if l.Piece != "" {
				piece = v.thing(ledger.Piece + ":" + string(l.Piece))
			}
			g.Rows = append(g.Rows, []cell{v.thing(ledger.LotKind + ":" + string(l.Lot)), piece, v.share(l.Share), v.band(l.Least, l.Most)})
		}
		out.Parts = append(out.Parts, roomPart{Grid: g})
	}
	if len(t.Holders) > 0 {
		out.Parts = append(out.Parts, roomPart{Grid: v.holders(t)})
	}
	out.Parts = append(out.Parts, roomPart{Says: []saying{{Text: u.Say("record.mixing")}, {Text: u.Say("record.caution")}}})
	return out, nil
}

// originTable is the table behind one picture of a trace.
func (s *Server) originTable(v visit) (file, error) {
	ref, err := malthouse.Find(v.Context(), s.House.Store.Read(s.House.Code), v.PathValue("thing"))
	if err != nil {
		return file{}, err
	}
	t, err := s.House.Trace(v.Context(), v.Actor, ref, ledger.AsEntered)
	if err != nil {
		return file{}, err
	}
	arms := report.Origins(t, v.Units)
	if arms == nil {
		return file{}, errNoPage
	}
	return tableFile(arms, v.Request)
}

// holders is who holds some of a thing, and how to reach them.
func (v visit) holders(t malthouse.Traced) *grid {
	u := v.Units
	g := &grid{ID: "ahead", Caption: u.Say("record.ahead"), Head: []string{u.Say("room.place"), u.Say("room.of-it"), u.Say("room.range"), u.Say("room.holds"), u.Say("room.receiver"), u.Say("room.contact")}}
	for _, h := range t.Holders {
		place := word(u.Say("record.nobody"))
		switch {
		case h.Place.Inside():
			place = v.thing(string(h.Place))
		case h.Place != "":
			place = word(report.Thing(string(h.Place), u))
		}
		g.Rows = append(g.Rows, []cell{
			place, v.dry(h.DryKg), figure(u.Say("record.band", "least", u.Number(h.LeastKg, 0), "most", words.Figure("kg_dm", h.MostKg, u))).by(h.LeastKg),
			figure(words.Figure("kg", h.HeldKg, u)).by(h.HeldKg), word(h.Receiver), word(h.Contact),
		})
	}
	return g
}

// balance adds up a period.
func (s *Server) balance(v visit) (room, error) {
	u, q := v.Units, v.URL.Query()
	now := s.House.Clock().In(s.House.Zone)
	from := time.Date(now.Year(), now.Month(), 1, 0, 0, 0, 0, s.House.Zone)
	to := now
	for name, into := range map[string]*time.Time{"from": &from, "to": &to} {
		if text := q.Get(name); text != "" {
			t, err := time.ParseInLocation(time.DateOnly, text, s.House.Zone)
			if err != nil {
				return room{}, refuse(422, "web.form.unreadable", text)
			}
			*into = t
		}
	}
	b, err := s.House.Balance(v.Context(), v.Actor, from, to.AddDate(0, 0, 1))
	if err != nil {
		return room{}, err
	}
	day := func(t time.Time) string { return t.Format(time.DateOnly) }
	g := &grid{ID: "balance", Caption: u.Say("record.balance", "from", u.Day(from), "to", u.Day(to)), Head: []string{"", u.Say("record.dry"), u.Say("record.water"), u.Say("record.both")}}
	add := func(l malthouse.Line) {
		g.Rows = append(g.Rows, []cell{word(u.Say("line." + string(l.Name))), v.mass("", l.Dry), v.mass("", l.Water), v.mass("", l.Dry+l.Water)})
	}
	for _, l := range b.Lines {
		add(l)
	}
	out := room{Title: u.Say("page.go.balance"), Under: u.Say("record.closes", "off", u.Number(float64(b.OffG), 0)), Parts: []roomPart{{Grid: g}}}
	out.Ask = &question{At: "/balance", Word: u.Say("room.add-up"), Fields: []askField{{"from", u.Say("room.from"), day(from)}, {"to", u.Say("room.to"), day(to)}}}
	out.API = apiAt + "/balance?from=" + day(from) + "&to=" + day(to)
	if len(b.Made) > 0 {
		made := &grid{ID: "made", Caption: u.Say("record.inside"), Head: g.Head}
		main := g
		g = made
		for _, l := range b.Made {
			add(l)
		}
		g = main
		out.Parts = append(out.Parts, roomPart{Grid: made})
	}
	for _, x := range b.Unexplained {
		if x.Alarm() {
			out.Says = append(out.Says, saying{Text: report.Say(x.Said(), u), Grave: true})
		}
	}
	return out, nil
}
