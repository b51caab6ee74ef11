package ledger

import (
	"context"
	"iter"
)

// Store keeps the records of houses, each a chain of its own.
type Store interface {
	// Write runs a use with the house's record locked, so that what it reads
	// stays true until what it appends is there. All of it is kept or, if the
	// use or the store returns an error, nothing.
	Write(ctx context.Context, house string, use func(Writer) error) error
	// Read gives the record as it is, without a lock.
	Read(house string) Reader
}

// Writer is what a use has of a record that it has locked.
type Writer interface {
	Reader
	// Append gives facts their places. A draft whose id is in the record
	// already is acknowledged with the fact that is there, if it says the same,
	// and refused if it does not. All that is wrong is returned together, as
	// Faults, and then nothing was appended.
	Append(ctx context.Context, drafts ...Draft) ([]Fact, error)
	// Next takes the next number of a counter, from 1. A use that fails gives
	// its numbers back.
	Next(ctx context.Context, counter string) (int64, error)
}

// Reader is what can be asked of a record.
type Reader interface {
	Edges
	Head(ctx context.Context) (Head, error)
	Facts(ctx context.Context, q Query) iter.Seq2[Fact, error]
	Fact(ctx context.Context, id string) (Fact, bool, error)
	Balance(ctx context.Context, a Account) (Balance, error)
	Balances(ctx context.Context) ([]Balance, error)
	Subject(ctx context.Context, r Ref) (Subject, bool, error)
	Subjects(ctx context.Context, kind string) ([]Subject, error)
	// Results gives what was found of things, in force and in the order of the
	// record.
	Results(ctx context.Context, of ...Ref) ([]Result, error)
	// Shaken lists the facts in force that rest on a fact that was struck:
	// certificates and releases to be given anew or stood by.
	Shaken(ctx context.Context) ([]Fact, error)
}

// Query chooses facts, which come in the order of the record.
type Query struct {
	From, To int64 // sequence, both included; To 0 is the end
	About    Ref   // only facts about this thing
	Kind     Kind  // only facts of this kind
}

// Balance is what an account holds by the book.
type Balance struct {
	Account    Account
	Dry, Water Grams
	Seq        int64 // of the last fact that touched it
}

// Overdrawn reports whether more went out of a place than came in: a fact is
// missing or wrong, and no place can hold less than nothing.
func (b Balance) Overdrawn() bool { return b.Account.Inside() && (b.Dry < 0 || b.Water < 0) }

// Subject is a thing of the record.
type Subject struct {
	Ref    Ref
	State  State
	Leave  Leave
	Drawn  Drawn
	Opened int64 // sequence of the first fact about it
	Seq    int64 // sequence of the last
}

// Settle makes the body that sets the book of a place to what was counted and
// calls the difference unexplained.
func Settle(book Balance, counted Amount, month Month, reason string) *Adjustment {
	return &Adjustment{
		Place: book.Account, Counted: counted, BookDryKg: Signed(book.Dry), BookWater: Signed(book.Water),
		Against: AgainstUnexplained, Month: month, Reason: reason,
	}
}
