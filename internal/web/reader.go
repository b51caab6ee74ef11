package web

import (
	"net/http"
	"strings"

	"awn/internal/words"
)

// readerCookie keeps the reader's units.
const readerCookie = "awn-reader"

// readerOf is how the reader wants numbers written.
func readerOf(r *http.Request) words.Units {
	c, err := r.Cookie(readerCookie)
	if err == nil && c.Value == "us" {
		return words.American
	}
	return words.Units{}
}

// reader sets the reader's units and goes back to where the reader was.
func (s *Server) reader(w http.ResponseWriter, r *http.Request) {
	units := "metric"
	if r.PostFormValue("units") == "us" {
		units = "us"
	}
	http.SetCookie(w, &http.Cookie{Name: readerCookie, Value: units, Path: "/", MaxAge: 400 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	http.Redirect(w, r, local(r.PostFormValue("back")), http.StatusSeeOther)
}

// local is a path within the house; the start for anything else.
func local(path string) string {
	if !strings.HasPrefix(path, "/") || strings.HasPrefix(path, "//") || strings.ContainsAny(path, "\\\r\n") {
		return "/"
	}
	return path
}
