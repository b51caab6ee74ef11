package paper

import (
	"reflect"
	"testing"
)

func TestDifferencesAreThoseOfTheDocuments(t *testing.T) {
	a := []Input{
		{Kind: "piece/1", Text: []byte("awn: piece/1\ncode: A1\nlot: one.yaml\nprogramme: {name: Short}\n")},
		{Kind: "lot/1", Text: []byte("awn: lot/1\nmoisture: 12 % wb\ncounts:\n  - {after: 1 d, of: 100}\n")},
	}
	b := []Input{
		{Kind: "piece/1", Text: []byte("awn: piece/1\ncode: A1\nlot: two.yaml\nprogramme: {name: Long}\n")},
		{Kind: "lot/1", Text: []byte("awn: lot/1\nmoisture: 13 % wb\ncounts:\n  - {after: 1 d, of: 100}\n  - {after: 2 d, of: 100}\n")},
	}
	want := []Difference{
		{"programme.name", []string{"Short", "Long"}},
		{"lot.moisture", []string{"12 % wb", "13 % wb"}},
		{"lot.counts[1].after", []string{"", "2 d"}},
		{"lot.counts[1].of", []string{"", "100"}},
	}
	if got := Differences([][]Input{a, b}); !reflect.DeepEqual(got, want) {
		t.Errorf("got %v\nwant %v", got, want)
	}
	if got := Differences([][]Input{a, a}); len(got) > 0 {
		t.Errorf("a piece differs from itself in %v", got)
	}
}
