package web

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/base64"
	"encoding/csv"
	"html"
	"io/fs"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"awn/examples"
	"awn/internal/paper"
)

var (
	inputTag    = regexp.MustCompile(`<input([^>]*)>`)
	attribute   = regexp.MustCompile(`(\w+)="([^"]*)"`)
	textareaTag = regexp.MustCompile(`(?s)<textarea[^>]*name="([^"]+)"[^>]*>\n?(.*?)</textarea>`)
	selectTag   = regexp.MustCompile(`(?s)<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>`)
	chosen      = regexp.MustCompile(`<option(?: value="([^"]*)")? selected>([^<]*)`)
)

// formOf is what a browser without script would send of the form of a page.
func formOf(t *testing.T, body string) url.Values {
	t.Helper()
	main, _, _ := strings.Cut(body, "<footer>")
	out := url.Values{}
	for _, tag := range inputTag.FindAllStringSubmatch(main, -1) {
		at := map[string]string{}
		for _, a := range attribute.FindAllStringSubmatch(tag[1], -1) {
			at[a[1]] = html.UnescapeString(a[2])
		}
		if at["name"] != "" && (at["type"] != "checkbox" || strings.HasSuffix(tag[1], " checked")) {
			out.Add(at["name"], at["value"])
		}
	}
	for _, tag := range textareaTag.FindAllStringSubmatch(main, -1) {
		out.Set(tag[1], strings.ReplaceAll(html.UnescapeString(tag[2]), "\n", "\r\n"))
	}
	for _, tag := range selectTag.FindAllStringSubmatch(main, -1) {
		if c := chosen.FindStringSubmatch(tag[2]); c != nil {
			out.Set(html.UnescapeString(tag[1]), html.UnescapeString(cmp.Or(c[1], c[2])))
		}
	}
	if len(out) == 0 {
		t.Fatal("the page has no form")
	}
	return out
}

