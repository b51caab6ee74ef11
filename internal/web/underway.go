package web

import (
	"context"
	"sync"
	"time"

	"awn/course"
	"awn/internal/expect"
	"awn/internal/malthouse"
	"awn/ledger"
)

// prospects keeps the draws of each plan: they do not depend on what a piece
// does, so that a reading changes what is shown at once.
type prospects struct {
	sync.Mutex
	drawn map[string]*prospect // by the digests of all that the plan rests on
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

// begin has the draws of a plan made, unless somebody has already; nil of a plan
// without documents.
func (p *prospects) begin(ctx context.Context, h *malthouse.House, plan *malthouse.Plan) *prospect {
	if plan == nil || len(plan.Inputs) == 0 {
		return nil
	}
	key := ""
	for _, in := range plan.Inputs {
		key += in.SHA256
	}
	p.Lock()
	defer p.Unlock()
	one, there := p.drawn[key]
	if there {
		return one
	}
	if p.drawn == nil || len(p.drawn) >= mostProspects {
		p.drawn = map[string]*prospect{}
	}
	one = &prospect{ready: make(chan struct{})}
	p.drawn[key] = one
	go one.make(context.WithoutCancel(ctx), h, plan)
	return one
}

// of is the draws of a plan. Whoever cannot wait is told that they are not ready.
func (p *prospects) of(ctx context.Context, h *malthouse.House, plan *malthouse.Plan) (*course.Ensemble, bool, error) {
	one := p.begin(ctx, h, plan)
	if one == nil {
		return nil, false, nil
	}
	select {
	case <-one.ready: // whoever has no time left is told what is there
		return one.drawn, one.err == nil, one.err
	default:
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
	o.drawn, o.err = expect.Draw(ctx, piece, prospectDraws, spare(), turn)
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
	now := s.House.Clock().In(s.House.Zone)
	for _, one := range stays(u.Told, now) {
		u.Vessel = one.vessel
	}
	if u.Plan, err = s.House.Plan(v.Context(), v.Actor, code); err != nil {
		return u, err
	}
	drawn, ready, err := s.prospects.of(v.Context(), s.House, u.Plan)
	if err != nil || !ready {
		return u, err
	}
	f := expect.Anew(u.PieceView, drawn, now, s.remembers.given)
	u.Forecast = &f
	return u, nil
}

// allUnderway gathers every piece that is under way.
func (s *Server) allUnderway(v visit) (out []under, err error) {
	all, err := s.House.Pieces(v.Context(), v.Actor)
	if err != nil {
		return nil, err
	}
	for _, p := range all {
		if !p.Underway() {
			continue
		}
		one, err := s.underway(v, p.Code)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// Foresee has the draws made of every piece under way: they take seconds, and
// whoever opens the floor first need not wait for them.
func (s *Server) Foresee(ctx context.Context) error {
	reader := malthouse.Actor{Role: malthouse.Auditor}
	all, err := s.House.Pieces(ctx, reader)
	for _, p := range all {
		if !p.Underway() {
			continue
		}
		plan, err := s.House.Plan(ctx, reader, p.Code)
		if err != nil {
			return err
		}
		s.prospects.begin(ctx, s.House, plan)
	}
	return err
}
