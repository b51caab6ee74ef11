package malthouse

import (
	"context"

	"awn/ledger"
)

// Sample takes a sample of something.
func (h *House) Sample(ctx context.Context, a Actor, e Entry, in *ledger.Sampling) (Done, error) {
	return h.enter(ctx, a, UseSample, e, in, steps{
		complete: func(ctx context.Context, d *desk) error { return d.about(ctx, in.Of) },
		said:     func() Said { return say("sampled", "sample", string(in.Sample), "thing", string(in.Of)) },
	})
}

// Analyse records the results of a laboratory.
func (h *House) Analyse(ctx context.Context, a Actor, e Entry, in *ledger.Analysis) (Done, error) {
	return h.results(ctx, a, UseAnalyse, e, in, "analysed")
}

// Read records what somebody on the floor measured by hand.
func (h *House) Read(ctx context.Context, a Actor, e Entry, in *ledger.Analysis) (Done, error) {
	in.Lab = byHand
	return h.results(ctx, a, UseRead, e, in, "read")
}

// byHand is the laboratory of what the floor measures.
const byHand = "by hand"

func (h *House) results(ctx context.Context, a Actor, u Use, e Entry, in *ledger.Analysis, what string) (Done, error) {
	return h.enter(ctx, a, u, e, in, steps{
		complete: func(ctx context.Context, d *desk) error { return d.about(ctx, in.Of) },
		said: func() Said {
			return say(what, "thing", string(in.Of), "lab", in.Lab).with("count_n", float64(len(in.Results)))
		},
	})
}

// about refuses a thing that the record knows nothing of.
func (d *desk) about(ctx context.Context, thing ledger.Ref) error {
	_, err := known(ctx, d, thing)
	return err
}

// Release lets something go out. It rests on the analyses in force of the
// thing, so that one that is struck later shakes it.
func (h *House) Release(ctx context.Context, a Actor, e Entry, in *ledger.Release) (Done, error) {
	return h.enter(ctx, a, UseRelease, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			if in.Reason == "" {
				return refuse("use.reason.missing", "a release")
			}
			if was, ok := before[*ledger.Release](d); ok {
				in.Rests = was.Rests
				return nil
			}
			if err := d.about(ctx, in.Of); err != nil || in.Rests != nil {
				return err
			}
			facts, err := inForce(ctx, d, in.Of, ledger.Analysed)
			for _, f := range facts {
				in.Rests = append(in.Rests, ledger.FactID(f.ID))
			}
			return err
		},
		said: func() Said {
			return say("released", "thing", string(in.Of), "why", in.Reason).with("rests_n", float64(len(in.Rests)))
		},
	})
}

// Hold keeps something in.
func (h *House) Hold(ctx context.Context, a Actor, e Entry, in *ledger.Hold) (Done, error) {
	return h.enter(ctx, a, UseHold, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			if in.Reason == "" {
				return refuse("use.reason.missing", "a hold")
			}
			return d.about(ctx, in.Of)
		},
		said: func() Said { return say("held", "thing", string(in.Of), "why", in.Reason) },
	})
}

// Decide records a choice: how a place is drawn, that a fact is stood by, or
// whatever else the house wants to remember.
func (h *House) Decide(ctx context.Context, a Actor, e Entry, in *ledger.Decision) (Done, error) {
	return h.enter(ctx, a, UseDecide, e, in, steps{
		said: func() Said { return say("decided", "thing", string(in.Of), "what", in.Decision) },
	})
}

// Strike declares an earlier fact wrong. What rested on it is said.
func (h *House) Strike(ctx context.Context, a Actor, e Entry, in *ledger.Strike) (Done, error) {
	var struck ledger.Fact
	return h.enter(ctx, a, UseStrike, e, in, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if in.Reason == "" {
				return refuse("use.reason.missing", "a strike")
			}
			struck, _, err = d.Fact(ctx, string(in.Fact))
			return err
		},
		after: func(ctx context.Context, d *desk, _ ledger.Fact) error {
			shaken, err := d.Shaken(ctx)
			for _, f := range shaken {
				d.note(Shaken(f))
			}
			return err
		},
		said: func() Said {
			return say("struck", "kind", string(struck.Kind), "id", string(in.Fact), "why", in.Reason)
		},
	})
}

// Shaken says of a fact that it rests on one that was struck.
func Shaken(f ledger.Fact) Said {
	var of ledger.Ref
	body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
	if err == nil {
		switch b := body.(type) {
		case *ledger.Release:
			of = b.Of
		case *ledger.Certificate:
			of = ledger.To(ledger.CertificateKind, b.Certificate)
		}
	}
	return say("shaken", "kind", string(f.Kind), "thing", string(of), "id", f.ID)
}

// inForce gives the facts about a thing, of one kind or of all, that were not
// struck.
func inForce(ctx context.Context, r ledger.Reader, about ledger.Ref, kind ledger.Kind) ([]ledger.Fact, error) {
	struck, err := strikes(ctx, r, about)
	if err != nil {
		return nil, err
	}
	var out []ledger.Fact
	for f, err := range r.Facts(ctx, ledger.Query{About: about, Kind: kind}) {
		if err != nil {
			return nil, err
		}
		if !struck[f.ID] && f.Kind != ledger.Struck {
			out = append(out, f)
		}
	}
	return out, nil
}

// strikes are the ids of the facts about a thing that were struck. A strike is
// about what its fact was about.
func strikes(ctx context.Context, r ledger.Reader, about ledger.Ref) (map[string]bool, error) {
	out := map[string]bool{}
	for f, err := range r.Facts(ctx, ledger.Query{About: about, Kind: ledger.Struck}) {
		if err != nil {
			return nil, err
		}
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		if s, ok := body.(*ledger.Strike); ok {
			out[string(s.Fact)] = true
		}
	}
	return out, nil
}

// bodies are the bodies of one type among the facts in force about a thing.
func bodies[B ledger.Body](ctx context.Context, r ledger.Reader, about ledger.Ref, kind ledger.Kind) (out []B, facts []ledger.Fact, err error) {
	all, err := inForce(ctx, r, about, kind)
	if err != nil {
		return nil, nil, err
	}
	for _, f := range all {
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, nil, err
		}
		if b, ok := body.(B); ok {
			out, facts = append(out, b), append(facts, f)
		}
	}
	return out, facts, nil
}
