package web

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"

	"awn/internal/report"
)

// reply is what a program is answered.
type reply struct {
	Body []byte
	Kind string // media type; JSON without it
	Next string // address of the page of the list that follows
	Tag  string // of what was answered, where it is known without its bytes
}

// toldJSON writes an answer into memory.
func toldJSON(write func(io.Writer) error) (reply, error) {
	body, err := bytesOf(write)
	return reply{Body: body}, err
}

func written(v any) ([]byte, error) {
	return bytesOf(func(w io.Writer) error { return report.WriteJSON(w, v) })
}

func bytesOf(write func(io.Writer) error) ([]byte, error) {
	var b bytes.Buffer
	err := write(&b)
	return b.Bytes(), err
}

// tagOf is the strong tag of bytes.
func tagOf(body []byte) string {
	sum := sha256.Sum256(body)
	return `"` + hex.EncodeToString(sum[:16]) + `"`
}

// recordTag is the weak tag of an answer that follows from the record alone: so
// long as nothing is entered and the program is the same, the answer means the
// same, whatever time it was worked out. It is of that address and no other, so
// that nobody can hold it who was not answered there.
func (s *Server) recordTag(ctx context.Context, uri string) (string, error) {
	head, err := s.House.Store.Read(s.House.Code).Head(ctx)
	sum := sha256.Sum256(fmt.Appendf(nil, "%s %d %s", s.Version.Release, s.Version.Model, uri))
	return fmt.Sprintf(`W/"%d-%s"`, head.Seq, hex.EncodeToString(sum[:6])), err
}

// among reports whether a tag is one of a list as RFC 9110 has it in If-Match
// and If-None-Match; a weak comparison forgets that a tag is weak, a strong one
// does not hold for such.
func among(list []string, tag string, weak bool) bool {
	for _, line := range list {
		for one := range strings.SplitSeq(line, ",") {
			one = strings.TrimSpace(one)
			if weak {
				one, tag = strings.TrimPrefix(one, "W/"), strings.TrimPrefix(tag, "W/")
			}
			if one == "*" || one == tag && !strings.HasPrefix(one, "W/") {
				return true
			}
		}
	}
	return false
}

// answered sends what a program asked for, or says that it has that already.
func (s *Server) answered(w http.ResponseWriter, r *http.Request, a reply) {
	head := w.Header()
	if a.Tag == "" && isRead(r) {
		a.Tag = tagOf(a.Body)
	}
	if a.Tag != "" {
		head.Set("ETag", a.Tag)
	}
	if a.Next != "" {
		head.Set("Link", "<"+a.Next+`>; rel="next"`)
	}
	head.Set("Vary", "Authorization, Cookie")
	if isRead(r) && among(r.Header.Values("If-None-Match"), a.Tag, true) {
		head.Set("Cache-Control", "private, no-cache")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	if a.Kind == "" {
		a.Kind = kindJSON
	}
	s.send(w, a.Kind, http.StatusOK, a.Body)
}

func isRead(r *http.Request) bool {
	return r.Method == http.MethodGet || r.Method == http.MethodHead
}

// has reports whether a program holds an answer with this tag already.
func has(r *http.Request, tag string) bool {
	list := r.Header.Values("If-None-Match")
	return !slices.Contains(list, "*") && among(list, tag, true)
}

// takes refuses a body of another kind than those. A program that does not say
// the kind is trusted with it.
func takes(r *http.Request, kinds ...string) error {
	kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
	kind = strings.ToLower(strings.TrimSpace(kind))
	if kind == "" || slices.Contains(kinds, kind) {
		return nil
	}
	return refuse(http.StatusUnsupportedMediaType, "web.kind.unknown", kind+"; it takes "+strings.Join(kinds, ", "))
}

// The kinds of body that programs send.
var (
	kindsOfDocument = []string{kindJSON, kindYAML, "text/yaml", "multipart/form-data"}
	kindsOfText     = []string{kindYAML, "text/yaml", kindJSON}
	kindsOfSettings = []string{kindJSON, "application/merge-patch+json"}
)

const kindYAML = "application/yaml"

// noOperation says that nothing is at an address, or that it is asked otherwise.
func (s *Server) noOperation(w http.ResponseWriter, r *http.Request) {
	var ways []string
	for _, method := range []string{http.MethodGet, http.MethodPost, http.MethodPut, http.MethodPatch} {
		other := r.Clone(r.Context())
		other.Method = method
		if _, pattern := s.mux.Handler(other); strings.HasPrefix(pattern, method+" ") {
			ways = append(ways, method)
		}
	}
	if len(ways) == 0 {
		s.problem(w, r, errNoPage)
		return
	}
	w.Header().Set("Allow", strings.Join(ways, ", "))
	s.problem(w, r, refuse(http.StatusMethodNotAllowed, "web.method.unknown", r.Method+"; it takes "+strings.Join(ways, ", ")))
}

func writtenReply(v any) (reply, error) {
	body, err := written(v)
	return reply{Body: body}, err
}