func post(h http.Handler, path string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

var outcomePart = regexp.MustCompile(`(?s)<div id="outcome">.*?</form>`)

// A page sent back as it came is the page that came: the form holds all that
// stands in the documents.
func TestFormComesBack(t *testing.T) {
	h := served(t)
	for _, path := range []string{"/intake", "/silos", "/piece"} {
		w := get(t, h, path)
		if w.Code != 200 || strings.Contains(w.Body.String(), `class="fault"`) || !strings.Contains(w.Body.String(), `class="verdict"`) {
			t.Fatalf("%s: %d", path, w.Code)
		}
		again := post(h, path, formOf(t, w.Body.String()))
		if a, b := outcomePart.FindString(w.Body.String()), outcomePart.FindString(again.Body.String()); a != b || a == "" {
			t.Errorf("%s computes something else when it is sent back", path)
		}
	}
}

func TestRowsWithoutScript(t *testing.T) {
	h := served(t)
	form := formOf(t, get(t, h, "/piece").Body.String())
	do := func(what string) string {
		t.Helper()
		form.Set("do", what)
		w := post(h, "/piece", form)
		if w.Code != 200 {
			t.Fatalf("%s: %d", what, w.Code)
		}
		form = formOf(t, w.Body.String())
		return w.Body.String()
	}
	const steep = "programme-pale.yaml:steep"
	do("remove " + steep + "[0]")
	do("up " + steep + "[1]")
	do("add " + steep + " drain")
	text := form.Get("text:programme-pale.yaml")
	doc, faults := paper.Read[paper.Programme]("p.yaml", []byte(text))
	if len(faults) > 0 || len(doc.Steep) != 6 || doc.Steep[0].Immersion == nil || doc.Steep[1].AirRest == nil || doc.Steep[5].Drain == nil {
		t.Errorf("%v\n%s", faults, text)
	}
	body := do("keep")
	if strings.Count(body, `name="kept"`) != 1 {
		t.Error("no variant is kept")
	}
	do("remove " + steep + "[5]")
	body = do("compare 0")
	if !strings.Contains(body, "programme.steep[5]") {
		t.Error("what is given differently is not told")
	}
	do("use 0")
	if got := form.Get("text:programme-pale.yaml"); got != text {
		t.Errorf("the variant came back as\n%s", got)
	}
	form.Set("text:programme-pale.yaml", "awn: programme/1\nname: <b>x</b>\nsteep: 3\n")
	body = do("take programme-pale.yaml")
	if !strings.Contains(body, "line 3") || strings.Contains(body, "<b>x</b>") || !strings.Contains(body, "&lt;b&gt;x") {
		t.Error("a document at fault is not kept as it was typed")
	}
	if w := post(h, "/piece", url.Values{"do": {"up " + steep + "[x"}}); w.Code != 400 {
		t.Errorf("no row at all: %d", w.Code)
	}
}

// A fault on a page is that of the document, word for word: the command prints
// the same sentence.
func TestFaultsAreThoseOfTheDocument(t *testing.T) {
	h := served(t)
	form := formOf(t, get(t, h, "/intake").Body.String())
	for field, typed := range map[string]string{"load.yaml:moisture": "15.8 %", "load.yaml:net": "29,420 kg", "load.yaml:sieves[0].held": "120 %", "load.yaml:table": "us-two"} {
		form.Set(field, typed)
	}
	body := html.UnescapeString(post(h, "/intake", form).Body.String())
	text, ok := paper.Write("load/1", valuesOf(form, "load.yaml"))
	_, faults := paper.Read[paper.Ticket]("load.yaml", text)
	if !ok || len(faults) != 4 {
		t.Fatalf("%d faults: %v", len(faults), faults)
	}
	for _, f := range faults {
		if !strings.Contains(body, f.Sentence()) || !strings.Contains(body, f.Code) || !strings.Contains(body, `data-at="load.yaml:`+f.Path+`"`) {
			t.Errorf("%s at %s is not on the page", f.Code, f.Path)
		}
	}
	if n := strings.Count(body, `aria-invalid="true"`); n != len(faults) {
		t.Errorf("%d fields are marked, %d are at fault", n, len(faults))
	}
}

func TestFilesToTakeAway(t *testing.T) {
	h := served(t)
	for path, begins := range map[string]string{
		"/piece/report.html": "<!doctype html>", "/piece/report.pdf": "%PDF-", "/piece/outcome.json": "{", "/piece/course.csv": "time_h,", "/piece/documents.zip": "PK",
		"/piece/table.csv?table=1": "", "/intake/sheet.pdf": "%PDF-", "/intake/load.json": "{", "/intake/load.csv": "load,", "/intake/documents.zip": "PK",
		"/silos/silo.json": "{", "/silos/documents.zip": "PK", "/varieties/report.html": "<!doctype html>", "/varieties/trial.json": "{", "/varieties/trial.csv": "trait,",
		"/crop/report.html": "<!doctype html>", "/crop/report.pdf": "%PDF-", "/crop/harvest.json": "{", "/crop/harvest.csv": "table,", "/crop/documents.zip": "PK",
	} {
		w := get(t, h, path)
		if w.Code != 200 || !strings.HasPrefix(w.Body.String(), begins) || !strings.HasPrefix(w.Header().Get("Content-Disposition"), "attachment") {
			t.Errorf("%s: %d %.40q", path, w.Code, w.Body)
		}
	}
	for _, path := range []string{"/piece/nothing", "/intake/table.csv?table=99", "/silos/x", "/varieties/x", "/crop/x"} {
		if w := get(t, h, path); w.Code != 404 {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
	broken := url.Values{"load.yaml:code": {"!"}}
	if w := post(h, "/intake/sheet.pdf", broken); w.Code != 422 || !strings.Contains(w.Body.String(), "document.value.match") {
		t.Errorf("a sheet of a load at fault: %d", w.Code)
	}
}

// The documents taken away are those that the command reads.
func TestDocumentsComeAway(t *testing.T) {
	h := served(t)
	form := formOf(t, get(t, h, "/piece").Body.String())
	form.Set("piece.yaml:cast", "54 t")
	w := post(h, "/piece/documents.zip", form)
	z, err := zip.NewReader(bytes.NewReader(w.Body.Bytes()), int64(w.Body.Len()))
	if err != nil {
		t.Fatal(err)
	}
	piece, _, faults := paper.Load(z, examples.First)
	if len(faults) > 0 || piece.CastKg != 54000 {
		t.Errorf("%v, %g kg", faults, piece.CastKg)
	}
}

func TestEveryTableComesAsCSV(t *testing.T) {
	h := served(t)
	for _, path := range []string{"/piece", "/intake", "/silos", "/varieties", "/crop"} {
		body := get(t, h, path).Body.String()
		numbers := regexp.MustCompile(`name="table" value="(\d+)"`).FindAllStringSubmatch(body, -1)
		if len(numbers) != strings.Count(body, "<table") || len(numbers) == 0 {
			t.Errorf("%s: %d tables, %d as CSV", path, strings.Count(body, "<table"), len(numbers))
		}
		for _, n := range [][]string{numbers[0], numbers[len(numbers)-1]} {
			w := get(t, h, path+"/table.csv?table="+n[1])
			r := csv.NewReader(w.Body)
			r.FieldsPerRecord = -1
			if rows, err := r.ReadAll(); err != nil || len(rows) < 2 || w.Code != 200 {
				t.Errorf("%s, table %s: %d rows, %v", path, n[1], len(rows), err)
			}
		}
	}
}

func TestTrialIsSent(t *testing.T) {
	h := served(t)
	data, err := fs.ReadFile(examples.Files, "trial.csv")
	if err != nil {
		t.Fatal(err)
	}
	send := func(text []byte) *httptest.ResponseRecorder {
		var b bytes.Buffer
		m := multipart.NewWriter(&b)
		f, err := m.CreateFormFile("table-file", "own.csv")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(text); err != nil {
			t.Fatal(err)
		}
		if err := m.WriteField("check", "Old Wenn"); err != nil {
			t.Fatal(err)
		}
		if err := m.Close(); err != nil {
			t.Fatal(err)
		}
		r := httptest.NewRequest("POST", "/varieties", &b)
		r.Header.Set("Content-Type", m.FormDataContentType())
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		return w
	}
	if w := send(data); w.Code != 200 || !strings.Contains(w.Body.String(), "own.csv") || !strings.Contains(w.Body.String(), `class="verdict"`) {
		t.Errorf("%d", w.Code)
	}
	if w := send([]byte("colour,taste\nred,good\n")); w.Code != 200 || !strings.Contains(w.Body.String(), "trial.header.missing") {
		t.Errorf("a table without varieties: %d", w.Code)
	}
	if w := send([]byte{0xff, 0xfe, 0}); w.Code != 200 || !strings.Contains(w.Body.String(), "neither UTF-8") {
		t.Errorf("no table at all: %d", w.Code)
	}
	again := url.Values{"sent": {base64.StdEncoding.EncodeToString(data)}, "sent-name": {"own.csv"}}
	if w := post(h, "/varieties/trial.csv", again); w.Code != 200 || !strings.HasPrefix(w.Body.String(), "trait,") {
		t.Errorf("rows of a table sent before: %d", w.Code)
	}
}

// A first load is at most 150 kB, what the page brings with it included; the
// pages of a trial, a piece and a harvest hold reports of many pictures and are
// counted without them.
func TestFirstLoadIsLight(t *testing.T) {
	h := served(t)
	const most = 150_000
	shared := 0
	for _, path := range []string{"/static/awn.css", "/static/report.css", "/static/live.js", "/static/awn.svg"} {
		shared += get(t, h, path).Body.Len()
	}
	for _, path := range every {
		body := get(t, h, path).Body.String()
		if path == "/varieties" || path == "/piece" || path == "/crop" {
			body = regexp.MustCompile(`(?s)<svg.*?</svg>\n<p class="says">`).ReplaceAllString(body, "")
		}
		if n := len(body) + shared; n > most {
			t.Errorf("%s brings %d bytes", path, n)
		}
	}
}

func TestTooMuchIsRefused(t *testing.T) {
	h := served(t)
	for _, path := range []string{"/piece", "/intake/load.json", "/varieties", "/crop"} {
		if w := post(h, path, url.Values{"x": {strings.Repeat("x", mostBytes)}}); w.Code != 413 {
			t.Errorf("%s: %d", path, w.Code)
		}
	}
}
