package web

import (
	"net/http"
	"net/url"
	"strconv"
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
// one that follows. Key is a cursor: it must not move when the list grows. After
// reports whether one comes behind a cursor.
func pageOf[T any](at *url.URL, all []T, key func(T) string, after func(one T, cursor string) (bool, error)) (page []T, next string, err error) {
	limit, err := limitOf(at.Query())
	if err != nil {
		return nil, "", err
	}
	if cursor := at.Query().Get("after"); cursor != "" {
		var rest []T
		for _, one := range all {
			behind, err := after(one, cursor)
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
	return all[:limit], nextOf(at, key(all[limit-1])), nil
}

// latest is pageOf for a list that the numbers of entries order, the latest
// first.
func latest[T any](at *url.URL, all []T, seq func(T) int64) ([]T, string, error) {
	return pageOf(at, all, func(one T) string { return seqText(seq(one)) }, func(one T, cursor string) (bool, error) {
		n, err := seqOf(cursor)
		return seq(one) < n, err
	})
}

// named is pageOf for a list that names order.
func named[T any](at *url.URL, all []T, name func(T) string) ([]T, string, error) {
	return pageOf(at, all, name, func(one T, cursor string) (bool, error) { return name(one) > cursor, nil })
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
