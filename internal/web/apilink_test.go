package web

import (
	"html"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"awn/internal/malthouse"
)

// alone are the pages that no program has: what only people do, and what the
// page for programs itself is.
var alone = []string{
	"/api", apiAt + "/{$}", "/live", firstAt, signInAt, joinAt, comeInAt, trustAt, authorityAt, publicAt, tokensAt, passwordAt, certifyAt, peopleAt + "/{who}/remove",
	workerAt, shellAt, readerAt, "/{$}", "/static/", "/static/report.css",
}

var apiLink = regexp.MustCompile(`<p class="source"><a href="([^"]+)">the same for programs</a>`)

// TestEveryPageHasItsResource opens every page there is, and asks the address that
// it gives to programs: a question of the page is one of the address too.
func TestEveryPageHasItsResource(t *testing.T) {
	p := staffed(t)
	p.fill(t)
	fill := strings.NewReplacer("{code}", "P26-0009", "{thing}", "lot:M26-0009", "{entry}", "emc?ask=barley+12+%25+wb+20+%C2%B0C", "{kind}", malthouse.ControlPoints, "{number}", "C26-0001")
	reference := p.programAs(t, malthouse.Manager, "GET", "/api", "").Body.String()
	seen := 0
	for _, pattern := range p.mux.patterns {
		path, page := strings.CutPrefix(pattern, "GET ")
		if !page || strings.HasPrefix(path, apiAt) || slices.Contains(alone, path) || strings.Contains(path, "{file}") || strings.HasSuffix(path, ".csv") {
			continue
		}
		path = fill.Replace(strings.Replace(path, "/series/{code}", "/series/B7-2M", 1))
		switch path {
		case "/trace":
			path += "?of=M26-0009"
		case "/balance":
			path += "?from=2026-10-01&to=2026-11-30"
		case complaintAt:
			path += "?lot=M26-0009&claim=moisture+5.2+%25+wb"
		}
		seen++
		found := apiLink.FindStringSubmatch(p.programAs(t, malthouse.Manager, "GET", path, "").Body.String())
		if found == nil {
			t.Errorf("%s leads to nothing for programs", path)
			continue
		}
		at := html.UnescapeString(found[1])
		if anchor, described := strings.CutPrefix(at, "/api#"); described {
			if !strings.Contains(reference, `id="`+anchor+`"`) {
				t.Errorf("%s leads to %s, which is not there", path, at)
			}
			continue
		}
		if w := p.programAs(t, malthouse.Manager, "GET", at, ""); w.Code != http.StatusOK {
			t.Errorf("%s leads to %s: %d %.200s", path, at, w.Code, w.Body)
		}
	}
	if seen < 40 {
		t.Errorf("only %d pages", seen)
	}
}
