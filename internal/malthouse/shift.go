package malthouse

import (
	"context"
	"slices"
	"strings"
	"time"

	"awn/ledger"
)

// dayClosed begins the decision that closes a day.
const dayClosed = "day closed "

// The decisions by which a shift is handed over: who leaves gives it, and
// somebody else takes it.
const (
	shiftGiven = "shift given"
	shiftTaken = "shift taken"
)

// Day is a day as it is closed: what the house holds, what stands open, and
// the end of the record, by which a record that was restored and went on shows.
type Day struct {
	Date    string // 2026-11-24, by the calendar of the house
	Stock   Stock
	Pieces  []PieceLine // under way
	Due     []Reminder  // that are late
	Entries int         // of that day
}

// Day gathers a day.
func (h *House) Day(ctx context.Context, a Actor, date time.Time) (d Day, err error) {
	d.Date = date.In(h.Zone).Format(time.DateOnly)
	if d.Stock, err = h.Stock(ctx, a); err != nil {
		return d, err
	}
	if d.Pieces, err = h.underway(ctx, a); err != nil {
		return d, err
	}
	if d.Due, err = h.Due(ctx, a, 0); err != nil {
		return d, err
	}
	facts, err := h.Facts(ctx, a)
	if err != nil {
		return d, err
	}
	for f, err := range facts {
		if err != nil {
			return d, err
		}
		if timeOf(f, h.Zone).Format(time.DateOnly) == d.Date {
			d.Entries++
		}
	}
	return d, nil
}

func (h *House) underway(ctx context.Context, a Actor) ([]PieceLine, error) {
	all, err := h.Pieces(ctx, a)
	return slices.DeleteFunc(all, func(p PieceLine) bool { return !p.Underway() }), err
}

// CloseDay closes a day: the page is kept, and the record ends for that day
// with an entry that names it.
func (h *House) CloseDay(ctx context.Context, a Actor, e Entry, date string, page []byte) (Done, error) {
	return h.kept(ctx, a, UseClose, e, page, &ledger.Decision{Decision: dayClosed + date}, func() Said { return say("day-closed", "day", date) })
}

// kept enters a decision with the page that it is about.
func (h *House) kept(ctx context.Context, a Actor, use Use, e Entry, page []byte, in *ledger.Decision, said func() Said) (Done, error) {
	return h.enter(ctx, a, use, e, in, steps{
		complete: func(ctx context.Context, d *desk) (err error) {
			if was, again := before[*ledger.Decision](d); again {
				in.Document = was.Document
				return nil
			}
			in.Document, err = d.file(ctx, "text/plain; charset=utf-8", page)
			return err
		},
		said: said,
	})
}

// Shift is what one shift hands to the next.
type Shift struct {
	Since  time.Time
	Head   ledger.Head
	Pieces []PieceLine // under way
	Did    []Told      // entered since then, the latest first
	Held   []Held      // on hold
	Alarms []Unexplained
	Due    []Reminder // late, or within the next shift
	Notes  []string
	Given  *Entered[*ledger.Decision] // that waits to be taken
}

// shiftHours is how long a shift is.
const shiftHours = 8

// Shift gathers what happened since a moment, and what comes.
func (h *House) Shift(ctx context.Context, a Actor, since time.Time) (s Shift, err error) {
	s.Since = since.In(h.Zone)
	stock, err := h.Stock(ctx, a)
	if err != nil {
		return s, err
	}
	s.Head = stock.Head
	for _, p := range stock.Places {
		if p.Leave == ledger.OnHold {
			s.Held = append(s.Held, p)
		}
	}
	for _, x := range stock.Unexplained {
		if x.Alarm() {
			s.Alarms = append(s.Alarms, x)
		}
	}
	if s.Pieces, err = h.underway(ctx, a); err != nil {
		return s, err
	}
	if s.Due, err = h.Due(ctx, a, shiftHours*time.Hour); err != nil {
		return s, err
	}
	facts, err := h.Facts(ctx, a)
	if err != nil {
		return s, err
	}
	var did []ledger.Fact
	for f, err := range facts {
		if err != nil {
			return s, err
		}
		if f.At >= since.UnixMilli() {
			did = append(did, f)
		}
	}
	slices.Reverse(did)
	if s.Did, err = h.toldOf(ctx, did, nil); err != nil {
		return s, err
	}
	s.Given, err = h.given(ctx, a)
	return s, err
}

// given is the handover that nobody has taken yet.
func (h *House) given(ctx context.Context, a Actor) (*Entered[*ledger.Decision], error) {
	all, err := list[*ledger.Decision](ctx, h, a, ledger.Decided)
	for _, d := range all {
		switch {
		case strings.HasPrefix(d.Body.Decision, shiftTaken):
			return nil, err
		case d.Body.Decision == shiftGiven:
			return &d, err
		}
	}
	return nil, err
}

// GiveShift signs a handover by whoever leaves. The page is kept.
func (h *House) GiveShift(ctx context.Context, a Actor, e Entry, notes string, page []byte) (Done, error) {
	return h.kept(ctx, a, UseShift, e, page, &ledger.Decision{Decision: shiftGiven, Reason: notes}, func() Said { return say("shift-given", "who", a.ID) })
}

// TakeShift signs the handover that waits, by somebody else.
func (h *House) TakeShift(ctx context.Context, a Actor, e Entry) (Done, error) {
	if err := a.Permit(UseShift); err != nil {
		return Done{}, err
	}
	in := &ledger.Decision{}
	return h.enter(ctx, a, UseShift, e, in, steps{
		complete: func(ctx context.Context, d *desk) error {
			if was, again := before[*ledger.Decision](d); again {
				*in = *was
				return nil
			}
			given, err := h.given(ctx, a)
			switch {
			case err != nil:
				return err
			case given == nil:
				return refuse("use.shift.none", "")
			case given.Fact.Who == a.ID:
				return refuse("use.shift.same", a.ID)
			}
			in.Decision, in.Document = shiftTaken+" "+given.Fact.ID, given.Body.Document
			return nil
		},
		said: func() Said { return say("shift-taken", "who", a.ID) },
	})
}
