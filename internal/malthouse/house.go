package malthouse

import (
	"context"
	"crypto/ed25519"
	"io"
	"time"

	"awn/finding"
	"awn/ledger"
)

// House is a malthouse at work on its record.
type House struct {
	Code    string // whose record it is
	Zone    *time.Location
	Store   ledger.Store
	Desk    Desk
	Sensors Sensors // keeps readings
	Clock   func() time.Time
	Random  io.Reader
	Key     func() (ed25519.PrivateKey, error) // signs certificates
	Shares  *Shares                            // remembers what malt stores hold by lot; nil works it out each time
}

// Desk is what a house keeps beside its facts.
type Desk interface {
	Person(ctx context.Context, id string) (Person, error)
	People(ctx context.Context) ([]Person, error)
	PutPerson(ctx context.Context, p Person) error
	RemovePerson(ctx context.Context, id string) error
	Setting(ctx context.Context, key string) (value string, found bool, err error)
	Set(ctx context.Context, key, value string) error
	Document(ctx context.Context, sha string) ([]byte, error)
}

// Shelf is a [ledger.Writer] that keeps documents in the same transaction.
type Shelf interface {
	PutDocument(ctx context.Context, media string, bytes []byte) (sha string, err error)
}

// Person is somebody whom facts know by id alone.
type Person struct {
	ID, Name string
	Role     Role // none for somebody who only receives malt
	Contact  string
}

// Entry is what every use is entered with.
type Entry struct {
	ID string    // of the fact, made where it was typed; made here if empty
	At time.Time // when it happened; now if zero
}

// Done is what a use recorded.
type Done struct {
	Fact  ledger.Fact
	Again bool   // the same entry had been made before: nothing changed
	Said  Said   // what was recorded
	Notes []Said // what to mind
}

// Said is a sentence by its key, with what goes into its places.
type Said struct {
	What    string
	Words   []string // pairs of a place and its text
	Figures []finding.Figure
}

func say(what string, words ...string) Said { return Said{What: what, Words: words} }

// with adds a figure, whose name ends in its unit.
func (s Said) with(name string, value float64) Said {
	s.Figures = append(s.Figures, finding.Figure{Name: name, Value: value})
	return s
}

// kg is a mass as a figure.
func kg(g ledger.Grams) float64 { return float64(g) / 1000 }
