package report

import (
	"cmp"
	"strings"

	"awn/internal/malthouse"
	"awn/internal/words"
	"awn/malt"
)

// Say writes what a use recorded, or what is to be minded, as a sentence.
func Say(s malthouse.Said, u words.Units) string {
	var parts []string
	held := map[string]string{}
	for i := 0; i+1 < len(s.Words); i += 2 {
		held[s.Words[i]] = s.Words[i+1]
		parts = append(parts, s.Words[i], named(s.Words[i], s.Words[i+1], u))
	}
	// Clauses that are left out where their word is not known.
	clause := func(place, phrase, word string) {
		text := ""
		if held[word] != "" {
			text = u.Say(phrase, word, held[word])
		}
		parts = append(parts, place, text)
	}
	clause("from-grower", "record.grower", "grower")
	clause("in-vessel", "record.vessel", "vessel")
	clause("by-lab", "record.lab", "lab")
	for _, f := range s.Figures {
		parts = append(parts, f.Name, words.Figure(cmp.Or(grains[s.What+" "+f.Name], f.Name), f.Value, u))
	}
	return u.Say("said."+s.What, parts...)
}

// grains are the masses of which the sentence says that they are barley, for
// readers who count barley in bushels.
var grains = map[string]string{"received net_kg": "barley_kg", "cast cast_kg": "barley_kg"}

// named is what goes into a place of a sentence: things and states by their
// words.
func named(place, text string, u words.Units) string {
	switch place {
	case "place", "from", "to", "thing":
		return thing(text, u)
	case "parameters":
		var names []string
		for p := range strings.FieldsSeq(text) {
			names = append(names, u.Parameter(malt.Parameter(p)))
		}
		return u.List(names)
	case "state":
		return u.Say("state." + text)
	case "kind":
		if said := u.Say("happened." + text); said != "happened."+text {
			return said // else it is the kind of a document
		}
	case "role":
		return u.Say("role." + text)
	}
	return text
}

// EntryText is what a command says of what it recorded: the sentence, the
// entry, and what is to be minded.
func EntryText(d malthouse.Done, u words.Units) string {
	p := &printer{}
	p.wrapped("", Say(d.Said, u))
	if d.Again {
		p.wrapped("", u.Say("record.again"))
	}
	p.line(u.Say("record.entry", "seq", u.Number(float64(d.Fact.Seq), 0), "id", d.Fact.ID))
	for _, n := range d.Notes {
		p.wrapped("", Say(n, u))
	}
	return p.String()
}

// EntryJSON is what was recorded, for a program.
func EntryJSON(d malthouse.Done, u words.Units) Pairs {
	notes := []string{}
	for _, n := range d.Notes {
		notes = append(notes, Say(n, u))
	}
	return Pairs{}.With("awn", "entry/1").With("seq", d.Fact.Seq).With("id", d.Fact.ID).With("kind", d.Fact.Kind).
		With("again", d.Again).With("said", Say(d.Said, u)).With("notes", notes)
}
