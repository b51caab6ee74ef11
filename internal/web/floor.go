package web

import (
	"context"
	"net/url"
	"slices"
	"sync"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
	"awn/programme"
)

// prospects keeps the draws of each plan: they do not depend on what a piece
// does, so that a reading changes what is shown at once.
type prospects struct {
	sync.Mutex
	drawn map[string]*prospect // by the first document of the plan
}

// prospect is the draws of one plan, once they are made.
type prospect struct {
	ready chan struct{}
	drawn *course.Ensemble
	err   error
}

// How a plan is drawn, and for how many plans draws are kept.
const (
	prospectDraws = 240
	mostProspects = 24
)

// of is the draws of a plan. The first to ask has them made; whoever cannot
// wait is told that they are not ready.
func (p *prospects) of(ctx context.Context, h *malthouse.House, plan *malthouse.Plan) (*course.Ensemble, bool, error) {
	if plan == nil || len(plan.Inputs) == 0 {
		return nil, false, nil
	}
	key := ""
	for _, in := range plan.Inputs {
		key += in.SHA256
	}
	p.Lock()
	one, there := p.drawn[key]
	if !there {
		if p.drawn == nil || len(p.drawn) >= mostProspects {
			p.drawn = map[string]*prospect{}
		}
		one = &prospect{ready: make(chan struct{})}
		p.drawn[key] = one
	}
	p.Unlock()
	if !there {
		go one.make(context.WithoutCancel(ctx), h, plan)
	}
	select {
	case <-one.ready:
		return one.drawn, one.err == nil, one.err
	case <-time.After(prospectWait):
	case <-ctx.Done():
	}
	return nil, false, nil
}

// prospectWait is how long a page waits for draws before it does without.
const prospectWait = 4 * time.Second

func (o *prospect) make(ctx context.Context, h *malthouse.House, plan *malthouse.Plan) {
	defer close(o.ready)
	piece, found, err := expect.Piece(ctx, h, plan)
	if err != nil || !found {
		o.err = err
		return
	}
	o.drawn, o.err = expect.Draw(ctx, piece, prospectDraws, 2)
}

// under is a piece under way with what is expected of it.
type under struct {
	malthouse.PieceView
	Vessel string
	Plan   *malthouse.Plan
	*expect.Forecast
}

// underway gathers a piece.
func (s *Server) underway(v visit, code ledger.Code) (u under, err error) {
	if u.PieceView, err = s.House.Piece(v.Context(), v.Actor, code); err != nil {
		return u, err
	}
	for _, t := range u.Told {
		switch b := t.Body.(type) {
		case *ledger.Casting:
			u.Vessel = b.Vessel
		case *ledger.Couching:
			u.Vessel = last(u.Vessel, b.Vessel)
		case *ledger.Kilning:
			u.Vessel = last(u.Vessel, b.Vessel)
		}
	}
	if u.Plan, err = s.House.Plan(v.Context(), v.Actor, code); err != nil {
		return u, err
	}
	drawn, ready, err := s.prospects.of(v.Context(), s.House, u.Plan)
	if err != nil || !ready {
		return u, err
	}
	f := expect.Anew(u.PieceView, drawn, s.House.Clock().In(s.House.Zone))
	u.Forecast = &f
	return u, nil
}

func last(before, now string) string {
	if now == "" {
		return before
	}
	return now
}

// floor is what needs somebody now: the next acts of every piece in the order
// in which they fall, and what is out of line.
func (s *Server) floor(v visit) (room, error) {
	u := v.Units
	all, err := s.House.Pieces(v.Context(), v.Actor)
	if err != nil {
		return room{}, err
	}
	type due struct {
		at  time.Time
		row []cell
	}
	var acts []due
	out := room{Title: u.Say("page.go.floor"), Under: u.Say("room.floor.under"), API: apiAt + "/pieces"}
	var forms []roomPart
	for _, p := range all {
		if !p.Underway() {
			continue
		}
		one, err := s.underway(v, p.Code)
		if err != nil {
			return room{}, err
		}
		here := thingAt(ledger.Piece + ":" + string(p.Code))
		part := roomPart{Heading: u.Say("floor.piece", "piece", string(p.Code), "state", u.Say("state."+string(p.State)), "vessel", one.Vessel)}
		if f := one.Forecast; f != nil {
			for _, n := range f.Next[:min(2, len(f.Next))] {
				acts = append(acts, due{n.At, []cell{
					word(v.clock(n.At)), link(string(p.Code), here), word(one.Vessel), word(words.Capital(u.Step(n.Step))), word(v.overdue(n)),
				}})
			}
			part.Says = append(part.Says, v.nowOf(f)...)
		} else if one.Plan == nil || len(one.Plan.Inputs) == 0 {
			part.Says = append(part.Says, saying{Text: u.Say("floor.no-plan")})
		}
		known := url.Values{"piece": {string(p.Code)}}
		reading := url.Values{"thing": {ledger.Piece + ":" + string(p.Code)}}
		part.Slips = v.may(s.form(v, "read", "/floor", reading), s.form(v, "act", "/floor", known))
		forms = append(forms, part)
	}
	slices.SortFunc(acts, func(a, b due) int { return a.at.Compare(b.at) })
	g := &grid{ID: "next", Caption: u.Say("floor.next"), Head: []string{u.Say("room.when"), u.Say("room.piece"), u.Say("room.vessel"), u.Say("room.what"), ""}}
	for _, a := range acts {
		g.Rows = append(g.Rows, a.row)
	}
	if len(forms) == 0 {
		out.Says = append(out.Says, saying{Text: u.Say("floor.nothing"), Href: slipsAt + "start?back=/floor"})
	}
	out.Says = append(out.Says, saying{Text: u.Say("floor.mind"), Grave: true})
	out.Parts = append([]roomPart{{Grid: g}}, forms...)
	return out, nil
}

// clock is a time of day, with its day where that is not today's.
func (v visit) clock(at time.Time) string {
	_, offset := at.Zone()
	return v.Units.Moment(at.UnixMilli(), offset/60)
}

// overdue is by how much something is late.
func (v visit) overdue(n expect.Next) string {
	if n.Over < time.Minute {
		return ""
	}
	return v.Units.Say("floor.overdue", "span", v.Units.Span(n.Over.Hours()))
}

// nowOf is how a piece should stand now, and how sure that is.
func (v visit) nowOf(f *expect.Forecast) (out []saying) {
	u := v.Units
	for _, r := range []programme.Reading{programme.Moisture, programme.TempMean, programme.Acrospire} {
		p10, p50, p90 := f.Band(f.Now, r)
		if p50 != p50 {
			continue
		}
		key := r.Key()
		out = append(out, saying{Text: u.Say("floor.now", "what", words.Capital(u.Reading(r)),
			"figure", words.Figure(key, p50, u), "low", words.Figure(key, p10, u), "high", words.Figure(key, p90, u))})
	}
	if f.Effective < expect.Few {
		out = append(out, saying{Text: u.Say("floor.outside", "count", u.Number(f.Effective, 0)), Grave: true})
	}
	return out
}
