package slip

import (
	"context"
	"strconv"

	"awn/internal/malthouse"
	"awn/ledger"
)

// Decide is a decision that somebody took.
type Decide struct {
	Thing    string `arg:"" placeholder:"WHAT" help:"What it is about: silo:B7."`
	Drawn    string `enum:"mixed,in-layers,none" default:"none" placeholder:"HOW" help:"How a place gives what it holds: mixed, or in-layers (first in, first out)."`
	Decision string `placeholder:"TEXT" help:"What was decided, if it is something else."`
	Reason   string `placeholder:"TEXT" help:"Why."`
	Accepts  string `placeholder:"UUID" help:"A fact that is stood by, although what it rests on was struck."`
}

// Use is to decide.
func (*Decide) Use() malthouse.Use { return malthouse.UseDecide }

// Enter records the decision. How a place is drawn may be decided before
// anything lies in it.
func (s *Decide) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	in := &ledger.Decision{Decision: s.Decision, Reason: s.Reason, Accepts: ledger.FactID(s.Accepts)}
	if s.Drawn != "" && s.Drawn != "none" {
		in.Of, in.Drawn = ledger.Ref(Place(s.Thing, ledger.Silo)), ledger.Drawn(s.Drawn)
		if in.Decision == "" {
			in.Decision = "drawn " + s.Drawn
		}
	}
	if in.Decision == "" {
		return malthouse.Done{}, Faults{Of("decision", "slip.decision.missing", "")}
	}
	if in.Drawn == "" {
		var err error
		if in.Of, err = find(ctx, h, s.Thing); err != nil {
			return malthouse.Done{}, err
		}
	}
	return h.Decide(ctx, a, e, in)
}

// Strike declares an earlier entry wrong.
type Strike struct {
	Fact   string `arg:"" placeholder:"UUID" help:"Id of the entry that is wrong, as it was printed, or its number in the record."`
	Reason string `required:"" placeholder:"TEXT" help:"What is wrong with it."`
}

// Use is to strike.
func (*Strike) Use() malthouse.Use { return malthouse.UseStrike }

// Enter strikes the entry.
func (s *Strike) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	id := s.Fact
	if seq, err := strconv.ParseInt(s.Fact, 10, 64); err == nil {
		for f, err := range h.Store.Read(h.Code).Facts(ctx, ledger.Query{From: seq, To: seq}) {
			if err != nil {
				return malthouse.Done{}, err
			}
			id = f.ID
		}
	}
	return h.Strike(ctx, a, e, &ledger.Strike{Fact: ledger.FactID(id), Reason: s.Reason})
}

// Person makes somebody known.
type Person struct {
	Who     string `arg:"" placeholder:"WHO" help:"What they are called at the keyboard, or a short name of a buyer."`
	Role    string `placeholder:"ROLE" help:"floor, laboratory, intake, planning, sales, manager or auditor (reads only); none for a buyer."`
	Name    string `placeholder:"NAME" help:"Whole name."`
	Contact string `placeholder:"TEXT" help:"How to reach them: a recall asks for it."`
}

// Use is to make people known.
func (*Person) Use() malthouse.Use { return malthouse.UsePeople }

// Enter makes them known.
func (s *Person) Enter(ctx context.Context, h *malthouse.House, a malthouse.Actor, e malthouse.Entry) (malthouse.Done, error) {
	return h.Admit(ctx, a, e, malthouse.Person{ID: s.Who, Name: s.Name, Role: malthouse.Role(s.Role), Contact: s.Contact})
}
