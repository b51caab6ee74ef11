package web

import "net/http"

// mostBytes is the longest request body that is read.
const mostBytes = 2 << 20

// policy lets a page load and reach what the house itself serves, and nothing
// else: no script or style within the page, no frame round it.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; " +
	"manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// secure guards all pages: against other sites that send a reader's browser
// here, against bodies without end, and against what a page could be made to
// load.
func (s *Server) secure(h http.Handler) http.Handler {
	return http.NewCrossOriginProtection().Handler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("Referrer-Policy", "same-origin")
		head.Set("Cross-Origin-Opener-Policy", "same-origin")
		r.Body = http.MaxBytesReader(w, r.Body, mostBytes)
		h.ServeHTTP(w, r)
	}))
}
