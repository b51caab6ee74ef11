package web_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"io"
	"io/fs"
	"log/slog"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"awn/examples"
	"awn/internal/cli"
	"awn/internal/house"
	"awn/internal/web"
)

// pages are those of a program without a record.
func pages(t *testing.T) http.Handler {
	t.Helper()
	s, err := web.New(web.Site{Version: house.ReadVersion(), Log: slog.New(slog.NewTextHandler(io.Discard, nil))})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// commanded is what the command line answers.
func commanded(t *testing.T, args ...string) string {
	t.Helper()
	var out, wrong strings.Builder
	if got := cli.Main(t.Context(), args, cli.Streams{In: strings.NewReader(""), Out: &out, Err: &wrong}); got != cli.Answered {
		t.Fatalf("%v ends with %d: %s", args, got, wrong.String())
	}
	return out.String()
}

// asked sends files and fields to an address.
func asked(t *testing.T, h http.Handler, at string, files, fields map[string]string) string {
	t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	for field, name := range files {
		data, err := fs.ReadFile(examples.Files, name)
		if err != nil {
			data = []byte(name)
		}
		f, err := m.CreateFormFile(field, field+filepath.Ext(name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(data); err != nil {
			t.Fatal(err)
		}
	}
	for field, text := range fields {
		if err := m.WriteField(field, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := m.Close(); err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest("POST", at, &b)
	r.Header.Set("Content-Type", m.FormDataContentType())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != 200 {
		t.Fatalf("%s: %d %.300s", at, w.Code, w.Body)
	}
	return w.Body.String()
}

// TestHarvestIsThatOfTheCommand holds the page against “awn survey”: the same
// figures for the same input, to the last digit.
func TestHarvestIsThatOfTheCommand(t *testing.T) {
	h := pages(t)
	if got, want := asked(t, h, "/crop/harvest.json", nil, nil), commanded(t, "survey", "-q", "--json"); got != want {
		t.Error("the example differs from “awn survey --json”")
	}
	if got, want := asked(t, h, "/crop/harvest.csv", nil, nil), commanded(t, "survey", "-q", "--csv"); got != want {
		t.Error("the example differs from “awn survey --csv”")
	}
	// Samples of somebody's own with a frame, a contract of their own, and no
	// malt: what comes away is a survey that the command reads.
	files := map[string]string{"samples": examples.FirstSurvey[:len("survey")] + ".csv", "frame": "survey-frame.csv", "second": "contract-crop-wide.yaml"}
	fields := map[string]string{"asked": "1", "wanted-second": "80000 t"}
	dir := t.TempDir()
	z, err := zip.NewReader(strings.NewReader(asked(t, h, "/crop/documents.zip", files, fields)), int64(len(asked(t, h, "/crop/documents.zip", files, fields))))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(dir, z); err != nil {
		t.Fatal(err)
	}
	got := asked(t, h, "/crop/harvest.csv", files, fields)
	if want := commanded(t, "survey", "-q", "--csv", filepath.Join(dir, examples.FirstSurvey)); got != want {
		t.Error("documents that come away say something else to the command")
	}
	if strings.Contains(got, "Premium") || !strings.Contains(got, "Standard") {
		t.Errorf("held against another contract:\n%.600s", got)
	}
}

// TestHarvestSaysFirst: the first sentence has the figure with its range, and
// they are those of the table of what contracts take.
func TestHarvestSaysFirst(t *testing.T) {
	page := asked(t, pages(t), "/crop", nil, nil)
	_, rest, _ := strings.Cut(page, `class="verdict">`)
	sentence, _, _ := strings.Cut(rest, "</p>")
	sentence = strings.NewReplacer("\u00a0", " ", "\u202f", "").Replace(sentence)
	rows, err := csv.NewReader(strings.NewReader(commanded(t, "survey", "-q", "--csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range rows {
		if r[0] == "Whom it serves" && r[1] == "Premium" && (r[2] == "share %" || strings.HasPrefix(r[2], "taken")) {
			seen++
			if !strings.Contains(sentence, r[3]) {
				t.Errorf("%s %s is not in “%s”", r[2], r[3], sentence)
			}
		}
	}
	if seen != 2 || !strings.Contains(sentence, "keeps out most") {
		t.Errorf("%d figures, “%s”", seen, sentence)
	}
	if !strings.Contains(page, `id="map-t"`) {
		t.Error("no map of the districts")
	}
}

// TestHarvestRefuses names what is wrong with what was sent.
func TestHarvestRefuses(t *testing.T) {
	h := pages(t)
	for sent, says := range map[string]string{"colour,taste\nred,good\n": "survey.header.missing", "\xff\xfe\x00": "neither UTF-8"} {
		if page := asked(t, h, "/crop", map[string]string{"samples": sent}, nil); !strings.Contains(page, says) {
			t.Errorf("%q: no word of %s", sent, says)
		}
	}
	if page := asked(t, h, "/crop", nil, map[string]string{"wanted-first": "many"}); !strings.Contains(page, `class="fault"`) {
		t.Error("“many” tonnes are taken")
	}
	// Without places the districts are squares.
	if page := asked(t, h, "/crop", map[string]string{"samples": "survey.csv"}, map[string]string{"asked": "1"}); !strings.Contains(page, "A square for each district") {
		t.Error("no squares")
	}
}
