package malthouse

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"awn/ledger"
)

// Duty is something that comes due by itself, again and again, until the
// record says that it was done.
type Duty struct {
	Key  string // "silo-temperature"
	For  Role
	Days int // after the last time; 0 is never
}

// settingDue begins the key of the days of a duty.
const settingDue = "due."

// Duties lists them with their usual intervals: common practice, no source. A
// house sets its own, and 0 for none.
func Duties() []Duty {
	return []Duty{
		{"silo-temperature", Intake, 14}, {"silo-germination", Laboratory, 30}, {"silo-sample", Intake, 49}, {"place-count", Planning, 91},
		{"lot-analysis", Laboratory, 2}, {"lot-release", Laboratory, 7}, {"hold-decision", Laboratory, 14}, {"load-certificate", Sales, 1},
		{"shaken", Laboratory, 1}, {"check-sample", Laboratory, 14}, {"sample-kept", Laboratory, 730}, {"day-close", Planning, 1}, {"recall-drill", Manager, 365},
	}
}

// Reminder is a duty that stands open.
type Reminder struct {
	Duty
	Thing ledger.Ref // "" if it is about the house
	Due   time.Time
	Late  time.Duration // below 0 while there is time
}

// dues gathers when each duty was last done, by what it is about.
type dues struct {
	now  time.Time
	days map[string]int
	done map[string]map[ledger.Ref]time.Time
}

func (d *dues) did(key string, of ledger.Ref, ms int64) {
	if d.done[key] == nil {
		d.done[key] = map[ledger.Ref]time.Time{}
	}
	if at := time.UnixMilli(ms).In(d.now.Location()); at.After(d.done[key][of]) {
		d.done[key][of] = at
	}
}

// Due says what comes due within a stretch from now, most overdue first. It is
// worked out from the record each time, and settled by the fact that does it,
// or by a decision “due KEY” about the thing with a reason.
func (h *House) Due(ctx context.Context, a Actor, within time.Duration) ([]Reminder, error) {
	if err := a.Permit(UseLook); err != nil {
		return nil, err
	}
	d := &dues{now: h.Clock().In(h.Zone), days: map[string]int{}, done: map[string]map[ledger.Ref]time.Time{}}
	duties := Duties()
	for i := range duties {
		text, found, err := h.Desk.Setting(ctx, settingDue+duties[i].Key)
		if err != nil {
			return nil, err
		}
		if n, bad := strconv.Atoi(text); found && bad == nil {
			duties[i].Days = n
		}
	}
	begun, err := h.lookAll(ctx, d)
	if err != nil {
		return nil, err
	}
	var out []Reminder
	for _, duty := range duties {
		for of, from := range begun[duty.Key] {
			if last := d.done[duty.Key][of]; last.After(from) {
				from = last
			}
			due := from.AddDate(0, 0, duty.Days)
			if late := d.now.Sub(due); duty.Days > 0 && late > -within {
				out = append(out, Reminder{duty, of, due, late})
			}
		}
	}
	slices.SortFunc(out, func(a, b Reminder) int {
		if c := a.Due.Compare(b.Due); c != 0 {
			return c
		}
		return strings.Compare(a.Key+string(a.Thing), b.Key+string(b.Thing))
	})
	return out, nil
}

// lookAll goes through the record once: what was done, and from when each duty
// runs for what it is about.
func (h *House) lookAll(ctx context.Context, d *dues) (begun map[string]map[ledger.Ref]time.Time, err error) {
	begun = map[string]map[ledger.Ref]time.Time{}
	begin := func(key string, of ledger.Ref, ms int64) {
		if begun[key] == nil {
			begun[key] = map[ledger.Ref]time.Time{}
		}
		begun[key][of] = time.UnixMilli(ms).In(d.now.Location())
	}
	end := func(key string, of ledger.Ref) { delete(begun[key], of) }
	r := h.Store.Read(h.Code)
	first, found, err := firstFact(ctx, r)
	if err != nil || !found {
		return begun, err
	}
	begin("day-close", "", first.At)
	begin("recall-drill", "", first.At)
	facts, err := h.dutiful(ctx, r)
	if err != nil {
		return nil, err
	}
	for _, f := range facts {
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return nil, err
		}
		switch b := body.(type) {
		case *ledger.Receipt:
			for _, key := range storeDuties {
				if _, there := begun[key][b.To.Ref()]; !there {
					begin(key, b.To.Ref(), f.At)
				}
			}
		case *ledger.Sampling:
			d.did("silo-sample", b.Of, f.At)
			switch {
			case strings.HasPrefix(b.How, checkSample):
				begin("check-sample", ledger.To(ledger.SampleKind, b.Sample), f.At)
			case b.Kept != "":
				begin("sample-kept", ledger.To(ledger.SampleKind, b.Sample), f.At)
			}
		case *ledger.Adjustment:
			d.did("place-count", b.Place.Ref(), f.At)
		case *ledger.Dressing:
			for _, m := range b.Malt {
				begin("lot-analysis", ledger.To(ledger.LotKind, m.Lot), f.At)
				begin("lot-release", ledger.To(ledger.LotKind, m.Lot), f.At)
			}
		case *ledger.Release:
			end("lot-analysis", b.Of)
			end("lot-release", b.Of)
			end("hold-decision", b.Of)
		case *ledger.Hold:
			begin("hold-decision", b.Of, f.At)
			end("lot-release", b.Of)
		case *ledger.Shipping:
			begin("load-certificate", ledger.In(ledger.Shipment, b.Shipment).Ref(), f.At)
		case *ledger.Return:
			end("load-certificate", ledger.In(ledger.Shipment, b.Shipment).Ref())
		case *ledger.Certificate:
			for _, of := range b.Of {
				end("load-certificate", of)
			}
		case *ledger.Decision:
			d.decided(b, f.At)
		}
	}
	if err := h.stillHeld(ctx, r, begun, begin); err != nil {
		return nil, err
	}
	return begun, d.measured(ctx, r, begun)
}

