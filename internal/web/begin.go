package web

import (
	"context"
	"net/http"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/words"
	"awn/ledger"
)

// What the page of a piece can begin with: a plan that the house keeps, or that
// of a piece.
const (
	withPlan  = "plan:"
	withPiece = "piece:"
)

// beginWith puts what the house has in place of the examples, when the page is
// opened: its plant and its programme, or all of a plan that was asked for, and
// the barley of a silo.
func (s *Server) beginWith(r *http.Request, docs documents) error {
	a, known := asker(r)
	if s.House == nil || !known || r.Method != http.MethodGet {
		return nil
	}
	q, ctx := r.URL.Query(), r.Context()
	var plan *malthouse.Plan
	var err error
	switch with := q.Get("with"); {
	case strings.HasPrefix(with, withPlan):
		plan, err = s.House.PlanKept(ctx, a, strings.TrimPrefix(with, withPlan))
	case strings.HasPrefix(with, withPiece):
		plan, err = s.planOf(ctx, a, ledger.Code(strings.TrimPrefix(with, withPiece)))
	default:
		err = s.houseDocuments(ctx, a, docs)
	}
	if err != nil {
		return ofRecord(err)
	}
	if plan != nil {
		docs.fromPlan(plan)
	}
	if silo := q.Get("lot"); silo != "" {
		return ofRecord(s.fromSilo(ctx, a, docs, silo))
	}
	return nil
}

// planOf is the plan of a piece with its texts.
func (s *Server) planOf(ctx context.Context, a malthouse.Actor, code ledger.Code) (*malthouse.Plan, error) {
	p, err := s.House.Plan(ctx, a, code)
	if err != nil || p == nil {
		return nil, err
	}
	for i := range p.Inputs {
		if p.Inputs[i].Text, err = s.House.Desk.Document(ctx, p.Inputs[i].SHA256); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// houseDocuments are those that the house goes by.
func (s *Server) houseDocuments(ctx context.Context, a malthouse.Actor, docs documents) error {
	for _, kind := range []string{"plant", "programme"} {
		text, found, err := s.House.Kept(ctx, a, kind)
		if err != nil {
			return err
		}
		if found {
			docs.put(kind+"/1", text)
		}
		if found && kind == "plant" {
			docs.anyVessels()
		}
	}
	return nil
}

// kindOf is the kind of a part, told by its text where it is changed as one.
func (d *document) kindOf() string {
	if d.Kind != "" {
		return d.Kind
	}
	return paper.ValuesOf([]byte(d.Text))["awn"]
}

// put puts a text in place of the part of its kind.
func (d documents) put(kind string, text []byte) {
	for _, one := range d {
		if one.kindOf() == kind {
			one.Text, one.Values = string(text), paper.ValuesOf(text)
		}
	}
}

// fromPlan takes over the documents of a plan. The piece names them as the page
// does.
func (d documents) fromPlan(p *malthouse.Plan) {
	links := map[string]string{}
	for _, in := range p.Inputs {
		if in.Kind != "piece/1" {
			d.put(in.Kind, in.Text)
			for _, one := range d {
				if one.kindOf() == in.Kind {
					links[strings.TrimSuffix(in.Kind, "/1")] = one.File
				}
			}
		}
	}
	for _, in := range p.Inputs {
		if in.Kind != "piece/1" {
			continue
		}
		for _, one := range d {
			if one.Kind == in.Kind {
				v := paper.ValuesOf(in.Text)
				for key, file := range links {
					v[key] = file
				}
				one.set(v)
			}
		}
	}
}

// anyVessels lets the piece take the first vessels of a plant.
func (d documents) anyVessels() {
	for _, one := range d {
		if one.Kind == "piece/1" {
			for path := range one.Values {
				if strings.HasPrefix(path, "vessels") {
					delete(one.Values, path)
				}
			}
			one.set(one.Values)
		}
	}
}

// ofLot are the results of a silo that a lot takes as they are.
var ofLot = map[ledger.Quantity]string{"protein_dm": "protein", "capacity": "capacity", "test_weight_kg_hl": "test_weight", "beta_glucan_dm": "beta_glucan"}

// fromSilo makes the lot of what the record knows of a silo. What nobody
// measured is left out, and the account says what it took in its place.
func (s *Server) fromSilo(ctx context.Context, a malthouse.Actor, docs documents, silo string) error {
	ref, err := malthouse.Find(ctx, s.House.Store.Read(s.House.Code), silo, ledger.Silo)
	if err != nil {
		return err
	}
	t, err := s.House.Thing(ctx, a, ref)
	if err != nil {
		return err
	}
	b, err := s.House.Store.Read(s.House.Code).Balance(ctx, ledger.Account(ref))
	if err != nil {
		return err
	}
	plain := words.Units{}
	v := paper.Values{"code": ledger.Account(ref).Code()}
	if b.Dry > 0 && b.Water > 0 {
		v["moisture"] = asTyped(words.Figure("wb", float64(b.Water)/float64(b.Dry+b.Water), plain))
	}
	for _, r := range t.Results {
		if key := ofLot[r.Quantity]; key != "" && !r.Less {
			v[key] = asTyped(words.Figure(string(r.Quantity), r.Value, plain))
		}
	}
	for _, one := range docs {
		if one.Kind == "lot/1" {
			one.set(v)
		}
	}
	return nil
}

// asTyped is a printed figure as a document writes it.
func asTyped(figure string) string { return strings.ReplaceAll(figure, "\u00a0", " ") }

// offer lists what the page can begin with.
func (s *Server) offer(ctx context.Context, a malthouse.Actor, k *keptHere) error {
	plans, err := s.House.Plans(ctx, a)
	if err != nil {
		return err
	}
	for _, p := range plans {
		k.Plans = append(k.Plans, p.Name)
	}
	pieces, err := s.House.Pieces(ctx, a)
	if err != nil {
		return err
	}
	for _, p := range pieces {
		if p.Underway() {
			k.Pieces = append(k.Pieces, string(p.Code))
		}
	}
	stock, err := s.House.Stock(ctx, a)
	for _, p := range stock.Places {
		if p.Account.Kind() == ledger.Silo && p.Dry > 0 {
			k.Store = append(k.Store, string(p.Account))
		}
	}
	return err
}
