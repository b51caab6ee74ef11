package sqlstore_test

import (
	"path/filepath"
	"testing"

	"awn/internal/sqlstore"
	"awn/internal/sqlstore/storetest"
)

const benchRows = 50_000

func BenchmarkAppendReadings(b *testing.B) {
	for _, c := range []struct {
		name    string
		address func(testing.TB) string
	}{{"sqlite", storetest.SQLiteURL}, {"postgres", storetest.PostgresURL}} {
		b.Run(c.name, func(b *testing.B) {
			rows := storetest.Rows(1, benchRows)
			for b.Loop() {
				b.StopTimer()
				db := storetest.Open(b, c.address(b))
				storetest.Furnish(b, db)
				b.StartTimer()
				for i := 0; i < len(rows); i += 1000 {
					if _, err := db.AppendReadings(b.Context(), "hallow", sqlstore.SealRule{Rows: 1000, SpanMS: 1 << 40}, rows[i:i+1000]); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(benchRows*b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}

// BenchmarkBareInserts is the same rows into a bare table of the same form.
func BenchmarkBareInserts(b *testing.B) {
	rows := storetest.Rows(1, benchRows)
	for b.Loop() {
		b.StopTimer()
		db := storetest.Open(b, filepath.Join(b.TempDir(), "bare.awn"))
		if _, err := db.W.Exec(`create table bare (house integer, series integer, at integer, value real, primary key (house, series, at)) strict, without rowid`); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		for i := 0; i < len(rows); i += 1000 {
			tx, err := db.W.Begin()
			if err != nil {
				b.Fatal(err)
			}
			insert, err := tx.Prepare(`insert into bare (house, series, at, value) values ($1, $2, $3, $4)`)
			if err != nil {
				b.Fatal(err)
			}
			for _, r := range rows[i : i+1000] {
				if _, err := insert.Exec(1, r.Series, r.AtMS, r.Value); err != nil {
					b.Fatal(err)
				}
			}
			if err := tx.Commit(); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(benchRows*b.N)/b.Elapsed().Seconds(), "rows/s")
}
