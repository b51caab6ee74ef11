package web

import (
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"awn/internal/house"
	"awn/reckon"
)

func served(t *testing.T) http.Handler {
	t.Helper()
	s, err := New(Site{Version: house.ReadVersion(), Log: slog.New(slog.NewTextHandler(io.Discard, nil))})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func get(t *testing.T, h http.Handler, path string) *httptest.ResponseRecorder {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", path, nil))
	return w
}

func TestEveryEntryHasItsPage(t *testing.T) {
	h := served(t)
	for _, e := range reckon.Entries() {
		w := get(t, h, "/reckoner/"+e.Name)
		if w.Code != 200 || !strings.Contains(w.Body.String(), "Source and range") || strings.Contains(w.Body.String(), `class="fault"`) {
			t.Errorf("%s: %d", e.Name, w.Code)
		}
	}
	if w := get(t, h, "/reckoner/emm"); w.Code != 404 || !strings.Contains(w.Body.String(), "emc") {
		t.Errorf("an unknown entry: %d", w.Code)
	}
	if w := get(t, h, "/reckoner/emc?ask="+url.QueryEscape("malt 20 °G")); w.Code != 200 || !strings.Contains(w.Body.String(), "<mark>") {
		t.Errorf("a fault is not marked: %s", w.Body)
	}
}

func TestGuards(t *testing.T) {
	h := served(t)
	w := get(t, h, "/nowhere")
	if w.Code != 404 || !strings.Contains(w.Header().Get("Content-Security-Policy"), "default-src 'none'") {
		t.Errorf("%d, %v", w.Code, w.Header())
	}
	if strings.Contains(w.Body.String(), "style=") || strings.Contains(w.Body.String(), "<script>") {
		t.Error("the policy would block what stands in the page")
	}
	r := httptest.NewRequest("POST", "/piece", strings.NewReader("a=b"))
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	w = httptest.NewRecorder()
	h.ServeHTTP(w, r)
	if w.Code != 403 {
		t.Errorf("another site may send here: %d", w.Code)
	}
	for _, back := range []string{"//elsewhere.example", "https://elsewhere.example", "/\\elsewhere", "/a\r\nb"} {
		if got := local(back); got != "/" {
			t.Errorf("%q leads to %q", back, got)
		}
	}
}
