package year_test

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"awn/finding"
	"awn/internal/house"
	"awn/internal/malthouse"
	"awn/internal/malthouse/year"
	"awn/internal/office"
	"awn/internal/report"
	"awn/internal/sheet"
	"awn/internal/tools/need"
	"awn/lab"
	"awn/ledger"
)

// whole is the file of a year that was made once for all tests, which follow
// on each other.
var whole []byte

// ended is a year at the hour at which it ends.
func ended(t *testing.T) (o *office.Office, now time.Time) {
	t.Helper()
	if whole == nil {
		file := filepath.Join(t.TempDir(), "copy.db")
		if err := made(t, 1).DB.Backup(t.Context(), file, false); err != nil {
			t.Fatal(err)
		}
		var err error
		if whole, err = os.ReadFile(file); err != nil {
			t.Fatal(err)
		}
	}
	file := filepath.Join(t.TempDir(), "year.db")
	write(t, file, whole)
	o, err := office.Open(t.Context(), file, false)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := o.DB.Close(); err != nil {
			t.Error(err)
		}
	})
	now = start.AddDate(0, 0, year.Days).Add(6 * time.Hour)
	o.Clock = func() time.Time { return now }
	return o, now
}

// One bench of the year's laboratory drifts from a day that is known: the look
// at the laboratory names that bench and no other, and a day near it.
func TestADriftingBenchIsNamed(t *testing.T) {
	o, _ := ended(t)
	results, err := o.Laboratory(t.Context(), manager)
	if err != nil {
		t.Fatal(err)
	}
	const began = 200.0 // days; keeping it in the test keeps the test from being told the answer
	found := false
	for _, r := range results.Control(lab.Options{Base: 20, Limits: lab.House}).Remarks {
		if r.Severity != finding.Alarm {
			continue
		}
		if r.Bench.Instrument != "mash bath 2" {
			t.Errorf("%s is said to have moved: %s", r.Bench, r.Code)
		}
		if since := r.Since - float64(start.Unix())/86400; strings.HasPrefix(r.Code, "lab.instrument.drift") {
			found = true
			if math.Abs(since-began) > 30 {
				t.Errorf("it is said to drift since day %.0f, and does since day %.0f", since, began)
			}
		}
	}
	if !found {
		t.Error("nothing drifts")
	}
}

