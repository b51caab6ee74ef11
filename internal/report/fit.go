package report

import (
	"math"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/malt"
	"awn/odds"
)

// Found is what was found of a lot of malt, to be held against what is asked. A
// figure that is only known to be below something is left out.
func Found(l malthouse.Lot) malt.Analysis {
	out := malt.Analysis{}
	for _, r := range l.Results {
		p, basis, isMalt := malthouse.Parameter(r.Quantity)
		if !isMalt || r.Less {
			continue
		}
		v := odds.Alone(r.Value, odds.Measured)
		if r.U != nil {
			v = odds.WithDeviation(r.Value, *r.U, odds.Measured)
		}
		out[p] = malt.Result{Value: v, Basis: basis, Method: r.Method}
	}
	return out
}

// mostLacking is how many figures that nobody found are named.
const mostLacking = 3

// Fit is in a phrase how an analysis stands against a specification: what it
// fails by, what nobody found, or that it passes, with the limit whose odds are
// least of those that are known.
func Fit(verdicts []malt.Verdict, u words.Units) string {
	word := u.Verdict(malt.Overall(verdicts))
	var fails, lacks []string
	least, nearest := math.Inf(1), ""
	for _, v := range verdicts {
		key := v.Limit.Parameter.Key(v.Limit.Basis)
		switch v.Word {
		case malt.Fails:
			fails = append(fails, u.Say("fit.by", "what", quantityName(key, u), "figure", words.Figure(key, -v.Margin, u)))
		case malt.CannotSay:
			lacks = append(lacks, quantityName(key, u))
		default:
			if chance := v.Odds(); chance < least {
				least, nearest = chance, quantityName(key, u)
			}
		}
	}
	switch {
	case len(fails) > 0:
		return u.Say("fit.why", "word", word, "why", strings.Join(fails, ", "))
	case len(lacks) > mostLacking:
		return u.Say("fit.lacks-more", "word", word, "what", strings.Join(lacks[:mostLacking], ", "), "count", u.Number(float64(len(lacks)-mostLacking), 0))
	case len(lacks) > 0:
		return u.Say("fit.lacks", "word", word, "what", strings.Join(lacks, ", "))
	case nearest == "":
		return word
	}
	return u.Say("fit.odds", "word", word, "what", nearest, "odds", inHundred(least, u))
}
