package malthouse

import (
	"context"
	"errors"

	"awn/ledger"
)

// errRehearsed ends a use that has come to the point at which it would write.
var errRehearsed = errors.New("rehearsed: nothing is kept")

// Rehearse goes through a use as far as it can without the lock and without
// writing anything. Nil means that nothing was found wrong up to the first thing
// that would be written; what only the lock can tell is told when the use is
// taken.
func (h *House) Rehearse(use func(*House) error) error {
	dry := *h
	dry.Store, dry.Desk = dryStore{h.Store}, dryDesk{h.Desk}
	if err := use(&dry); !errors.Is(err, errRehearsed) {
		return err
	}
	return nil
}

// dryStore is a store that can only be read.
type dryStore struct{ ledger.Store }

func (s dryStore) Write(_ context.Context, house string, use func(ledger.Writer) error) error {
	return use(dryWriter{s.Read(house)})
}

// dryWriter is a record that ends a use where it would write.
type dryWriter struct{ ledger.Reader }

func (dryWriter) Append(context.Context, ...ledger.Draft) ([]ledger.Fact, error) {
	return nil, errRehearsed
}
func (dryWriter) Next(context.Context, string) (int64, error) { return 0, errRehearsed }
func (dryWriter) PutDocument(context.Context, string, []byte) (string, error) {
	return "", errRehearsed
}

// dryDesk is a desk that can only be read.
type dryDesk struct{ Desk }

func (dryDesk) PutPerson(context.Context, Person) error    { return errRehearsed }
func (dryDesk) RemovePerson(context.Context, string) error { return errRehearsed }
func (dryDesk) Set(context.Context, string, string) error  { return errRehearsed }
