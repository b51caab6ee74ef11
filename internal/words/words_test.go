package words

import (
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"awn/barley"
	"awn/finding"
	"awn/intake"
	"awn/malt"
	"awn/programme"
)

// TestEveryCodeHasItsText holds the catalogue against the code: every finding,
// act and balance line that a science package can give has a text, and no
// text speaks of a code that is gone.
func TestEveryCodeHasItsText(t *testing.T) {
	u := scan(t)
	for _, part := range []struct {
		name  string
		used  map[string][]string
		texts map[string]string
	}{
		{"finding", u.findings, english.findings},
		{"act", u.acts, english.acts},
		{"line", u.lines, english.lines},
	} {
		spoken := map[string]bool{}
		for _, code := range slices.Sorted(maps.Keys(part.used)) {
			texts := matching(part.texts, code)
			if len(texts) == 0 {
				t.Errorf("%s %s has no text", part.name, code)
			}
			for _, c := range texts {
				spoken[c] = true
			}
		}
		for _, code := range slices.Sorted(maps.Keys(part.texts)) {
			if !spoken[code] {
				t.Errorf("%s %s has a text, but nothing gives it", part.name, code)
			}
		}
	}
}

// TestSentencesAskForGivenFigures fails on a place for a figure that the
// function which makes the finding does not name.
func TestSentencesAskForGivenFigures(t *testing.T) {
	u := scan(t)
	for _, part := range []struct {
		used  map[string][]string
		texts map[string]string
	}{{u.findings, english.findings}, {u.acts, english.acts}} {
		carried := map[string][]string{}
		for pattern, names := range part.used {
			for _, code := range matching(part.texts, pattern) {
				carried[code] = append(carried[code], names...)
			}
		}
		for code, names := range carried {
			checkSlots(t, code, part.texts[code], names)
		}
	}
}

func checkSlots(t *testing.T, code, text string, names []string) {
	t.Helper()
	needed, optional := slots(text)
	for _, s := range needed {
		if slices.Contains([]string{slotAt, slotLayer, slotColumn, slotClass, slotSpot}, s.name) {
			t.Errorf("%s: {%s} may be unknown and must stand in brackets", code, s.name)
		}
	}
	for _, s := range append(needed, optional...) {
		if slices.Contains([]string{slotAt, slotLayer, slotColumn, slotClass, slotSpot, slotReading, slotReached, slotParameter, slotFound, slotLimit, slotFactor, slotRead}, s.name) {
			continue
		}
		if !slices.Contains(append(names, nameSlots...), s.name) {
			t.Errorf("%s asks for %s, which its finding does not carry (%v)", code, s.name, names)
		}
		if s.unit != s.name && s.unit != slotReading && !HasUnit(s.unit) {
			t.Errorf("%s: %s is not a unit of the closed list", code, s.unit)
		}
	}
}

// TestLotFindingsAreSaid says every finding of a lot of which nothing is known.
func TestLotFindingsAreSaid(t *testing.T) {
	nothing := barley.Lot{
		Moisture: barley.Unknown(), Protein: barley.Unknown(), KernelMassMg: barley.Unknown(),
		TestWeightKgHL: barley.Unknown(), Capacity: barley.Unknown(), Dormant: barley.Unknown(),
		WaterSensitivity: barley.Unknown(), ChitThermalTimeCH: barley.Unknown(),
		BetaGlucan: barley.Unknown(), Uptake: barley.Unknown(),
	}
	_, findings := nothing.Complete()
	if len(findings) != len(lotFindings) {
		t.Errorf("a lot of which nothing is known has %d findings, the catalogue %d", len(findings), len(lotFindings))
	}
	for _, f := range findings {
		said := Sentence(f, Units{})
		if strings.Contains(said, unknown) || strings.Contains(said, f.Code) || strings.Contains(said, "act.") {
			t.Errorf("%s: %s", f.Code, said)
		}
	}
}

// TestClosedListsAreNamed walks the closed lists of the packages above.
func TestClosedListsAreNamed(t *testing.T) {
	for r := range programme.Readings {
		if english.readings[r] == "" {
			t.Errorf("reading %s has no name", r.Key())
		}
	}
	for _, p := range malt.Parameters() {
		if english.parameters[p] == "" {
			t.Errorf("parameter %s has no name", p)
		}
	}
	for _, f := range intake.Factors() {
		if english.factors[f] == "" {
			t.Errorf("factor %s has no name", f)
		}
	}
}

// keptOut are words of other people's programs that no text of ours uses.
var keptOut = regexp.MustCompile(`(?i)\b(dashboard|board|card|tile|widget|pipeline|hub|insights?|smart|sync|brew day|style|inventory|batch|work order|tank|asset|tag|module|workspace|wizard)s?\b`)

// TestTextsAreSentences checks what every text of the catalogue must keep.
func TestTextsAreSentences(t *testing.T) {
	for kind, texts := range map[string]map[string]string{"finding": english.findings, "act": english.acts} {
		for code, text := range texts {
			if !strings.HasSuffix(text, ".") {
				t.Errorf("%s %s does not end in a full stop", kind, code)
			}
			if strings.Count(text, "[") != strings.Count(text, "]") || strings.Count(text, "{") != strings.Count(text, "}") {
				t.Errorf("%s %s has brackets that do not pair", kind, code)
			}
		}
	}
	for _, texts := range []map[string]string{english.findings, english.acts, english.lines, english.steps, english.stages} {
		for code, text := range texts {
			if w := keptOut.FindString(text); w != "" {
				t.Errorf("%s uses the word %q", code, w)
			}
		}
	}
}

func TestUnknownCodeIsGivenAsItIs(t *testing.T) {
	f := finding.New("kiln.thing.new", finding.Note, "kiln", finding.Figure{Name: "air_off_c", Value: 40}, finding.Figure{Name: "share", Value: math.NaN()})
	f.Act = "act.kiln.other"
	if got, want := Sentence(f, Units{}), "kiln.thing.new: air_off_c 40.0\u00a0°C, share –. act.kiln.other."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A key stands in one part of a catalogue only: the later would hide the earlier.
func TestPartsDoNotHideEachOther(t *testing.T) {
	seen := map[string]bool{}
	for _, part := range []map[string]string{
		commonPhrases, reportPhrases, oddsPhrases, housePhrases, storePhrases, rankPhrases, certificatePhrases, cropPhrases, pagePhrases, recordPhrases, roomPhrases, doorPhrases,
		labPhrases, dutyPhrases, designPhrases, weeksPhrases, chartPhrases, readerPhrases, tablePhrases, apiPhrases, phonePhrases,
	} {
		for key := range part {
			if seen[key] {
				t.Errorf("%s stands in two parts", key)
			}
			seen[key] = true
		}
	}
	if len(seen) != len(english.phrases) {
		t.Errorf("%d keys in the parts and %d in the catalogue", len(seen), len(english.phrases))
	}
}
