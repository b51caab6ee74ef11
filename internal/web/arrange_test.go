package web

import (
	"encoding/csv"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/ledger"
)

// column gives the texts of a column in the order in which an address asks for
// the rows.
func columnOf(t *testing.T, query string, rows [][]cell, i int) (out []string) {
	t.Helper()
	q, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range orderOf(q, "loads", len(rows[0])).rows(rows) {
		out = append(out, r[i].Text)
	}
	return out
}

func TestTablesSortByWhatTheySay(t *testing.T) {
	rows := [][]cell{
		{word("L26-10"), figure("9.5 t").by(9_500)}, {word("L26-9"), figure("10.2 t").by(10_200)}, {word("l26-0011"), figure("")}, {word("L26-100"), figure("-1 kg").by(-1)},
	}
	for query, want := range map[string][]string{
		"":                                  {"L26-10", "L26-9", "l26-0011", "L26-100"},
		"sort.loads=1":                      {"L26-9", "L26-10", "l26-0011", "L26-100"},
		"sort.loads=1.down":                 {"L26-100", "l26-0011", "L26-10", "L26-9"},
		"sort.loads=2":                      {"L26-100", "L26-10", "L26-9", "l26-0011"},
		"sort.loads=2.down":                 {"L26-9", "L26-10", "L26-100", "l26-0011"}, // nothing comes last
		"sort.loads=7":                      {"L26-10", "L26-9", "l26-0011", "L26-100"},
		"sort.others=1":                     {"L26-10", "L26-9", "l26-0011", "L26-100"},
		"find.loads=26-10":                  {"L26-10", "L26-100"},
		"find.loads=26-1+T":                 {"L26-10"},
		"find.loads=26-1&sort.loads=1.down": {"L26-100", "L26-10"},
	} {
		if got := columnOf(t, query, rows, 0); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", query, got, want)
		}
	}
}

func TestLongTablesStandPageByPage(t *testing.T) {
	g := &grid{ID: "lots", Head: []string{"lot"}}
	for i := range 450 {
		g.Rows = append(g.Rows, []cell{word(fmt.Sprintf("L-%d", i+1))})
	}
	at := &url.URL{Path: "/malt", RawQuery: "sort.lots=1&rows.lots=200&find.loads=x&entered=y&csv=z"}
	g.arrange(at, words.Units{})
	if n, first := len(g.Shown.Rows), g.Shown.Rows[0][0].Text; n != 200 || first != "L-201" {
		t.Errorf("%d rows from %s", n, first)
	}
	if want := "/malt?find.loads=x&rows.lots=400&sort.lots=1#table-lots"; g.Shown.After != want {
		t.Errorf("after it comes %s, want %s", g.Shown.After, want)
	}
	if c := g.Shown.Columns[0]; c.Sorted != "ascending" || c.Href != "/malt?find.loads=x&sort.lots=1.down#table-lots" {
		t.Errorf("%+v", c)
	}
	if want := "/malt?csv=lots&find.loads=x&rows.lots=200&sort.lots=1"; g.CSV != want {
		t.Errorf("as CSV at %s, want %s", g.CSV, want)
	}
	g.arrange(&url.URL{Path: "/malt", RawQuery: "rows.lots=9999"}, words.Units{})
	if len(g.Shown.Rows) != 50 || g.Shown.After != "" {
		t.Errorf("past the end: %d rows, %q", len(g.Shown.Rows), g.Shown.After)
	}
}

// loads takes some loads in.
func (p *peopled) loads(t *testing.T, n int) {
	t.Helper()
	wb := ledger.Fraction(0.13)
	for i := range n {
		load := &ledger.Receipt{
			Lot: ledger.Code(fmt.Sprintf("L26-%04d", i+100)), To: "silo:B7", Grower: fmt.Sprintf("Farm-%d", i%7),
			Amount: ledger.Amount{FreshKg: ledger.Grams(9_000_000 + 250_000*((i*5)%11)), Standing: ledger.Weighed, MoistureWB: &wb},
		}
		if _, err := p.House.Receive(t.Context(), malthouse.Actor{ID: "manager", Role: malthouse.Manager}, malthouse.Entry{}, load); err != nil {
			t.Fatal(err)
		}
	}
}