// storeDuties are those that run for a place from its first load on.
var storeDuties = []string{"silo-temperature", "silo-germination", "silo-sample", "place-count"}

// firstFact is the first of the record.
func firstFact(ctx context.Context, r ledger.Reader) (first ledger.Fact, found bool, err error) {
	for f, err := range r.Facts(ctx, ledger.Query{From: 1, To: 1}) {
		return f, true, err
	}
	return first, false, nil
}

// dutiful are the facts in force that begin a duty or end one, in the order of
// the record. Analyses, of which there are most, are asked of what they are due
// for alone.
func (h *House) dutiful(ctx context.Context, r ledger.Reader) ([]ledger.Fact, error) {
	var out []ledger.Fact
	for _, kind := range []ledger.Kind{
		ledger.Received, ledger.Sampled, ledger.Adjusted, ledger.Dressed, ledger.Released, ledger.Held, ledger.Shipped, ledger.Returned, ledger.Certified, ledger.Decided,
	} {
		facts, err := inForce(ctx, r, "", kind)
		if err != nil {
			return nil, err
		}
		out = append(out, facts...)
	}
	slices.SortFunc(out, func(a, b ledger.Fact) int { return int(a.Seq - b.Seq) })
	return out, nil
}

// measured settles what analyses settle.
func (d *dues) measured(ctx context.Context, r ledger.Reader, begun map[string]map[ledger.Ref]time.Time) error {
	things := map[ledger.Ref]bool{}
	for _, key := range []string{"silo-temperature", "silo-germination", "check-sample", "lot-analysis"} {
		for of := range begun[key] {
			things[of] = true
		}
	}
	for of := range things {
		all, facts, err := bodies[*ledger.Analysis](ctx, r, of, ledger.Analysed)
		if err != nil {
			return err
		}
		for i, b := range all {
			d.analysed(b, facts[i].At)
			if b.Lab != byHand {
				delete(begun["lot-analysis"], of)
			}
		}
	}
	return nil
}

// analysed settles what a result settles.
func (d *dues) analysed(b *ledger.Analysis, at int64) {
	for _, r := range b.Results {
		switch r.Quantity {
		case "temperature_c":
			d.did("silo-temperature", b.Of, at)
		case "germination_energy", "capacity":
			d.did("silo-germination", b.Of, at)
		}
	}
	d.did("check-sample", b.Of, at)
}

// decided settles what a decision says is done.
func (d *dues) decided(b *ledger.Decision, at int64) {
	switch key, named := strings.CutPrefix(b.Decision, "due "); {
	case named:
		d.did(key, b.Of, at)
	case strings.HasPrefix(b.Decision, dayClosed):
		d.did("day-close", "", at)
	case b.Decision == "recall drill":
		d.did("recall-drill", "", at)
	}
}

// stillHeld drops duties on places that hold nothing, and adds what rests on
// struck entries.
func (h *House) stillHeld(ctx context.Context, r ledger.Reader, begun map[string]map[ledger.Ref]time.Time, begin func(string, ledger.Ref, int64)) error {
	for _, key := range storeDuties {
		for of := range begun[key] {
			b, err := r.Balance(ctx, ledger.Account(of))
			if err != nil {
				return err
			}
			if b.Dry <= 0 {
				delete(begun[key], of)
			}
		}
	}
	shaken, err := r.Shaken(ctx)
	for _, f := range shaken {
		body, err := ledger.Decode(f.Kind, f.Schema, f.Body)
		if err != nil {
			return err
		}
		switch b := body.(type) {
		case *ledger.Release:
			begin("shaken", b.Of, f.At)
		case *ledger.Certificate:
			begin("shaken", ledger.To(ledger.CertificateKind, b.Certificate), f.At)
		}
	}
	return err
}
