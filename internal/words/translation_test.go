package words

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// tables are the texts of a language by their kind, with plain keys.
func (l *language) tables() map[string]map[string]string {
	return map[string]map[string]string{
		"finding": l.findings, "act": l.acts, "line": l.lines, "step": l.steps, "stage": l.stages, "phrase": l.phrases, "input": l.inputs,
		"reading": plain(l.readings), "parameter": plain(l.parameters), "verdict": plain(l.verdicts), "reason": plain(l.reasons),
		"standing": plain(l.standings), "severity": plain(l.severities), "factor": plain(l.factors), "decision": plain(l.decisions),
		"bar": plain(l.bars), "turn": plain(l.turns), "going": plain(l.goings), "term": l.terms,
	}
}

func plain[K comparable](texts map[K]string) map[string]string {
	out := map[string]string{}
	for k, text := range texts {
		out[fmt.Sprint(k)] = text
	}
	return out
}

// inReserve are the phrases that a language may lack: reports of trials, surveys
// and laboratories, and what sets a house up. Everything else is needed on
// Floor, Piece, Intake and Certificate, or is a finding.
func inReserve(kind, key string) bool {
	if kind == "term" {
		return true
	}
	_, rank := rankPhrases[key]
	_, crop := cropPhrases[key]
	_, lab := labPhrases[key]
	_, door := doorPhrases[key]
	return kind == "phrase" && (rank || crop || lab || door)
}

// TestTranslationsAreWhole fails on a text that a language lacks where it must
// have it, and lists the rest.
func TestTranslationsAreWhole(t *testing.T) {
	for _, tongue := range Tongues()[1:] {
		var lacks []string
		count, whole := 0, english.tables()
		for _, kind := range slices.Sorted(maps.Keys(whole)) {
			texts := languages[tongue].tables()[kind]
			for _, key := range slices.Sorted(maps.Keys(whole[kind])) {
				count++
				switch _, ok := texts[key]; {
				case ok:
				case inReserve(kind, key):
					lacks = append(lacks, kind+" "+key)
				default:
					t.Errorf("%s lacks the %s %s", tongue.Tag(), kind, key)
				}
			}
			for key := range texts {
				if _, ok := whole[kind][key]; !ok {
					t.Errorf("%s has the %s %s, which English has not", tongue.Tag(), kind, key)
				}
			}
		}
		t.Logf("%s has %d of %d texts and lacks %d:\n%s", tongue.Tag(), count-len(lacks), count, len(lacks), strings.Join(lacks, "\n"))
	}
}

var placeIn = regexp.MustCompile(`\{[^}]*\}|%[ds]`)

// TestTranslationsFillTheSamePlaces holds the places of each text, and those
// that stand in brackets, against the English.
func TestTranslationsFillTheSamePlaces(t *testing.T) {
	places := func(text string) (all, optional []string) {
		all = placeIn.FindAllString(text, -1)
		slices.Sort(all)
		for _, s := range slotsIn(text) {
			optional = append(optional, s.name)
		}
		slices.Sort(optional)
		return all, optional
	}
	for _, tongue := range Tongues()[1:] {
		for kind, texts := range languages[tongue].tables() {
			for key, text := range texts {
				all, optional := places(text)
				wantAll, wantOptional := places(english.tables()[kind][key])
				if !slices.Equal(all, wantAll) || !slices.Equal(optional, wantOptional) {
					t.Errorf("%s %s has the places %v (%v), in English %v (%v)", kind, key, all, optional, wantAll, wantOptional)
				}
				if strings.Count(text, "\u00a0") != strings.Count(english.tables()[kind][key], "\u00a0") {
					t.Errorf("%s %s has other spaces that do not part", kind, key)
				}
			}
		}
	}
}

// slotsIn are the places in brackets.
func slotsIn(text string) []slot {
	_, optional := slots(text)
	return optional
}

// Sentences end as the English do, so that they can follow one another.
func TestTranslationsAreSentences(t *testing.T) {
	for _, tongue := range Tongues()[1:] {
		for kind, texts := range languages[tongue].tables() {
			for key, text := range texts {
				was := english.tables()[kind][key]
				for _, end := range []string{".", ":"} {
					if strings.HasSuffix(was, end) != strings.HasSuffix(text, end) {
						t.Errorf("%s %s: %q ends otherwise than %q", kind, key, text, was)
					}
				}
			}
		}
	}
}

// What a language lacks is said in English, and whoever watches is told.
func TestLacksAreTold(t *testing.T) {
	var told []string
	stop := Watch(func(_ Tongue, what string) { told = append(told, what) })
	defer stop()
	u := Units{Tongue: Spanish}
	if got := u.Say("rank.mean", "mean", "1", "se", "2"); got != "mean 1 (s.e. 2)" {
		t.Errorf("got %q", got)
	}
	u.Say("floor.next")
	u.Fault("record.nobody.knows", "Nobody knows {got}.", "this", nil, "")
	if want := []string{"phrase rank.mean", "fault record.nobody.knows"}; !slices.Equal(told, want) {
		t.Errorf("told %q", told)
	}
}