// TestTablesAreSentAsTheyAreShown asks a page by an address that somebody was
// sent, and the same as CSV: encoding/csv reads what the page shows.
func TestTablesAreSentAsTheyAreShown(t *testing.T) {
	p := staffed(t)
	p.loads(t, 20)
	const ask = "/deliveries?find.deliveries=farm-3&sort.deliveries=3.down"
	page := p.try("GET", ask, p.standing(t, malthouse.Auditor), nil).Body.String()
	if !strings.Contains(page, `aria-sort="descending"`) || !strings.Contains(page, `value="farm-3"`) || strings.Contains(page, "Farm-4") {
		t.Error("the page is not as its address asks")
	}
	sent := p.try("GET", ask+"&csv=deliveries", p.standing(t, malthouse.Auditor), nil)
	rows, err := csv.NewReader(sent.Body).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%v: %d rows", err, len(rows))
	}
	var shown []string
	for _, m := range regexp.MustCompile(`>delivery (L26-\d+)<`).FindAllStringSubmatch(page, -1) {
		shown = append(shown, m[1])
	}
	var sentAs []string
	for _, r := range rows[1:] {
		sentAs = append(sentAs, strings.TrimPrefix(r[0], "delivery "))
	}
	if !slices.Equal(shown, sentAs) {
		t.Errorf("shown %q, sent %q", shown, sentAs)
	}
}

// TestTablesAreSortedInPlace sorts and searches in a browser: the page keeps its
// place and its focus, and the address can be sent on.
func TestTablesAreSortedInPlace(t *testing.T) {
	p := staffed(t)
	p.loads(t, 40)
	ctx := browser(t)
	server := onLoopback(t, p)
	defer p.Server.Close() // lets go who follows the record
	code, err := p.Accounts.Entry(t.Context(), "auditor")
	if err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.Navigate(server.URL+comeInAt+"?code="+code), chromedp.Click("form.sheet button"))
	soon(t, ctx, `location.pathname === "/floor"`)
	do(t, ctx, chromedp.EmulateViewport(390, 500), chromedp.Navigate(server.URL+"/deliveries"))
	ask[bool](t, ctx, `window.same = true, scrollTo(0, 200), document.querySelector("#table-deliveries th:nth-child(3) a").focus({preventScroll: true}) ?? true`)
	was := ask[float64](t, ctx, "scrollY")
	do(t, ctx, chromedp.KeyEvent("\r"))
	soon(t, ctx, `document.querySelector("#table-deliveries th:nth-child(3)").ariaSort === "ascending"`)
	if got := ask[float64](t, ctx, "scrollY"); got != was {
		t.Errorf("the page jumped from %g to %g", was, got)
	}
	if !ask[bool](t, ctx, `window.same && document.activeElement === document.querySelector("#table-deliveries th:nth-child(3) a")`) {
		t.Error("the focus is lost")
	}
	do(t, ctx, chromedp.SendKeys("#table-deliveries input[type=search]", "farm-3"))
	soon(t, ctx, `location.search.includes("find.deliveries=farm-3") && document.querySelectorAll("#table-deliveries tbody tr").length === 6`)
	if got := ask[string](t, ctx, `document.activeElement.value`); got != "farm-3" {
		t.Errorf("the field has %q", got)
	}
	do(t, ctx, chromedp.Navigate(ask[string](t, ctx, "location.href")))
	if n := ask[int](t, ctx, `document.querySelectorAll("#table-deliveries tbody tr").length`); n != 6 {
		t.Errorf("the address shows %d rows to somebody else", n)
	}
}

// BenchmarkLongTable sets the page of a house with 2000 loads.
func BenchmarkLongTable(b *testing.B) {
	g := &grid{ID: "loads", Head: []string{"load", "net", "grower"}}
	for i := range 2000 {
		g.Rows = append(g.Rows, []cell{link(fmt.Sprintf("L26-%04d", i), "/x"), figure("20 t").by(float64(i * 7 % 100)), word("Farm")})
	}
	s, err := New(Site{})
	if err != nil {
		b.Fatal(err)
	}
	r := httptest.NewRequest("GET", "/deliveries?sort.loads=2&find.loads=farm", nil)
	for b.Loop() {
		w := httptest.NewRecorder()
		s.show(w, r, room{Parts: []roomPart{{Grid: g}}}, 0)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}
