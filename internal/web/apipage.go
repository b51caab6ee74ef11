package web

import (
	"io"
	"net/http"
	"net/url"
	"strconv"

	"awn/internal/house"
)

// Of a list so many are answered at a time, if nobody asks for another number,
// and never more than the most.
const (
	usualPage = 100
	mostPage  = 1000
)

// listing are the parameters of every list.
var listing = []asking{
	{"limit", "query", "How many at most, 1 to 1000; 100 without it.", false},
	{"after", "query", "Cursor of the last one that you have, as the address “next” of the answer gives it.", false},
}

// pageOf is the page of a list that a program asks for, and the address of the
// one that follows. A cursor must not move when the list grows.
func pageOf[T any](at *url.URL, all []T, by cursors[T]) (page []T, next string, err error) {
	limit, err := limitOf(at.Query())
	if err != nil {
		return nil, "", err
	}
	if cursor := at.Query().Get("after"); cursor != "" {
		var rest []T
		for _, one := range all {
			behind, err := by.after(one, cursor)
			if err != nil {
				return nil, "", err
			}
			if behind {
				rest = append(rest, one)
			}
		}
		all = rest
	}
	if len(all) <= limit {
		return all, "", nil
	}
	return all[:limit], nextOf(at, by.key(all[limit-1])), nil
}

// cursors are how the members of a list are told apart: the key of one, and
// whether one comes behind a key.
type cursors[T any] struct {
	key   func(T) string
	after func(one T, cursor string) (bool, error)
}

// latest are the cursors of a list that the numbers of entries order, the latest
// first.
func latest[T any](seq func(T) int64) cursors[T] {
	return cursors[T]{func(one T) string { return seqText(seq(one)) }, func(one T, cursor string) (bool, error) {
		n, err := seqOf(cursor)
		return seq(one) < n, err
	}}
}

// named are the cursors of a list that names order.
func named[T any](name func(T) string) cursors[T] {
	return cursors[T]{name, func(one T, cursor string) (bool, error) { return name(one) > cursor, nil }}
}

// paged answers with a page of a list, unless the list could not be had.
func paged[T any](s *Server, at *url.URL, all []T, err error, by cursors[T], write func(io.Writer, []T, house.Version, string) error) (reply, error) {
	if err != nil {
		return reply{}, err
	}
	page, next, err := pageOf(at, all, by)
	if err != nil {
		return reply{}, err
	}
	return listed(next, func(w io.Writer) error { return write(w, page, s.Version, next) })
}

func limitOf(q url.Values) (int, error) {
	text := q.Get("limit")
	if text == "" {
		return usualPage, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > mostPage {
		return 0, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "limit is a number from 1 to "+strconv.Itoa(mostPage))
	}
	return n, nil
}

// seqOf reads a cursor that is the number of an entry.
func seqOf(cursor string) (int64, error) {
	n, err := strconv.ParseInt(cursor, 10, 64)
	if err != nil || n < 0 {
		return 0, refuse(http.StatusUnprocessableEntity, "web.form.unreadable", "after is the number of an entry, as “next” gives it")
	}
	return n, nil
}

func seqText(seq int64) string { return strconv.FormatInt(seq, 10) }

func nextOf(at *url.URL, cursor string) string { return withQuery(at, "after", cursor) }
