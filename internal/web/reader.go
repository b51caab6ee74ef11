package web

import (
	"context"
	"net/http"
	"strconv"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/words"
)

// readerAt is where a reader chooses language and units.
const readerAt = "/reader"

// readerCookie keeps what somebody chose who has not signed in.
const readerCookie = "awn-reader"

// readerKey is the key under which a request knows what its reader chose.
type readerKey struct{}

// know gives a request what its reader chose with the account, whatever browser
// it comes from.
func (s *Server) know(r *http.Request, a malthouse.Actor) (*http.Request, error) {
	if s.Accounts == nil || forPrograms(r) || strings.HasPrefix(r.URL.Path, "/static/") {
		return r, nil
	}
	text, err := s.Accounts.Chosen(r.Context(), a)
	if err != nil || text == "" {
		return r, err
	}
	return r.WithContext(context.WithValue(r.Context(), readerKey{}, text)), nil
}

// readerOf is how the reader wants things told: as the form says that was sent
// to change it, else as it was chosen with the account or in this browser, in
// the language that the address or else the browser asks for. Files for programs
// are in plain form.
func readerOf(r *http.Request) words.Units {
	u := words.Units{Tongue: spoken(r.Header.Get("Accept-Language"))}
	text, _ := r.Context().Value(readerKey{}).(string)
	if c, err := r.Cookie(readerCookie); text == "" && err == nil {
		text = c.Value
	}
	u = u.Choose(text)
	if r.PostForm.Get("do") == asReader {
		u = chosenIn(u, r)
	}
	query := r.URL.Query()
	if t, ok := words.TongueOf(query.Get("tongue")); ok {
		u.Tongue = t
	}
	if query.Has("csv") || strings.HasSuffix(r.URL.Path, ".csv") || strings.HasSuffix(r.URL.Path, ".json") {
		return u.Plain()
	}
	return u
}

// spoken is the language that a browser asks for with the greatest weight, of
// those that there are.
func spoken(header string) words.Tongue {
	best, most := words.English, 0.0
	for one := range strings.SplitSeq(header, ",") {
		tag, weight, weighed := strings.Cut(one, ";q=")
		q := 1.0
		if weighed {
			q, _ = strconv.ParseFloat(strings.TrimSpace(weight), 64) // 0 of what is no number
		}
		if t, ok := words.TongueOf(tag); ok && q > most {
			best, most = t, q
		}
	}
	return best
}

// asReader is the act of a form that was sent to change how things are told.
const asReader = "reader"

// Names under which a form sends what is chosen: a preset, or each choice by
// its key.
const (
	presetField = "reader-preset"
	choiceField = "reader-"
)

// chosenIn is what a form chooses.
func chosenIn(u words.Units, r *http.Request) words.Units {
	u = u.Preset(r.PostForm.Get(presetField))
	for _, c := range words.Choices() {
		if name := choiceField + c.Key; r.PostForm.Has(name) {
			u = u.Choose(c.As(strings.TrimSpace(r.PostForm.Get(name))))
		}
	}
	return u
}

// keepReader keeps what was chosen: in this browser, and with the account of
// whoever has signed in.
func (s *Server) keepReader(w http.ResponseWriter, r *http.Request, u words.Units) error {
	http.SetCookie(w, &http.Cookie{Name: readerCookie, Value: u.Chosen(), Path: "/", MaxAge: 400 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	a, known := asker(r)
	if s.Accounts == nil || !known {
		return nil
	}
	return s.Accounts.Choose(r.Context(), a, u.Chosen())
}

// local is a path within the house; the start for anything else.
func local(path string) string {
	if !strings.HasPrefix(path, "/") || strings.HasPrefix(path, "//") || strings.ContainsAny(path, "\\\r\n") {
		return "/"
	}
	return path
}