// What comes due at the end of the year is what the year left undone, and an
// entry that does it, or a decision, settles it.
func TestWhatComesDueIsSettledByDoingIt(t *testing.T) {
	o, now := ended(t)
	keys := func() (out []string) {
		all, err := o.Due(t.Context(), manager, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range all {
			if r.Late < 0 {
				t.Errorf("%s of %s is not late", r.Key, r.Thing)
			}
			out = append(out, r.Key+" "+string(r.Thing))
		}
		return out
	}
	before := keys()
	find := func(among []string, key string) string {
		i := slices.IndexFunc(among, func(s string) bool { return strings.HasPrefix(s, key+" ") })
		if i < 0 {
			return ""
		}
		return strings.TrimPrefix(among[i], key+" ")
	}
	held, sample := find(before, "hold-decision"), find(before, "check-sample")
	if held == "" || sample == "" || find(before, "shaken") == "" || find(before, "silo-temperature") != "" || find(before, "load-certificate") != "" {
		t.Fatalf("due: %v", before)
	}
	entry := malthouse.Entry{At: now}
	if _, err := o.Analyse(t.Context(), manager, entry, &ledger.Analysis{Of: ledger.Ref(sample), Lab: "house", Results: []ledger.Figure{{Quantity: "extract_fine_dm", Value: 0.812}}}); err != nil {
		t.Fatal(err)
	}
	if _, err := o.Decide(t.Context(), manager, entry, &ledger.Decision{Of: ledger.Ref(held), Decision: "due hold-decision", Reason: "the insurer still looks"}); err != nil {
		t.Fatal(err)
	}
	after := keys()
	if find(after, "check-sample") != "" || find(after, "hold-decision") != "" || len(after) != len(before)-2 {
		t.Errorf("due after it was done: %v", after)
	}
	if err := o.Set(t.Context(), "due.silo-temperature", "1"); err != nil {
		t.Fatal(err)
	}
	if find(keys(), "silo-temperature") == "" {
		t.Error("a house that wants temperatures daily is not told of them")
	}
	if err := o.Set(t.Context(), "due.silo-temperature", "often"); !malthouse.IsRefused(err) {
		t.Errorf("%v", err)
	}
}

// points are two control points: one that the year measured everywhere, one
// that nobody did.
func points() []malthouse.ControlPoint {
	most := 0.06
	nitrate := 0.01
	return []malthouse.ControlPoint{
		{Name: "moisture of malt", Of: ledger.LotKind, Quantity: "moisture_wb", Most: &most, Act: "hold it"},
		{Name: "something else", Of: ledger.LotKind, Quantity: "fan_mg_l", Most: &nitrate, Act: "hold it"},
	}
}

func TestControlPointsAreWholeOnlyWhenMeasuredAndDecided(t *testing.T) {
	o, now := ended(t)
	assure := func(which []malthouse.ControlPoint) malthouse.Assurance {
		a, err := o.Assure(t.Context(), manager, "P25-0001", which)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	if a := assure(points()[:1]); !a.Complete() || len(a.Rows) == 0 {
		t.Errorf("what was measured is not whole: %+v", a.Rows)
	}
	if a := assure(points()); a.Complete() {
		t.Error("a point that nobody measured is whole")
	}
	tight := 0.01
	strict := []malthouse.ControlPoint{{Name: "tight", Of: ledger.LotKind, Quantity: "moisture_wb", Most: &tight, Act: "hold it"}}
	before := assure(strict)
	if !before.Rows[0].Open() && len(before.Rows[0].Decisions) == 0 {
		t.Errorf("beyond its limit, and nobody is asked: %+v", before.Rows)
	}
	if _, err := o.Hold(t.Context(), manager, malthouse.Entry{At: now}, &ledger.Hold{Of: before.Rows[0].Thing, Reason: "too wet"}); err != nil {
		t.Fatal(err)
	}
	if a := assure(strict); !a.Complete() || len(a.Rows[0].Decisions) != len(before.Rows[0].Decisions)+1 {
		t.Errorf("decided on, and not whole: %+v", a.Rows)
	}
}

// A complaint finds what was found, the sample that was kept, who else has some
// and the bench that had moved.
func TestAComplaintIsAnsweredFromTheRecord(t *testing.T) {
	o, _ := ended(t)
	lots, err := o.Lots(t.Context(), manager)
	if err != nil {
		t.Fatal(err)
	}
	c, err := o.Complain(t.Context(), manager, lots[0].Code, []ledger.Figure{{Quantity: "extract_fine_dm", Value: 0.79}, {Quantity: "protein_dm", Value: 0.105}, {Quantity: "fan_mg_l", Value: 150}})
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Kept) != 1 || len(c.Claims[0].Found) != 1 || c.Claims[0].Moved == nil || len(c.Claims[2].Found) != 0 || len(c.Made) == 0 {
		t.Errorf("%+v", c)
	}
	// Half of all pairs of laboratories differ by more than 0.674 standard
	// deviations of their difference; two equal figures always differ by no less.
	x := c.Claims[1].Found[0].Value
	precision, _ := lab.FindPrecision("nitrogen", "malt", "combustion")
	half := 0.6745 / 1.96 * precision.Reproducibility(x/6.25) * 6.25
	c, err = o.Complain(t.Context(), manager, lots[0].Code, []ledger.Figure{{Quantity: "protein_dm", Value: x + half}, {Quantity: "protein_dm", Value: x}})
	if err != nil || math.Abs(c.Claims[0].ByTest-0.5) > 1e-4 || c.Claims[1].ByTest != 1 {
		t.Errorf("%g, %g, %v", c.Claims[0].ByTest, c.Claims[1].ByTest, err)
	}
	if _, err := o.Complain(t.Context(), manager, "M99-0001", nil); !malthouse.IsRefused(err) {
		t.Errorf("%v", err)
	}
}

// A shift is handed over on one page, and taken by somebody else.
func TestAShiftIsSignedByTwo(t *testing.T) {
	o, now := ended(t)
	x, err := o.Shift(t.Context(), manager, now.AddDate(0, -2, 0)) // so long that it cannot all stand on a page
	if err != nil {
		t.Fatal(err)
	}
	if len(x.Pieces) != year.Underway || len(x.Did) < 50 || x.Given != nil {
		t.Errorf("%d pieces, %d entries, %v", len(x.Pieces), len(x.Did), x.Given)
	}
	s := report.Sheets{House: "Hallow Sound", Zone: time.UTC, Version: house.ReadVersion(), At: now}
	onePage(t, s.Shift(x, nil))
	osk, bran := malthouse.Actor{ID: "osk", Role: malthouse.Floor}, malthouse.Actor{ID: "bran", Role: malthouse.Floor}
	if _, err := o.TakeShift(t.Context(), bran, malthouse.Entry{}); !malthouse.IsRefused(err) {
		t.Errorf("there is nothing to take: %v", err)
	}
	if _, err := o.GiveShift(t.Context(), osk, malthouse.Entry{}, "fan of box 2 rattles", []byte("the page")); err != nil {
		t.Fatal(err)
	}
	if _, err := o.TakeShift(t.Context(), osk, malthouse.Entry{}); !malthouse.IsRefused(err) {
		t.Errorf("whoever gives a shift takes it: %v", err)
	}
	if _, err := o.TakeShift(t.Context(), bran, malthouse.Entry{}); err != nil {
		t.Fatal(err)
	}
	if _, err := o.TakeShift(t.Context(), bran, malthouse.Entry{}); !malthouse.IsRefused(err) {
		t.Errorf("a shift is taken twice: %v", err)
	}
}

// onePage prints a leaf and counts its sheets, on the smaller of both papers.
func onePage(t *testing.T, l report.Leaf) {
	t.Helper()
	need.Program(t, "pdfinfo")
	var b bytes.Buffer
	if err := l.PDF(&b, sheet.A4); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "page.pdf")
	write(t, file, b.Bytes())
	said, err := exec.Command("pdfinfo", file).CombinedOutput()
	if err != nil || !strings.Contains(string(said), "Pages:           1\n") {
		t.Errorf("%v: %s", err, said)
	}
}

// A day that is closed prints an end that the record can be held against.
func TestADayIsClosedOnItsEnd(t *testing.T) {
	o, now := ended(t)
	d, err := o.Day(t.Context(), manager, now.AddDate(0, 0, -1))
	if err != nil {
		t.Fatal(err)
	}
	if d.Entries == 0 || len(d.Pieces) != year.Underway || len(d.Stock.Places) == 0 {
		t.Errorf("%d entries, %d pieces, %d places", d.Entries, len(d.Pieces), len(d.Stock.Places))
	}
	if _, err := o.CloseDay(t.Context(), manager, malthouse.Entry{At: now}, d.Date, []byte("the page")); err != nil {
		t.Fatal(err)
	}
	if _, err := o.DB.VerifyChain(t.Context(), o.Code, d.Stock.Head); err != nil {
		t.Errorf("the end that was printed: %v", err)
	}
	other := d.Stock.Head
	other.Hash[3]++
	if _, err := o.DB.VerifyChain(t.Context(), o.Code, other); err == nil {
		t.Error("another end passes")
	}
}

func write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
}
