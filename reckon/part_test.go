package reckon

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// said are the codes of the findings of an answer.
func said(t *testing.T, line string) []string {
	t.Helper()
	a, err := ask(line)
	if err != nil {
		t.Errorf("%s: %v", line, err)
	}
	var out []string
	for _, f := range a.Findings {
		out = append(out, f.Code)
	}
	return out
}

// One finding for each case that asks something of the reader, and none where
// it does not.
func TestWhatAnAnswerSays(t *testing.T) {
	for _, c := range []struct{ line, codes string }{
		{"ticket 25 t moisture 16 % basis 13.5 % rule 1.4 %/pt", "intake.mass.shrink-gap"},
		{"ticket 25 t moisture 12 % basis 13.5 % rule 1.4 %/pt", ""},
		{"ticket 25 t moisture 16 % basis 13.5 %", ""},
		{"sieves 61 % over 7/64 in 92 % over 6/64 in for 2.5 mm least 90 %", "intake.sieve.other-slots-fails"},
		{"sieves 61 % over 7/64 in 92 % over 6/64 in for 2.5 mm least 84 %", "intake.sieve.other-slots"},
		{"sieves 61 % over 7/64 in 92 % over 6/64 in for 2.5 mm", "intake.sieve.guessed"},
		{"steeped 100 g at 12.4 % to 156.9 g", ""},
		{"steeped 100 g at 12.4 % to 162 g unblotted", "steep.sample.not-blotted"},
		{"blend 50 % wug 0.5 % then 50 % wug 4 %", "malt.blend.lots"},
		{"blend 50 % tn 1.60 % sn 0.72 % then 50 % tn 1.84 % sn 0.66 %", "malt.kolbach.mean-of-ratios malt.blend.lots"},
		{"blend 60 % wug 0.5 % then 40 % wug 4 % wug-max 2 %", "malt.wug.meets malt.blend.lots malt.blend.room"},
		{"blend 50 % wug 3 % then 50 % wug 4 % wug-max 2 %", "malt.wug.above malt.blend.lots malt.blend.no-room"},
		{"blend 50 % friability 90 % then 25 % friability 81 % then 25 % friability 70 % friability-min 85 %", "malt.friability.below malt.blend.lots"},
	} {
		if got := strings.Join(said(t, c.line), " "); got != c.codes {
			t.Errorf("%s says %q, want %q", c.line, got, c.codes)
		}
	}
}

// A blend at the share that the answer names lies on the limit, whatever the
// moistures of its parts: a second way to the same figure.
func TestMostOfTheSecondLiesOnTheLimit(t *testing.T) {
	parts := [2]string{" tn 1.60 % sn 0.72 % moisture 4 % extract 82 %", " tn 1.84 % sn 0.60 % moisture 9 % extract 78 %"}
	for _, c := range []struct {
		limit, key string
		at         float64
	}{{"st-min 36 %", "kolbach", 0.36}, {"extract-min 80.5 %", "extract_fine_dm", 0.805}, {"moisture-max 6 %", "moisture_wb", 0.06}} {
		x := value(t, "blend 50 %"+parts[0]+" then 50 %"+parts[1]+" "+c.limit, "second_most")
		line := "blend " + plain(round(100*(1-x), 6)) + " %" + parts[0] + " then " + plain(round(100*x, 6)) + " %" + parts[1]
		if got := value(t, line, c.key); math.Abs(got-c.at) > 1e-8 { // shares were written with eight decimals of one
			t.Errorf("%s: %s is %.9f, want %g", line, c.key, got, c.at)
		}
	}
}

// Parts keep their own quantities, and what belongs to the line stands once,
// wherever it was typed.
func TestParts(t *testing.T) {
	for _, line := range []string{
		"blend 30 % wug 1 % then 70 % wug 3 % wug-max 2 %",
		"blend wug-max 2 % 30 % wug 1 % then wug=3% 70%",
		"blend 3 t wug 1 % then 7000 kg wug 3 % wug-max=2 %",
	} {
		a, err := ask(line)
		if err != nil || a.Parts != 2 {
			t.Errorf("%s: %d parts, %v", line, a.Parts, err)
			continue
		}
		if got := value(t, line, "wug"); math.Abs(got-0.024) > 1e-12 {
			t.Errorf("%s: %g", line, got)
		}
		once := 0
		for _, f := range a.Given {
			if f.Input.Key == "wug-max" {
				once++
			}
		}
		if once != 1 {
			t.Errorf("%s: the limit stands %d times", line, once)
		}
	}
	many := "blend 10 % wug 1 %" + strings.Repeat(" then 10 % wug 1 %", mostParts)
	if faults, _ := faultsIn(t, many); !slices.Contains(codes(faults), "reckon.word.unknown") {
		t.Errorf("more than %d parts: %v", mostParts, codes(faults))
	}
}
