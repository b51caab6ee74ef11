package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// loadFor is in the environment how long the house is kept under load. Without
// it that is not tried: it takes minutes and a machine of its own, and belongs to
// “go run ./internal/tools/long -parts load”.
const loadFor = "AWN_LOAD"

// What a house must stand, and what it is held to.
const (
	loadPeople    = 50
	loadDesigners = 2
	loadPause     = 2 * time.Second // of a person between two acts, in the mean
	entryP99      = 200 * time.Millisecond
	firstForm     = time.Second
	firstBytes    = 150_000
)

// TestHouseUnderLoad has fifty people read and write, each with a page open that
// follows the record, while two design programmes, against the program itself on
// a made-up year. Then every entry that was acknowledged must be in the record,
// its chain whole and its balance zero.
func TestHouseUnderLoad(t *testing.T) {
	text := os.Getenv(loadFor)
	if text == "" {
		t.Skip("not run: belongs to the second tier; go run ./internal/tools/long -parts load")
	}
	long, err := time.ParseDuration(text)
	if err != nil {
		t.Fatal(err)
	}
	o, code := openYear(t)
	boss, people := o.staff(t, code, loadPeople)
	if _, _, _, err := boss.do("GET", "/floor", "", nil); err != nil { // the first look has the forecasts made
		t.Fatal(err)
	}
	time.Sleep(10 * time.Second)
	o.weigh(t, boss)

	y, heard := &tally{took: map[string][]time.Duration{}, failed: map[string]int{}}, &tally{failed: map[string]int{}}
	ctx, stop := context.WithTimeout(t.Context(), long)
	defer stop()
	var all sync.WaitGroup
	for i, c := range people {
		all.Go(func() { c.listen(ctx, heard) })
		all.Go(func() {
			r := rand.New(rand.NewPCG(1, uint64(i)))
			for {
				select {
				case <-ctx.Done():
					return
				case <-time.After(time.Duration(2 * r.Float64() * float64(loadPause))):
					c.act(y, r)
				}
			}
		})
	}
	for n := range loadDesigners {
		c := people[n]
		designer := &caller{http.Client{Jar: c.Jar, Timeout: time.Minute, CheckRedirect: c.CheckRedirect}, o.base}
		all.Go(func() { designer.design(ctx, y, n) })
	}
	all.Wait()
	t.Logf("load: %d people at an act every %s, %d who design without a pause, for %s", loadPeople, loadPause, loadDesigners, long)
	for _, kind := range []string{"pages", "entries", "designs", "designs with bands"} {
		t.Log(y.line(kind))
	}
	for what, n := range y.failed {
		t.Errorf("%d times %s", n, what)
	}
	t.Logf("load: %d events were told to %d pages", heard.failed["events"], len(people))
	if p99 := y.quantile("entries", 0.99); p99 > entryP99 {
		t.Errorf("one entry in a hundred took %s, wanted are %s", p99, entryP99)
	}
	o.lost(t, boss, y.acked)
}

// lost looks for every entry that was acknowledged, and has the record verified.
func (o opened) lost(t *testing.T, boss *caller, acked []string) {
	t.Helper()
	there := map[string]bool{}
	next := apiAt + "/facts?limit=1000"
	for next != "" {
		status, text, _, err := boss.do("GET", next, "", nil)
		var page struct {
			Result struct {
				Facts []struct{ ID string }
				Next  string
			}
		}
		if err == nil {
			err = json.Unmarshal(text, &page)
		}
		if err != nil || status != http.StatusOK {
			t.Fatal(status, err)
		}
		for _, f := range page.Result.Facts {
			if there[f.ID] {
				t.Errorf("%s is there twice", f.ID)
			}
			there[f.ID] = true
		}
		next = page.Result.Next
	}
	missing := slices.DeleteFunc(slices.Clone(acked), func(id string) bool { return there[id] })
	t.Logf("load: %d entries acknowledged, %d of them lost; %d in the record", len(acked), len(missing), len(there))
	if len(missing) > 0 {
		t.Errorf("lost: %v", missing[:min(5, len(missing))])
	}
	status, text, _, err := boss.do("GET", apiAt+"/balance?from=2020-01-01&to=2100-01-01", "", nil)
	var balance struct {
		Result struct {
			OffKg float64 `json:"off_kg"`
		}
	}
	if err == nil {
		err = json.Unmarshal(text, &balance)
	}
	if err != nil || status != http.StatusOK || balance.Result.OffKg != 0 {
		t.Errorf("the balance is off by %g kg: %d %v", balance.Result.OffKg, status, err)
	}
	if err := o.ended(); err != nil {
		t.Error(err)
	}
	out, err := exec.Command(o.program, "verify", "--db", o.record, "--as", "runa").CombinedOutput()
	t.Logf("load: the balance is off by %g kg; verified: %s", balance.Result.OffKg, strings.ReplaceAll(strings.TrimSpace(string(out)), "\n", " / "))
	if err != nil {
		t.Errorf("verify: %v\n%s", err, out)
	}
}

// weigh has a browser open the floor, and weighs what it loads.
func (o opened) weigh(t *testing.T, boss *caller) {
	t.Helper()
	for _, path := range []string{"/floor", "/deliveries", "/stock", "/malt"} {
		_, text, _, err := boss.do("GET", path, "", nil)
		if err != nil {
			t.Fatal(err)
		}
		whole := bytes.Clone(text)
		for _, m := range regexp.MustCompile(`(?:href|src)="(/static/[^"]+)"`).FindAllSubmatch(text, -1) {
			_, more, _, err := boss.do("GET", string(m[1]), "", nil)
			if err != nil {
				t.Fatal(err)
			}
			whole = append(whole, more...)
		}
		var packed bytes.Buffer
		z := gzip.NewWriter(&packed)
		_, _ = z.Write(whole) // into memory
		_ = z.Close()
		t.Logf("load: %-12s %6d bytes at the first look with style and scripts, %d of them the page; %d if gzip packed it", path, len(whole), len(text), packed.Len())
		if len(whole) > firstBytes {
			t.Errorf("%s: %d bytes, wanted are %d", path, len(whole), firstBytes)
		}
	}
	ctx := browser(t)
	do(t, ctx, chromedp.Navigate(o.base+signInAt), chromedp.SendKeys("#blank-who", "runa"), chromedp.SendKeys("#blank-password", loadPassword), chromedp.Click("form.sheet button"))
	soon(t, ctx, `location.pathname === "/floor" || location.pathname === "/"`)
	for _, path := range []string{"/floor", "/deliveries"} {
		var took []float64
		for range 10 {
			do(t, ctx, chromedp.Navigate(o.base+path))
			took = append(took, ask[float64](t, ctx, `(document.querySelector("form[method=post] button"), performance.getEntriesByType("navigation")[0].domInteractive)`))
			if !ask[bool](t, ctx, `location.pathname === "`+path+`" && !!document.querySelector("main form[method=post] button")`) {
				t.Fatalf("%s has no form", path)
			}
		}
		slices.Sort(took)
		median := (took[4] + took[5]) / 2
		t.Logf("load: %-12s first form usable after %.0f ms, median of 10, most %.0f ms", path, median, took[9])
		if median > float64(firstForm.Milliseconds()) {
			t.Errorf("%s: %g ms", path, median)
		}
	}
}
