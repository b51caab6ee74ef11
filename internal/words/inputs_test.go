package words_test

import (
	"slices"
	"testing"

	"awn/course"
	"awn/examples"
	"awn/internal/paper"
	"awn/internal/words"
)

// Everything that is drawn has a name of its own, whatever the lot was measured
// for.
func TestEveryInputHasItsName(t *testing.T) {
	keys := []string{"lot.begin-moisture"}
	for _, file := range []string{"piece.yaml", "piece-dormant.yaml", "piece-wheat.yaml"} {
		p, _, faults := paper.Load(examples.Files, file)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		e, err := course.Draw(t.Context(), &p, course.Sampling{Draws: 1, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, in := range e.Weigh(course.UsualRisk).Inputs {
			if !slices.Contains(keys, in.Key) {
				keys = append(keys, in.Key)
			}
		}
	}
	seen := map[string]string{}
	for _, key := range keys {
		name := words.Units{}.Input(key)
		if name == key || seen[name] != "" {
			t.Errorf("%s is called %q, as %s", key, name, seen[name])
		}
		seen[name] = key
	}
}
