package web

import (
	"encoding/json"
	"math"
	"net/url"
	"strconv"
	"strings"
	"testing"
	"time"

	"awn/internal/exchange"
	"awn/internal/malthouse"
)

// sensed has a house read a kiln: n readings a minute apart until now, the last
// of which is told.
func (p *peopled) sensed(t testing.TB, n int) []exchange.Sensed {
	t.Helper()
	s := exchange.Series{Code: "B7-2M", Quantity: "temperature", Unit: "°C"}
	batch := make([]exchange.Sensed, n)
	first := p.now.UnixMilli() - int64(n-1)*60_000
	for i := range batch {
		batch[i] = exchange.Sensed{Series: s, AtMS: first + int64(i)*60_000, Value: math.Round(1e4*(20+10*math.Sin(float64(i)/700)+math.Sin(float64(i*i)))) / 1e4}
	}
	if _, err := p.House.Log(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, batch, true); err != nil {
		t.Fatal(err)
	}
	return batch
}

// between is the least and the most of readings from one moment until before
// another.
func between(all []exchange.Sensed, from, to int64) (least, most float64, n int) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, r := range all {
		if r.AtMS >= from && r.AtMS < to {
			least, most, n = min(least, r.Value), max(most, r.Value), n+1
		}
	}
	return least, most, n
}

// TestSeriesForPrograms holds stretches against the readings that they are of.
func TestSeriesForPrograms(t *testing.T) {
	p := staffed(t)
	all := p.sensed(t, 5000)
	session := p.standing(t, malthouse.Floor)
	for _, ask := range []string{"", "?width=100", "?width=4000", "?width=100000", "?from=" + strconv.FormatInt(all[700].AtMS, 10) + "&to=" + strconv.FormatInt(all[900].AtMS, 10)} {
		w := p.try("GET", apiAt+seriesAt+"/b7-2m"+ask, session, nil)
		var got struct {
			Result struct {
				EveryMs   int64 `json:"every_ms"`
				Stretches struct {
					AtMs        []int64 `json:"at_ms"`
					Readings    []int
					Least, Most []float64
				}
			}
		}
		if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != 200 {
			t.Fatalf("%s: %d, %v", ask, w.Code, err)
		}
		s := got.Result.Stretches
		if n := len(s.AtMs); n == 0 || n > 4002 || strings.HasPrefix(ask, "?width=100") && len(ask) == 10 && n > 102 {
			t.Errorf("%s: %d stretches", ask, n)
		}
		for i, at := range s.AtMs {
			least, most, n := between(all, at, at+got.Result.EveryMs)
			if s.Least[i] != least || s.Most[i] != most || s.Readings[i] != n {
				t.Fatalf("%s, %d: %g to %g in %d, not %g to %g in %d", ask, at, s.Least[i], s.Most[i], s.Readings[i], least, most, n)
			}
		}
	}
	for ask, want := range map[string]int{"/B7-2M?from=noon": 422, "/B7-2M?width=wide": 422, "/B8": 404, "/B7-2M?from=-9007199254740993&to=1": 422} {
		if w := p.try("GET", apiAt+seriesAt+ask, session, nil); w.Code != want {
			t.Errorf("%s: %d", ask, w.Code)
		}
	}
}

// TestSeriesWithoutScript reads a series by its pages alone: the whole, a part
// of it by a link, its table, its rows, and the thing that it belongs to.
func TestSeriesWithoutScript(t *testing.T) {
	p := staffed(t)
	all := p.sensed(t, 5000)
	session := p.standing(t, malthouse.Auditor)
	page := func(at string) string {
		t.Helper()
		w := p.try("GET", at, session, nil)
		if w.Code != 200 {
			t.Fatalf("%s: %d", at, w.Code)
		}
		return strings.NewReplacer("\u00a0", " ", "\u202f", "", "&#43;", "+", "&amp;", "&").Replace(w.Body.String())
	}
	if list := page("/series"); !strings.Contains(list, `href="/series/B7-2M"`) || !strings.Contains(list, ">5000<") {
		t.Error("the series is not listed")
	}
	whole := page("/series/B7-2M")
	least, most, _ := between(all, 0, math.MaxInt64)
	u := func(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) + " °C" }
	if !strings.Contains(whole, u(least)+" to "+u(most)+" in 5000 readings") || !strings.Contains(whole, "Last read: "+u(all[4999].Value)) {
		t.Errorf("the first sentence lacks %s to %s", u(least), u(most))
	}
	_, after, _ := strings.Cut(whole, `data-go="closer"`)
	before, _, _ := strings.Cut(whole, `" data-go="closer"`)
	closer := before[strings.LastIndex(before, `href="`)+len(`href="`):]
	part, err := url.Parse(closer)
	if err != nil || after == "" {
		t.Fatalf("no way closer: %v", err)
	}
	from, _ := strconv.ParseInt(part.Query().Get("from"), 10, 64)
	to, _ := strconv.ParseInt(part.Query().Get("to"), 10, 64)
	if half := float64(all[4999].AtMS-all[0].AtMS) / 2; math.Abs(float64(to-from)-half) > 2 {
		t.Errorf("closer shows %d ms of %g", to-from, 2*half)
	}
	if got := page(closer); !strings.Contains(got, `data-from="`+strconv.FormatInt(from, 10)+`"`) {
		t.Error("the link leads elsewhere")
	}
	table := page("/series/B7-2M/" + strconv.FormatInt(all[0].AtMS, 10) + "," + strconv.FormatInt(all[4999].AtMS+1, 10) + "/table.csv?table=1")
	if n := strings.Count(table, "\n"); n != 5000/60+3 { // hours from the first to the last, and a head
		t.Errorf("%d lines in a table by the hour", n)
	}
	rows := p.try("GET", "/series/B7-2M/rows.csv", session, nil)
	back := exchange.NewSensor("rows", nil, time.UTC)
	got := back.File(rows.Body.Bytes(), "")
	if len(back.Faults) > 0 || len(got) != len(all) {
		t.Fatalf("%d rows come back, %v", len(got), back.Faults)
	}
	for i := range got {
		if got[i] != all[i] {
			t.Fatalf("row %d: %+v, not %+v", i, got[i], all[i])
		}
	}
	if thing := page("/things/silo:B7"); !strings.Contains(thing, `id="series-B7-2M-t"`) {
		t.Error("the silo does not show what its sensor reads")
	}
	if thing := page("/pieces/P26-0001"); strings.Contains(thing, "series-B7") {
		t.Error("a piece shows what a silo's sensor reads")
	}
}
