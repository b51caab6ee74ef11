package web

import (
	"net/url"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/report"
	"awn/internal/words"
	"awn/ledger"
)

// deliveries is what came in, and the form that takes a load in.
func (s *Server) deliveries(v visit) (room, error) {
	u := v.Units
	all, err := s.House.Deliveries(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	g := &grid{ID: "deliveries", Caption: u.Say("room.deliveries"), Head: []string{
		u.Say("room.delivery"), u.Say("room.when"), u.Say("room.net"), u.Say("room.moisture"), u.Say("room.grower"), u.Say("room.variety"), u.Say("room.into"),
	}}
	for _, d := range all {
		b := d.Body
		wet := figure("")
		if m := b.Amount.MoistureWB; m != nil {
			wet = figure(words.Figure("wb", float64(*m), u)).by(float64(*m))
		}
		g.Rows = append(g.Rows, []cell{
			v.thing(ledger.DeliveryKind + ":" + string(b.Lot)), v.moment(d.Fact), v.mass(ledger.Silo, b.Amount.FreshKg), wet,
			word(b.Grower), word(b.Variety), v.thing(string(b.To)),
		})
	}
	out := room{
		Title: u.Say("page.go.intake"), Under: u.Say("room.deliveries.under"), Says: []saying{{Text: u.Say("room.reckon-slip"), Href: loadAt}},
		Parts: []roomPart{{Slips: v.may(s.form(v, "receive", "/deliveries", nil))}, {Grid: g}}, API: apiAt + "/deliveries",
	}
	return out, nil
}

// stock is what the house holds, where, and what it cannot explain.
func (s *Server) stock(v visit) (room, error) {
	u := v.Units
	held, err := s.House.Stock(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	g := &grid{ID: "places", Caption: u.Say("room.places"), Head: []string{u.Say("room.place"), u.Say("room.holds"), u.Say("room.moisture"), ""}}
	out := room{Title: u.Say("page.go.silos"), Under: u.Say("room.stock.under"), API: apiAt + "/stock"}
	for _, h := range held.Places {
		if h.Overdrawn() {
			out.Says = append(out.Says, saying{Text: u.Say("said.overdrawn", "place", report.Thing(string(h.Account), u), "less_kg", v.kg(-h.Dry-h.Water)), Grave: true})
		}
		g.Rows = append(g.Rows, []cell{v.thing(string(h.Account)), v.mass(h.Account.Kind(), h.Dry+h.Water), v.moisture(h.Balance), word(strings.Join(report.Standing(h, u), " · "))})
	}
	if len(held.Places) == 0 {
		out.Says = append(out.Says, saying{Text: u.Say("record.empty")})
	}
	out.Says = append(out.Says, v.unexplained(held)...)
	out.Says = append(out.Says, saying{Text: u.Say("room.how-it-keeps"), Href: siloAt}, saying{Text: u.Say("series.list"), Href: seriesAt})
	out.Parts = []roomPart{{Grid: g}, {Heading: u.Say("room.enter"), Slips: v.may(s.form(v, "move", "/stock", nil), s.form(v, "count", "/stock", nil), s.form(v, "decide", "/stock", nil))}}
	return out, nil
}

// unexplained are the differences that are alarms, and what rests on a struck
// entry.
func (v visit) unexplained(held malthouse.Stock) (out []saying) {
	for _, x := range held.Unexplained {
		if x.Alarm() {
			out = append(out, saying{Text: report.Say(x.Said(), v.Units), Grave: true})
		}
	}
	for _, f := range held.Shaken {
		out = append(out, saying{Text: report.Say(malthouse.Shaken(f), v.Units), Grave: true})
	}
	return out
}

// malt is the malt in store, its lots, the loads that went and their
// certificates.
func (s *Server) malt(v visit) (room, error) {
	u := v.Units
	held, err := s.House.Stock(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	lots, err := s.House.Lots(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	sent, err := s.House.Shipments(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	certificates, err := s.certificatesOf(v)
	if err != nil {
		return room{}, err
	}
	stores := &grid{ID: "stores", Caption: u.Say("room.stores"), Head: []string{u.Say("room.place"), u.Say("room.lot"), u.Say("room.share"), u.Say("room.range"), u.Say("room.holds")}}
	for _, h := range held.Places {
		if h.Account.Kind() != ledger.MaltStore {
			continue
		}
		few, left := 0, 0.0
		for _, l := range h.Lots {
			if l.Share < report.LeastShare {
				few, left = few+1, left+l.Share
				continue
			}
			stores.Rows = append(stores.Rows, []cell{
				v.thing(string(h.Account)), v.thing(ledger.LotKind + ":" + string(l.Lot)), v.share(l.Share), v.band(l.Least, l.Most),
				v.mass(ledger.MaltStore, ledger.Grams(l.Share*float64(h.Dry+h.Water))),
			})
		}
		if few > 0 {
			stores.Rows = append(stores.Rows, []cell{
				v.thing(string(h.Account)), word(u.Say("room.lots-more", "count", u.Number(float64(few), 0))), v.share(left), figure(""),
				v.mass(ledger.MaltStore, ledger.Grams(left*float64(h.Dry+h.Water))),
			})
		}
	}
	loads := &grid{ID: "loads", Caption: u.Say("room.loads"), Head: []string{u.Say("room.shipment"), u.Say("room.when"), u.Say("room.receiver"), u.Say("room.net"), u.Say("room.certificate")}}
	for _, x := range sent {
		var net ledger.Grams
		for _, d := range x.Body.From {
			net += d.Amount.FreshKg
		}
		code := string(x.Body.Shipment)
		c := link(u.Say("room.certify"), "/certify?shipment="+url.QueryEscape(code))
		if number, ok := certificates[ledger.Ref(ledger.Shipment+":"+code)]; ok {
			c = link(number, "/certificates/"+url.PathEscape(number))
		}
		loads.Rows = append(loads.Rows, []cell{v.thing(ledger.Shipment + ":" + code), v.moment(x.Fact), word(x.Body.Receiver), v.mass(ledger.MaltStore, net), c})
	}
	against, err := s.against(v, held, lots)
	if err != nil {
		return room{}, err
	}
	return room{
		Title: u.Say("page.go.malt"), Under: u.Say("room.malt.under"), API: apiAt + "/lots",
		Parts: []roomPart{against, {Grid: stores}, {Grid: v.lots(lots)}, {Grid: loads}, {Heading: u.Say("room.enter"), Slips: v.may(s.form(v, "ship", "/malt", nil), s.form(v, "blend", "/malt", nil), s.form(v, "move", "/malt", nil))}},
	}, nil
}

// lots is the lots of malt with what was found of them.
func (v visit) lots(all []malthouse.Lot) *grid {
	u := v.Units
	g := &grid{ID: "lots", Caption: u.Say("room.lots"), Head: []string{u.Say("room.lot"), u.Say("room.stands"), u.Say("room.found")}}
	for _, l := range all {
		stands := u.Say("room.unreleased")
		if l.Leave != "" {
			stands = u.Say("leave." + string(l.Leave))
		}
		var found []string
		for _, r := range l.Results {
			found = append(found, report.Quantity(r.Quantity, u)+" "+words.Figure(string(r.Quantity), r.Value, u))
		}
		g.Rows = append(g.Rows, []cell{v.thing(ledger.LotKind + ":" + string(l.Code)), word(stands), word(strings.Join(found, ", "))})
	}
	return g
}

// certificatesOf are the certificates in force by what they are of.
func (s *Server) certificatesOf(v visit) (map[ledger.Ref]string, error) {
	all, err := s.House.Certificates(v.Context(), v.Actor)
	out := map[ledger.Ref]string{}
	for _, c := range all {
		for _, of := range c.Body.Of {
			if _, later := out[of]; !later {
				out[of] = string(c.Body.Certificate)
			}
		}
	}
	return out, err
}
