package web

import (
	"cmp"
	"net/http"
	"net/url"
	"strings"

	"awn/examples"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/paper"
)

// plansAt is where a plan is kept.
const plansAt = "/plans"

// openPlans takes a piece that was worked out into the house.
func (s *Server) openPlans() {
	s.let("POST "+plansAt, malthouse.UseDecide, s.planTaken)
}

// planTaken keeps a plan, and goes on to what it is for: a piece that is started
// or intended by it.
func (s *Server) planTaken(w http.ResponseWriter, v visit) error {
	d, err := design(v.Request)
	if err != nil {
		return err
	}
	piece, in, faults := paper.Load(d.Documents, examples.First)
	var plan *malthouse.Plan
	if len(faults) == 0 {
		plan, err = expect.Plan(&piece, in)
	}
	if err != nil || plan == nil {
		p, err := s.piece(v.Request) // which says what is wrong
		if p.status = http.StatusUnprocessableEntity; err == nil {
			s.set(w, v.Request, p)
		}
		return err
	}
	name := strings.TrimSpace(cmp.Or(v.PostForm.Get("plan-name"), piece.Programme.Name))
	done, err := s.House.KeepPlan(v.Context(), v.Actor, malthouse.Entry{ID: v.PostForm.Get("id")}, name, *plan)
	if err != nil {
		return err
	}
	s.said.keep(done)
	to := pieceAt + "?" + url.Values{"with": {withPlan + name}, entered: {done.Fact.ID}}.Encode()
	switch v.PostForm.Get("do") {
	case "start":
		to = slipsAt + "start?" + url.Values{"plan": {name}, "back": {"/pieces"}}.Encode()
	case "intend":
		to = slipsAt + "intend?" + url.Values{"plan": {name}, "back": {weeksAt}}.Encode()
	}
	http.Redirect(w, v.Request, to, http.StatusSeeOther)
	return nil
}

// keptHere is what the page of a piece says of keeping it in the house.
type keptHere struct {
	ID, Name             string
	Start, Intend        bool
	Says                 []saying
	With, Lot            string
	Plans, Pieces, Store []string
}

// mayKeep readies it for whoever may.
func (s *Server) mayKeep(r *http.Request, d *designed) (*keptHere, error) {
	a, known := asker(r)
	if s.House == nil || !known {
		return nil, nil
	}
	k := &keptHere{Says: s.said.of(r.URL.Query().Get(entered), readerOf(r)), With: r.URL.Query().Get("with"), Lot: r.URL.Query().Get("lot")}
	if a.May(malthouse.UseDecide) {
		k.ID, k.Name = newID(s.House.Clock()), cmp.Or(strings.TrimPrefix(k.With, withPlan), d.Programme.Values["name"])
		if strings.HasPrefix(k.With, withPiece) {
			k.Name = d.Programme.Values["name"]
		}
		k.Start, k.Intend = a.May(malthouse.UseStart), a.May(malthouse.UseIntend)
	}
	return k, s.offer(r.Context(), a, k)
}

// follows says which programme a piece follows, and leads to it.
func follows(v visit, p *malthouse.Plan, code string) []saying {
	if p == nil || len(p.Inputs) == 0 {
		return nil
	}
	name := programmeName(p)
	return []saying{{
		Text: v.Units.Say("plans.follows", "plan", v.Units.Say("plans.programme", "name", name)),
		Href: pieceAt + "?" + url.Values{"with": {withPiece + code}}.Encode(),
	}}
}

// programmeName is what the programme of a plan is called: it stands beside the
// piece, or in it.
func programmeName(p *malthouse.Plan) string {
	for _, in := range p.Inputs {
		values := paper.ValuesOf(in.Text)
		if in.Kind == "programme/1" {
			return values["name"]
		}
		if name := values["programme.name"]; name != "" {
			return name
		}
	}
	return ""
}

// planGrid is the plans that the house keeps, each to be opened and started.
func (s *Server) planGrid(v visit) (*grid, error) {
	u := v.Units
	all, err := s.House.Plans(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	g := &grid{ID: "plans", Caption: u.Say("plans.title"), Head: []string{u.Say("plans.name"), u.Say("room.when"), u.Say("room.who"), "", ""}}
	for _, k := range all {
		row := []cell{
			word(k.Name), v.moment(k.Fact), word(k.Fact.Who),
			link(u.Say("plans.open"), pieceAt+"?"+url.Values{"with": {withPlan + k.Name}}.Encode()), word(""),
		}
		if v.Actor.May(malthouse.UseStart) {
			row[4] = link(u.Say("slip.start"), slipsAt+"start?"+url.Values{"plan": {k.Name}, "back": {"/pieces"}}.Encode())
		}
		g.Rows = append(g.Rows, row)
	}
	return g, nil
}

// planNames are the plans that a slip may name; the first is none.
func (s *Server) planNames(v visit, chosen string) (out []option) {
	all, err := s.House.Plans(v.Context(), v.Actor)
	if err != nil || len(all) == 0 {
		return nil // it is typed, and refused if it is not there
	}
	out = []option{{}}
	for _, k := range all {
		out = append(out, option{k.Name, k.Name, k.Name == chosen})
	}
	return out
}
