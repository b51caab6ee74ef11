package malthouse_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"awn/examples"
	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/office"
	"awn/internal/paper"
	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
	"awn/ledger"
)

var boss = malthouse.Actor{ID: "anna", Role: malthouse.Manager}

func ticketMap(t *testing.T) paper.ImportMap {
	t.Helper()
	text, err := examples.Files.ReadFile("import-tickets.yaml")
	if err != nil {
		t.Fatal(err)
	}
	how, faults := paper.Read[paper.ImportMap]("map", text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return how
}

// tickets are n loads.
func tickets(n int) exchange.File {
	var b strings.Builder
	b.WriteString("Ticket,Weighed,Lot,Gross,Tare,Moisture,Silo,Grower,Field,Variety,Vehicle\n")
	for i := range n {
		fmt.Fprintf(&b, "%d,12/08/2026 07:40,L26-%04d,43.26,14.80,14.1,North 1,Skerry Farm,Long Acre,Sandpiper,WN26 HAY\n", i, i)
	}
	return exchange.File{Name: "tickets.csv", Data: []byte(b.String())}
}

// cut is a store that fails once a use has appended all that it appends, as a
// program does that is stopped before it is acknowledged.
type cut struct{ ledger.Store }

var errCut = errors.New("cut")

func (c cut) Write(ctx context.Context, house string, use func(ledger.Writer) error) error {
	return c.Store.Write(ctx, house, func(w ledger.Writer) error {
		if err := use(w); err != nil {
			return err
		}
		return errCut
	})
}

// TestHalfAnImport: one that is cut short after its last row leaves neither an
// entry nor the file; brought in again all of it is there; a third time nothing
// changes. On both databases.
func TestHalfAnImport(t *testing.T) {
	storetest.EachURL(t, func(t *testing.T, address string) {
		ctx, o := t.Context(), opened(t, address)
		file, how := tickets(50), ticketMap(t)
		whole := o.Store
		o.Store = cut{whole}
		b, err := o.Bring(ctx, boss, file, how, false)
		if !errors.Is(err, errCut) {
			t.Fatal(err)
		}
		if h, _ := whole.Read(o.Code).Head(ctx); h.Seq != 0 {
			t.Errorf("%d entries of half an import", h.Seq)
		}
		if _, err := o.DB.Document(ctx, o.Code, b.SHA256); sqlstore.Code(err) != "record.document.missing" {
			t.Errorf("the file of half an import: %v", err)
		}
		o.Store = whole
		for _, again := range []bool{false, true} {
			b, err := o.Bring(ctx, boss, file, how, false)
			if err != nil || b.Again != again || b.Count != 50 {
				t.Fatalf("%+v: %v", b, err)
			}
		}
		if h := head(t, o); h.Seq != 51 {
			t.Errorf("%d entries, want 50 loads and the file", h.Seq)
		}
		if _, err := o.DB.Document(ctx, o.Code, b.SHA256); err != nil {
			t.Error(err)
		}
	})
}

func head(t *testing.T, o *office.Office) ledger.Head {
	t.Helper()
	h, err := o.DB.VerifyChain(t.Context(), o.Code)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// TestClockJumpsBack: order is that of the record, whatever the clock says, and
// an entry sent twice by a clock that jumped between changes nothing.
func TestClockJumpsBack(t *testing.T) {
	storetest.EachURL(t, func(t *testing.T, address string) {
		ctx, o := t.Context(), opened(t, address)
		now := o.Clock()
		receive := func(id string) malthouse.Done {
			d, err := o.Receive(ctx, boss, malthouse.Entry{ID: id}, &ledger.Receipt{To: "silo:B7", Amount: kilos(1000, 0.13)})
			if err != nil {
				t.Fatal(err)
			}
			return d
		}
		first := receive("01931b5e-5b00-7000-8000-000000000001")
		o.Clock = func() time.Time { return now.Add(-90 * time.Minute) }
		second := receive("01931b5e-5b00-7000-8000-000000000002")
		again := receive("01931b5e-5b00-7000-8000-000000000001")
		if second.Fact.Seq != first.Fact.Seq+1 || second.Fact.At >= first.Fact.At {
			t.Errorf("after the jump: %d at %d, after %d at %d", second.Fact.Seq, second.Fact.At, first.Fact.Seq, first.Fact.At)
		}
		if !again.Again || again.Fact.Hash != first.Fact.Hash {
			t.Errorf("sent twice: %+v", again)
		}
		if _, _, err := o.Rest(ctx, boss); err != nil {
			t.Error(err)
		}
		head(t, o)
	})
}

// TestSealsAfterACrash: a program that was stopped between the readings and
// their entry leaves a closed seal; the next one puts it on record, once.
func TestSealsAfterACrash(t *testing.T) {
	storetest.EachURL(t, func(t *testing.T, address string) {
		ctx, o := t.Context(), opened(t, address)
		series := exchange.Series{Code: "KILN1", Quantity: "temperature", Unit: "°C"}
		batch := make([]exchange.Sensed, 2500)
		for i := range batch {
			batch[len(batch)-1-i] = exchange.Sensed{Series: series, AtMS: int64(i) * 1000, Value: float64(i)} // last first
		}
		if _, _, err := o.Sensors.Keep(ctx, batch); err != nil {
			t.Fatal(err)
		}
		for i, want := range []malthouse.Logged{{Again: 2500, Seals: 3}, {Again: 2500}} {
			if got, err := o.Log(ctx, boss, batch, true); err != nil || got != want {
				t.Errorf("time %d: %+v, want %+v: %v", i, got, want, err)
			}
		}
		if seals, rolled, err := o.Sealed(ctx, boss); seals != 3 || rolled != 0 || err != nil {
			t.Errorf("%d seals, %d rolled up: %v", seals, rolled, err)
		}
		if _, err := o.DB.W.ExecContext(ctx, `update reading set value = value + 1 where at = 5000`); err != nil {
			t.Fatal(err)
		}
		if _, _, err := o.Sealed(ctx, boss); sqlstore.Code(err) != "record.seal.broken" {
			t.Errorf("a reading that was changed: %v", err)
		}
	})
}

// TestReadOnlyRecord: a file that nobody may write to refuses an import, and is
// as it was.
func TestReadOnlyRecord(t *testing.T) {
	ctx, address := t.Context(), storetest.SQLiteURL(t)
	o := opened(t, address)
	before := head(t, o)
	if _, err := o.DB.W.ExecContext(ctx, `pragma query_only = on`); err != nil {
		t.Fatal(err)
	}
	_, err := o.Bring(ctx, boss, tickets(3), ticketMap(t), false)
	if err == nil || malthouse.IsRefused(err) {
		t.Errorf("an import into a record that cannot be written: %v", err)
	}
	if head(t, o) != before {
		t.Error("it changed")
	}
}

// TestKeyFiles: a key taken anew leaves the old one beside it, readable by its
// owner only.
func TestKeyFiles(t *testing.T) {
	address := storetest.SQLiteURL(t)
	o := opened(t, address)
	for _, why := range []string{"first", "second", "third"} {
		if _, _, err := o.NewKey(t.Context(), boss, why); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob(filepath.Join(filepath.Dir(address), "*.key*"))
	if err != nil || len(files) != 3 {
		t.Fatalf("%v: %v", files, err)
	}
	for _, f := range files {
		if info, err := os.Stat(f); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", f, info.Mode(), err)
		}
	}
	if keys, err := o.Keys(t.Context(), boss); err != nil || len(keys) != 3 {
		t.Errorf("%v: %v", keys, err)
	}
}
