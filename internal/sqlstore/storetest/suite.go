package storetest

import (
	"math"
	"reflect"
	"testing"

	"awn/internal/sqlstore"
)

// house is the house of the suite.
const house = "hallow"

// Suite is what both databases must do alike.
func Suite(t *testing.T) {
	for _, c := range []struct {
		name string
		test func(*testing.T, *sqlstore.DB)
	}{
		{"houses and settings", houses},
		{"people", people},
		{"accounts", accounts},
		{"passes", passes},
		{"readers", readers},
		{"documents", documents},
		{"readings", readings},
		{"late and repeated readings", lateReadings},
		{"readings refused", refusedReadings},
		{"a changed reading breaks its seal", brokenSeal},
		{"rolled up", rolledUp},
		{"envelopes", envelopes},
		{"series begun together", seriesTogether},
		{"facts appended", recordAppends},
		{"counters", recordCounters},
		{"facts struck", recordStrikes},
		{"facts asked for", recordAsks},
		{"a changed record", recordTampered},
		{"any history", recordAny},
	} {
		t.Run(c.name, func(t *testing.T) { Each(t, c.test) })
	}
	t.Run("facts from several programs", func(t *testing.T) { EachURL(t, recordTogether) })
}

// Furnish gives a record its house and two series.
func Furnish(t testing.TB, db *sqlstore.DB) {
	t.Helper()
	ok(t, db.PutHouse(t.Context(), sqlstore.House{Code: house, Name: "Hallow Sound", Zone: "UTC"}))
	ok(t, db.PutSeries(t.Context(), house, sqlstore.Series{ID: 1, Code: "AIR-ON", Quantity: "temperature", Unit: "°C"}))
	ok(t, db.PutSeries(t.Context(), house, sqlstore.Series{ID: 2, Code: "AIR-OFF", Quantity: "temperature", Unit: "°C"}))
}

// Rows are n readings of a series, a second apart.
func Rows(series int64, n int) []sqlstore.Reading {
	rows := make([]sqlstore.Reading, n)
	for i := range rows {
		rows[i] = sqlstore.Reading{Series: series, AtMS: int64(i) * 1000, Value: 60 + 20*math.Sin(float64(i)/500)}
	}
	return rows
}

func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func same(t testing.TB, what string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func code(t testing.TB, err error, want string) {
	t.Helper()
	if got := sqlstore.Code(err); got != want {
		t.Errorf("%v, want %s", err, want)
	}
}

func houses(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	all, err := db.Houses(ctx)
	ok(t, err)
	same(t, "houses", all, []sqlstore.House{{Code: house, Name: "Hallow Sound", Zone: "UTC"}})
	ok(t, db.Set(ctx, house, "alarm.unexplained", "0.01"))
	ok(t, db.Set(ctx, house, "alarm.unexplained", "0.02"))
	value, found, err := db.Setting(ctx, house, "alarm.unexplained")
	ok(t, err)
	same(t, "setting", value, "0.02")
	same(t, "found", found, true)
	_, found, err = db.Setting(ctx, "other", "alarm.unexplained")
	ok(t, err)
	same(t, "found in another house", found, false)
	if db.Set(ctx, "nowhere", "a", "b") == nil {
		t.Error("a setting of no house was taken")
	}
}

func people(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	p := sqlstore.Person{ID: "p1", Name: "Åse Næss", Email: "ase@example.org", Phone: "1", Address: "Upper Farm"}
	ok(t, db.PutPerson(ctx, house, p))
	p.Phone = "2"
	ok(t, db.PutPerson(ctx, house, p))
	got, err := db.Person(ctx, house, "p1")
	ok(t, err)
	same(t, "person", got, p)
	ok(t, db.RemovePerson(ctx, house, "p1"))
	_, err = db.Person(ctx, house, "p1")
	code(t, err, "record.person.missing")
}

func documents(t *testing.T, db *sqlstore.DB) {
	ctx := t.Context()
	Furnish(t, db)
	// The digest of "abc" is the worked example of FIPS 180-4 for SHA-256.
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	for range 2 {
		sha, err := db.PutDocument(ctx, house, "text/plain", []byte("abc"))
		ok(t, err)
		same(t, "name", sha, abc)
	}
	d, err := db.Document(ctx, house, abc)
	ok(t, err)
	same(t, "document", d, sqlstore.Document{SHA256: abc, Media: "text/plain", Bytes: []byte("abc")})
	empty, err := db.PutDocument(ctx, house, "text/plain", nil)
	ok(t, err)
	_, err = db.Document(ctx, house, empty)
	ok(t, err)
	_, err = db.Document(ctx, "other", abc)
	code(t, err, "record.document.missing")
	_, err = db.W.ExecContext(ctx, `update document set bytes = $1 where sha256 = $2`, []byte("abd"), abc)
	ok(t, err)
	_, err = db.Document(ctx, house, abc)
	code(t, err, "record.document.changed")
	code(t, db.Check(ctx), "record.document.changed")
}
