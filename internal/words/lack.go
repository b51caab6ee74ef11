package words

import (
	"fmt"
	"sync/atomic"
)

// watch is told of each text that the reader's language lacks, so that it was
// given in English.
var watch atomic.Pointer[func(Tongue, string)]

// Watch has somebody told of each text that a language lacks when it is asked
// for, as "phrase floor.next". Stop ends it.
func Watch(told func(Tongue, string)) (stop func()) {
	watch.Store(&told)
	return func() { watch.Store(nil) }
}

// text is the text of a key in the reader's language, in English where that
// lacks it. Kind is what the key is of.
func text[K comparable](u Units, kind string, key K, of func(*language) map[K]string) (string, bool) {
	l := u.language()
	if text, ok := of(l)[key]; ok || l == &english {
		return text, ok
	}
	text, ok := of(&english)[key]
	if told := watch.Load(); ok && told != nil {
		(*told)(u.Tongue, fmt.Sprintf("%s %v", kind, key))
	}
	return text, ok
}

// named is the text of a key, or the key itself where there is none.
func named[K ~string](u Units, kind string, key K, of func(*language) map[K]string) string {
	if text, ok := text(u, kind, key, of); ok {
		return text
	}
	return string(key)
}

func (u Units) phrase(key string) (string, bool) {
	return text(u, "phrase", key, func(l *language) map[string]string { return l.phrases })
}

func (u Units) finding(code string) (string, bool) {
	return text(u, "finding", code, func(l *language) map[string]string { return l.findings })
}

func (u Units) act(code string) (string, bool) {
	return text(u, "act", code, func(l *language) map[string]string { return l.acts })
}
