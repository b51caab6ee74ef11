package main

import (
	"maps"
	"regexp"
	"slices"
	"testing"

	"awn/internal/account"
	"awn/internal/exchange"
	"awn/internal/malthouse"
	"awn/internal/paper"
	"awn/internal/slip"
	"awn/internal/sqlstore"
	"awn/internal/web"
	"awn/internal/words"
	"awn/ledger"
	"awn/reckon"
)

var place = regexp.MustCompile(`\{[a-z-]+\}`)

// Every fault is said in every language, with the places that English has, and
// no text speaks of a code that is gone.
func TestFaultsAreSaidInEveryTongue(t *testing.T) {
	english := map[string]string{}
	for _, c := range paper.Codes {
		english[c.Code] = c.Sentence
	}
	for code, c := range sqlstore.Codes {
		english[code] = c.Sentence + " " + c.Do
	}
	for _, more := range []map[string]string{
		reckon.Sentences, ledger.Sentences, exchange.Sentences, web.Codes, slip.Sentences, malthouse.Sentences, account.Sentences,
	} {
		maps.Copy(english, more)
	}
	places := func(text string) []string {
		return slices.Compact(slices.Sorted(slices.Values(place.FindAllString(text, -1))))
	}
	for _, tongue := range words.Tongues() {
		if tongue == words.English {
			continue
		}
		texts := words.Faults(tongue)
		for code, sentence := range english {
			text, ok := texts[code]
			if !ok {
				t.Errorf("%s has no text in %s", code, tongue.Tag())
			} else if a, b := places(sentence), places(text); !slices.Equal(a, b) {
				t.Errorf("%s has the places %v in English and %v in %s", code, a, b, tongue.Tag())
			}
		}
		for code := range texts {
			if _, ok := english[code]; !ok {
				t.Errorf("%s is said in %s, and nothing gives it", code, tongue.Tag())
			}
		}
	}
}
